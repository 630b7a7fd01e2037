"""Which readings a plan line asks for, and what a reading's place in it is."""

from __future__ import annotations

from sizewright.instruments.features import FORM_FEATURES
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Limits

WHOLE = ""  # the name of what one answer covers: all limits of a line at once
NO_LIMITS = Limits(WHOLE, None, None)


def from_zero(line: PlanLine) -> bool:
    """Whether what the line measures cannot be less than zero: the width of a zone, a roughness."""
    made = line.characteristic
    return made is not None and (made.kind in FORM_FEATURES or made.kind == "surface texture")


def asked_limits(line: PlanLine) -> tuple[str, ...]:
    """The names of the limits that get a reading each, in order; `WHOLE` where one answer stands for the line.

    A gauge answers for all the limits of a thread at once. Where the side is not told, a reading cannot be held against
    either side's limits and is recorded without any. None where nothing is asked.
    """
    if not line.readings_per_piece:
        return ()
    if not line.limits or (len(line.limits) > 1 and _by_gauge(line)):
        return (WHOLE,)
    return tuple(limits.of for limits in line.limits)


def why_not_asked(line: PlanLine, plan: Plan, piece: int, instance: int, of: str) -> str:
    """Why the plan has no room for a reading, or nothing where it has."""
    most = max(plan.pieces, line.pieces)
    if not 1 <= piece <= most:
        return f"the plan has no piece {piece}: " + (f"pieces 1 to {most}" if most > 1 else "one piece")
    if instance < 1:
        return f"places are counted from 1, this one is {instance}"
    count = _places(line)
    if count is not None and instance > count:
        return f"line {line.number} has " + (f"{count} places, not {instance}" if count > 1 else "one place")
    names = [limits.of for limits in line.limits]
    if of != WHOLE and names and of not in names:
        return f"line {line.number} has no limits of {of}: {', '.join(names)}"
    return ""


def _places(line: PlanLine) -> int | None:
    """How many places a line has on a piece; None where the text does not tell (typical)."""
    made = line.characteristic
    if made is None or made.count is None:
        return None
    return max(1, line.readings_per_piece, made.count)


def _by_gauge(line: PlanLine) -> bool:
    choice = line.choice
    return choice is not None and choice.instrument is not None and choice.instrument.kind.attribute
