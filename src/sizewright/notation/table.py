"""The parse table of a grammar, as plain data: Lark makes it, and it is kept in the user's own cache folder.

Making it takes a second or so, which is why it is kept, with the grammar it was made of: a table of another grammar is
never used. The folder is never a shared temporary one; where it cannot be written the table is made anew each time.
"""

import contextlib
import json
import os
import sys
from binascii import crc32
from typing import Any, NamedTuple

from sizewright import __version__

_MOST_KEPT = 4
_FORM = f"{__version__} 3"  # the second number counts the forms of this file


class Table(NamedTuple):
    """What a parser needs. `rows` has one for each state: for a name the state to go to, or, negative, ~ the rule.

    `rules` has for each rule its origin, the length of its expansion, the method that makes it, which of its children
    are kept (~ index: all the children of that child) or None for all of them, and whether a lone child stands for
    itself. `terminals` are in the order in which they are tried: name, expression, the characters they may begin with,
    and those of which one must be in the text (None: any). `starts` has the first and the last state of each start.
    """

    rows: dict[int, dict[str, int]]
    rules: list[tuple[str, int, str, list[int] | None, bool]]
    terminals: list[tuple[str, str, str | None, str | None]]
    ignored: list[str]
    starts: dict[str, tuple[int, int]]


class _Rows(dict[int, dict[str, int]]):
    """The rows of a kept table, each read from its line when it is first used: a command uses a few of them."""

    def __init__(self, lines: list[str]) -> None:
        self._lines = lines

    def __missing__(self, state: int) -> dict[str, int]:
        row: dict[str, int] = json.loads(self._lines[state])
        self[state] = row
        return row


def kept_table(name: str, grammar: str, starts: tuple[str, ...]) -> Table:
    """The table of `grammar`: the one kept under `name`, or one made anew and kept."""
    key = [_FORM, grammar, *starts]
    path = os.path.join(cache_folder(), f"{name}-{crc32(repr(key).encode()):08x}.table")
    with contextlib.suppress(OSError, ValueError, TypeError, RecursionError), open(path, encoding="utf-8") as file:
        if _own(file.fileno()) and json.loads(file.readline()) == key:
            return _read_back(*file.read().split("\n", 1))
    made = make_table(grammar, starts)
    with contextlib.suppress(OSError):
        _keep(path, f"{_dumped(key)}\n{_written_out(made)}")
        _thin_out(name)
    return made


def _written_out(made: Table) -> str:
    """A table as text: a sum of what follows it, the rest of the table, and a line for each row."""
    text = "\n".join(map(_dumped, (made[1:], *made.rows.values())))
    return f"{crc32(text.encode())}\n{text}"


def _read_back(total: str, text: str) -> Table:
    """The table of `_written_out`.

    Raises:
        ValueError: it is not as it was written.
    """
    if crc32(text.encode()) != int(total):
        raise ValueError("a damaged table")
    rest, *rows = text.split("\n")
    return Table(_Rows(rows), *json.loads(rest))


def _dumped(part: object) -> str:
    return json.dumps(part, separators=(",", ":"))


def make_table(grammar: str, starts: tuple[str, ...]) -> Table:
    """The table that Lark makes of `grammar`, with the children of each rule that its tree would hold."""
    from lark import Lark
    from lark.parsers.lalr_analysis import Shift

    from sizewright.notation.characters import FLAGS, first_characters, needed_characters

    lark: Any = Lark(grammar, parser="lalr", start=list(starts), maybe_placeholders=False, g_regex_flags=FLAGS)
    made = lark.parser.parser._parse_table
    rule_number = {rule: index for index, rule in enumerate(lark.rules)}
    given = {
        state: {name: arg if action is Shift else ~rule_number[arg] for name, (action, arg) in sorted(row.items())}
        for state, row in made.states.items()
    }
    order = _reached(given, [made.start_states[start] for start in starts])
    number = {state: index for index, state in enumerate(order)}
    rows = {number[state]: {name: number.get(to, to) for name, to in given[state].items()} for state in order}
    terminals = sorted(lark.terminals, key=_trying_order)
    expressions = [(each.name, each.pattern.to_regexp()) for each in terminals]
    return Table(
        rows,
        [_rule(rule) for rule in lark.rules],
        [
            (name, expression, *(_written(find(expression, FLAGS)) for find in (first_characters, needed_characters)))
            for name, expression in expressions
        ],
        list(lark.ignore_tokens),
        {start: (number[made.start_states[start]], number[made.end_states[start]]) for start in starts},
    )


def _written(characters: frozenset[str] | None) -> str | None:
    return None if characters is None else "".join(sorted(characters))


def _reached(rows: dict[int, dict[str, int]], starts: list[int]) -> list[int]:
    """The states in the order in which they are reached; Lark's own numbers are others each time."""
    found = dict.fromkeys(starts)
    waiting = list(found)
    for state in waiting:
        new = [to for to in rows[state].values() if to >= 0 and to not in found]
        found.update(dict.fromkeys(new))
        waiting.extend(dict.fromkeys(new))
    return list(found)


def _trying_order(terminal: Any) -> tuple[int, int, int, str]:
    """Lark's own order of the terminals that may stand at a place."""
    pattern = terminal.pattern
    return -terminal.priority, -pattern.max_width, -len(pattern.value), terminal.name


def _rule(rule: Any) -> tuple[str, int, str, list[int] | None, bool]:
    """A rule with the children that Lark would keep: no nameless marks, and those of a rule `_so` instead of itself."""
    kept = [
        ~index if not symbol.is_term and symbol.name.startswith("_") else index
        for index, symbol in enumerate(rule.expansion)
        if rule.options.keep_all_tokens or not (symbol.is_term and symbol.filter_out)
    ]
    size, origin = len(rule.expansion), str(rule.origin.name)
    name = str(rule.alias or rule.options.template_source or origin)
    lone = bool(rule.options.expand1 and not rule.alias)
    return origin, size, name, None if kept == list(range(size)) else kept, lone


def cache_folder() -> str:
    """The user's own cache folder for this package; it may not exist."""
    if sys.platform == "win32":
        root = os.environ.get("LOCALAPPDATA") or "~/AppData/Local"
    elif sys.platform == "darwin":
        root = "~/Library/Caches"
    else:
        root = os.environ.get("XDG_CACHE_HOME") or "~/.cache"
    return os.path.join(os.path.expanduser(root), "sizewright")


def _thin_out(name: str) -> None:
    """Leave the newest tables of a name: several versions of the grammar may be in use side by side."""
    named = [
        each for each in os.scandir(cache_folder()) if each.name.startswith(f"{name}-") and each.name.endswith(".table")
    ]
    for old in sorted(named, key=lambda each: each.stat().st_mtime, reverse=True)[_MOST_KEPT:]:
        os.unlink(old)


def _own(file: int) -> bool:
    """Whether an open file is the user's own: nobody else's table is used."""
    return sys.platform == "win32" or os.fstat(file).st_uid == os.geteuid()


def _keep(path: str, text: str) -> None:
    """Write a file whole or not at all, whoever else is writing it."""
    os.makedirs(os.path.dirname(path), mode=0o700, exist_ok=True)
    draft = f"{path}.{os.getpid()}"
    try:
        with open(draft, "x", encoding="utf-8") as file:
            file.write(text)
        os.replace(draft, path)
    except OSError:
        with contextlib.suppress(OSError):
            os.unlink(draft)
        raise
