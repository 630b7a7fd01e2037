"""ISO 965-1: deviations, tolerances and lengths of engagement of metric threads, tables before formulas."""

import re
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Literal, NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows
from sizewright.standards.threads.exact import TWO_THIRDS, exactly, mm, power, trimmed

Group = Literal["S", "N", "L"]

_CLASS = re.compile(r"([3-9])([A-Za-z]{1,2})(?:([3-9])([A-Za-z]{1,2}))?")

# ISO 3, series R40, one decade.
_R40 = tuple(
    Decimal(n).scaleb(-2)
    for n in (
        *(100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300),
        *(315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950, 1000),
    )
)

# ISO 965-1 clause 13: each grade as a multiple of grade 6.
_CREST_STEPS = {
    "TD1": {4: "0.63", 5: "0.8", 6: "1", 7: "1.25", 8: "1.6"},
    "Td": {4: "0.63", 6: "1", 8: "1.6"},
}
_PITCH_STEPS = {
    "TD2": {4: "0.85", 5: "1.06", 6: "1.32", 7: "1.7", 8: "2.12"},
    "Td2": {3: "0.5", 4: "0.63", 5: "0.8", 6: "1", 7: "1.25", 8: "1.6", 9: "2"},
}
_SLOPES: dict[str, tuple[Decimal, Decimal]] = {
    "g": (Decimal(15), Decimal(11)),
    "f": (Decimal(30), Decimal(11)),
    "e": (Decimal(50), Decimal(11)),
    "G": (Decimal(15), Decimal(11)),
}


class Figure(NamedTuple):
    """One deviation or tolerance in mm with its reason; `tabulated` is False where a formula stood in for the table."""

    value: Decimal
    why: str
    tabulated: bool = True


class ToleranceClass(NamedTuple):
    """A tolerance class taken apart: grade and position of the pitch diameter, then of the crest diameter."""

    pitch_grade: int
    pitch_position: str
    crest_grade: int
    crest_position: str


def read_class(text: str, internal: bool) -> ToleranceClass:
    """Take apart a tolerance class such as `6H` or `4g6g`: pitch diameter first, crest diameter second (ISO 965-1).

    Raises:
        NotDefined: The text is no class, or its letter case says the other kind of thread.
    """
    kind = "an internal" if internal else "an external"
    near = ("6H", "5H", "7H", "6G") if internal else ("6g", "6h", "4h", "8g")
    match = _CLASS.fullmatch(text)
    if match is None:
        raise NotDefined(f"{text} is not a tolerance class of {kind} metric thread.", near)
    grade, position, crest_grade, crest_position = match.groups()
    found = ToleranceClass(int(grade), position, int(crest_grade or grade), crest_position or position)
    if any(p[0].isupper() != internal for p in (found.pitch_position, found.crest_position)):
        swapped = text.swapcase() if text.swapcase() in near else None
        ordered = dict.fromkeys((swapped, *near) if swapped else near)
        raise NotDefined(f"Class {text} is not for {kind} thread.", tuple(ordered))
    return found


@exactly
def r40(value: Decimal) -> Decimal:
    """Round to the nearest number of series R40 (ISO 3), in whole units below 1000 (ISO 965-1 clause 13)."""
    decade = Decimal(1).scaleb(value.adjusted())
    nearest = min((n * decade for n in _R40), key=lambda n: abs(n - value))
    return nearest.quantize(Decimal(1))


@cache
def _by_pitch(table: str) -> dict[Decimal, dict[str, str]]:
    return {Decimal(row["pitch_mm"]): row for row in rows(table)}


def _check_pitch(pitch: Decimal) -> None:
    known = _by_pitch("iso965_crest_tolerances")
    if not min(known) <= pitch <= max(known):
        raise NotDefined(
            f"ISO 965-1 gives tolerances for pitches of 0.2 to 8 mm, not {trimmed(pitch)} mm.",
            tuple(trimmed(p) for p in sorted(known, key=lambda p: abs(p - pitch))[:2]),
        )


