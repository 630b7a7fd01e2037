"""Judged plans for tests of the report: readings made up by a rule, held against their limits, exactly."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction
from functools import cache
from pathlib import Path

from sizewright.instruments.budget_model import Budget, Term
from sizewright.instruments.crib import default_crib
from sizewright.judge.model import (
    Capability,
    CheckReading,
    InstrumentUse,
    Judgement,
    LineJudgement,
    Outcome,
    Reading,
    Risk,
    Rule,
    Standing,
    Statistics,
    Unreadable,
    Verdict,
)
from sizewright.plan.build import build_plan
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Limits, Status
from sizewright.sheet.read import read_sheet
from sizewright.text.numbers import Number, plain

from .plans import ACTING, INJECTIONS, hostile

D = Decimal
SAMPLES = Path(__file__).resolve().parents[2] / "samples"
SIMPLE = Rule("simple")
GUARDED = Rule("guarded", factor=D(1))
SIMPLE_WORDS = (
    "Simple acceptance (JCGM 106:2012, 8.2): a reading within its limits, or equal to one, is accepted; any other is "
    "rejected. The uncertainty of measurement is stated and not taken off.",
)
GUARDED_WORDS = (
    "Guarded acceptance (ISO 14253-1:2013): each limit is moved inwards by the expanded uncertainty (k = 2).",
    "A reading within the acceptance zone is accepted; one outside the limits by more than the guard band is rejected; "
    "one between is undecided.",
)
Typed = Callable[[PlanLine, int, int, Limits], str | None]  # line, piece, instance, limits: what is typed
_CENT, _NO = D("0.01"), D(0)


@cache
def sample_plan(name: str, pieces: int | None = None) -> Plan:
    """The plan of a sheet that ships as a sample, with the crib that ships."""
    plan = build_plan(read_sheet(SAMPLES / f"{name}.sheet"), default_crib())
    if pieces is None:
        return plan
    return replace(plan, pieces=pieces, lines=tuple(line._replace(pieces=pieces) for line in plan.lines))


def inside(line: PlanLine, piece: int, instance: int, limits: Limits) -> str:
    """A value within the limits, another for each place."""
    return at(limits, 20 + (7 * piece + 13 * instance + 11 * line.balloon) % 61)


def at(limits: Limits, percent: int) -> str:
    """The value so many hundredths of the way from the lower to the upper limit; of one limit, on its good side."""
    lower, upper = limits.lower, limits.upper
    if lower is None and upper is not None:
        lower = upper - abs(upper) / 10 - _CENT if isinstance(upper, Decimal) else upper - 1
    if upper is None and lower is not None:
        upper = lower + abs(lower) / 10 + _CENT if isinstance(lower, Decimal) else lower + 1
    assert lower is not None
    assert upper is not None
    if isinstance(lower, Decimal) and isinstance(upper, Decimal):
        return plain(lower + (upper - lower) * percent / 100)
    return plain(Fraction(lower) + (Fraction(upper) - Fraction(lower)) * Fraction(percent, 100))


def exact(typed: str, limits: Limits) -> Number:
    return Fraction(typed) if isinstance(limits.lower or limits.upper, Fraction) else D(typed)


@cache
def budget_of(unit: str, of: str, instrument: str, expanded: str = "0.004") -> Budget:
    """A budget of four terms that adds up; the figures are invented."""
    half = D(expanded) / 2
    terms = (
        Term("permissible error of the instrument", half * D("1.4"), unit, "rectangular", half * D("0.81"), D(1),
             half * D("0.81"), None, "crib"),
        Term("resolution", half / 4, unit, "rectangular", half * D("0.144"), D(1), half * D("0.144"), None, "crib"),
        Term("repeatability", half * D("0.5"), unit, "normal", half * D("0.5"), D(1), half * D("0.5"), D(9),
             "kind of instrument; common practice, no source"),
        Term("temperature of the part", D("2"), "K", "arcsine", D("1.414"), D("0.0000115"), half * D("0.2"), None,
             "title block: 20 °C ±2 K"),
    )  # fmt: skip
    return Budget(unit, of, instrument, terms, half, 61, D("2.00"), D(0), D(expanded), D(expanded))


def judged(
    plan: Plan, typed: Typed = inside, rule: Rule = SIMPLE, expanded: str = "0.004", words: Sequence[str] = ()
) -> Judgement:
    """`plan` with a reading in every place it asks for, as `typed` says (None: missing)."""
    lines = tuple(_line(line, typed, rule, expanded) for line in plan.lines)
    standing = _worst([each.standing for each in lines])
    return Judgement(
        plan=plan,
        rule=rule,
        rule_words=tuple(words) or (SIMPLE_WORDS if rule.kind == "simple" else GUARDED_WORDS),
        standing=standing,
        why=_why(standing, lines),
        lines=lines,
        pieces=tuple(
            (piece, _worst([each.verdict for line in lines for each in line.outcomes if each.reading.piece == piece]))
            for piece in range(1, plan.pieces + 1)
        ),
        instruments=tuple(_uses(lines)),
        sources=("readings.csv",),
    )


def with_troubles(given: Judgement) -> Judgement:
    """The same with everything there can be to say around lines."""
    first = next(each for each in given.lines if each.outcomes)
    old = first.outcomes[0].reading._replace(typed="1.0", value=D("1.0"), by="B. Filer", note="read upside down")
    outcomes = list(first.outcomes)
    outcomes[0] = outcomes[0]._replace(
        tainted="the caliper failed its check before use",
        doubts=("ten times the nominal size: is the decimal mark right?",),
    )
    lines = tuple(
        each._replace(outcomes=tuple(outcomes), corrected=(old,)) if each is first else each for each in given.lines
    )
    use = InstrumentUse(
        "digital caliper 150", "DC-7", "2025-01-31", ("1", "3"),
        checks=(
            CheckReading("digital caliper 150", "DC-7", "zero", D("-0.01"), D("0.01"), "mm", "0.00", True, "A. Turner"),
            CheckReading("digital caliper 150", "DC-7", "50", D("49.97"), D("50.03"), "mm", "50.06", False, "B. Filer"),
        ),
        overdue="due 2025-01-31, used 2026-11-20", failed="point 50 read 50.06, outside 49.97 to 50.03",
    )  # fmt: skip
    return given._replace(
        lines=lines,
        instruments=(use, *given.instruments, InstrumentUse("grandfather's rule", "", "", ("2.1",), unknown=True)),
        unreadable=(Unreadable("readings.csv, row 9", "3; two and a half", "“two and a half” is no number"),),
        remarks=("The part stood two hours at 20 °C before it was measured.",),
    )


def _line(line: PlanLine, typed: Typed, rule: Rule, expanded: str) -> LineJudgement:
    made, tool = line.characteristic, line.choice.instrument if line.choice else None
    if made is None:
        return LineJudgement(line, "no verdict", f"not read: {line.unread}")
    if not line.limits or made.status is not Status.TOLERANCED:
        why = "undecided until the side is known" if made.either else "it has no limits of its own"
        return LineJudgement(line, "undecided" if made.either else "no verdict", why)
    name, gauge = tool.name if tool else "", tool is not None and tool.kind.attribute
    outcomes: list[Outcome] = []
    missing = 0
    for piece in range(1, line.pieces + 1):
        for instance in range(1, line.readings_per_piece + 1):
            for limits in (Limits("", None, None),) if gauge else line.limits:
                text = "accept" if gauge else typed(line, piece, instance, limits)
                if text is None:
                    missing += 1
                    continue
                of = limits.of if len(line.limits) > 1 else ""
                reading = Reading(
                    line.number, piece, instance, of, text, None if gauge else exact(text, limits),
                    "accept" if gauge else None, made.unit, name, "A. Turner", "2026-11-20 09:30", "", "readings.csv",
                )  # fmt: skip
                outcomes.append(outcome_of(reading, limits, rule, D(expanded)))
    standing: Standing = "incomplete" if missing else _worst([each.verdict for each in outcomes])
    bad = sum(each.verdict == "reject" for each in outcomes)
    why = {"incomplete": f"{missing} readings are missing", "reject": f"{bad} readings are rejected"}.get(standing, "")
    budget = None if gauge else budget_of(made.unit, "size", name, expanded)
    return LineJudgement(
        line, standing, why, tuple(outcomes), (), len(outcomes) + missing, missing, budget, tuple(_statistics(outcomes))
    )


def outcome_of(
    reading: Reading, limits: Limits, rule: Rule = SIMPLE, expanded: Decimal = _NO, bonus: Number | None = None
) -> Outcome:
    """A reading held against `limits`."""
    if reading.value is None:
        return Outcome(reading, limits, limits, reading.answer or "undecided", "the gauge says so")
    guard = expanded * (rule.factor or 1) if rule.kind == "guarded" else D(0)
    zone = _moved(limits, guard)
    wider = _moved(limits, -guard)
    verdict: Verdict = "accept" if zone.holds(reading.value) else "undecided"
    if not wider.holds(reading.value) or (not guard and verdict != "accept"):
        verdict = "reject"
    return Outcome(reading, limits, zone, verdict, "" if verdict == "accept" else "outside", D("0.9973"), bonus)


def _moved(limits: Limits, guard: Decimal) -> Limits:
    if not guard or isinstance(limits.lower or limits.upper, Fraction):
        return limits
    lower, upper = limits.lower, limits.upper
    assert not isinstance(lower, Fraction)
    assert not isinstance(upper, Fraction)
    return Limits(limits.of, None if lower is None else lower + guard, None if upper is None else upper - guard)


def _statistics(outcomes: Sequence[Outcome]) -> Iterator[Statistics]:
    for of in dict.fromkeys(each.reading.of for each in outcomes):
        values = [each.reading.value for each in outcomes if each.reading.of == of and each.reading.value is not None]
        if not values:
            continue
        numbers = [D(each.numerator) / each.denominator if isinstance(each, Fraction) else each for each in values]
        step = min(numbers, key=lambda each: each.as_tuple().exponent)
        mean = (sum(numbers, D(0)) / len(numbers)).quantize(step / 10 if step else D("0.0001"), ROUND_HALF_EVEN)
        capability = Capability(D("1.41"), D("1.22"), D("0.71"), D("1.73"), "five readings: no more than a first sight")
        enough = len(values) >= 5
        yield Statistics(
            of, len(values), min(values), max(values), mean, D("0.0031") if len(values) > 1 else None,
            capability if enough else None, Risk(D("0.0012"), D("0.031"), D("0.0013")) if enough else None,
        )  # fmt: skip


def _worst(found: Sequence[Standing | Verdict]) -> Standing:
    order: tuple[Standing, ...] = ("reject", "undecided", "incomplete", "accept")
    return next((each for each in order if each in found), "no verdict")


def _why(standing: Standing, lines: Sequence[LineJudgement]) -> str:
    numbers = ", ".join(each.line.number for each in lines if each.standing == standing)
    return "every line with limits is accepted" if standing == "accept" else f"{standing}: {numbers}"


def _uses(lines: Sequence[LineJudgement]) -> Iterator[InstrumentUse]:
    used: dict[str, list[str]] = {}
    for each in lines:
        for name in dict.fromkeys(outcome.reading.instrument for outcome in each.outcomes):
            used.setdefault(name, []).append(each.line.number)
    for count, (name, numbers) in enumerate(used.items(), start=1):
        check = CheckReading(name, f"S-{count:02}", "zero", D("-0.01"), D("0.01"), "mm", "0.00", True, "A. Turner")
        yield InstrumentUse(name, f"S-{count:02}", "2027-03-01", tuple(numbers), (check,))


def hostile_judgement() -> Judgement:
    """Typed texts that want to be more than text, in every field that holds text."""
    texts = (*INJECTIONS, ACTING)
    given = with_troubles(judged(hostile(), lambda line, *_: "1.5" if line.balloon % 2 else "2.5"))
    lines = tuple(_hostile_line(each, text) for each, text in zip(given.lines, texts, strict=True))
    uses = tuple(
        InstrumentUse(
            text, text, text, (text,), (CheckReading(text, text, text, None, None, text, text, None, text, text),),
            text, text, True,
        )
        for text in texts
    )  # fmt: skip
    return given._replace(
        lines=lines,
        why=ACTING,
        rule_words=texts,
        instruments=uses,
        unreadable=tuple(Unreadable(text, text, text) for text in texts),
        remarks=texts,
        sources=texts,
    )


def _hostile_line(judged_line: LineJudgement, text: str) -> LineJudgement:
    typed = {"typed": text, "instrument": text, "by": text, "when": text, "note": text, "place": text}
    outcomes = tuple(
        each._replace(reading=each.reading._replace(**typed), why=text, tainted=text, doubts=(text,))  # type: ignore[arg-type]
        for each in judged_line.outcomes
    )
    unread = outcomes[0]._replace(reading=outcomes[0].reading._replace(value=None), verdict="undecided")
    old = tuple(each.reading for each in outcomes)
    budget = budget_of("mm", text, text)
    terms = tuple(term._replace(name=text, source=text) for term in budget.terms)
    statistics = tuple(
        replace(each, capability=Capability(None, D(1), D(0), D(2), text)) for each in judged_line.statistics
    )
    return judged_line._replace(
        outcomes=(*outcomes, unread), why=text, corrected=old, statistics=statistics,
        budget=budget._replace(terms=terms, remarks=(text,)),
    )  # fmt: skip
