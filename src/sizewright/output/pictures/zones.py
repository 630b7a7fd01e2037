"""The tolerance zones of a hole and a shaft about the zero line: what a picture of a fit shows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.resolve.characteristic import Characteristic, Fit, Limits
from sizewright.text.numbers import finite_decimal, plain

# How a deviation is said: in micrometres on metric sizes, in thousandths (mil) of an inch on inch sizes.
_FINE = {"mm": (1000, "µm"), "inch": (1000, "mil")}
_UNIT_WORDS = {"mm": "mm", "inch": "in"}


class Zone(NamedTuple):
    """One tolerance zone: its class or side, and its deviations from the nominal size, exact, in `Zones.fine_unit`."""

    name: str
    internal: bool
    lower: Fraction
    upper: Fraction


class Zones(NamedTuple):
    """The zones of one nominal size, hole first, and the fit that two of them make."""

    nominal: str
    name: str
    fine_unit: str
    zones: tuple[Zone, ...]
    fit: Fit | None
    extremes: tuple[tuple[str, Fraction], ...]

    @property
    def title(self) -> str:
        """What the picture shows: `25 mm H7/g6, clearance fit`."""
        kind = f", {self.fit.type} fit" if self.fit else ""
        return f"{self.nominal} {self.name}{kind}"


def zones_of(characteristics: Sequence[Characteristic]) -> Iterator[Zones]:
    """The pictures that a callout's characteristics are worth: one for each pair of a fit and each single class."""
    position = 0
    while position < len(characteristics):
        made = characteristics[position]
        pair = characteristics[position : position + 2]
        if made.fit is not None and len(pair) == 2 and pair[1].fit == made.fit and made.side != pair[1].side:
            yield _zones(made, [(each.class_ or "", each.side == "internal", each.limits[0]) for each in pair])
            position += 2
            continue
        if made.either is not None and made.fit is not None:
            sides = [("hole", True, made.either.internal[0]), ("shaft", False, made.either.external[0])]
            yield _zones(made, sides)
        elif made.class_ and made.size is not None and made.nominal is not None and made.kind != "thread":
            yield _zones(made, [(made.class_, made.side == "internal", made.size)])
        position += 1


def _zones(made: Characteristic, sides: Sequence[tuple[str, bool, Limits]]) -> Zones:
    assert made.nominal is not None
    scale, fine_unit = _FINE[made.unit]
    nominal = Fraction(made.nominal)
    zones = tuple(
        Zone(name, internal, (_bound(limits.lower) - nominal) * scale, (_bound(limits.upper) - nominal) * scale)
        for name, internal, limits in sides
    )
    fit = made.fit if len(zones) == 2 else None
    words = f"{plain(made.nominal)} {_UNIT_WORDS[made.unit]}"
    names = [name for name, _, _ in sides]
    name = made.class_ or "" if made.either else "/".join(names)
    return Zones(words, name, fine_unit, zones, fit, _extremes(fit, scale))


def _bound(value: Decimal | Fraction | None) -> Fraction:
    assert value is not None
    return Fraction(value)


def _extremes(fit: Fit | None, scale: int) -> tuple[tuple[str, Fraction], ...]:
    """The largest and the smallest clearance, an interference said as such, in the fine unit."""
    if fit is None:
        return ()
    largest, smallest = Fraction(fit.clearance_max) * scale, Fraction(fit.clearance_min) * scale
    interferes = fit.type == "interference"  # then the smallest interference may be nothing
    first = ("smallest interference", -largest) if interferes else ("largest clearance", largest)
    second = ("smallest clearance", smallest) if fit.type == "clearance" else ("largest interference", -smallest)
    return first, second


def figure(value: Fraction) -> str:
    """A deviation as text, with its sign: `+21`, `0`, `-6.5`."""
    exact = finite_decimal(value)
    assert exact is not None  # limits are decimals
    text = plain(exact.normalize() if exact else exact)
    return f"+{text}" if value > 0 else text