@exactly
def fundamental_deviation(pitch: Decimal, position: str) -> Figure:
    """Return es (small letters) or EI (capitals) in mm of a position at `pitch` mm (ISO 965-1 Table 1).

    Raises:
        NotDefined: The position does not exist, or not at that pitch.
    """
    _check_pitch(pitch)
    table = _by_pitch("iso965_deviations")
    symbol = "EI" if position[0].isupper() else "es"
    column = f"{symbol}_{position}"
    if column not in next(iter(table.values())):
        letters = [c.partition("_")[2] for c in next(iter(table.values())) if c.startswith(symbol)]
        raise NotDefined(f"Position {position} is not defined for metric threads.", tuple(letters))
    if (row := table.get(pitch)) is None and position in _SLOPES:
        constant, slope = _SLOPES[position]
        size = r40(constant + slope * pitch)
        value = size if symbol == "EI" else -size
        return Figure(mm(value), f"{position}: {symbol} {trimmed(value)} µm, ISO 965-1 clause 13 formula, R40", False)
    if position in ("h", "H"):
        return Figure(Decimal(0), f"{position}: {symbol} 0", row is not None)
    if row is None or not row[column]:
        letters = [c.partition("_")[2] for c in (row or {}) if c.startswith(symbol) and row and row[c]]
        raise NotDefined(f"Position {position} is not defined for a pitch of {trimmed(pitch)} mm.", tuple(letters))
    source = {"az": "ISO 965-4", "AZ": "ISO 965-5", "AX": "ISO 965-5"}.get(position, "ISO 965-1 Table 1")
    return Figure(mm(row[column]), f"{position}: {symbol} {row[column]} µm at P {trimmed(pitch)}, {source}")


def _provided(cells: dict[str, str], symbol: str) -> list[int]:
    return [int(c.partition("_")[2]) for c, cell in cells.items() if c.startswith(f"{symbol}_") and cell]


def _check_grade(grade: int, provided: list[int], symbol: str, pitch: Decimal) -> None:
    if grade not in provided:
        message = f"ISO 965-1 provides no {symbol} of grade {grade} for a pitch of {trimmed(pitch)} mm."
        raise NotDefined(message, tuple(str(g) for g in sorted(provided, key=lambda g: (abs(g - grade), g))))


@exactly
def _crest_grade_six(symbol: str, pitch: Decimal) -> Decimal:
    """Td(6) and TD1(6) in micrometres by the formulas of ISO 965-1 clause 13, not rounded."""
    if symbol == "Td":
        return 180 * power(pitch, TWO_THIRDS) - Decimal("3.15") / pitch.sqrt()
    if pitch < 1:
        return 433 * pitch - 190 * power(pitch, Fraction("1.22"))
    return 230 * power(pitch, Fraction("0.7"))


@exactly
def crest_tolerance(pitch: Decimal, grade: int, internal: bool) -> Figure:
    """Return TD1 (internal) or Td (external) in mm for `pitch` mm (ISO 965-1, crest diameter tables).

    Raises:
        NotDefined: The grade is not provided at that pitch.
    """
    _check_pitch(pitch)
    symbol = "TD1" if internal else "Td"
    table = _by_pitch("iso965_crest_tolerances")
    row = table.get(pitch) or table[max(p for p in table if p < pitch)]
    _check_grade(grade, _provided(row, symbol), symbol, pitch)
    if pitch in table:
        cell = row[f"{symbol}_{grade}"]
        return Figure(mm(cell), f"{symbol} {cell} µm, grade {grade} at P {trimmed(pitch)}, ISO 965-1")
    value = _stepped(_crest_grade_six(symbol, pitch), _CREST_STEPS[symbol][grade])
    return Figure(mm(value), f"{symbol} {trimmed(value)} µm, grade {grade}, ISO 965-1 clause 13 formula, R40", False)


@exactly
def _stepped(grade_six: Decimal, step: str) -> Decimal:
    """Round grade 6 to R40, then its multiple again, as the tables of ISO 965-1 were made."""
    return r40(r40(grade_six) * Decimal(step))


def diameter_range(diameter: Decimal) -> tuple[Decimal, Decimal]:
    """Return the range (over, up to and including; mm) of basic major diameters that holds `diameter`.

    Raises:
        NotDefined: Outside 0.99 to 355 mm, where ISO 965-1 ends.
    """
    table = rows("iso965_pitch_tolerances")
    for row in table:
        if Decimal(row["d_over_mm"]) < diameter <= Decimal(row["d_incl_mm"]):
            return Decimal(row["d_over_mm"]), Decimal(row["d_incl_mm"])
    message = f"ISO 965-1 covers diameters over 0.99 to 355 mm, not {trimmed(diameter)} mm."
    raise NotDefined(message, ("M1",) if diameter < 1 else ("M300",))


@exactly
def _pitch_grade_six(low: Decimal, high: Decimal, pitch: Decimal) -> Decimal:
    """Td2(6) = 90 P^0.4 d^0.1 in micrometres, d the geometric mean of the range (ISO 965-1 clause 13)."""
    return 90 * power(pitch, Fraction("0.4")) * power((low * high).sqrt(), Fraction("0.1"))


