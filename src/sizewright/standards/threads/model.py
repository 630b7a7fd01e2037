"""What every thread family answers with: limits of three diameters, or the gauging of a taper thread."""

from decimal import Decimal
from typing import NamedTuple, TypeAlias

Limits: TypeAlias = tuple[Decimal | None, Decimal | None]
"""Lower and upper limit in the unit of the family; None where the standard sets no limit."""


class Doubt(str):
    """A remark that warns: the thread may be mistyped, or a figure is not sure or not held."""

    __slots__ = ()


class ThreadLimits(NamedTuple):
    """Limits of size of a parallel thread.

    Attributes:
        major: Limits of the major diameter (d of a screw, D of a nut).
        pitch: Limits of the pitch diameter (d2, D2).
        minor: Limits of the minor diameter (d1 or d3, D1).
        why: One short reason for each deviation, tolerance and rule that entered.
        remarks: What a reader should know; each `Doubt` among them is a warning.
    """

    major: Limits
    pitch: Limits
    minor: Limits
    why: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()


class TaperGauging(NamedTuple):
    """How a taper pipe thread is checked: by where a gauge stops along the axis, not by diameters.

    Lengths and diameters are in the unit of the standard (ISO 7 mm, ASME B1.20 inches).

    Attributes:
        gauge_length: Distance from the small end of the external thread to the gauge plane.
        plane_tolerance: Permitted distance of the gauge plane from its basic place, either way.
        turns: The same tolerance in turns of the thread.
        major: Major diameter at the gauge plane, None where the standard gives none.
        pitch: Pitch diameter at the gauge plane.
        minor: Minor diameter at the gauge plane, None where the standard gives none.
        useful_length: Length of useful (effective) thread of the external part at basic gauge length.
        why: Short reasons.
        remarks: What is checked and what is not.
    """

    gauge_length: Decimal
    plane_tolerance: Decimal
    turns: Decimal
    major: Decimal | None
    pitch: Decimal
    minor: Decimal | None
    useful_length: Decimal | None
    why: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
