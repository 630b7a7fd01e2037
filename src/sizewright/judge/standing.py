"""What verdicts come to: the standing of a line, of each piece, and of the part."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sizewright.judge.model import LineJudgement, Outcome, Standing
from sizewright.plan.model import PlanLine
from sizewright.resolve.characteristic import Status
from sizewright.resolve.describe import status_words

_NAMED = 8  # so many line numbers are named before the rest is counted
_WORST_FIRST: tuple[Standing, ...] = ("reject", "undecided", "incomplete", "accept")
_WORDS: dict[Standing, str] = {
    "reject": "rejected",
    "undecided": "undecided",
    "incomplete": "incomplete or not read",
    "accept": "accepted",
    "no verdict": "without a verdict",
}


def line_standing(line: PlanLine, outcomes: Sequence[Outcome], missing: int) -> tuple[Standing, str]:
    """The standing of one line and why: any reject rejects it, else anything undecided, else anything missing."""
    fixed = _without_verdict(line)
    if fixed is not None:
        return fixed
    verdicts = [outcome.verdict for outcome in outcomes]
    count = len(verdicts)
    lacking = f"; {readings_words(missing)} missing" if missing else ""
    for verdict, words in (("reject", "rejected"), ("undecided", "undecided")):
        found = verdicts.count(verdict)  # type: ignore[arg-type]
        if found:
            of = readings_words(count) if found == count else f"{found} of {readings_words(count)}"
            return verdict, f"{of} {words}{lacking}"  # type: ignore[return-value]
    if missing or not count:
        return "incomplete", f"{readings_words(missing)} missing" if missing else "no readings"
    return "accept", f"{readings_words(count)} accepted"


def _without_verdict(line: PlanLine) -> tuple[Standing, str] | None:
    """The standing of a line on which no reading can decide anything, and why; None where readings decide."""
    made = line.characteristic
    if made is None or made.status is Status.UNREAD:
        return "incomplete", f"the callout is not read: {line.unread or 'no reason was recorded'}"
    if made.status is Status.CONFLICT:
        return "undecided", "the callout contradicts itself: no limits before that is settled"
    if not made.limits and made.either is None:
        return "no verdict", status_words(made) or "no limits"
    return None


def piece_standings(
    lines: Sequence[LineJudgement], lacking: Sequence[frozenset[int]]
) -> tuple[tuple[int, Standing], ...]:
    """The standing of each piece that has readings; `lacking` tells for each line the pieces with readings missing.

    A line that is not read, or contradicts itself, holds every piece back.
    """
    every: set[Standing] = set()
    found: set[tuple[int, Standing]] = set()
    for judged in lines:
        if _without_verdict(judged.line) is None:
            found.update([(outcome.reading.piece, outcome.verdict) for outcome in judged.outcomes])
        else:
            every.add(judged.standing)
            found.update([(outcome.reading.piece, "no verdict") for outcome in judged.outcomes])
    by_piece: dict[int, set[Standing]] = {}
    for piece, standing in found:
        by_piece.setdefault(piece, set()).add(standing)
    for pieces in lacking:
        for piece in pieces:
            if piece in by_piece:
                by_piece[piece].add("incomplete")
    return tuple((piece, _worst(by_piece[piece] | every)) for piece in sorted(by_piece))


def part_standing(lines: Sequence[LineJudgement]) -> tuple[Standing, str]:
    """The standing of the part, and the lines that it rests on."""
    by_standing: dict[Standing, list[str]] = {}
    for judged in lines:
        by_standing.setdefault(judged.standing, []).append(judged.line.number)
    said = [f"{words}: {_named(by_standing[each])}" for each, words in _WORDS.items() if each in by_standing]
    return _worst(by_standing), "; ".join(said) if said else "the plan has no lines"


def readings_words(count: int) -> str:
    """So many readings, in words."""
    return "1 reading" if count == 1 else f"{count} readings"


def _worst(standings: Iterable[Standing]) -> Standing:
    found = set(standings)
    return next((each for each in _WORST_FIRST if each in found), "no verdict")


def _named(numbers: Sequence[str]) -> str:
    shown = ", ".join(numbers[:_NAMED])
    more = len(numbers) - _NAMED
    word = "line" if len(numbers) == 1 else "lines"
    return f"{word} {shown}" + (f" and {more} more" if more > 0 else "")
