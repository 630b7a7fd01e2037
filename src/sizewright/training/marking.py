"""Marking a filled form: a point for each question, each on its own, so that one mistake costs one point.

What was worked out from an earlier answer is held against that answer where the trainee can be right in himself: the
verdict goes by his own readings and the true limits; limits that are right as numbers stay right under a wrong unit.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from sizewright.instruments.amounts import to_base
from sizewright.judge.model import Reading
from sizewright.judge.values import ReadingError, gauge_answer, read_value
from sizewright.plan.model import Plan
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import shown, unit_shown, with_unit
from sizewright.sheet.near import did_you_mean, quoted
from sizewright.text.numbers import Number, as_decimal
from sizewright.training.allowance import Allowance, Allowed
from sizewright.training.answers import Asked, Exercise
from sizewright.training.form import Form, FormCell, FormRow
from sizewright.training.naming import Named, named
from sizewright.training.skills import suggested
from sizewright.training.typed_limits import Which, is_none, right_bound, unit_of

Question = Literal["lower limit", "upper limit", "unit", "instrument", "resolution", "reading", "verdict", "reason"]
QUESTIONS: tuple[Question, ...] = (
    "lower limit", "upper limit", "unit", "instrument", "resolution", "reading", "verdict", "reason",
)  # fmt: skip
_NO_VERDICT = frozenset(("no verdict", "none", "n/a", "na", "-", "–", "no"))
_UNDECIDED = frozenset(("undecided", "open", "cannot say", "not decided"))
_WORDS = re.compile(r"[^\W\d_]{2,}")
_UNITS_ASKED = ("mm", "inch", "deg", "um", "uin")
_LIMITS: tuple[tuple[Question, Which], ...] = (("lower limit", "lower"), ("upper limit", "upper"))
_SHOWN_PLACES = 6

References = Mapping[tuple[str, int, int, str], Reading]


class Mark(NamedTuple):
    """One question marked: where the answer stands, what it says, whether it is right, what is, and why."""

    line: str
    of: str
    question: Question
    address: str
    given: str
    right: bool
    expected: str
    why: str = ""

    @property
    def blank(self) -> bool:
        """Whether nothing was answered."""
        return not self.given


class Paper(NamedTuple):
    """The marks of one trainee; `remarks` are what else is to be known of the form."""

    trainee: str
    source: str
    marks: tuple[Mark, ...]
    remarks: tuple[str, ...] = ()

    @property
    def points(self) -> int:
        """The right answers."""
        return sum(mark.right for mark in self.marks)

    @property
    def possible(self) -> int:
        """The questions."""
        return len(self.marks)


def mark_form(
    form: Form, plan: Plan, exercises: Sequence[Exercise], references: References, allowance: Allowance
) -> Paper:
    """The marks of a filled form; never raises, whatever stands in its cells.

    Readings without a reference are not marked. `exercises` are the lines that were asked.
    """
    rows, remarks = _sorted_rows(form, exercises)
    allowance = allowance._replace(wish=plan.wish)
    marks: list[Mark] = []
    for exercise in exercises:
        worker = _LineMarker(exercise, plan, rows, references, allowance, both="other lower limit" in form.heads)
        marks += worker.marks()
        remarks += worker.remarks
    return Paper(form.trainee or form.source.stem, form.source.name, tuple(marks), (*form.remarks, *remarks))


def _sorted_rows(form: Form, exercises: Sequence[Exercise]) -> tuple[dict[tuple[str, str], FormRow], list[str]]:
    """The rows by line and what is bounded; what else stands in the form is told."""
    known = {(each.line.number, _key(asked.label)) for each in exercises for asked in each.asked}
    found: dict[tuple[str, str], FormRow] = {}
    remarks: list[str] = []
    for row in form.rows:
        key = (row.line, _key(row.of))
        if key not in known:
            said = " ".join(filter(None, (quoted(row.line), row.of)))
            remarks.append(f"row {row.address}: line {said} is not asked, and not marked")
        elif key in found:
            remarks.append(f"row {row.address}: line {row.line} stands there twice; the first is marked")
        else:
            found[key] = row
    missing = [f"line {line} {of}".rstrip() for line, of in sorted(known) if (line, of) not in found]
    remarks += [f"{each} is missing: its answers count as blank" for each in missing]
    return found, remarks


def _key(text: str) -> str:
    return " ".join(text.casefold().split())


class _LineMarker:
    """Marks one line of one form."""

    def __init__(
        self,
        exercise: Exercise,
        plan: Plan,
        rows: Mapping[tuple[str, str], FormRow],
        references: References,
        allowance: Allowance,
        *,
        both: bool,
    ) -> None:
        self.remarks: list[str] = []
        self._exercise = exercise
        self._plan = plan
        number = exercise.line.number
        empty = FormRow(number, "", "–", {}, {})
        self._rows = [(asked, rows.get((number, _key(asked.label)), empty)) for asked in exercise.asked]
        self._first = self._rows[0][1]
        self._references = references
        self._allowance = allowance
        self._allowances: dict[str, Allowed] = {}
        self._both = both

    def marks(self) -> list[Mark]:
        """The marks of the line, in the order of the questions."""
        unit = self._unit()
        marks = [mark for asked, row in self._rows for mark in self._limits(asked, row, unit)]
        if self._exercise.decides:
            if self._exercise.made.unit in _UNITS_ASKED:
                marks.append(self._unit_mark(unit))
            marks += [self._instrument(), self._resolution(), *self._readings(unit)]
        marks += [self._verdict(unit), self._reason()]
        return marks

    # ---- limits --------------------------------------------------------------------------------------------------

    def _unit(self) -> str:
        """The unit that the trainee wrote, as one of ours; empty where it is none that fits the line."""
        return unit_of(self._first.cell("unit").text, self._exercise.made.unit)

    def _unit_mark(self, unit: str) -> Mark:
        cell = self._first.cell("unit")
        asked = self._exercise.asked[0]
        expected = " or ".join(unit_shown(each) for each in (asked.unit, asked.other_unit) if each)
        right = not cell.problem and bool(unit) and self._fits(unit)
        return self._made("", "unit", cell, right, expected, "not the unit of these limits")

    def _fits(self, unit: str) -> bool:
        """Whether the unit belongs to the limits typed: another than the one asked goes only with limits in it."""
        if unit == self._exercise.asked[0].unit:
            return True
        return any(
            getattr(asked.true, which) is not None
            and right_bound(row.cell(head).text, asked, which, unit, strictly=True)
            for asked, row in self._rows
            for head, which in _LIMITS
        )

    def _limits(self, asked: Asked, row: FormRow, unit: str) -> list[Mark]:
        marks = []
        for head, which in _LIMITS:
            cell, place = row.cell(head), 0 if which == "lower" else 1
            right = not cell.problem and right_bound(cell.text, asked, which, unit)
            told = _with_unit(shown(asked.limits)[place], asked.unit)
            marks.append(self._made(asked.label, head, cell, right, told, self._why_no_limit(cell)))
            if self._both and asked.other is not None:
                cell = row.cell(f"other {head}")
                right = not cell.problem and right_bound(cell.text, asked, which, asked.other_unit, strictly=True)
                told = _with_unit(shown(asked.other)[place], asked.other_unit)
                marks.append(self._made(asked.label, head, cell, right, told, self._why_no_limit(cell)))
        return marks

    def _why_no_limit(self, cell: FormCell) -> str:
        if is_none(cell.text):
            return "there is a limit"
        try:
            read_value(cell.text, self._exercise.made.unit)
        except ReadingError as error:
            return f"does not read: {error}"
        return "another number"

    # ---- instrument ----------------------------------------------------------------------------------------------

    def _instrument(self) -> Mark:
        cell, exercise = self._first.cell("instrument"), self._exercise
        expected = " or ".join(tool.name for tool in suggested(exercise.line))
        if cell.problem or cell.blank:
            return self._made("", "instrument", cell, False, expected, "")
        if not exercise.suitable:
            right = is_none(cell.text)
            return self._made("", "instrument", cell, right, "none", "nothing in the crib reaches it")
        found = named(cell.text, self._plan.crib.instruments)
        suitable = {id(one.instrument) for one in exercise.suitable}
        fitting = [one for one in found.instruments if id(one) in suitable]
        loose = sorted({one.kind.name for one in found.instruments})
        if fitting and len(loose) > 1:
            self.remarks.append(
                f"{cell.address}: {quoted(cell.text)} may be any of {', '.join(loose)}; taken as {fitting[0].kind.name}"
            )
        return self._made("", "instrument", cell, bool(fitting), expected, _why_not_tool(found))

    def _resolution(self) -> Mark:
        cell = self._first.cell("resolution")
        asked, unit = self._exercise.resolution, self._exercise.made.unit
        expected = "none" if asked is None else f"{with_unit(asked, unit)} or finer"
        if cell.problem or cell.blank:
            return self._made("", "resolution", cell, False, expected, "")
        if is_none(cell.text):
            right = asked is None or any(one.limit_gauge for one in self._exercise.suitable)
            return self._made("", "resolution", cell, right, expected, "a figure is asked for")
        try:
            value = read_value(cell.text, unit).value
        except ReadingError as error:
            return self._made("", "resolution", cell, False, expected, f"does not read: {error}")
        right = value is not None and self._resolution_fits(value)
        why = "too coarse, or finer than anything suitable reads"
        return self._made("", "resolution", cell, right, expected, why)

    def _resolution_fits(self, value: Number) -> bool:
        """From the finest that something suitable reads to the coarsest that will do; or that of something suitable."""
        exercise = self._exercise
        exact = Fraction(to_base(value, exercise.made.unit))
        reads = [Fraction(one.resolution) for one in exercise.suitable if one.resolution is not None]
        if any(exact == each for each in reads):
            return True
        if exercise.resolution is None:
            return False
        most = Fraction(to_base(exercise.resolution, exercise.made.unit))
        return min([*reads, most]) <= exact <= most

    # ---- readings and verdict ------------------------------------------------------------------------------------

    def _readings(self, unit: str) -> list[Mark]:
        found = (
            (of, piece, place, self._reference(of, piece, place))
            for of in self._exercise.reads
            for piece, place in self._exercise.slots
        )
        return [self._reading(of, piece, place, known, unit) for of, piece, place, known in found if known is not None]

    def _reference(self, of: str, piece: int, place: int) -> Reading | None:
        return self._references.get((self._exercise.line.number, piece, place, of))

    def _reading(self, of: str, piece: int, place: int, reference: Reading, unit: str) -> Mark:
        asked, cell = self._reading_cell(of, piece, place)
        name, own_unit = f"{of} {piece}/{place}".strip(), self._exercise.made.unit
        expected = reference.answer or ("" if reference.value is None else with_unit(reference.value, own_unit))
        if cell.problem or cell.blank:
            return self._made(name, "reading", cell, False, expected, "")
        try:
            value, answer = self._value(cell, unit)
        except ReadingError as error:
            return self._made(name, "reading", cell, False, expected, f"does not read: {error}")
        if reference.value is None or value is None:
            own = answer or verdict_of(value, asked.true)
            held = reference.answer or verdict_of(reference.value, asked.true)
            return self._made(name, "reading", cell, own == held, expected, "it says otherwise")
        allowed = self._allowed(reference.instrument)
        off = abs(Fraction(value) - Fraction(reference.value))
        expected += f" ± {with_unit(_short(Fraction(allowed.amount)), own_unit)}, {allowed.words}"
        right = off <= Fraction(allowed.amount)
        return self._made(name, "reading", cell, right, expected, f"off by {with_unit(_short(off), own_unit)}")

    def _allowed(self, reference: str) -> Allowed:
        """What readings of the line may differ from a reference with this instrument."""
        if reference not in self._allowances:
            own = self._first.cell("instrument").text
            self._allowances[reference] = self._allowance.for_line(self._exercise, reference, own)
        return self._allowances[reference]

    def _reading_cell(self, of: str, piece: int, place: int) -> tuple[Asked, FormCell]:
        """The cell of a reading; of one for the whole line, the first cell that is filled in any of its rows."""
        rows = [(asked, row) for asked, row in self._rows if not of or asked.of == of]
        cells = [(asked, row.readings.get((piece, place)) or FormCell("", row.address)) for asked, row in rows]
        return next((pair for pair in cells if not pair[1].blank), cells[0])

    def _value(self, cell: FormCell, unit: str) -> tuple[Number | None, str | None]:
        """The value in the unit of the line, or a gauge's answer; a bare number is in the unit of the limits typed."""
        own = self._exercise.made.unit
        asked = self._exercise.asked[0].unit
        found = read_value(cell.text, own, "" if own == "deg" else unit if unit and self._fits(unit) else asked)
        return found.value, found.answer

    def _verdict(self, unit: str) -> Mark:
        cell = self._first.cell("verdict")
        expected, because = self._right_verdict(unit)
        given = verdict_word(cell.text)
        why = because if given else "no verdict: accept, reject, undecided and no verdict are"
        return self._made("", "verdict", cell, not cell.problem and given == expected, expected, why)

    def _right_verdict(self, unit: str) -> tuple[str, str]:
        """The verdict that follows from the trainee's own readings; from the reference where none of them reads."""
        exercise = self._exercise
        if not exercise.decides:
            return "no verdict", "the line has no limits of its own"
        if exercise.untold:
            return "undecided", "nothing tells which side is meant"
        slots = [(of, *slot) for of in exercise.reads for slot in exercise.slots]
        taken = [verdict for slot in slots if (verdict := self._held(*self._reading_cell(*slot), unit))]
        if taken:
            return _of_all(taken), "by the readings written here and the true limits"
        known = [(self._reading_cell(*slot)[0], self._reference(*slot)) for slot in slots]
        held = [each.answer or verdict_of(each.value, asked.true) for asked, each in known if each is not None]
        if any(held):
            return _of_all([each for each in held if each]), "no reading written here reads, so by the reference"
        return "undecided", "there are no readings"

    def _held(self, asked: Asked, cell: FormCell, unit: str) -> str:
        if cell.problem or cell.blank:
            return ""
        try:
            value, answer = self._value(cell, unit)
        except ReadingError:
            return ""
        return answer or verdict_of(value, asked.true)

    def _reason(self) -> Mark:
        cell = self._first.cell("why")
        right = not cell.problem and _WORDS.search(cell.text) is not None
        return self._made("", "reason", cell, right, "a reason", "there are no words in it")

    def _made(self, of: str, question: Question, cell: FormCell, right: bool, expected: str, why: str) -> Mark:
        """The mark of a cell; a blank or damaged one says so instead of `why`."""
        said = "" if right else cell.problem or ("blank" if cell.blank else why)
        return Mark(self._exercise.line.number, of, question, cell.address, cell.text, right, expected, said)


