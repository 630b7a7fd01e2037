"""Reading: from a callout as typed to its model, or to an error at the exact character."""

import re
from collections.abc import Iterator
from functools import cache
from typing import Any, NamedTuple

from sizewright.notation.assemble import assemble
from sizewright.notation.build import CalloutBuilder
from sizewright.notation.doubtful import refuse_doubtful
from sizewright.notation.fits import FitsBuilder
from sizewright.notation.general import GeneralBuilder
from sizewright.notation.geometry_mark import GeometryMarkBuilder
from sizewright.notation.grammar import CALLOUT_FILES, CALLOUT_STARTS, PLAIN_FILES, make_parser
from sizewright.notation.holes import HolesBuilder
from sizewright.notation.model import Callout, GeneralNote, Note
from sizewright.notation.parser import Parser, Refused
from sizewright.notation.parsing import explained, moved, word_at
from sizewright.notation.surfaces import SurfacesBuilder
from sizewright.notation.threads import ThreadsBuilder
from sizewright.notation.words import KNOWN_ELSEWHERE, VOCABULARY, WORDS
from sizewright.text.errors import CalloutError
from sizewright.text.fold import Source, fold

# Numbers, marks and words that mean the same in the whole language as among sizes and fits. A dash between two figures
# is left out: it can make a thread of them.
_PLAIN = re.compile(
    r"(?:[\d.,()\[\]±°'\"+/Ø□ ]|(?<![\d.\"] )(?<![\d.\"])-|(?<=[\d.] )-(?=[\d.])"
    r"|(?<![A-Za-z])(?:mm|in|dia|max|min|ref|typ|thru|sq|deg|s?r|x|(?:[A-HJ-WYZ]|cd|ef|fg|js|z[abc])\d{1,2})(?![A-Za-z]))*",
    re.IGNORECASE,
)


class Reading(NamedTuple):
    """A callout read: its model, remarks on how it was read (offsets as typed), and its text."""

    callout: Callout
    notes: tuple[Note, ...]
    source: Source


class _Builder(
    CalloutBuilder, FitsBuilder, ThreadsBuilder, HolesBuilder, SurfacesBuilder, GeneralBuilder, GeometryMarkBuilder
):
    """All families' rules."""


@cache
def _parser() -> Parser:
    return make_parser(CALLOUT_FILES, CALLOUT_STARTS, _Builder())


@cache
def _plain_parser() -> Parser:
    return make_parser(PLAIN_FILES, CALLOUT_STARTS, _Builder())


def read_callout(typed: str) -> Reading:
    """Read one callout; it may hold line breaks.

    Raises:
        CalloutError: it does not read; the position is in `typed`.
    """
    source = fold(typed)
    try:
        callout, notes = read_folded(source.folded)
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
    text = source.folded.strip()
    try:
        note: GeneralNote = _parse(text, "general")
    except CalloutError as error:
        raise placed(moved(error, source.folded.find(text)), source) from None
    return note


def placed(error: CalloutError, source: Source) -> CalloutError:
    """The same error with its position moved from the folded text to the text as typed."""
    start = error.column - 1
    return CalloutError(error.message, *source.span(start, start + error.length), error.hint)


def read_folded(folded: str) -> tuple[Callout, list[Note]]:
    """The callout of a folded text, and remarks on how it was read; positions are in the folded text.

    Raises:
        CalloutError: it does not read.
    """
    text = folded.rstrip(" \n")
    if not text.strip(" \n"):
        raise CalloutError("nothing is typed", 0, 0, "a callout, as in 25 ±0.1")
    refuse_doubtful(text)
    blank = len(text) - len(text.lstrip(" \n"))
    padded = " " * blank + text[blank:]
    plain = _read_plain(padded, text) if _PLAIN.fullmatch(padded) else None
    if plain is not None:
        return plain
    leading, pieces = _parse(padded, "callout")
    return assemble(leading, pieces, text)


def _read_plain(padded: str, text: str) -> tuple[Callout, list[Note]] | None:
    """A plain size by the grammar of sizes and fits alone; None where it does not read: the whole language then tells.

    Most callouts are plain sizes, and the table and the expressions of their grammar load in a third of the time.
    """
    try:
        found: Any = _plain_parser().parse(padded, start="callout")
        leading, pieces = found
        return assemble(leading, pieces, text)
    except (Refused, CalloutError):
        return None


def _parse(text: str, start: str) -> Any:
    parser = _plain_parser() if start == "general" else _parser()
    try:
        return parser.parse(text, start=start)
    except Refused as error:
        raise _explained(error, text, start) from None


def _explained(error: Refused, text: str, start: str) -> CalloutError:
    if text.lstrip().startswith(("+", "-")) and not text.lstrip()[1:2].isalpha():
        sign = len(text) - len(text.lstrip())
        hint = "no sign on a size; a deviation stands after its size"
        return CalloutError("a sign before a size", sign, sign + 1, hint)
    at = error.at
    suggestion = None if at is None else _suggestion(text, at, start)
    found = explained(error, text, WORDS)
    if suggestion is not None:
        found.hint = f'did you mean "{suggestion}"?'
    elif "TOLERANCE_CLASS" in error.expected and re.fullmatch(r"[A-Za-z]{1,2}", word_at(text, at)):
        found.hint = f"a grade after it if it is a tolerance class, as in {word_at(text, at)}7; otherwise {found.hint}"
    return found


def _suggestion(text: str, at: int, start: str) -> str | None:
    """The callout put right at `at`, where a small change there makes it read."""
    for fixed in _near_misses(text, at):
        try:
            found: Any = _parser().parse(fixed, start=start)
            if start == "callout":
                leading, pieces = found
                assemble(leading, pieces, fixed)
        except (Refused, CalloutError):
            continue
        return fixed
    return None


def _near_misses(text: str, at: int) -> Iterator[str]:
    """Texts that may be meant: a letter for the mark that looks like it, a class turned round, a word misspelt."""
    before, after = text[:at], text[at:]
    if re.match(r"[OoQ0]\d", after):
        yield f"{before}Ø{after[1:]}"
    turned = re.search(r"(?<![\d.,])(\d{1,2})$", before), re.match(r"[A-Za-z]{1,2}(?![A-Za-z\d])", after)
    if turned[0] and turned[1]:
        yield f"{before[: turned[0].start()]}{turned[1][0]}{turned[0][1]}{after[turned[1].end() :]}"
    word = next((m for m in re.finditer(r"[A-Za-z']{3,}", text) if m.start() <= at < m.end()), None)
    if word is None or word[0].upper() in KNOWN_ELSEWHERE or word[0].upper() in VOCABULARY:
        return
    import difflib

    for near in difflib.get_close_matches(word[0].upper(), VOCABULARY, 3, 0.6):
        if near[0] == word[0][0].upper():
            yield text[: word.start()] + near + text[word.end() :]
