"""Which readings a plan line asks for, which places have one, and which are missing."""

from __future__ import annotations

from collections.abc import Sequence

from sizewright.instruments.features import FORM_FEATURES
from sizewright.judge.model import Reading
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Limits

WHOLE = ""  # the name of what one answer covers: all limits of a line at once
NO_LIMITS = Limits(WHOLE, None, None)
Place = tuple[int, int, str]  # piece, instance, limit


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
    limits = line.limits
    if not limits or (len(limits) > 1 and by_gauge(line)):
        return (WHOLE,)
    return tuple([each.of for each in limits])


class Room:
    """The room that a plan has for readings of one of its lines."""

    def __init__(self, line: PlanLine, plan: Plan) -> None:
        self._number = line.number
        self._pieces = max(plan.pieces, line.pieces)
        self._places = _places(line)
        self._names = tuple([limits.of for limits in line.limits])

    def why_not(self, piece: int, instance: int, of: str) -> str:
        """Why there is no room for a reading, or nothing where there is."""
        if not 1 <= piece <= self._pieces:
            return f"the plan has no piece {piece}: " + (
                f"pieces 1 to {self._pieces}" if self._pieces > 1 else "one piece"
            )
        if instance < 1:
            return f"places are counted from 1, this one is {instance}"
        count = self._places
        if count is not None and instance > count:
            return f"line {self._number} has " + (f"{count} places, not {instance}" if count > 1 else "one place")
        if of != WHOLE and self._names and of not in self._names:
            return f"line {self._number} has no limits of {of}: {', '.join(self._names)}"
        return ""


def _places(line: PlanLine) -> int | None:
    """How many places a line has on a piece; None where the text does not tell (typical)."""
    made = line.characteristic
    if made is None or made.count is None:
        return None
    return max(1, line.readings_per_piece, made.count)


def by_gauge(line: PlanLine) -> bool:
    """Whether the instrument suggested for `line` answers accept or reject instead of a number."""
    choice = line.choice
    return choice is not None and choice.instrument is not None and choice.instrument.kind.attribute


# ---- the places that have readings -----------------------------------------------------------------------------------


def latest_of(line: PlanLine, readings: Sequence[Reading]) -> tuple[dict[Place, Reading], tuple[Reading, ...]]:
    """The last reading of every place, and those that later ones replaced."""
    only = line.limits[0].of if len(line.limits) == 1 else WHOLE
    latest: dict[Place, Reading] = {}
    corrected: list[Reading] = []
    for reading in readings:
        place = (reading.piece, reading.instance, reading.of or only)
        if place in latest:
            corrected.append(latest[place])
        latest[place] = reading
    return latest, tuple(corrected)


def in_order(line: PlanLine, latest: dict[Place, Reading]) -> list[Place]:
    """The places that have a reading: by piece, instance, and limit as the line has them."""
    if len(latest) < 2:
        return list(latest)
    if len(line.limits) < 2:
        return sorted(latest)
    order = {limits.of: place for place, limits in enumerate(line.limits)}
    return sorted(latest, key=lambda place: (place[0], place[1], order.get(place[2], -1)))


def asked_of_a_piece(line: PlanLine) -> int:
    """How many readings a piece is asked for."""
    return line.readings_per_piece * len(asked_limits(line))


def missing_of(line: PlanLine, latest: dict[Place, Reading], pieces: int) -> tuple[int, frozenset[int]]:
    """How many readings are missing, and on which pieces.

    Of a sample any pieces will do: those read most count, and a piece without any reading lacks none.
    """
    asked = asked_limits(line)
    each = line.readings_per_piece * len(asked)
    if not each:
        return 0, frozenset()
    filled = _filled(line, latest, asked)
    counts = sorted(filled.values(), reverse=True)[:pieces]
    missing = each * pieces - sum(counts)
    lacking = {piece for piece, count in filled.items() if count < each}
    if missing and len(filled) < pieces:
        lacking |= {piece for piece in range(1, pieces + 1) if piece not in filled}
    return missing, frozenset(lacking)


def _filled(line: PlanLine, latest: dict[Place, Reading], asked: tuple[str, ...]) -> dict[int, int]:
    """How many of the asked places of each piece have a reading."""
    filled: dict[int, int] = {}
    if len(line.limits) < 2:
        count = line.readings_per_piece
        for piece, instance, _ in latest:
            if instance <= count:
                filled[piece] = filled.get(piece, 0) + 1
        return filled
    for piece, instance in {place[:2] for place in latest}:
        if instance <= line.readings_per_piece:
            filled[piece] = filled.get(piece, 0) + _filled_here(line, latest, piece, instance, asked)
    return filled


def _filled_here(
    line: PlanLine, latest: dict[Place, Reading], piece: int, instance: int, asked: tuple[str, ...]
) -> int:
    """Of a line with several limits: one answer fills all of them, and readings of all of them stand for the answer."""
    whole = latest.get((piece, instance, WHOLE))
    if whole is not None and (whole.answer is not None or asked == (WHOLE,)):
        return len(asked)
    read = sum((piece, instance, limits.of) in latest for limits in line.limits)
    return int(read == len(line.limits)) if asked == (WHOLE,) else read
