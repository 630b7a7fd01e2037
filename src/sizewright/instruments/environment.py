"""The room in which parts are measured: temperature, how sure it is, and what the part is made of."""

import re
from decimal import Decimal
from typing import NamedTuple

from sizewright.standards.expansion import REFERENCE_TEMPERATURE, UNKNOWN, Expansion, expansion_of

_SPREAD, _DIFFERENCE = Decimal(2), Decimal(1)
_FAHRENHEIT = re.compile(r"F$", re.IGNORECASE)
_NUMBERS = re.compile(r"[+-]?\d+(?:\.\d+)?")


class Environment(NamedTuple):
    """Where a part is measured, in °C and K.

    `spread` is the half-width within which the temperature lies, `difference` that of part against instrument; both
    are rectangles, and 2 K and 1 K are common practice for a workshop where nothing else is told. `said` tells what
    was taken for granted.
    """

    temperature: Decimal = REFERENCE_TEMPERATURE
    spread: Decimal = _SPREAD
    difference: Decimal = _DIFFERENCE
    part: Expansion = UNKNOWN
    said: tuple[str, ...] = ()

    @property
    def off(self) -> Decimal:
        """How far the temperature lies above 20 °C, in K."""
        return self.temperature - REFERENCE_TEMPERATURE


WORKSHOP = Environment()
"""A workshop of which nothing is told."""


def environment_of(material: str = "", temperature: str = "") -> Environment:
    """The environment that a title block's `material` and `temperature` (`23 ±2 °C`, checked before) tell of."""
    said = []
    part = expansion_of(material) if material else None
    if part is None:
        named = f"the material {material!r} is not in the table of expansion" if material else "no material is told"
        said.append(f"{named}: 17e-6 per kelvin within 7e-6 is taken, which holds the metals of a workshop")
    degrees, spread = _temperature(temperature)
    if degrees is None:
        said.append("no temperature is told: 20 °C within 2 K is taken (common practice)")
    elif spread is None:
        said.append("how far the temperature swings is not told: 2 K is taken (common practice)")
    return Environment(
        REFERENCE_TEMPERATURE if degrees is None else degrees,
        _SPREAD if spread is None else spread,
        part=part or UNKNOWN,
        said=tuple(said),
    )


def _temperature(text: str) -> tuple[Decimal | None, Decimal | None]:
    """Degrees Celsius and the spread in K; None where not told."""
    numbers = [Decimal(number) for number in _NUMBERS.findall(text)]
    if not numbers:
        return None, None
    degrees, spread = numbers[0], numbers[1] if len(numbers) > 1 else None
    if _FAHRENHEIT.search(text.strip()):
        degrees = (degrees - 32) * 5 / 9
        spread = None if spread is None else spread * 5 / 9
    return degrees, spread
