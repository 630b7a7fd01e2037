"""What judging knows and finds: readings, checks of instruments, the rule, and the verdict on each. Data only.

What is made for every reading or every line is a named tuple: it costs a third of what a frozen dataclass does.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, NamedTuple

from sizewright.instruments.budget_model import Budget
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Limits
from sizewright.text.numbers import Number

Verdict = Literal["accept", "reject", "undecided"]
Standing = Literal["accept", "reject", "undecided", "incomplete", "no verdict"]


class Reading(NamedTuple):
    """One reading as it was taken.

    `typed` is the value as typed; `value` is the same in the unit of the line, exact: None where a gauge answered
    (`answer`) or where nothing reads. `line` is the number of a plan line (`2`, `2.1`), `of` names which of its limits
    (empty: the only one). `place` says where it stands: file and row.
    """

    line: str
    piece: int
    instance: int
    of: str
    typed: str
    value: Number | None
    answer: Literal["accept", "reject"] | None
    unit: str
    instrument: str = ""
    by: str = ""
    when: str = ""
    note: str = ""
    place: str = ""


class CheckReading(NamedTuple):
    """One point of an instrument's check before use, as it was taken: what was shown at `point` (`zero`, `10.3`).
    `passed` is None where neither a value nor an answer reads."""

    instrument: str
    serial: str
    point: str
    lower: Number | None
    upper: Number | None
    unit: str
    typed: str
    passed: bool | None
    by: str = ""
    when: str = ""
    place: str = ""


class Unreadable(NamedTuple):
    """A row of readings that cannot be used: where it stands, what it says, and why it cannot. It is kept."""

    place: str
    text: str
    why: str


class Outcome(NamedTuple):
    """One reading held against its limits.

    `limits` are those it was held against, a bonus included; `acceptance` is the zone in which the rule accepts;
    `conformance` is the probability (0 to 1) that the true value lies within the limits, given this reading alone;
    None where the uncertainty is not known. `doubts` are questions about the reading that somebody should answer.
    """

    reading: Reading
    limits: Limits
    acceptance: Limits
    verdict: Verdict
    why: str
    conformance: Decimal | None = None
    bonus: Number | None = None
    tainted: str = ""
    doubts: tuple[str, ...] = ()


class Capability(NamedTuple):
    """Process capability from the readings of one line, with the 95 % interval of Cpk. `cp` needs both limits."""

    cp: Decimal | None
    cpk: Decimal
    cpk_lower: Decimal
    cpk_upper: Decimal
    meaning: str


class Risk(NamedTuple):
    """Risks over the batch, as probabilities: that an item is out of its limits and accepted (`consumer`), or within
    them and not accepted (`producer`); `out_among_accepted` is the first among accepted items alone; `process` says
    where the spread of the process comes from."""

    consumer: Decimal
    producer: Decimal
    out_among_accepted: Decimal
    process: str = ""


@dataclass(frozen=True, slots=True)
class Statistics:
    """What the readings of one pair of limits come to; `spread` is their standard deviation (None of one reading)."""

    of: str
    count: int
    least: Number
    greatest: Number
    mean: Decimal
    spread: Decimal | None
    capability: Capability | None = None
    risk: Risk | None = None


class LineJudgement(NamedTuple):
    """One line of the plan with its outcomes in the order piece, instance, limit. `corrected` are readings that later
    ones replaced; `asked` and `missing` count readings."""

    line: PlanLine
    standing: Standing
    why: str
    outcomes: tuple[Outcome, ...] = ()
    corrected: tuple[Reading, ...] = ()
    asked: int = 0
    missing: int = 0
    budget: Budget | None = None
    statistics: tuple[Statistics, ...] = ()


class Rule(NamedTuple):
    """The decision rule.

    A `simple` one accepts within the limits as they are. A `guarded` one moves each limit inwards by a guard band:
    `factor` times the expanded uncertainty where a factor is given (ISO 14253-1:2013, JCGM 106), else as wide as a
    probability of conformance of `conformance` needs (ISO 14253-1:2017). `binary` leaves no zone between: what is not
    accepted is rejected.
    """

    kind: Literal["simple", "guarded"]
    factor: Decimal | None = None
    conformance: Decimal = Decimal("0.95")
    binary: bool = False


class InstrumentUse(NamedTuple):
    """An instrument as it was used: named in the readings, found in the crib or not; `overdue` and `failed` say in
    words what taints its readings."""

    name: str
    serial: str
    due: str
    lines: tuple[str, ...]
    checks: tuple[CheckReading, ...] = ()
    overdue: str = ""
    failed: str = ""
    unknown: bool = False


class LotJudgement(NamedTuple):
    """What a sample decides on its lot, for the lines of one class: `nonconforming` and `undecided` are pieces.

    The lot is accepted on `ac` nonconforming pieces or fewer, rejected on `re` or more; a nonconforming piece that was
    found is rejected in any case.
    """

    of: str
    lines: tuple[str, ...]
    asked: int
    nonconforming: tuple[int, ...]
    undecided: tuple[int, ...]
    ac: int
    re: int
    standing: Standing
    why: str


class Judgement(NamedTuple):
    """A plan judged. `rule_words` state the rule by name, edition and guard band. `pieces` tells the standing of each
    piece that has readings; `standing` is that of what was measured, `lots` what samples decide on their lots."""

    plan: Plan
    rule: Rule
    rule_words: tuple[str, ...]
    standing: Standing
    why: str
    lines: tuple[LineJudgement, ...]
    pieces: tuple[tuple[int, Standing], ...] = ()
    instruments: tuple[InstrumentUse, ...] = ()
    unreadable: tuple[Unreadable, ...] = ()
    remarks: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    lots: tuple[LotJudgement, ...] = ()
