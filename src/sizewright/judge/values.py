"""A value as people type it, read exactly: a number in the unit of its line, or the answer of a gauge.

What reads: decimal point or comma (`25,01`), fractions (`1 1/2`, `3/8`), a unit behind the number (`.9843 in`, `12 µm`,
`0.4 mil`), angles in decimal degrees or `30°15'`, tapers as `1:10`, and the words of gauges (accept, go, pass, ok;
reject, no-go, fail). A value in another unit is converted exactly, never rounded: where no decimal says it, it is a
`Fraction`.
"""

from __future__ import annotations

import re
from decimal import Context, Decimal
from fractions import Fraction
from typing import Literal, NamedTuple

from sizewright.resolve.describe import UNIT_WORDS
from sizewright.text.errors import CalloutError, SizewrightError
from sizewright.text.fold import fold
from sizewright.text.numbers import Number, finite_decimal

GaugeAnswer = Literal["accept", "reject"]

LENGTHS = ("mm", "inch", "um", "uin")
_LONGEST = 60
_MOST_DIGITS = 30
_HIGHEST = 12
_WIDE = Context(prec=200)

# Trade words for the two answers of a gauge, without blanks, hyphens and points; "go" says that the go side enters and
# the no-go side does not, "no-go" that the part is refused. Common practice, no source.
_ACCEPT = frozenset({"accept", "accepted", "ok", "okay", "go", "pass", "passed", "good"})
_REJECT = frozenset({"reject", "rejected", "nogo", "notgo", "ng", "fail", "failed", "bad", "notok", "nok"})

# Units of length as people type them: which unit of ours, and how many of it one is.
_UNITS: dict[str, tuple[str, Fraction]] = {
    **dict.fromkeys(("mm", "millimeter", "millimeters", "millimetre", "millimetres"), ("mm", Fraction(1))),
    **dict.fromkeys(("in", "inch", "inches", '"', "''"), ("inch", Fraction(1))),
    **dict.fromkeys(("um", "micron", "microns"), ("um", Fraction(1))),
    **dict.fromkeys(("uin", "microinch", "microinches"), ("uin", Fraction(1))),
    **dict.fromkeys(("mil", "mils", "thou"), ("inch", Fraction(1, 1000))),
    "cm": ("mm", Fraction(10)),
    "m": ("mm", Fraction(1000)),
    **dict.fromkeys(("ft", "foot", "feet", "'"), ("inch", Fraction(12))),
}
_DEGREES = frozenset({"deg", "°", "degree", "degrees"})

_DIGITS = r"(?:\d+(?:[.,]\d*)?|[.,]\d+)"
_NUMBER = re.compile(
    rf"(?P<sign>[+-])? ?(?:(?:(?P<whole>\d+)(?: | ?- ?))?(?P<over>\d+) ?/ ?(?P<under>\d+)"
    rf"|(?P<decimal>{_DIGITS}(?:[eE][+-]?\d{{1,2}})?)) ?(?P<unit>[^\d\s.,+-]*)\.?",
    re.ASCII,
)
_ARC = re.compile(
    rf"(?P<sign>[+-])? ?(?:(?P<degrees>{_DIGITS}) ?(?:°|deg(?:rees?)?))? ?(?:(?P<minutes>{_DIGITS}) ?(?:'|min))? ?"
    rf"(?:(?P<seconds>{_DIGITS}) ?(?:\"|''|sec))?",
    re.IGNORECASE | re.ASCII,
)
_FEET = re.compile(r"(?P<feet>\d+) ?(?:'|ft) ?-? ?(?P<rest>.*)", re.IGNORECASE | re.ASCII)
_RATIO = re.compile(rf"({_DIGITS}) ?: ?({_DIGITS})")
_GROUPED = re.compile(r"[+-]?\d{1,3}(?:,\d{3})+\.\d+|[+-]?\d{1,3}(?:\.\d{3})+,\d+|\d+([.,])\d*\1[\d.,]*")


class ReadingError(SizewrightError):
    """A value that does not read; the text says why, and what would read."""


class Value(NamedTuple):
    """A value that reads: a number in the unit of its line, or a gauge's answer. `unit` is the one typed with it."""

    value: Number | None
    answer: GaugeAnswer | None = None
    unit: str = ""


def read_value(typed: str, line_unit: str, column_unit: str = "") -> Value:
    """The value `typed` for a line in `line_unit`; `column_unit` is its unit where none is typed behind it.

    Raises:
        ReadingError: it does not read, or its unit cannot be one of this line.
    """
    text = _folded(typed)
    answer = gauge_answer(text)
    if answer is not None:
        return Value(None, answer)
    if line_unit == "deg":
        return _angle(text, column_unit)
    return _measure(text, line_unit, column_unit)


def gauge_answer(text: str) -> GaugeAnswer | None:
    """The answer of a gauge in words, or None where `text` is none."""
    word = re.sub(r"[\s.\-_]", "", text).casefold()
    return "accept" if word in _ACCEPT else "reject" if word in _REJECT else None


def unit_word(text: str) -> str:
    """A unit in a column or behind a number, folded for comparison; empty where there is none."""
    word = _folded(text, empty=True)
    return word.casefold().rstrip(".")


def same_unit(word: str, unit: str) -> bool:
    """Whether the unit `word` as typed is the line's `unit`."""
    folded = {unit.casefold(), UNIT_WORDS.get(unit, unit).replace("µ", "u").casefold()}
    return word in folded or (unit == "deg" and word in _DEGREES) or _UNITS.get(word) == (unit, Fraction(1))


