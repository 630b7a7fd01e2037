"""One `[[instrument]]` table of a crib: each key is read by itself, so that all its faults are found in one pass."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.instruments.amounts import decimal_of, rounded_up, to_base, trimmed
from sizewright.instruments.features import ANGLE_FEATURES, units_of
from sizewright.instruments.kinds import UnknownKindError, angle, kind, near
from sizewright.instruments.model import Instrument, Kind, Repeatability
from sizewright.resolve.describe import unit_shown
from sizewright.standards.expansion import Expansion, expansion_of
from sizewright.text.numbers import Number, finite_decimal, plain

KEYS = (
    "kind",
    "name",
    "range",
    "unit",
    "resolution",
    "mpe",
    "owned",
    "place",
    "serial",
    "due",
    "wires",
    "repeatability",
    "material",
)
WIRE_SET = "three-wire set"
_MPE_KEYS = ("constant", "per_length")
_SPREAD_KEYS = ("spread", "readings")
_UNITS = ("mm", "inch", "deg", "um", "uin")
_TEXT = re.compile(r"\d{1,9}(\.\d{1,12})?(/\d{1,6})?|\.\d{1,12}")
_ANGLE_TEXT = re.compile(r"\d{1,6}(\.\d{1,6})?['\"]")
_EXAMPLES: dict[str | None, str] = {"inch": '0.001 or "1/64"', "deg": '"5\'"'}
_MOST_READINGS = 100_000
_FIGURES = 12  # digits before or after the mark; an instrument has fewer


class CribFault(NamedTuple):
    """One thing wrong in a crib: in which table (1-based; None for the file itself), at which key, what would read."""

    number: int | None
    name: str
    key: str
    message: str

    def __str__(self) -> str:
        """The fault on one line."""
        place = "" if self.number is None else f"instrument {self.number}"
        place += f" ({self.name})" if self.name else ""
        return ", ".join(part for part in (place, self.key) if part) + f": {self.message}"


@dataclass(slots=True)
class _Reading:
    """A table while it is read; `say` takes down a fault and gives None, so that the other keys go on being read."""

    table: Mapping[str, object]
    number: int
    faults: list[CribFault] = field(default_factory=list)

    def say(self, key: str, message: str) -> None:
        label = self.table.get("name") or self.table.get("kind") or ""
        self.faults.append(CribFault(self.number, label if isinstance(label, str) else "", key, message))


def entry(table: Mapping[str, object], number: int) -> tuple[Instrument | None, tuple[CribFault, ...]]:
    """The instrument of the crib's table `number` (1-based), or None and everything that is wrong with it."""
    reading = _Reading(table, number)
    for key in table:
        if key not in KEYS:
            reading.say(key, unknown("key", key, KEYS))
    found = _kind(reading)
    unit = _unit(reading, found)
    bounds = _range(reading)
    resolution = _resolution(reading, found, unit)
    constant, slope = _mpe(reading, found, unit)
    owned, due = _owned(reading), _due(reading)
    wires = _wires(reading, found)
    repeatability, material = _repeatability(reading, unit), _material(reading)
    name, place, serial = (_text(reading, key) for key in ("name", "place", "serial"))
    if reading.faults or found is None or unit is None or bounds is None:
        return None, tuple(reading.faults)
    name = name or f"{found.name} {plain(trimmed(bounds[0]))}-{plain(trimmed(bounds[1]))} {unit_shown(unit)}"
    made = Instrument(
        name,
        found,
        unit,
        *bounds,
        resolution,
        constant,
        slope,
        owned,
        place,
        serial,
        due,
        wires,
        repeatability,
        material,
    )
    return made, ()


def unknown(what: str, word: str, known: tuple[str, ...]) -> str:
    """The sentence for an unknown word: the near ones, or all of them where none is near."""
    close = near(word, known)
    return f"no such {what}; near: {', '.join(close)}" if close else f"no such {what}; known: {', '.join(known)}"


def _kind(reading: _Reading) -> Kind | None:
    value = reading.table.get("kind")
    if not isinstance(value, str):
        reading.say("kind", 'the name of an instrument kind, as in kind = "digital caliper"')
        return None
    try:
        return kind(value)
    except UnknownKindError as unknown_kind:
        reading.say("kind", str(unknown_kind))
        return None


def _unit(reading: _Reading, found: Kind | None) -> str | None:
    value = reading.table.get("unit")
    allowed = _units(found)
    if not isinstance(value, str):
        reading.say("unit", f'one of {", ".join(allowed)}, as in unit = "{allowed[0]}"')
        return None
    if value not in _UNITS:
        reading.say("unit", unknown(f"unit {value!r}", value, allowed))
        return None
    if found is not None and value not in allowed:
        reading.say("unit", f"{found.name} in {value}: it is graduated in {' or '.join(allowed)}")
        return None
    return value


def _units(found: Kind | None) -> tuple[str, ...]:
    if found is None:
        return _UNITS
    units = frozenset[str]().union(*map(units_of, found.reaches))
    return tuple(unit for unit in _UNITS if unit in units)


def _range(reading: _Reading) -> tuple[Decimal, Decimal] | None:
    value = reading.table.get("range")
    example = "two numbers, the lower first, as in range = [0, 150]"
    if not isinstance(value, list) or len(value) != 2:
        reading.say("range", example)
        return None
    lower, upper = map(_length, value)
    if lower is None or upper is None or not 0 <= lower < upper:
        reading.say("range", example)
        return None
    return lower, upper


