"""The characters a regular expression may begin with or needs, so that a terminal is tried only where it can stand.

Worked out once, when a table is made. What is found may be too much, never too little: None stands for any character.
"""

from __future__ import annotations

import re
from re import _constants as code
from re import _parser
from typing import Any

_ALL = 256  # a class with more characters than this is not worth listing
_DIGITS = frozenset("0123456789")
_EMPTY = frozenset[str]()


def first_characters(expression: str, flags: int) -> frozenset[str] | None:
    """The characters with which a match of `expression` may begin; None where that may be any."""
    found, empty = _of_sequence(_parser.parse(expression, flags))
    return None if found is None or empty else _in_both_cases(found)


def needed_characters(expression: str, flags: int) -> frozenset[str] | None:
    """Characters of which every text that `expression` matches in holds one at least; None: there are none such."""
    found = _needed_by(_parser.parse(expression, flags))
    return None if found is None else _in_both_cases(found)


def _in_both_cases(found: frozenset[str]) -> frozenset[str]:
    return frozenset(each for character in found for each in (character, character.lower(), character.upper()))


def _of_sequence(items: Any) -> tuple[frozenset[str] | None, bool]:
    """The first characters of parts one after another, and whether all of them may be empty."""
    found: frozenset[str] = _EMPTY
    for operation, given in items:
        first, empty = _of_part(operation, given)
        if first is None:
            return None, False
        found |= first
        if not empty:
            return found, False
    return found, True


def _of_part(operation: Any, given: Any) -> tuple[frozenset[str] | None, bool]:
    if operation is code.LITERAL:
        return frozenset(chr(given)), False
    if operation is code.IN:
        return _of_class(given), False
    if operation is code.BRANCH:
        return _of_branches(given[1])
    if operation is code.SUBPATTERN:
        return _of_sequence(given[-1])
    if operation in (code.MAX_REPEAT, code.MIN_REPEAT):
        least, _, inner = given
        first, empty = _of_sequence(inner)
        return first, empty or least == 0
    if operation in (code.ASSERT, code.ASSERT_NOT, code.AT):
        return _EMPTY, True
    return None, False


def _of_branches(branches: Any) -> tuple[frozenset[str] | None, bool]:
    each = [_of_sequence(branch) for branch in branches]
    known = [first for first, _ in each if first is not None]
    first = _EMPTY.union(*known) if len(known) == len(each) else None
    return first, any(empty for _, empty in each)


def _of_class(members: Any) -> frozenset[str] | None:
    found: set[str] = set()
    for operation, given in members:
        if operation is code.LITERAL:
            found.add(chr(given))
        elif operation is code.RANGE and given[1] - given[0] < _ALL:
            found.update(map(chr, range(given[0], given[1] + 1)))
        elif operation is code.CATEGORY and given is code.CATEGORY_DIGIT:
            found |= _DIGITS  # the grammars' figures are the ten (re.ASCII)
        else:
            return None
    return frozenset(found)


def _needed_by(items: Any) -> frozenset[str] | None:
    """What parts one after another need: of what each of them needs the set that is the least likely in a text."""
    each = [needed for operation, given in items if (needed := _needed_by_part(operation, given)) is not None]
    return min(each, key=lambda needed: (not needed.isdisjoint(_DIGITS), len(needed)), default=None)


def _needed_by_part(operation: Any, given: Any) -> frozenset[str] | None:
    if operation is code.LITERAL:
        return frozenset(chr(given))
    if operation is code.IN:
        return _of_class(given)
    if operation is code.BRANCH:
        branches = [_needed_by(branch) for branch in given[1]]
        known = [needed for needed in branches if needed is not None]
        return _EMPTY.union(*known) if len(known) == len(branches) else None
    if operation in (code.SUBPATTERN, code.ASSERT):
        return _needed_by(given[-1])
    if operation in (code.MAX_REPEAT, code.MIN_REPEAT) and given[0] > 0:
        return _needed_by(given[-1])
    return None


FLAGS = re.ASCII  # only the ten figures are figures, and the expressions compile in half the time
