"""What every form of a report shows of its lines: one `ReportRow` a line, all of it text that is ready to be read."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.judge.model import Judgement, LineJudgement, Outcome, Statistics
from sizewright.output.rows import Bound, bounds_of, standing_words
from sizewright.output.safe import visible
from sizewright.plan.model import PlanLine
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import angle_words, unit_shown, with_unit
from sizewright.text.numbers import Number, plain

_LONG = 8  # an angle of more figures than this is said in minutes
_FIRST, _ONE, _NEARLY_ALL = Decimal("0.01"), Decimal(1), Decimal(99)  # %
_NEARLY_SURE = Decimal("0.9999")
STANDING_WORDS = {
    "accept": "accept",
    "reject": "REJECT",
    "undecided": "UNDECIDED",
    "incomplete": "INCOMPLETE",
    "no verdict": "no verdict",
}


class Taken(NamedTuple):
    """One reading as text. `value` is in the unit of its line; `mark` says in short what needs a look about it;
    `verdict` is `no verdict` where its line asks for none."""

    outcome: Outcome
    of: str
    value: str
    mark: str
    verdict: str

    @property
    def told(self) -> str:
        """What stands in brackets behind it: what needs a look, and the bonus where it lies beyond its zone without."""
        if self.outcome.bonus is None:
            return self.mark
        bonus = beyond_by(self.outcome)
        return ", ".join(filter(None, (self.mark, f"bonus {said(bonus)}" if bonus is not None else "")))


class Summed(NamedTuple):
    """What the readings of one pair of limits come to, with the least and the greatest of them as text."""

    given: Statistics
    least: str
    greatest: str


class ReportRow(NamedTuple):
    """One line as text.

    `limits` are its limits, `acceptance` the zones in which the rule accepts, where they are narrower. `readings` are
    all of its readings in order. `verdict` is the standing in one word, in capitals where it needs a look; `why` says
    more of it, or why there is none. `uncertainty` is the expanded uncertainty with its unit.
    """

    judged: LineJudgement
    number: str
    place: tuple[str, ...]
    requirement: str
    characteristic: str
    limits: tuple[Bound, ...]
    acceptance: tuple[Bound, ...]
    unit: str
    readings: tuple[Taken, ...]
    summed: tuple[Summed, ...]
    instruments: str
    uncertainty: str
    verdict: str
    why: str

    @property
    def good(self) -> bool:
        """Whether nothing about the line needs a look."""
        return self.verdict == "accept" and not any(each.mark for each in self.readings)


def report_rows(judgement: Judgement) -> tuple[ReportRow, ...]:
    """The rows of a report, in the order of the plan."""
    return tuple(_row(each) for each in judgement.lines)


def said(value: Number) -> str:
    """A number of a line as people read it: an angle that has no short decimal in degrees and minutes."""
    text = plain(value)
    return angle_words(value) if isinstance(value, Fraction) and len(text) > _LONG else text


def value_words(outcome: Outcome) -> str:
    """What a reading came to: its value, a gauge's answer, or what was typed where neither reads."""
    reading = outcome.reading
    if reading.value is not None:
        return said(reading.value)
    return reading.answer or f"“{visible(reading.typed)}”"


def percent(probability: Decimal) -> str:
    """A probability as people say it: never rounded up to 100 % or down to nothing."""
    if _NEARLY_SURE < probability < 1:
        return "> 99.99 %"
    hundredths = probability * 100
    if _ONE < hundredths < _NEARLY_ALL:
        return f"{hundredths:.1f} %"
    if hundredths <= 0 or hundredths >= 100:
        return f"{hundredths:.0f} %"
    return "< 0.01 %" if hundredths < _FIRST else f"{hundredths:.2f} %"


def narrower(acceptance: Limits, limits: Limits) -> bool:
    """Whether the rule takes anything off the limits."""
    return acceptance.lower != limits.lower or acceptance.upper != limits.upper


def place_words(outcome: Outcome) -> str:
    """Piece and instance: `2/3`."""
    return f"{outcome.reading.piece}/{outcome.reading.instance}"


def beyond_by(outcome: Outcome) -> Number | None:
    """The bonus of a reading that lies beyond its zone as it stands on the drawing; None of any other."""
    value, bonus, most = outcome.reading.value, outcome.bonus, outcome.limits.upper
    if value is None or bonus is None or most is None:
        return None
    return bonus if Fraction(value) > Fraction(most) - Fraction(bonus) else None


