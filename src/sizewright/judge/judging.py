"""A plan judged: every reading held against its line under one decision rule, nothing dropped."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from sizewright.instruments.budget_model import Budget
from sizewright.instruments.capability import ratio_of, reaches
from sizewright.instruments.shelf import Crib
from sizewright.judge.lines import LineJudge
from sizewright.judge.lots import lot_judgements
from sizewright.judge.model import CheckReading, Judgement, LineJudgement, Reading, Rule, Unreadable
from sizewright.judge.rule import check_rule, rule_words
from sizewright.judge.sorting import sort_readings
from sizewright.judge.standing import part_standing, piece_standings, readings_words
from sizewright.judge.tools import Tools
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Limits
from sizewright.text.numbers import plain

BudgetFor = Callable[[PlanLine, str, str], Budget | None]
"""The uncertainty of a line's readings with the instrument of this name (as typed), for one of its limits."""

DoubtsOf = Callable[[PlanLine, Reading, Limits], tuple[str, ...]]
"""Questions about a reading that somebody should answer."""


def judge(
    plan: Plan,
    readings: Iterable[Reading],
    rule: Rule,
    *,
    budget_for: BudgetFor,
    checks: Sequence[CheckReading] = (),
    crib: Crib | None = None,
    unreadable: Sequence[Unreadable] = (),
    process_sd: Mapping[str, Decimal] | Decimal | None = None,
    doubts_of: DoubtsOf | None = None,
    on: date | None = None,
    sources: Sequence[str] = (),
) -> Judgement:
    """Hold `readings` against `plan` under `rule`.

    A later reading of the same piece, place and limit replaces an earlier one, which is kept as corrected; a reading
    for which the plan has no room is kept as unreadable. `budget_for` is asked once for each line, instrument and
    limit; the name is empty where a reading names no instrument. `process_sd` is the known spread of the process, for
    all lines or by line number, in the unit of the line. `on` is the day of readings that tell none, for the due dates
    of instruments. `crib` is that of the plan unless another is given; without one no instrument is called unknown.

    Raises:
        InputError: a rule that cannot be used.
    """
    check_rule(rule)
    tools = Tools(crib or (plan.crib if plan.crib.instruments else None), checks)
    by_line, homeless = sort_readings(plan, readings)
    worker = LineJudge(plan, rule, tools, budget_for, doubts_of, on)
    found = [
        worker.judge(line, by_line.get(place, ()), _spread_of(process_sd, line.number))
        for place, line in enumerate(plan.lines)
    ]
    lines = tuple(each.judgement for each in found)
    standing, why = part_standing(lines)
    return Judgement(
        plan=plan,
        rule=rule,
        rule_words=rule_words(rule),
        standing=standing,
        why=why,
        lines=lines,
        pieces=piece_standings(lines, [each.lacking for each in found]),
        instruments=tools.uses(),
        unreadable=(*unreadable, *homeless),
        remarks=_remarks(plan, lines, tools, len(unreadable) + len(homeless), simple=rule.kind == "simple"),
        sources=tuple(sources),
        lots=lot_judgements(plan, lines),
    )


def _spread_of(process_sd: Mapping[str, Decimal] | Decimal | None, number: str) -> Decimal | None:
    return process_sd.get(number) if isinstance(process_sd, Mapping) else process_sd


# ---- remarks ---------------------------------------------------------------------------------------------------------


@dataclass(slots=True)
class _Counts:
    """What is told of the readings of all lines together."""

    corrected: int = 0
    tainted: int = 0
    unnamed: int = 0
    doubted: int = 0


def _remarks(plan: Plan, lines: Sequence[LineJudgement], tools: Tools, unused: int, *, simple: bool) -> tuple[str, ...]:
    counts = _Counts()
    for line in lines:
        counts.corrected += len(line.corrected)
        for outcome in line.outcomes:
            counts.tainted += outcome.tainted != ""
            counts.unnamed += not outcome.reading.instrument
            counts.doubted += outcome.doubts != ()
    found = [
        (unused, "{} cannot be used: kept, and listed with the reason"),
        (counts.corrected, "{} replaced by a later one; the first is kept"),
        (counts.tainted, "{} taken with an instrument that failed its check: accepted ones count as undecided"),
        (counts.unnamed, "{} without the name of an instrument"),
        (counts.doubted, "{} with a question that somebody should answer"),
    ]
    remarks = [words.format(readings_words(count)) for count, words in found if count]
    remarks += _unsure(plan, lines) if simple else []
    for use in tools.uses():
        if use.overdue:
            remarks.append(f"{use.name}: past its due date: {use.overdue}")
        if use.unknown:
            remarks.append(f"{use.name}: not in the crib, so nothing is known of it")
    remarks += [
        f"several lines are numbered {number}: readings go to the first of them"
        for number, count in Counter(line.number for line in plan.lines).items()
        if count > 1
    ]
    remarks += [f"{line.line.number}: {words}" for line in lines if (words := _of_surfaces(line))]
    return tuple(remarks)


def _unsure(plan: Plan, lines: Sequence[LineJudgement]) -> list[str]:
    """The lines on which simple acceptance is less sure than it takes for granted (ASME B89.7.3.1: an N to 1 rule)."""
    asked = plan.wish.ratio
    short = []
    for line in lines:
        limits = line.line.limits
        width = limits[0].width if len(limits) == 1 else None
        if width is None or line.budget is None or not line.outcomes:
            continue
        if not reaches(width, line.budget.unrounded, asked):
            reached = ratio_of(width, line.budget.unrounded)
            assert reached is not None  # there is an uncertainty, or nothing would fall short
            short.append(f"{line.line.number} ({plain(reached)})")
    if not short:
        return []
    return [
        f"T/2U is below {plain(asked)} on: {', '.join(short)}; there a reading near its limit is less sure than simple "
        "acceptance takes for granted"
    ]


# ISO 21920-1, ISO 4288: these two rules speak of the values of one surface together.
_SURFACE_RULES = {
    "16 %": "the 16 % rule: at most 16 % of the values measured on one surface may be outside",
    "median": "the median rule: half of the values measured on one surface have to comply",
}


def _of_surfaces(line: LineJudgement) -> str:
    """What to know of a rejected surface texture whose rule speaks of several values of a surface."""
    made = line.line.characteristic
    rule = _SURFACE_RULES.get(str(made.extra.get("rule"))) if made is not None else None
    if rule is None or line.standing != "reject":
        return ""
    return f"{rule}; each value is judged by itself here, so measure that surface at more places before it is refused"
