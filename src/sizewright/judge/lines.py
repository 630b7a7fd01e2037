"""One line of a plan judged: its readings put in their places, held against its limits, counted."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from sizewright.instruments.budget_model import Budget
from sizewright.judge.asked import (
    NO_LIMITS,
    Place,
    asked_of_a_piece,
    from_zero,
    in_order,
    latest_of,
    missing_of,
)
from sizewright.judge.bonus import Bonus, SizeReading, bonuses_of, judged_with_bonus
from sizewright.judge.model import LineJudgement, Outcome, Reading, Rule, Statistics
from sizewright.judge.series import countable, statistics_of
from sizewright.judge.standing import line_standing
from sizewright.judge.tools import Tool, Tools
from sizewright.judge.verdict import Held, by_gauge, hold, is_number, judged, undecided
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Limits, Status
from sizewright.resolve.describe import status_words
from sizewright.resolve.gauging import gaugings
from sizewright.text.numbers import plain


class Judged(NamedTuple):
    """A line judged, with the pieces that have places without a reading."""

    judgement: LineJudgement
    lacking: frozenset[int]


class LineJudge:
    """Judges the lines of one plan, in their order: a frame's bonus needs the size before it."""

    def __init__(
        self,
        plan: Plan,
        rule: Rule,
        tools: Tools,
        budget_for: Callable[[PlanLine, str, str], Budget | None],
        doubts_of: Callable[[PlanLine, Reading, Limits], tuple[str, ...]] | None,
        on: date | None,
    ) -> None:
        """`on` is the day of readings that tell none."""
        self._plan = plan
        self._rule = rule
        self._tools = tools
        self._budget_for = budget_for
        self._doubts_of = doubts_of
        self._on = on
        self._bonuses = bonuses_of(plan)
        self._wanted = {id(bonus.size) for bonus in self._bonuses.values() if bonus.size is not None}
        self._sizes: dict[int, dict[tuple[int, int], SizeReading]] = {}

    def judge(self, line: PlanLine, readings: Sequence[Reading], process_sd: Decimal | None) -> Judged:
        """`line` with its readings, in the order in which they were taken."""
        latest, corrected = latest_of(line, readings)
        work = _Work(line, self._rule, self._budget_for, from_zero(line), self._bonuses.get(id(line)))
        outcomes = [self._outcome(work, place, latest[place]) for place in in_order(line, latest)]
        if id(line) in self._wanted:
            self._sizes[id(line)] = _sizes(outcomes, work)
        missing, lacking = missing_of(line, latest, line.pieces)
        standing, why = line_standing(line, outcomes, missing)
        judgement = LineJudgement(
            line=line,
            standing=standing,
            why=why,
            outcomes=tuple(outcomes),
            corrected=corrected,
            asked=asked_of_a_piece(line) * line.pieces,
            missing=missing,
            budget=work.widest(None),
            statistics=_statistics(line, outcomes, work, process_sd),
        )
        return Judged(judgement, lacking)

    def _outcome(self, work: _Work, place: Place, reading: Reading) -> Outcome:
        limits = work.limits(place[2])
        if reading.answer is not None and reading.value is None:
            made = work.answered(reading, limits)
        elif limits is None:
            made = undecided(reading, work.why_no_limits(), NO_LIMITS)
        elif work.bonus is not None:
            size = self._sizes.get(id(work.bonus.size), {}).get(place[:2])
            made = judged_with_bonus(reading, work.held(limits, reading.instrument), work.bonus, size)
        else:
            made = judged(reading, work.held(limits, reading.instrument))
        return self._questioned(made, work, reading)

    def _tool(self, line: PlanLine, name: str) -> Tool | None:
        """The instrument of this name; without a name that of the plan, which then does not count as used."""
        if name:
            tool = self._tools.of(name)
            tool.lines[line.number] = None
            return tool
        chosen = line.choice.instrument if line.choice is not None else None
        return self._tools.of(chosen.name, chosen.serial) if chosen is not None else None

    def _questioned(self, made: Outcome, work: _Work, reading: Reading) -> Outcome:
        """The outcome with what taints it and what somebody should answer."""
        tainted, doubts = made.tainted, made.doubts
        if reading.instrument not in work.suspects:
            tool = self._tool(work.line, reading.instrument)
            work.suspects[reading.instrument] = tool if tool is not None and tool.suspect else None
        tool = work.suspects[reading.instrument]
        if tool is None and made.verdict == "accept" and not tainted:
            return made  # accepted only within its limits, and a value within them raises no doubts
        if tool is not None:
            failed = self._tools.failed(tool, reading.when)
            if failed:
                named = "" if reading.instrument else "no instrument is named; that of the plan, "
                said = f"{named}{tool.name} {failed}"
                tainted = f"{said}; {tainted}" if tainted else said
            overdue = self._tools.overdue(tool, reading.when, self._on) if reading.instrument else ""
            if overdue:
                doubts = (*doubts, f"{tool.name}: past its due date: {overdue}")
        if self._doubts_of is not None and made.verdict != "accept" and reading.value is not None:
            doubts = (*doubts, *self._doubts_of(work.line, reading, made.limits))
        if not tainted:
            return made if doubts == made.doubts else made._replace(doubts=doubts)
        if made.verdict != "accept":
            return made._replace(doubts=doubts, tainted=tainted)
        why = f"would be accepted ({made.why}), but {tainted}"
        return made._replace(verdict="undecided", why=why, doubts=doubts, tainted=tainted)