def _folded(typed: str, empty: bool = False) -> str:
    if len(typed) > _LONGEST:
        raise ReadingError(f"{len(typed)} characters are too many for one value")
    try:
        text = fold(typed).folded.replace("\n", " ").strip()
    except CalloutError as error:
        raise ReadingError(error.message) from None
    if not text and not empty:
        raise ReadingError("there is no value")
    return text.removeprefix("Ø").strip()


def _measure(text: str, line_unit: str, column_unit: str) -> Value:
    feet = _FEET.fullmatch(text)
    if feet and feet["rest"] and line_unit in LENGTHS:
        rest = _measure(feet["rest"], "inch", "inch").value
        return Value(
            _in_unit(Fraction(rest or 0) + 12 * Fraction(_decimal(feet["feet"])), "inch", line_unit), unit="inch"
        )
    ratio = _RATIO.fullmatch(text)
    if ratio and line_unit == "ratio" and (under := _decimal(ratio[2])):
        return Value(_short(Fraction(_decimal(ratio[1])) / Fraction(under)), unit="ratio")
    found = _NUMBER.fullmatch(text)
    if found is None:
        raise ReadingError(_why_not(text))
    number = _number(found)
    word = found["unit"].casefold() or unit_word(column_unit)
    if not word or same_unit(word, line_unit):
        return Value(number, unit=found["unit"])
    if word in _DEGREES:
        raise ReadingError("an angle, where the line is none")
    if word not in _UNITS:
        raise ReadingError(
            f"{found['unit'] or column_unit.strip()} is no unit that is known here; {_units_of(line_unit)}"
        )
    unit, factor = _UNITS[word]
    if line_unit not in LENGTHS:
        raise ReadingError(f"a length where the line is in {UNIT_WORDS.get(line_unit, line_unit) or 'no unit'}")
    return Value(_in_unit(Fraction(number) * factor, unit, line_unit), unit=found["unit"] or column_unit.strip())


def _angle(text: str, column_unit: str) -> Value:
    word = unit_word(column_unit)
    if word and not same_unit(word, "deg"):
        raise ReadingError(f"the line is an angle, and {column_unit.strip()} is no unit of angles; degrees are")
    found = _NUMBER.fullmatch(text)
    if found and (not found["unit"] or found["unit"].casefold() in _DEGREES):
        return Value(Fraction(_number(found)), unit=found["unit"])
    arc = _ARC.fullmatch(text)
    if arc is None:
        if found and found["unit"].casefold() in _UNITS:
            raise ReadingError(f"the line is an angle, and {found['unit']} is no unit of angles")
        raise ReadingError(_why_not(text, "an angle such as 30.25 or 30°15'"))
    given = [(name, arc[name]) for name in ("degrees", "minutes", "seconds") if arc[name]]
    if any("." in part or "," in part for _, part in given[:-1]):
        raise ReadingError("only the last part of an angle may have decimals: 30°15.5'")
    total = Fraction(0)
    for place, (name, part) in enumerate(given):
        amount = Fraction(_decimal(part))
        if place and amount >= 60:
            raise ReadingError(f"{part} {name} are a whole or more of what stands before them; 59 is the most")
        total += amount / {"degrees": 1, "minutes": 60, "seconds": 3600}[name]
    return Value(-total if arc["sign"] == "-" else total, unit="deg")


def _number(found: re.Match[str]) -> Number:
    """The number of a match, with its sign; exact, with the zeros as typed."""
    if found["decimal"]:
        value: Number = _decimal(found["decimal"])
    else:
        under = int(found["under"])
        if len(found["under"]) > _MOST_DIGITS or len(found["over"]) > _MOST_DIGITS or not under:
            raise ReadingError(f"{found['over']}/{found['under']} is no fraction of anything")
        value = _short(int(found["whole"] or 0) + Fraction(int(found["over"]), under))
    return value if found["sign"] != "-" else (value.copy_negate() if isinstance(value, Decimal) else -value)


def _decimal(text: str) -> Decimal:
    if sum(char.isdigit() for char in text) > _MOST_DIGITS:
        raise ReadingError(f"more than {_MOST_DIGITS} digits, which no instrument shows")
    value = Decimal(text.replace(",", "."))
    if value.adjusted() > _HIGHEST:
        raise ReadingError(f"{text} is beyond anything that is measured")
    # Plain notation keeps what was typed: 1E2 is 100, 2.50 stays 2.50.
    return (
        value.quantize(Decimal(1), context=_WIDE)
        if value == value.to_integral_value() and "e" in text.lower()
        else value
    )


def _in_unit(value: Fraction, unit: str, to: str) -> Number:
    from sizewright.resolve.units import convert

    return _short(value if unit == to else convert(value, unit, to))


def _short(value: Fraction) -> Number:
    exact = finite_decimal(value)
    return value if exact is None else exact


def _units_of(line_unit: str) -> str:
    if line_unit in LENGTHS:
        return "mm, in, µm, µin and mil are"
    return f"the line is in {UNIT_WORDS.get(line_unit, line_unit) or 'no unit'}"


def _why_not(text: str, would: str = "a number such as 12.34, 3/8 or .9843 in") -> str:
    if _GROUPED.fullmatch(text):
        return f"{text} has two sorts of marks, or one of them twice; only a decimal mark may stand in a number"
    if "°" in text:
        return "an angle, where the line is none"
    if re.match(r"[+-]?\d", text) and re.search(r"\d\s+\d", text):
        return f"{text} is more than one number"
    return f"it is neither {would} nor accept or reject"