def bonus_words(row: ReportRow) -> str:
    """How many readings of a row lie beyond the zone on the drawing and go by their bonus; empty where none does."""
    count = sum(beyond_by(each.outcome) is not None for each in row.readings)
    return f"{count} beyond the zone as drawn, held with the bonus of its size" if count else ""


def gravest_first(readings: Iterable[Taken]) -> list[Taken]:
    """Those that need a look: rejected ones first, so that none is hidden where not all are named."""
    order = ("reject", "undecided", "accept")
    return sorted((each for each in readings if each.mark), key=lambda each: order.index(each.outcome.verdict))


def _row(judged: LineJudgement) -> ReportRow:
    line, made = judged.line, judged.line.characteristic
    readings = tuple([_taken(each, judged.standing == "no verdict") for each in judged.outcomes])
    return ReportRow(
        judged=judged,
        number=visible(line.number),
        place=tuple(filter(None, (visible(line.zone), visible(line.view), line.class_ or ""))),
        requirement=visible(line.callout),
        characteristic=visible(line.description),
        limits=_limits(line),
        acceptance=_acceptance(judged.outcomes),
        unit=unit_shown(made.unit) if made else "",
        readings=readings,
        summed=tuple([Summed(each, said(each.least), said(each.greatest)) for each in judged.statistics]),
        instruments=_instruments(judged),
        uncertainty=_uncertainty(judged),
        verdict=STANDING_WORDS[judged.standing],
        why=_why(judged),
    )


def _limits(line: PlanLine) -> tuple[Bound, ...]:
    made = line.characteristic
    if made is not None and made.either is not None:
        return bounds_of(made.either.internal, "internal") + bounds_of(made.either.external, "external")
    return bounds_of(line.limits)


def _acceptance(outcomes: Sequence[Outcome]) -> tuple[Bound, ...]:
    """The zones of acceptance, one for each of the limits; those of a reading with a bonus are told beside it."""
    zones: dict[str, Limits] = {}
    for each in outcomes:
        if each.bonus is None and each.reading.of not in zones:
            if each.acceptance is each.limits or not narrower(each.acceptance, each.limits):
                return ()
            zones[each.reading.of] = each.acceptance
    return bounds_of(tuple(zones.values()))


def _taken(outcome: Outcome, recorded: bool) -> Taken:
    reading = outcome.reading
    value = plain(reading.value) if type(reading.value) is Decimal else value_words(outcome)
    verdict: str = "no verdict" if recorded else outcome.verdict
    mark = "" if recorded or verdict == "accept" else verdict
    if outcome.tainted or outcome.doubts:
        mark = f"{mark}, in doubt" if mark else "in doubt"
    return Taken(outcome, reading.of, value, mark, verdict)


def _instruments(judged: LineJudgement) -> str:
    names = dict.fromkeys([each.reading.instrument for each in judged.outcomes])
    return visible("; ".join(filter(None, names)))


def _uncertainty(judged: LineJudgement) -> str:
    budget = judged.budget
    return with_unit(budget.expanded, budget.unit) if budget else ""


def _why(judged: LineJudgement) -> str:
    if judged.standing == "no verdict" or judged.line.characteristic is None:
        return standing_words(judged.line) or visible(judged.why)
    return visible(judged.why) if judged.standing != "accept" else ""


def least_and_greatest(row: ReportRow) -> Iterable[tuple[str, str, str]]:
    """What of, least and greatest reading of a row; a gauge's answers are counted instead."""
    for given, least, greatest in row.summed:
        yield visible(given.of), least, greatest
    answers = [each.value for each in row.readings if each.outcome.reading.answer]
    for answer in dict.fromkeys(answers):
        yield "", "gauge", f"{answers.count(answer)} {answer}"


def limits_words(bound: Bound, unit: str) -> str:
    """One pair of limits in words: `62.000 to 62.030 mm`, `at most 12 mm`."""
    if bound.said_lower and bound.said_upper:
        return f"{bound.said_lower} to {bound.said_upper} {unit}"
    return f"at most {bound.said_upper} {unit}" if bound.said_upper else f"at least {bound.said_lower} {unit}"