def verdict_word(text: str) -> str:
    """The verdict that `text` says, in the trade's words; empty where it says none."""
    word = " ".join(text.casefold().rstrip(".").split())
    if word in _NO_VERDICT:
        return "no verdict"
    if word in _UNDECIDED:
        return "undecided"
    return gauge_answer(word) or ""


def verdict_of(value: Number | None, limits: Limits) -> str:
    """Simple acceptance: within the limits, or equal to one; empty where there is nothing to hold."""
    if value is None or (limits.lower is None and limits.upper is None):
        return ""
    exact = Fraction(value)
    low = limits.lower is None or exact >= Fraction(limits.lower)
    high = limits.upper is None or exact <= Fraction(limits.upper)
    return "accept" if low and high else "reject"


def _of_all(verdicts: Sequence[str]) -> str:
    return "reject" if "reject" in verdicts else "accept"


def _with_unit(text: str | None, unit: str) -> str:
    return "none" if text is None else with_unit(text, unit)


def _short(value: Fraction) -> Number:
    """`value` as it is shown: six places at most, as a distance need not be told finer."""
    shown_as = as_decimal(round(value, _SHOWN_PLACES))
    return shown_as.normalize() if shown_as else shown_as


def _why_not_tool(found: Named) -> str:
    if found.instruments:
        return "does not reach it, does not take its size, or is not good enough"
    if found.kinds:
        return "the crib has none of these, or none of this range"
    hint = did_you_mean(list(found.near))
    return f"no instrument that is known here{'; ' + hint if hint else ''}"
