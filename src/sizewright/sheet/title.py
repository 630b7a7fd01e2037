"""The title block: its words, and what may stand after each.

Values are kept as typed except where one thing has several spellings: the unit becomes `mm` or `inch`, the manner `iso`
or `asme`, the pieces a plain number, the temperature a number with a decimal point and, where typed, `°C` or `°F`.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable

from sizewright.notation.read import read_general
from sizewright.sheet.drafts import Row
from sizewright.sheet.faults import fault_in
from sizewright.sheet.model import Entry, Fault
from sizewright.sheet.near import did_you_mean, either, near, quoted
from sizewright.sheet.sampling import read_sampling
from sizewright.sheet.shape import Piece
from sizewright.text.errors import CalloutError
from sizewright.text.fold import fold

WORDS = (
    "part", "drawing", "revision", "unit", "manner", "general", "threads", "material", "temperature", "lot", "pieces",
    "sampling", "remark", "made by", "date",
)  # fmt: skip

_UNITS = {
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "inch": "inch", "inches": "inch", "in": "inch", "in.": "inch",
}  # fmt: skip
# Editions of ASME B1.1; the key after the dash is that of the thread tables.
_EDITIONS = {
    spelling: f"B1.1-{year}" for year in ("2003", "1989") for spelling in (f"b1.1-{year}", f"asme b1.1-{year}", year)
}
_MANNERS = {"iso": "iso", "asme": "asme"}
_MOST_PIECES = 1_000_000
_TEMPERATURE = re.compile(
    r"(?P<number>[+-]?[0-9]{1,4}(?:[.,][0-9]{1,4})?)(?: ?± ?(?P<spread>[0-9]{1,3}(?:[.,][0-9]{1,4})?))?"
    r" ?(?:(?:°|deg) ?)?(?P<scale>[CFcf])?"
)


def title_word(typed: str) -> str | None:
    """The title-block word that `typed` is, whatever its case and blanks; None where it is none."""
    word = " ".join(typed.lower().split())
    return word if word in WORDS else None


def near_words(typed: str) -> list[str]:
    """The title-block words (and `view`) near a mistyped one."""
    return near(" ".join(typed.split()), (*WORDS, "view"))


def enter(title: dict[str, Entry], word: str, row: Row, value: Piece) -> Fault | None:
    """Put a title-block entry into `title`; the fault where it is doubled or its value does not fit.

    A value that does not fit is entered as typed, a doubled entry is not: the first one stands.
    """
    if word in title:
        message = f'"{word}" already stands on line {title[word].line}'
        return Fault(row.number, value.offset + 1, len(value.text), message, row.typed, "one of the two has to go")
    fault, text = None, value.text
    try:
        text = checked(word, value.text)
    except CalloutError as error:
        fault = fault_in(row.typed, row.number, error, value.offset)
    title[word] = Entry(word, text, row.number, value.offset + 1, row.typed)
    return fault


def checked(word: str, value: str) -> str:
    """The value of a title-block entry in its one spelling.

    Raises:
        CalloutError: the value does not fit the word; the position is in `value`.
    """
    check = _CHECKS.get(word)
    if check is None:
        return value
    if not value:
        raise CalloutError(f'nothing stands after "{word}:"', 0, 0, f"{_EXAMPLES[word]}, or leave the entry out")
    return check(value)


def _unit(value: str) -> str:
    return _one_of(value, _UNITS, "unit", ("mm", "inch"))


def _manner(value: str) -> str:
    return _one_of(value, _MANNERS, "manner", ("iso", "asme"))


def _threads(value: str) -> str:
    return _one_of(" ".join(value.split()), _EDITIONS, "edition of ASME B1.1", ("B1.1-2003", "B1.1-1989"))


def _one_of(value: str, spellings: dict[str, str], what: str, forms: tuple[str, ...]) -> str:
    form = spellings.get(value.lower())
    if form is None:
        meant = dict.fromkeys(spellings[each] for each in near(value, spellings))
        hint = did_you_mean(list(meant)) or f"what would read: {either(forms)}"
        raise _refused(value, f"{quoted(value)} is no {what} known here", hint)
    return form


def _general(value: str) -> str:
    read_general(value)
    return value


def _sampling(value: str) -> str:
    read_sampling(value)
    return value


def _pieces(value: str) -> str:
    if not re.fullmatch(r"[0-9]+", value) or not value.strip("0"):
        raise _refused(value, "the pieces are a whole number, 1 or more", _EXAMPLES["pieces"])
    digits = value.lstrip("0")
    if len(digits) > len(str(_MOST_PIECES)) or int(digits) > _MOST_PIECES:
        raise _refused(value, f"{_MOST_PIECES} pieces are the most", _EXAMPLES["pieces"])
    return digits


def _date(value: str) -> str:
    try:
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
            raise _refused(value, "the date is not written as year-month-day", _EXAMPLES["date"])
        datetime.date.fromisoformat(value)
    except ValueError:
        raise _refused(value, f"there is no day {value}", _EXAMPLES["date"]) from None
    return value


def _temperature(value: str) -> str:
    source = fold(value)
    match = _TEMPERATURE.fullmatch(source.folded)
    if match is None:
        raise _refused(
            value, "the temperature is a number with °C or °F, with its spread after ±", _EXAMPLES["temperature"]
        )
    number = match["number"].replace(",", ".")
    number += f" ±{match['spread'].replace(',', '.')}" if match["spread"] else ""
    return f"{number} °{match['scale'].upper()}" if match["scale"] else number


def _refused(value: str, message: str, hint: str) -> CalloutError:
    return CalloutError(message, 0, len(value), hint)


_CHECKS: dict[str, Callable[[str], str]] = {
    "unit": _unit,
    "manner": _manner,
    "general": _general,
    "threads": _threads,
    "pieces": _pieces,
    "sampling": _sampling,
    "date": _date,
    "temperature": _temperature,
}
_EXAMPLES = {
    "unit": 'as in "unit: mm"',
    "manner": 'as in "manner: iso"',
    "general": 'as in "general: ISO 2768-m"',
    "threads": 'as in "threads: B1.1-1989"',
    "pieces": 'as in "pieces: 3"',
    "sampling": 'as in "sampling: all" or "sampling: II 1.0"',
    "date": 'as in "date: 2026-03-31"',
    "temperature": 'as in "temperature: 22 ±2 °C"',
}