class _Work:
    """What is made once for a line: its limits by name, what readings are held against, the gauge's words.

    `suspects` has what may be wrong with the instruments named, None where nothing is.
    """

    def __init__(
        self,
        line: PlanLine,
        rule: Rule,
        budget_for: Callable[[PlanLine, str, str], Budget | None],
        zero: bool,
        bonus: Bonus | None,
    ) -> None:
        self.line = line
        self.zero = zero
        self.bonus = bonus
        self.suspects: dict[str, Tool | None] = {}
        self._rule = rule
        self._budget_for = budget_for
        self._limits = {limits.of: limits for limits in line.limits}
        self._held: dict[tuple[str, str], Held] = {}
        self._wear: str | None = None

    def limits(self, of: str) -> Limits | None:
        return self._limits.get(of)

    def held(self, limits: Limits, instrument: str) -> Held:
        key = (limits.of, instrument)
        found = self._held.get(key)
        if found is None:
            made = self.line.characteristic
            assert made is not None
            budget = self._budget_for(self.line, instrument, limits.of)
            if budget is not None and budget.unit != made.unit:
                budget = None  # of another unit it says nothing here
            found = self._held[key] = hold(self._rule, limits, budget, made.unit, made.kind, from_zero=self.zero)
        return found

    def widest(self, of: str | None) -> Budget | None:
        """The budget with the greatest expanded uncertainty of those used, for one pair of limits or for all."""
        used = self.used(of)
        return None if used is None else used.budget

    def used(self, of: str | None) -> Held | None:
        """What most readings were held against is not told: the worst that any was."""
        worst, most = None, None
        for (name, _), held in self._held.items():
            if held.budget is not None and (of is None or name == of) and (most is None or held.budget.expanded > most):
                worst, most = held, held.budget.expanded
        return worst

    def answered(self, reading: Reading, limits: Limits | None) -> Outcome:
        why = self.why_no_limits() if limits is None and not self._limits else ""
        if why:
            return undecided(reading, why, NO_LIMITS)
        if self._wear is None:
            self._wear = _wear(self.line)
        return by_gauge(reading, limits or NO_LIMITS, self._wear)

    def why_no_limits(self) -> str:
        made = self.line.characteristic
        if made is None or made.status is Status.UNREAD:
            return "the callout is not read: recorded, no verdict"
        if made.either is not None:
            return "nothing tells whether it is internal or external: undecided until the side is known"
        if self._limits:
            return f"it does not tell which of its limits is meant: {', '.join(self._limits)}"
        return status_words(made) or "no limits: recorded, no verdict"


# ---- bonus, gauges, statistics ---------------------------------------------------------------------------------------


def _sizes(outcomes: Sequence[Outcome], work: _Work) -> dict[tuple[int, int], SizeReading]:
    """The readings of a size that a bonus goes by, by piece and place."""
    found: dict[tuple[int, int], SizeReading] = {}
    for outcome in outcomes:
        value = outcome.reading.value
        if value is not None and is_number(value):
            budget = work.held(outcome.limits, outcome.reading.instrument).budget
            found[outcome.reading.piece, outcome.reading.instance] = SizeReading(value, budget, outcome.tainted)
    return found


def _wear(line: PlanLine) -> str:
    """What a worn gauge of the ISO system may do, where the line has a tolerance class that has gauges."""
    made = line.characteristic
    if made is None or made.class_ is None:
        return ""
    for gauging in gaugings(made):
        gauge = gauging.gauge
        if gauge is not None and gauge.wear_may_pass_limit and gauge.go.worn is not None:
            return (
                f"a GO gauge of the {gauging.system.split(',')[0]} may be worn to {plain(gauge.go.worn)} and then "
                "accept a part just out of its limit"
            )
    return ""


def _statistics(
    line: PlanLine, outcomes: Sequence[Outcome], work: _Work, process_sd: Decimal | None
) -> tuple[Statistics, ...]:
    made = []
    readings = [outcome.reading for outcome in outcomes]
    alone = len(line.limits) < 2
    for limits in line.limits or (NO_LIMITS,):
        values = [
            reading.value
            for reading in readings
            if (alone or reading.of == limits.of) and reading.value is not None and countable(reading.value)
        ]
        if not values:
            continue
        used = work.used(limits.of)
        made.append(
            statistics_of(
                limits,
                values,
                zones=None if used is None else used.zones,
                budget=None if used is None else used.budget,
                process_sd=process_sd,
                from_zero=work.zero,
                fixed=work.bonus is None,
            )
        )
    return tuple(made)
