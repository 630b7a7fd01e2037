"""What stands in front of a report: the verdict on the part, counts, and everything that needs a look."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from sizewright.judge.model import CheckReading, InstrumentUse, Judgement, Reading
from sizewright.output.front import Note, fault_words, gathered
from sizewright.output.report_rows import ReportRow, place_words
from sizewright.output.safe import one_line, visible
from sizewright.resolve.characteristic import Status

Group = tuple[str, tuple[str, ...]]  # a title, and sentences
_VERDICTS = {
    "accept": "ACCEPTED",
    "reject": "REJECTED",
    "undecided": "UNDECIDED",
    "incomplete": "INCOMPLETE",
    "no verdict": "NO VERDICT",
}
_NOT_TOLD = (Status.CONFLICT, Status.UNTOLERANCED, Status.UNREAD)
_MOST_SAID = 8


def verdict_words(judgement: Judgement) -> str:
    """The verdict on the part in one word, in capitals."""
    return _VERDICTS[judgement.standing]


def simply_good(judgement: Judgement) -> bool:
    """Whether the part is accepted and there is nothing that somebody should look at or answer.

    Reference and basic sizes, which ask for nothing, do not count against it.
    """
    return (
        judgement.standing == "accept"
        and not (judgement.unreadable or judgement.plan.faults)
        and all(lot.standing == "accept" for lot in judgement.lots)
        and not any(use.overdue or use.failed or use.unknown for use in judgement.instruments)
        and not any(check.passed is None for use in judgement.instruments for check in use.checks)
        and not any(line.missing or line.corrected for line in judgement.lines)
        and all(_settled(line.line.characteristic, line.standing) for line in judgement.lines)
        and not any(
            each.tainted or each.doubts or each.verdict != "accept"
            for line in judgement.lines
            for each in line.outcomes
        )
    )


def _settled(made: object, standing: str) -> bool:
    status = getattr(made, "status", None)
    return standing == "accept" or (standing == "no verdict" and status is not None and status not in _NOT_TOLD)


def counts(judgement: Judgement) -> tuple[tuple[str, str], ...]:
    """How many lines and readings there are, and what became of them; what is nought is left out."""
    lines: Counter[str] = Counter(line.standing for line in judgement.lines)
    outcomes: Counter[str] = Counter()
    for line in judgement.lines:
        recorded = line.standing == "no verdict"
        outcomes.update(["no verdict" if recorded else each.verdict for each in line.outcomes])
    asked, missing = sum(each.asked for each in judgement.lines), sum(each.missing for each in judgement.lines)
    corrected = sum(len(each.corrected) for each in judgement.lines)
    doubtful = sum(1 for line in judgement.lines for each in line.outcomes if each.doubts or each.tainted)
    words = {"accept": "accepted", "reject": "rejected", "undecided": "undecided", "incomplete": "incomplete",
             "no verdict": "without a verdict"}  # fmt: skip
    of_lines = [f"{lines[key]} {words[key]}" for key in words if lines[key]]
    of_readings = [f"{outcomes[key]} {words[key]}" for key in words if outcomes[key]]
    more = (("missing", missing), ("in doubt", doubtful), ("corrected", corrected))
    of_readings += [f"{count} {word}" for word, count in more if count]
    if judgement.unreadable:
        of_readings.append(f"{len(judgement.unreadable)} unreadable")
    return (
        ("lines", f"{', '.join(of_lines)} ({len(judgement.lines)} in all)" if of_lines else "none"),
        (
            "readings",
            f"{', '.join(of_readings)} ({asked - missing} of {asked} asked for)" if of_readings else "none",
        ),
    )


def piece_words(judgement: Judgement) -> str:
    """The standing of each piece, pieces of one standing together: `accepted: 1, 3; rejected: 2`."""
    found: dict[str, list[str]] = {}
    for piece, standing in judgement.pieces:
        found.setdefault(_VERDICTS[standing].lower(), []).append(str(piece))
    return "; ".join(f"{word}: {_ranges(numbers)}" for word, numbers in found.items())


def _ranges(numbers: Sequence[str]) -> str:
    """`1 to 4, 6`: long runs are said by their ends."""
    runs: list[list[int]] = []
    for number in map(int, numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)


def attention(judgement: Judgement, rows: Sequence[ReportRow]) -> tuple[Group, ...]:
    """Everything that needs a look, gravest first, in groups; empty groups are left out."""
    groups = (
        ("Rejected", tuple(_standing(rows, "REJECT"))),
        ("Undecided", tuple(_standing(rows, "UNDECIDED"))),
        ("Incomplete", tuple(_standing(rows, "INCOMPLETE"))),
        ("Lots that are not accepted", tuple(_lots(judgement, ("accept",)))),
        ("Lines without limits that should have some", tuple(_without_limits(rows))),
        ("Faults of the sheet", tuple(fault_words(fault) for fault in judgement.plan.faults)),
        ("Readings that could not be read; they are kept", tuple(_unreadable(judgement))),
        ("Readings in doubt", tuple(_doubts(rows))),
        ("Instruments to ask about", tuple(_instruments(judgement.instruments))),
    )
    return tuple(group for group in groups if group[1])


def lot_words(judgement: Judgement) -> tuple[str, ...]:
    """What samples decide on their lots, a sentence each."""
    return tuple(_lots(judgement, ()))


def _lots(judgement: Judgement, but: tuple[str, ...]) -> Iterator[str]:
    for lot in judgement.lots:
        if lot.standing not in but:
            pieces = f"; nonconforming pieces {_ranges([str(each) for each in lot.nonconforming])}"
            lines = f"{'line' if len(lot.lines) == 1 else 'lines'} {one_line(', '.join(lot.lines))}"
            yield f"{one_line(lot.of)} ({lines}): {one_line(lot.why)}{pieces if lot.nonconforming else ''}"


def _standing(rows: Iterable[ReportRow], verdict: str) -> Iterator[str]:
    for row in rows:
        if row.verdict == verdict:
            rejected, undecided = (_named(row, each) for each in ("reject", "undecided"))
            readings = f"; readings {rejected or undecided}" if rejected or undecided else ""
            also = f"; undecided {undecided}" if rejected and undecided else ""
            why = f"; {one_line(row.why)}" if row.why else ""
            yield f"{row.number}: {one_line(row.requirement)}{why}{readings}{also}"


def _named(row: ReportRow, verdict: str) -> str:
    """The readings of a row that got this verdict, the first of many by name."""
    found = [each for each in row.readings if each.outcome.verdict == verdict]
    named = [f"{place_words(each.outcome)} {_of(each.of)}{each.value}" for each in found[:_MOST_SAID]]
    more = [f"and {len(found) - _MOST_SAID} more"] if len(found) > _MOST_SAID else []
    unit = f" {row.unit}" if any(each.outcome.reading.value is not None for each in found) else ""
    return f"{', '.join([*named, *more])}{unit.rstrip()}"


def _of(of: str) -> str:
    return f"{visible(of)} " if of else ""


def _without_limits(rows: Iterable[ReportRow]) -> Iterator[str]:
    for row in rows:
        made = row.judged.line.characteristic
        if made is None or (made.status in _NOT_TOLD and row.verdict == "no verdict"):
            yield f"{row.number}: {one_line(row.requirement)}: {one_line(row.why)}"


def _unreadable(judgement: Judgement) -> Iterator[str]:
    for each in judgement.unreadable:
        yield f"{one_line(each.place)}: {one_line(each.why)}; the row says: {one_line(each.text)}"


def _doubts(rows: Iterable[ReportRow]) -> Iterator[str]:
    tainted: list[tuple[str, str]] = []
    for row in rows:
        for each in row.readings:
            outcome = each.outcome
            if outcome.tainted and (row.number, one_line(outcome.tainted)) not in tainted[-1:]:
                tainted.append((row.number, one_line(outcome.tainted)))
            for doubt in outcome.doubts:
                yield f"{row.number}, {place_words(outcome)} {each.value}: {one_line(doubt)}"
    for note in gathered(tainted):
        yield f"{'line' if len(note.numbers) == 1 else 'lines'} {note.sentence()}"


def _instruments(uses: Iterable[InstrumentUse]) -> Iterator[str]:
    for use in uses:
        says = [one_line(text) for text in (use.overdue, use.failed) if text]
        if use.unknown:
            says.append("not in the crib: nothing is known of its errors")
        says += [_unread_check(check) for check in use.checks if check.passed is None]
        if says:
            serial = f", serial {one_line(use.serial)}" if use.serial else ""
            lines = f"{'line' if len(use.lines) == 1 else 'lines'} {one_line(', '.join(use.lines))}"
            where = lines if use.lines else "no reading names it"
            yield f"{one_line(use.name) or 'no name'}{serial}: {'; '.join(says)} ({where})"


def _unread_check(check: CheckReading) -> str:
    at = f" at {one_line(check.point)}" if check.point else ""
    return f"its check{at} decides nothing: {one_line(check.typed)}"


def report_remarks(judgement: Judgement) -> tuple[str, ...]:
    """Remarks of the judging, then of the lines, each text once."""
    lines = [
        (each.line.number, f"remark on the sheet: {each.line.remark}") for each in judgement.lines if each.line.remark
    ]
    lines += [
        (each.line.number, f"{remark.level}: {remark.text}" if remark.level == "warning" else remark.text)
        for each in judgement.lines
        for remark in each.line.remarks
    ]
    notes: tuple[Note, ...] = gathered((visible(number), visible(text)) for number, text in lines)
    return (*map(visible, judgement.remarks), *(note.sentence() for note in notes))


def replaced(judgement: Judgement) -> Iterator[tuple[str, Reading]]:
    """Readings that later ones replaced, with the number of their line."""
    for line in judgement.lines:
        for reading in line.corrected:
            yield visible(line.line.number), reading
