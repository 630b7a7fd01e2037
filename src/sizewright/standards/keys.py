"""Parallel keys and their keyways by shaft diameter: DIN 6885-1 (ISO 773) in millimetres, ASME B17.1 in inches."""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum
from functools import cache
from typing import Literal, NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.iso286 import Deviations, deviations
from sizewright.standards.tables import rows

_ZERO = Decimal(0)
_THOUSANDTH = Decimal("0.001")
_PARALLEL_KEY_CLEARANCE = Decimal("0.005")
_SEAT_DEPTH = Deviations(Decimal("-0.015"), _ZERO)
_HUB_DEPTH = Deviations(_ZERO, Decimal("0.010"))


class KeyFit(StrEnum):
    """The three fits of a parallel key in its keyways, DIN 6885-1 and ISO 773."""

    FREE = "free"
    NORMAL = "normal"
    CLOSE = "close"


_WIDTH_CLASSES = {KeyFit.FREE: ("H9", "D10"), KeyFit.NORMAL: ("N9", "JS9"), KeyFit.CLOSE: ("P9", "P9")}


class Toleranced(NamedTuple):
    """A nominal dimension with its limit deviations, in one unit; `tolerance_class` is "" where there is none."""

    nominal: Decimal
    deviations: Deviations
    tolerance_class: str = ""


class MetricKey(NamedTuple):
    """A parallel key and its keyways for a range of shaft diameters; all figures in millimetres.

    Attributes:
        over: Shaft diameter above which the row applies.
        upto: Shaft diameter up to which it applies, included.
        width: Key width b.
        height: Key height h.
        shaft_width: Width of the keyway in the shaft.
        hub_width: Width of the keyway in the hub.
        shaft_depth: Depth t1 in the shaft.
        hub_depth: Depth t2 in the hub.
        checked: "two" or "one" prints, "section" (range and section in print, depths not) or "unconfirmed".
    """

    over: Decimal
    upto: Decimal
    width: Toleranced
    height: Toleranced
    shaft_width: Toleranced
    hub_width: Toleranced
    shaft_depth: Toleranced
    hub_depth: Toleranced
    checked: str

    @property
    def confirmed(self) -> bool:
        """Whether every figure of the row was found in print."""
        return self.checked in {"one", "two"}


class InchKey(NamedTuple):
    """A parallel key and its keyseats for one shaft diameter; all figures in inches.

    Attributes:
        width: Key width W.
        height: Key height H.
        shape: "square" or "rectangular".
        seat_bottom: Dimension S, from the bottom of the shaft keyseat to the opposite side of the shaft.
        hub_bottom: Dimension T, from the bottom of the hub keyseat to the opposite side of the bore.
        preferred: Whether the standard prefers this shape at this diameter.
        checked: "one" print or "unconfirmed", for width and height; the tolerances of depth are unconfirmed.
    """

    width: Decimal
    height: Decimal
    shape: Literal["square", "rectangular"]
    seat_bottom: Toleranced
    hub_bottom: Toleranced
    preferred: bool
    checked: str


class InchKeyFit(NamedTuple):
    """Widths of a square key and its keyseats in a fit class of ASME B17.1, in inches."""

    key: Toleranced
    keyseat: Toleranced
    checked: str


def metric_key(diameter: Decimal, fit: KeyFit = KeyFit.NORMAL) -> MetricKey:
    """The parallel key and its keyways for a shaft diameter in millimetres, DIN 6885-1 and ISO 773.

    Raises:
        NotDefined: The standard has no key for this diameter.
    """
    row = _row_for("keys_metric", diameter, "over_mm", "upto_mm")
    if row is None:
        raise _diameter_error("DIN 6885-1", "keys_metric", diameter, ("over_mm", "upto_mm"), "mm")
    width, height = Decimal(row["width"]), Decimal(row["height"])
    shaft_class, hub_class = _WIDTH_CLASSES[fit]
    return MetricKey(
        Decimal(row["over_mm"]),
        Decimal(row["upto_mm"]),
        _by_class(width, "h9"),
        _by_class(height, _height_class(width, height)),
        _by_class(width, shaft_class),
        _by_class(width, hub_class),
        Toleranced(Decimal(row["t1"]), Deviations(_ZERO, Decimal(row["t1_tolerance"]))),
        Toleranced(Decimal(row["t2"]), Deviations(_ZERO, Decimal(row["t2_tolerance"]))),
        row["checked"],
    )


