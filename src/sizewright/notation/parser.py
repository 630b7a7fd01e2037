"""The parser: from a text to what a builder makes of it, by a table that Lark made (`table.py`).

It does what Lark's own LALR parser with its contextual lexer does, to the same end. What is different saves time: an
expression is compiled when a character stands before it with which it may begin and one that it needs is in the text,
while Lark compiles all that may stand in a state, for each state anew. A command reads a few callouts; the expressions
they need are a tenth of all, and of those that may stand at a place most are told not to by a glance at the text.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable
from typing import Any

from sizewright.notation.table import Table
from sizewright.notation.tokens import Token

_END = "$END"

Matcher = Callable[[str, int], re.Match[str] | None]
Maker = Callable[[list[Any]], Any]


class Refused(Exception):
    """A text does not read: `at` is the offset of what does not, None where more was expected at the end."""

    def __init__(self, parser: Parser, at: int | None, states: list[int], known: bool) -> None:
        super().__init__(at)
        self.at = at
        self._parser, self._states, self._known = parser, states, known

    @property
    def expected(self) -> set[str]:
        """The names of the terminals that would have read.

        Where nothing that the grammar knows begins with the character, all that may stand there by the table are given.
        """
        row = self._parser.terminals_of(self._states[-1])
        return {name for name in row if self._parser.accepts(name, self._states)} if self._known else row


class Terminal:
    """A terminal of the grammar: its expression is compiled when it is tried for the first time.

    `first` are the characters it may begin with, `needed` those of which one must be in the text; None: any.
    """

    __slots__ = ("expression", "first", "match", "name", "needed")

    def __init__(self, name: str, expression: str, first: str | None, needed: str | None) -> None:
        self.name = name
        self.expression = expression
        self.first = None if first is None else frozenset(first)
        self.needed = None if needed is None else frozenset(needed)
        self.match: Matcher = self._first_match

    def _first_match(self, text: str, at: int) -> re.Match[str] | None:
        self.match = re.compile(self.expression, re.ASCII).match
        return self.match(text, at)


class Parser:
    """A grammar's table, with `builder`: an object with one method a rule, called with the rule's children."""

    def __init__(self, table: Table, builder: object) -> None:
        self._rows = table.rows
        self._starts = table.starts
        self._terminals = [Terminal(*each) for each in table.terminals]
        self._ignored = frozenset(table.ignored)
        self._rules = [
            (size, origin, _maker(builder, size, name, kept, lone)) for origin, size, name, kept, lone in table.rules
        ]
        self._candidates: defaultdict[int, dict[str, list[Terminal]]] = defaultdict(dict)

    def parse(self, text: str, start: str) -> Any:
        """What the builder makes of `text`.

        Raises:
            Refused: it does not read.
        """
        rows, rules = self._rows, self._rules
        candidates, ignored = self._candidates, self._ignored
        state, final = self._starts[start]
        states, values = [state], []
        at, end, present = 0, len(text), set(text)
        while True:
            begin, name = at, _END
            while at < end:
                tried = candidates[state].get(text[at])
                if tried is None:
                    tried = self._candidates_for(state, text[at])
                for terminal in tried:
                    if terminal.needed is None or not terminal.needed.isdisjoint(present):
                        found = terminal.match(text, at)
                        if found is not None:
                            break
                else:
                    raise Refused(self, at, states, self._is_known(text, at))
                begin, at = at, found.end()
                if terminal.name not in ignored:
                    name = terminal.name
                    break
            while True:  # every rule that ends here, then the terminal itself
                action = rows[state].get(name)
                if action is None:
                    raise Refused(self, None if name == _END else begin, states, True)
                if action >= 0:
                    state = action
                    states.append(state)
                    values.append(Token(name, text[begin:at], begin, at))
                    break
                size, origin, make = rules[~action]
                if make is None:  # a lone child stands for itself
                    del states[-1]
                elif size:
                    children = values[-size:]
                    del values[-size:], states[-size:]
                    values.append(make(children))
                else:
                    values.append(make([]))
                state = rows[states[-1]][origin]
                states.append(state)
                if name == _END and state == final:
                    return values[0]

    @property
    def terminals(self) -> set[str]:
        """The names of all terminals."""
        return {terminal.name for terminal in self._terminals}

    def terminals_of(self, state: int) -> set[str]:
        """The names of the terminals that may stand in a state by the table."""
        return {name for name in self._rows[state] if name.isupper()}

    def accepts(self, name: str, states: list[int]) -> bool:
        """Whether terminal `name` reads after `states`: the table may promise more than the rules then hold."""
        states = states.copy()
        finals = {final for _, final in self._starts.values()}
        while True:
            action = self._rows[states[-1]].get(name)
            if action is None or action >= 0:
                return action is not None
            size, origin, _ = self._rules[~action]
            if size:
                del states[-size:]
            states.append(self._rows[states[-1]][origin])
            if name == _END and states[-1] in finals:
                return True

    def _candidates_for(self, state: int, character: str) -> list[Terminal]:
        """The terminals that may stand in `state` and begin with `character`, in their order."""
        row = self._rows[state]
        found = [
            terminal
            for terminal in self._terminals
            if (terminal.name in row or terminal.name in self._ignored)
            and (terminal.first is None or character in terminal.first)
        ]
        if len(self._candidates[state]) < _MOST:
            self._candidates[state][character] = found
        return found

    def _is_known(self, text: str, at: int) -> bool:
        """Whether any terminal of the grammar begins here."""
        return any(
            terminal.match(text, at)
            for terminal in self._terminals
            if terminal.first is None or text[at] in terminal.first
        )


_MOST = 500  # characters remembered for a state: a hostile text may hold any


def _as_they_are(children: list[Any]) -> list[Any]:
    return children


def _maker(builder: object, size: int, name: str, kept: list[int] | None, lone: bool) -> Maker | None:
    """What makes a rule's value of the children that are kept: the builder's method; None: the lone child is it."""
    if lone and kept is None and size == 1:
        return None
    bare = name.startswith("_") or (lone and not hasattr(builder, name))
    method: Maker = _as_they_are if bare else getattr(builder, name)
    if kept is None:
        return method

    def make(children: list[Any]) -> Any:
        left = _kept(children, kept)
        return left[0] if lone and len(left) == 1 else method(left)

    return make


def _kept(children: list[Any], kept: list[int]) -> list[Any]:
    found: list[Any] = []
    for index in kept:
        if index >= 0:
            found.append(children[index])
        else:
            found += children[~index]
    return found