def _resolution(reading: _Reading, found: Kind | None, unit: str | None) -> Number | None:
    value = reading.table.get("resolution")
    if value is None:
        if found is None:
            return None
        if found.attribute:
            return _in_unit(found.resolution, unit)
        reading.say("resolution", "missing; the smallest step it shows, as in resolution = 0.01")
        return None
    number = _number(value, unit)
    if number is None or number <= 0:
        reading.say("resolution", f"a number above 0, as in resolution = {_EXAMPLES.get(unit, '0.01')}")
        return None
    return number


def _mpe(reading: _Reading, found: Kind | None, unit: str | None) -> tuple[Number | None, Decimal]:
    """Constant and slope; the kind's own figures where the crib gives none."""
    value = reading.table.get("mpe")
    if value is None and found is not None and unit == "deg" and not found.reaches <= ANGLE_FEATURES:
        reading.say("mpe", 'missing; the figures known of this kind are lengths, as in mpe = "2\'"')
        return None, Decimal(0)
    if value is None:
        slope = Decimal(0) if found is None or found.mpe_slope is None else found.mpe_slope
        return _in_unit(None if found is None else found.mpe_constant, unit), slope
    parts = value if isinstance(value, dict) else {"constant": value}
    for key in parts:
        if key not in _MPE_KEYS:
            reading.say("mpe", f"{key}: {unknown('key', key, _MPE_KEYS)}")
    constant = _number(parts.get("constant", 0), unit)
    slope_typed = _length(parts.get("per_length", 0))
    if constant is None or constant < 0 or slope_typed is None or slope_typed < 0:
        reading.say("mpe", "a number not below 0, or both parts, as in mpe = {constant = 0.004, per_length = 0.00002}")
        return None, Decimal(0)
    return constant, slope_typed


def _repeatability(reading: _Reading, unit: str | None) -> Repeatability | None:
    value = reading.table.get("repeatability")
    if value is None:
        return None
    parts = value if isinstance(value, dict) else {}
    for key in parts:
        if key not in _SPREAD_KEYS:
            reading.say("repeatability", f"{key}: {unknown('key', key, _SPREAD_KEYS)}")
    spread, readings = _number(parts.get("spread"), unit), parts.get("readings")
    counted = isinstance(readings, int) and not isinstance(readings, bool) and 2 <= readings <= _MOST_READINGS
    if spread is None or spread < 0 or not counted or not isinstance(readings, int):
        example = "repeatability = {spread = 0.002, readings = 10}"
        reading.say("repeatability", f"the standard deviation of at least 2 repeated readings, as in {example}")
        return None
    return Repeatability(decimal_of(spread), readings)


def _material(reading: _Reading) -> Expansion | None:
    value = reading.table.get("material")
    if value is None:
        return None
    found = expansion_of(value) if isinstance(value, str) else None
    if found is None:
        reading.say("material", 'a material of the table of expansion, as in material = "granite"')
    return found


def _in_unit(value: Number | None, unit: str | None) -> Number | None:
    """A figure of the kinds table (mm, degrees) in the crib's unit; rounded up where inches have no finite decimal."""
    if value is None or unit is None or unit in ("mm", "deg"):
        return value
    return trimmed(rounded_up(to_base(value, "mm"), unit))


def _owned(reading: _Reading) -> int:
    value = reading.table.get("owned", 1)
    if isinstance(value, bool) or not isinstance(value, int) or value < 1:
        reading.say("owned", "how many the shop has, a whole number from 1 on")
        return 1
    return value


def _due(reading: _Reading) -> date | None:
    value = reading.table.get("due")
    if value is None or (isinstance(value, date) and not isinstance(value, datetime)):
        return value
    try:
        return date.fromisoformat(value if isinstance(value, str) else "")
    except ValueError:
        reading.say("due", "a date, as in due = 2026-03-31")
        return None


def _wires(reading: _Reading, found: Kind | None) -> tuple[Decimal, ...]:
    value = reading.table.get("wires")
    if value is None:
        return ()
    if found is not None and found.name != WIRE_SET:
        reading.say("wires", f"wires belong to a {WIRE_SET}")
        return ()
    lengths = [_length(each) for each in value] if isinstance(value, list) else []
    wires = [each for each in lengths if each is not None and each > 0]
    if not lengths or len(wires) < len(lengths):
        reading.say("wires", "the diameters of the wires, as in wires = [0.895, 1.1]")
    return tuple(sorted(wires))


def _text(reading: _Reading, key: str) -> str:
    value = reading.table.get(key, "")
    if not isinstance(value, str):
        reading.say(key, f'a text in quotes, as in {key} = "..."')
        return ""
    return value


def _length(value: object) -> Decimal | None:
    number = _number(value, None)
    return finite_decimal(number) if isinstance(number, Fraction) else number


def _number(value: object, unit: str | None) -> Number | None:
    """An exact number typed as number or text (`"0.01"`, `"1/64"`, angles `"5'"`), or None where it does not read."""
    if isinstance(value, int) and not isinstance(value, bool):
        return Decimal(value) if abs(value) < 10**_FIGURES else None
    if isinstance(value, Decimal):
        short = value.is_finite() and (not value or abs(value.adjusted()) <= _FIGURES)
        return value if short else None
    if not isinstance(value, str):
        return None
    text = value.strip()
    if unit == "deg" and _ANGLE_TEXT.fullmatch(text):
        return angle(text)
    if not _TEXT.fullmatch(text):
        return None
    if "/" not in text:
        return Decimal(text)
    try:
        exact = Fraction(*map(Fraction, text.split("/")))
    except ZeroDivisionError:
        return None
    return exact if unit == "deg" else finite_decimal(exact)