def inch_key(diameter: Decimal, shape: Literal["square", "rectangular"] | None = None) -> InchKey:
    """The parallel key and its keyseats for a shaft diameter in inches, ASME B17.1, Table 1.

    Without a shape, the one that the standard prefers. S and T follow from the diameter by a square root and are
    rounded to 0.001 in, as the standard tabulates them.

    Raises:
        NotDefined: The standard has no key for this diameter, or none of this shape.
    """
    row = _row_for("keys_inch", diameter, "over_in", "upto_in")
    if row is None:
        raise _diameter_error("ASME B17.1", "keys_inch", diameter, ("over_in", "upto_in"), "in")
    chosen: Literal["square", "rectangular"] = shape or ("square" if row["preferred"] == "square" else "rectangular")
    text = row[f"{chosen}_height"]
    if not text:
        raise NotDefined(f"ASME B17.1 has no {chosen} key for a shaft of {diameter} in", (row["preferred"],))
    width, height = Decimal(row["width"]), Decimal(text)
    seat_bottom = _chord_height(diameter, width) - height / 2
    hub_bottom = _chord_height(diameter, width) + height / 2 + _PARALLEL_KEY_CLEARANCE
    return InchKey(
        width,
        height,
        chosen,
        Toleranced(seat_bottom.quantize(_THOUSANDTH), _SEAT_DEPTH),
        Toleranced(hub_bottom.quantize(_THOUSANDTH), _HUB_DEPTH),
        row["preferred"] == chosen,
        row["checked"],
    )


def inch_key_fit(width: Decimal, fit_class: Literal[1, 2]) -> InchKeyFit:
    """The widths of a square key of this width in inches and of its keyseats, ASME B17.1, class 1 or 2.

    Raises:
        NotDefined: No limits are known for this width in this class.
    """
    key = _width_row(f"class {fit_class} key", width)
    seat = _width_row(f"class {fit_class} keyseat", width)
    return InchKeyFit(
        Toleranced(width, Deviations(Decimal(key["lower"]), Decimal(key["upper"]))),
        Toleranced(width, Deviations(Decimal(seat["lower"]), Decimal(seat["upper"]))),
        key["checked"],
    )


def _by_class(nominal: Decimal, name: str) -> Toleranced:
    letters = name.rstrip("0123456789")
    return Toleranced(nominal, deviations(letters, name.removeprefix(letters), nominal), name)


def _height_class(width: Decimal, height: Decimal) -> str:
    """DIN 6885-1: the height of square keys has the class of the width, h9, that of all others h11."""
    return "h9" if width == height else "h11"


def _chord_height(diameter: Decimal, width: Decimal) -> Decimal:
    """ASME B17.1: shaft diameter less the height of the segment that a chord of the key's width cuts off."""
    segment = (diameter - (diameter * diameter - width * width).sqrt()) / 2
    return diameter - segment


def _row_for(table: str, size: Decimal, over: str, upto: str) -> dict[str, str] | None:
    for row_over, row_upto, row in _ranges(table, over, upto):
        if row_over < size <= row_upto:
            return row
    return None


@cache
def _ranges(table: str, over: str, upto: str) -> tuple[tuple[Decimal, Decimal, dict[str, str]], ...]:
    return tuple((Decimal(row[over]), Decimal(row[upto]), row) for row in rows(table))


def _diameter_error(standard: str, table: str, diameter: Decimal, headings: tuple[str, str], unit: str) -> NotDefined:
    first, last = rows(table)[0][headings[0]], rows(table)[-1][headings[1]]
    return NotDefined(
        f"{standard} has parallel keys for shafts above {first} to {last} {unit}, not for {diameter} {unit}"
    )


def _width_row(feature: str, width: Decimal) -> dict[str, str]:
    steps = [row for row in rows("keys_inch_tolerances") if row["feature"] == feature]
    for row in steps:
        if Decimal(row["over_in"]) < width <= Decimal(row["upto_in"]):
            return row
    last = steps[-1]["upto_in"] if steps else "0"
    raise NotDefined(f"ASME B17.1 limits of the {feature} are known above 0 to {last} in of width, not for {width} in")
