"""Reading: from a callout as typed to its model, or to an error at the exact character."""

from __future__ import annotations

import re
from functools import cache
from typing import Any, NamedTuple

from lark import Lark, UnexpectedInput, UnexpectedToken

from sizewright.notation.assemble import assemble
from sizewright.notation.build import CalloutBuilder
from sizewright.notation.fits import FitsBuilder
from sizewright.notation.general import GeneralBuilder
from sizewright.notation.grammar import CALLOUT_FILES, CALLOUT_STARTS, make_parser
from sizewright.notation.model import Callout, GeneralNote, Note
from sizewright.notation.threads import ThreadsBuilder
from sizewright.notation.words import KNOWN_ELSEWHERE, VOCABULARY, WORDS
from sizewright.text.errors import CalloutError
from sizewright.text.fold import Source, fold

_AT_MOST = 8


class Reading(NamedTuple):
    """A callout read: its model, remarks on how it was read (offsets as typed), and its text."""

    callout: Callout
    notes: tuple[Note, ...]
    source: Source


class _Builder(CalloutBuilder, FitsBuilder, ThreadsBuilder, GeneralBuilder):
    """All families' rules."""


@cache
def _parser() -> Lark:
    return make_parser(CALLOUT_FILES, CALLOUT_STARTS, _Builder())


def read_callout(typed: str) -> Reading:
    """Read one callout; it may hold line breaks.

    Raises:
        CalloutError: it does not read; the position is in `typed`.
    """
    source = fold(typed)
    try:
        callout, notes = _read(source.folded)
    except CalloutError as error:
        raise placed(error, source) from None
    noted = [Note(n.level, n.text, source.at(n.offset) if n.offset is not None else None) for n in notes]
    noted += [Note("warning", "the letter O is read as the figure 0", offset) for offset in source.letter_o]
    return Reading(callout, tuple(noted), source)


def read_general(typed: str) -> GeneralNote:
    """Read the general tolerances of a title block.

    Raises:
        CalloutError: they do not read; the position is in `typed`.
    """
    source = fold(typed)
    try:
        note: GeneralNote = _parse(source.folded.strip(), "general")
    except CalloutError as error:
        raise placed(error, source) from None
    return note


def placed(error: CalloutError, source: Source) -> CalloutError:
    """The same error with its position moved from the folded text to the text as typed."""
    start = error.column - 1
    return CalloutError(error.message, *source.span(start, start + error.length), error.hint)


def _read(folded: str) -> tuple[Callout, list[Note]]:
    text = folded.rstrip(" \n")
    if not text.strip(" \n"):
        raise CalloutError("nothing is typed", 0, 0, "a callout, as in 25 ±0.1")
    blank = len(text) - len(text.lstrip(" \n"))
    leading, pieces = _parse(" " * blank + text[blank:], "callout")
    return assemble(leading, pieces, text)


def _parse(text: str, start: str) -> Any:
    try:
        return _parser().parse(text, start=start)
    except UnexpectedInput as error:
        raise _explained(error, text, start) from None


def _explained(error: UnexpectedInput, text: str, start: str) -> CalloutError:
    if isinstance(error, UnexpectedToken):
        expected = set(getattr(error, "accepts", None) or error.expected)
        ended = error.token.type == "$END"
    else:
        expected, ended = set(getattr(error, "allowed", None) or ()), False
    would_read = _would_read(expected)
    if text.lstrip()[:1] in "+-" and not text.lstrip()[1:2].isalpha():
        sign = len(text) - len(text.lstrip())
        hint = "no sign on a size; a deviation stands after its size"
        return CalloutError("a sign before a size", sign, sign + 1, hint)
    if ended:
        return CalloutError("the callout ends too early", len(text), len(text), would_read)
    at: int = getattr(error, "pos_in_stream", None) or 0
    word = re.compile(r"[A-Za-z]+|\d[\d.,]*|\S|\s").match(text, at)
    found = word[0] if word else text[at : at + 1]
    suggestion = _suggestion(text, at, start)
    hint = f'did you mean "{suggestion}"?' if suggestion else would_read
    if "TOLERANCE_CLASS" in expected and re.fullmatch(r"[A-Za-z]{1,2}", found):
        hint = f"a grade after it if it is a tolerance class, as in {found}7; otherwise {would_read}"
    shown = "a line break" if found == "\n" else f'"{found}"'
    return CalloutError(f"{shown} does not read here", at, at + len(found), hint)


def _would_read(expected: set[str]) -> str:
    words = [WORDS[name] for name in WORDS if name in expected and WORDS[name]]
    return "what would read: " + ", ".join(words[:_AT_MOST]) if words else ""


def _suggestion(text: str, at: int, start: str) -> str | None:
    """The callout with the word at `at` put right, where a near word of the trade makes it read."""
    import difflib

    word = next((m for m in re.finditer(r"[A-Za-z']{3,}", text) if m.start() <= at < m.end()), None)
    if word is None or word[0].upper() in KNOWN_ELSEWHERE or word[0].upper() in VOCABULARY:
        return None
    for near in difflib.get_close_matches(word[0].upper(), VOCABULARY, 3, 0.6):
        if near[0] != word[0][0].upper():
            continue
        fixed = text[: word.start()] + near + text[word.end() :]
        try:
            _parser().parse(fixed, start=start)
        except (UnexpectedInput, CalloutError):
            continue
        return fixed
    return None
