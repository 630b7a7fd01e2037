"""ISO 261 and ISO 262: which pitches belong to which metric diameter."""

from decimal import Decimal
from functools import cache
from typing import NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows
from sizewright.standards.threads.exact import trimmed


class MetricSize(NamedTuple):
    """One diameter of the general plan, lengths in mm.

    Attributes:
        diameter: Nominal diameter.
        choice: 1 to 3, the order in which ISO 261 recommends diameters.
        coarse: Coarse pitch, None where the plan has none.
        fine: Fine pitches, largest first.
        selected: Pitches that ISO 262 selects for screws, bolts and nuts.
    """

    diameter: Decimal
    choice: int
    coarse: Decimal | None
    fine: tuple[Decimal, ...]
    selected: tuple[Decimal, ...]

    @property
    def pitches(self) -> tuple[Decimal, ...]:
        """All pitches of the size in mm, the coarse one first."""
        return self.fine if self.coarse is None else (self.coarse, *self.fine)


def _numbers(cell: str) -> tuple[Decimal, ...]:
    return tuple(Decimal(part) for part in cell.split(";") if part)


def _size(row: dict[str, str]) -> MetricSize:
    coarse = Decimal(row["coarse_pitch_mm"]) if row["coarse_pitch_mm"] else None
    selected = _numbers(row["iso262_fine_pitches_mm"])
    if row["iso262_choice"] and coarse is not None:
        selected = (coarse, *selected)
    return MetricSize(
        Decimal(row["nominal_mm"]), int(row["choice"]), coarse, _numbers(row["fine_pitches_mm"]), selected
    )


@cache
def sizes() -> dict[Decimal, MetricSize]:
    """Return the general plan of ISO 261 by diameter in mm."""
    return {size.diameter: size for size in map(_size, rows("iso261_threads"))}


def metric_name(diameter: Decimal, pitch: Decimal | None = None) -> str:
    """Write a thread as ISO 965-1 designates it, without class: `M8x1.25`, or `M8` without a pitch."""
    return f"M{trimmed(diameter)}" if pitch is None else f"M{trimmed(diameter)}x{trimmed(pitch)}"


def near_sizes(diameter: Decimal) -> tuple[str, ...]:
    """Name the three diameters of ISO 261 nearest to `diameter` mm, nearest first."""
    known = sorted(sizes(), key=lambda d: (abs(d - diameter), d))
    return tuple(metric_name(d) for d in known[:3])


def pitches_of(diameter: Decimal) -> tuple[Decimal, ...]:
    """Return the pitches in mm that ISO 261 gives `diameter` mm, the coarse one first.

    Raises:
        NotDefined: The diameter is not in ISO 261.
    """
    if (size := sizes().get(diameter)) is None:
        raise NotDefined(f"{metric_name(diameter)} is not a diameter of ISO 261.", near_sizes(diameter))
    return size.pitches


def coarse_pitch(diameter: Decimal) -> Decimal:
    """Return the coarse pitch in mm of `diameter` mm, the one meant when a callout names none (ISO 261).

    Raises:
        NotDefined: The diameter is not in ISO 261, or ISO 261 gives it fine pitches only.
    """
    pitches = pitches_of(diameter)
    if (coarse := sizes()[diameter].coarse) is None:
        near = tuple(metric_name(diameter, pitch) for pitch in pitches)
        raise NotDefined(
            f"{metric_name(diameter)} has no coarse pitch in ISO 261, so its pitch has to be stated.", near
        )
    return coarse


def is_standard(diameter: Decimal, pitch: Decimal) -> bool:
    """Tell whether `diameter` and `pitch` (mm) are a combination of ISO 261."""
    return diameter in sizes() and pitch in sizes()[diameter].pitches
