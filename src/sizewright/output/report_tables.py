"""The tables of a report as text: readings, statistics, budgets, instruments, corrected readings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sizewright.instruments.budget_model import Budget
from sizewright.judge.model import CheckReading, InstrumentUse, Judgement
from sizewright.output.grids import Field, Grid
from sizewright.output.report_front import replaced
from sizewright.output.report_rows import ReportRow, Summed, Taken, percent, said
from sizewright.output.safe import one_line, visible
from sizewright.resolve.describe import unit_shown, with_unit
from sizewright.text.numbers import plain

READINGS = (
    Field("no.", 14), Field("piece / instance", 15), Field("limits of", 26), Field("as typed", 22, True),
    Field("value", 24, True), Field("unit", 11), Field("probability within limits", 22, True), Field("verdict", 20),
    Field("instrument", 46), Field("by", 24), Field("when", 28), Field("notes", 58),
)  # fmt: skip
STATISTICS = (
    Field("no.", 14), Field("of", 28), Field("unit", 10), Field("count", 15, True), Field("least", 21, True),
    Field("greatest", 21, True), Field("mean", 22, True), Field("standard deviation", 20, True),
    Field("Cp", 12, True), Field("Cpk", 12, True), Field("Cpk, 95 % interval", 25, True), Field("meaning", 44),
    Field("process spread", 28), Field("consumer’s risk", 24, True), Field("producer’s risk", 24, True),
    Field("out among accepted", 20, True),
)  # fmt: skip
INSTRUMENTS = (
    Field("instrument", 55), Field("serial", 24), Field("due", 22), Field("for lines", 50),
    Field("check before use", 82), Field("standing", 40),
)  # fmt: skip
CORRECTED = (
    Field("no.", 14), Field("piece / instance", 18), Field("limits of", 28), Field("as typed", 26, True),
    Field("unit", 12), Field("instrument", 46), Field("by", 26), Field("when", 30), Field("note", 40),
    Field("where it stands", 33),
)  # fmt: skip


def readings_grid(rows: Iterable[ReportRow]) -> Grid:
    """Every reading that was judged, as it was taken."""
    made = [_reading(row.number, row.unit, each) for row in rows for each in row.readings]
    return Grid("Readings, one row each", READINGS, made)


def _reading(number: str, unit: str, taken: Taken) -> tuple[str, ...]:
    outcome = taken.outcome
    reading = outcome.reading
    texts = (
        number,
        f"{reading.piece}/{reading.instance}",
        taken.of,
        "" if reading.typed == taken.value else reading.typed,
        taken.value,
        unit,
        "" if outcome.conformance is None else percent(outcome.conformance),
        taken.verdict,
        reading.instrument,
        reading.by,
        reading.when,
        reading_notes(taken),
    )
    return texts if "".join(texts).isprintable() else tuple(map(visible, texts))


def reading_notes(taken: Taken) -> str:
    """What there is to say about a reading beside its value, most serious first."""
    outcome = taken.outcome
    if outcome.verdict == "accept" and outcome.bonus is None and not (outcome.tainted or outcome.doubts):
        return visible(outcome.reading.note)
    parts = [visible(outcome.why)] if outcome.verdict != "accept" or outcome.bonus is not None else []
    parts += [f"tainted: {visible(outcome.tainted)}"] if outcome.tainted else []
    parts += [visible(doubt) for doubt in outcome.doubts]
    if outcome.bonus is not None:
        limits = outcome.limits
        bounds = [f"{word} {said(b)}" for word, b in (("from", limits.lower), ("to", limits.upper)) if b is not None]
        parts.append(f"with a bonus of {said(outcome.bonus)}: {' '.join(bounds)}")
    return "; ".join(filter(None, [*parts, visible(outcome.reading.note)]))


def statistics_grid(rows: Iterable[ReportRow]) -> Grid:
    """What the readings of each line come to."""
    made = [_statistics(row, each) for row in rows for each in row.summed]
    return Grid("Statistics, one row for each pair of limits", STATISTICS, made)


def _statistics(row: ReportRow, summed: Summed) -> tuple[str, ...]:
    given = summed.given
    capability, risk = given.capability, given.risk
    interval = f"{plain(capability.cpk_lower)} to {plain(capability.cpk_upper)}" if capability else ""
    return (
        row.number,
        visible(given.of),
        row.unit,
        str(given.count),
        summed.least,
        summed.greatest,
        plain(given.mean),
        "" if given.spread is None else plain(given.spread),
        plain(capability.cp) if capability and capability.cp is not None else "",
        plain(capability.cpk) if capability else "",
        interval,
        visible(capability.meaning) if capability else "",
        visible(risk.process) if risk else "",
        *((percent(risk.consumer), percent(risk.producer), percent(risk.out_among_accepted)) if risk else ("", "", "")),
    )


def budgets_of(rows: Iterable[ReportRow]) -> list[tuple[Budget, list[str]]]:
    """The budgets, each once, with the numbers of the lines it serves; in the order of the lines."""
    seen: dict[int, list[str]] = {}
    found: dict[tuple[object, ...], list[tuple[Budget, list[str]]]] = {}
    order: list[tuple[Budget, list[str]]] = []
    for row in rows:
        budget = row.judged.budget
        if budget is None:
            continue
        numbers = seen.get(id(budget))
        if numbers is None:
            alike = found.setdefault((budget.instrument, budget.unit, budget.of, budget.combined), [])
            numbers = next((numbers for each, numbers in alike if each == budget), None)
            if numbers is None:
                numbers = []
                alike.append((budget, numbers))
                order.append((budget, numbers))
            seen[id(budget)] = numbers
        numbers.append(row.number)
    return order


def instruments_grid(uses: Iterable[InstrumentUse]) -> Grid:
    """The instruments as they were used."""
    return Grid("Instruments used, one row each", INSTRUMENTS, [_use(each) for each in uses])


def _use(use: InstrumentUse) -> tuple[str, ...]:
    says = [text for text in (visible(use.overdue), visible(use.failed)) if text]
    words = [f"OVERDUE: {says[0]}"] if use.overdue else []
    words += [f"FAILED: {visible(use.failed)}"] if use.failed else []
    words += ["NOT IN THE CRIB"] if use.unknown else []
    return (
        visible(use.name) or "not named",
        visible(use.serial),
        visible(use.due),
        visible(", ".join(use.lines)),
        "\n".join(check_words(each) for each in use.checks) or "none recorded",
        "\n".join(words) or "in order",
    )


def check_words(check: CheckReading) -> str:
    """One point of a check before use: `zero: 0.00 mm, passed (-0.01 to 0.01)`."""
    result = {True: "passed", False: "FAILED", None: "DOES NOT READ"}[check.passed]
    bounds = [f"{word} {said(each)}" for word, each in (("from", check.lower), ("to", check.upper)) if each is not None]
    asked = f" ({' '.join(bounds)} asked)" if bounds else ""
    by = f", by {one_line(check.by)}" if check.by else ""
    when = f", {one_line(check.when)}" if check.when else ""
    shown = one_line(check.typed)
    if bounds and shown[-1:].isdigit():  # not where somebody looked, nor where a unit was typed
        shown = with_unit(shown, one_line(check.unit))
    return f"{one_line(check.point)}: {shown}, {result}{asked}{by}{when}"


def corrected_grid(judgement: Judgement) -> Grid:
    """Readings that later ones replaced: kept, and not judged."""
    return Grid("Corrected readings, one row each", CORRECTED, list(_corrected(judgement)))


def _corrected(judgement: Judgement) -> Iterator[tuple[str, ...]]:
    for number, reading in replaced(judgement):
        texts = (reading.typed, unit_shown(reading.unit), reading.instrument, reading.by, reading.when, reading.note)
        place = f"{reading.piece}/{reading.instance}"
        yield (number, place, visible(reading.of), *map(visible, texts), visible(reading.place))