@exactly
def pitch_tolerance(diameter: Decimal, pitch: Decimal, grade: int, internal: bool) -> Figure:
    """Return TD2 (internal) or Td2 (external) in mm (ISO 965-1, pitch diameter tables).

    Raises:
        NotDefined: The grade is not provided, or the size lies outside the tables.
    """
    _check_pitch(pitch)
    symbol = "TD2" if internal else "Td2"
    low, high = diameter_range(diameter)
    table = rows("iso965_pitch_tolerances")
    for row in table:
        if Decimal(row["d_over_mm"]) == low and Decimal(row["pitch_mm"]) == pitch:
            _check_grade(grade, _provided(row, symbol), symbol, pitch)
            cell = row[f"{symbol}_{grade}"]
            reason = (
                f"{symbol} {cell} µm, grade {grade}, d {trimmed(low)}-{trimmed(high)}, P {trimmed(pitch)}, ISO 965-1"
            )
            return Figure(mm(cell), reason)
    like = max(Decimal(row["pitch_mm"]) for row in table if Decimal(row["pitch_mm"]) <= pitch)
    provided = {g for row in table if Decimal(row["pitch_mm"]) == like for g in _provided(row, symbol)}
    _check_grade(grade, sorted(provided), symbol, pitch)
    value = _stepped(_pitch_grade_six(low, high, pitch), _PITCH_STEPS[symbol][grade])
    return Figure(mm(value), f"{symbol} {trimmed(value)} µm, grade {grade}, ISO 965-1 clause 13 formula, R40", False)


class ClassFigures(NamedTuple):
    """The figures of a tolerance class on one thread, mm: deviation and tolerance of pitch and crest diameter."""

    parts: ToleranceClass
    pitch_deviation: Figure
    crest_deviation: Figure
    pitch_width: Figure
    crest_width: Figure

    @property
    def why(self) -> tuple[str, ...]:
        """Reasons without repetition."""
        figures = (self.pitch_deviation, self.crest_deviation, self.pitch_width, self.crest_width)
        return tuple(dict.fromkeys(figure.why for figure in figures))

    @property
    def tabulated(self) -> bool:
        """False where a formula stood in for a table."""
        figures = (self.pitch_deviation, self.crest_deviation, self.pitch_width, self.crest_width)
        return all(figure.tabulated for figure in figures)


def class_figures(diameter: Decimal, pitch: Decimal, tolerance_class: str, internal: bool) -> ClassFigures:
    """Return the deviations and tolerances of a class such as `6H` or `4g6g` on a diameter and pitch in mm (ISO 965-1).

    Raises:
        NotDefined: ISO 965-1 has no such class, grade, position or size.
    """
    parts = read_class(tolerance_class, internal)
    return ClassFigures(
        parts,
        fundamental_deviation(pitch, parts.pitch_position),
        fundamental_deviation(pitch, parts.crest_position),
        pitch_tolerance(diameter, pitch, parts.pitch_grade, internal),
        crest_tolerance(pitch, parts.crest_grade, internal),
    )


def engagement_lengths(diameter: Decimal, pitch: Decimal) -> tuple[Decimal, Decimal]:
    """Return the lengths in mm over which group N begins and up to which it reaches (ISO 965-1).

    Raises:
        NotDefined: The table has no row for that diameter and pitch.
    """
    low, _ = diameter_range(diameter)
    same = [row for row in rows("iso965_engagement") if Decimal(row["d_over_mm"]) == low]
    for row in same:
        if Decimal(row["pitch_mm"]) == pitch:
            return Decimal(row["n_over_mm"]), Decimal(row["n_incl_mm"])
    pitches = sorted((Decimal(row["pitch_mm"]) for row in same), key=lambda p: (abs(p - pitch), p))
    raise NotDefined(
        f"ISO 965-1 gives no lengths of engagement for {trimmed(diameter)} mm with a pitch of {trimmed(pitch)} mm.",
        tuple(f"P {trimmed(p)}" for p in pitches[:2]),
    )


def engagement_group(diameter: Decimal, pitch: Decimal, length: Decimal) -> Group:
    """Return the group S, N or L of a length of engagement in mm (ISO 965-1).

    Raises:
        NotDefined: The table has no row for that diameter and pitch.
    """
    over, including = engagement_lengths(diameter, pitch)
    if length <= over:
        return "S"
    return "N" if length <= including else "L"
