"""What a sample decides on its lot: nonconforming pieces of each class held against Ac and Re (ISO 2859-1)."""

from __future__ import annotations

from collections.abc import Sequence

from sizewright.judge.model import LineJudgement, LotJudgement, Standing
from sizewright.plan.model import Plan
from sizewright.plan.sampling_model import ClassSample
from sizewright.standards.sampling import SinglePlan


def lot_judgements(plan: Plan, lines: Sequence[LineJudgement]) -> tuple[LotJudgement, ...]:
    """The decision on the lot for each class that has an acceptance number; none where every piece stands for itself.

    A piece with one or more lines of the class out of limits is one nonconforming piece of that class.
    """
    by_number = {judged.line.number: judged for judged in lines}
    return tuple(
        _lot(sample, sample.plan, [by_number[number] for number in sample.lines if number in by_number])
        for sample in plan.sampling.classes
        if sample.plan is not None
    )


def _lot(sample: ClassSample, plan: SinglePlan, lines: Sequence[LineJudgement]) -> LotJudgement:
    rejected: set[int] = set()
    open_: set[int] = set()
    for judged in lines:
        for outcome in judged.outcomes:
            if outcome.verdict == "reject":
                rejected.add(outcome.reading.piece)
            elif outcome.verdict == "undecided":
                open_.add(outcome.reading.piece)
    open_ -= rejected
    standing, why = _decision(plan, len(rejected), len(open_), missing=any(judged.missing for judged in lines))
    return LotJudgement(
        of=sample.of,
        lines=sample.lines,
        asked=sample.pieces,
        nonconforming=tuple(sorted(rejected)),
        undecided=tuple(sorted(open_)),
        ac=plan.ac,
        re=plan.re,
        standing=standing,
        why=why,
    )


def _decision(plan: SinglePlan, rejected: int, open_: int, *, missing: bool) -> tuple[Standing, str]:
    """What is undecided may go either way: it decides only where that makes no difference."""
    found = f"{rejected} nonconforming of {plan.n}"
    if rejected >= plan.re:
        return "reject", f"lot rejected: {found}, Re {plan.re}"
    if missing:
        return "incomplete", f"{found} so far, with readings missing; Ac {plan.ac}, Re {plan.re}"
    if rejected + open_ > plan.ac:
        return "undecided", f"{found} and {open_} undecided; Ac {plan.ac}, Re {plan.re}"
    also = f" and {open_} undecided" if open_ else ""
    return "accept", f"lot accepted: {found}{also}, Ac {plan.ac}; nonconforming pieces stay rejected"
