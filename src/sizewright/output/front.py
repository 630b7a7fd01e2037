"""What stands around a plan's lines: title block, instruments needed, remarks, faults."""

from collections.abc import Iterable
from typing import NamedTuple

from sizewright.instruments.amounts import spoken
from sizewright.output.rows import Row
from sizewright.output.safe import one_line, visible
from sizewright.plan.checks import Check, checks_of
from sizewright.plan.model import Plan
from sizewright.sheet.model import Fault
from sizewright.text.numbers import plain

TITLE_ORDER = (
    "part", "drawing", "revision", "unit", "manner", "general", "material", "temperature", "lot", "pieces", "sampling",
    "made by", "date", "remark",
)  # fmt: skip


class InstrumentRow(NamedTuple):
    """One instrument of the crib that the plan needs, as text.

    `lines` are the balloons it serves, `field_check` is its check before use in general, `points` are the readings to
    be taken for it, each with its limits.
    """

    name: str
    range: str
    resolution: str
    owned: str
    place: str
    serial: str
    due: str
    lines: str
    field_check: str
    points: tuple[str, ...] = ()

    def sentence(self) -> str:
        """All of it but the check before use, on one line."""
        reads, serial, due = (
            text and f"{word} {text}"
            for word, text in (("reads", self.resolution), ("serial", self.serial), ("due", self.due))
        )
        parts = (self.name, self.range, reads, self.place, serial, due, f"for {self.lines}")
        return "; ".join(part for part in parts if part)


class SampleRow(NamedTuple):
    """One sample of the plan, as text: for which lines, how many pieces, when the lot is accepted and rejected."""

    of: str
    lines: str
    pieces: str
    accept: str
    reject: str
    words: str

    def sentence(self) -> str:
        """All of it on one line."""
        decision = f", accept the lot on {self.accept} nonconforming, reject it on {self.reject}" if self.accept else ""
        return f"{self.of} ({self.lines}): {self.pieces} pieces{decision}; {self.words}"


class Note(NamedTuple):
    """One thing to know, with the lines it concerns: the same text on many lines is said once."""

    numbers: tuple[str, ...]
    text: str

    def sentence(self) -> str:
        """The numbers of the lines, then the text."""
        return f"{', '.join(self.numbers)}: {self.text}"


def title_block(plan: Plan) -> tuple[tuple[str, str], ...]:
    """The title block's entries in order, empty ones left out; unit and pieces are always among them."""
    entries = {"unit": plan.unit, "pieces": str(plan.pieces)} | {w: v for w, v in plan.title.items() if v.strip()}
    known = [word for word in TITLE_ORDER if word in entries]
    rest = [word for word in entries if word not in TITLE_ORDER]
    return tuple((one_line(word), visible(entries[word])) for word in [*known, *rest])


def sample_rows(plan: Plan) -> tuple[SampleRow, ...]:
    """The samples of the plan, one for each class that has its own."""
    return tuple(
        SampleRow(
            of=each.of,
            lines=visible(", ".join(each.lines)),
            pieces=str(each.pieces),
            accept="" if each.plan is None else "0" if each.plan.ac == 0 else f"{each.plan.ac} or fewer",
            reject="" if each.plan is None else f"{each.plan.re} or more",
            words=visible(each.words),
        )
        for each in plan.sampling.classes
    )


def sampling_sentences(plan: Plan) -> tuple[str, ...]:
    """How many pieces are checked and what decides on the lot, a sentence each; nothing where pieces are as typed."""
    return (*(row.sentence() for row in sample_rows(plan)), *map(visible, plan.sampling.notes))


def heading(plan: Plan) -> str:
    """The plan's name: part, drawing and revision, as far as they are known, on one line."""
    title = plan.title
    parts = [title.get("part", ""), title.get("drawing", "")]
    if title.get("revision"):
        parts.append(f"revision {title['revision']}")
    return one_line(", ".join(filter(None, parts))) or "unnamed part"


def instrument_rows(plan: Plan) -> tuple[InstrumentRow, ...]:
    """The instruments needed, each with the lines it is for."""
    return tuple(_instrument_row(check) for check in checks_of(plan))


def _instrument_row(check: Check) -> InstrumentRow:
    instrument, unit = check.instrument, check.instrument.unit
    return InstrumentRow(
        name=visible(instrument.name),
        range=f"{plain(instrument.lower)} to {spoken(instrument.upper, unit)}",
        resolution="" if instrument.resolution is None else spoken(instrument.resolution, unit),
        owned=str(instrument.owned),
        place=visible(instrument.place),
        serial=visible(instrument.serial),
        due=instrument.due.isoformat() if instrument.due else "",
        lines=visible(", ".join(check.lines)),
        field_check=visible(instrument.kind.field_check),
        points=tuple(f"{visible(point.point)}: {point.limits()}" for point in check.points if point.lower is not None),
    )


def remarks(rows: tuple[Row, ...]) -> tuple[Note, ...]:
    """What there is to say about lines, each text once, warnings first."""
    notes = gathered((row.number, text) for row in rows for text in row.notes)
    return tuple(sorted(notes, key=lambda note: not note.text.startswith("warning: ")))


def methods(rows: tuple[Row, ...]) -> tuple[Note, ...]:
    """How lines are measured where the instrument alone does not say it, each text once."""
    return gathered((row.number, row.method) for row in rows if row.method)


def gathered(pairs: Iterable[tuple[str, str]]) -> tuple[Note, ...]:
    """Texts, each once, with the numbers of the lines that it was given for."""
    found: dict[str, list[str]] = {}
    for number, text in pairs:
        found.setdefault(text, []).append(number)
    return tuple(Note(tuple(numbers), text) for text, numbers in found.items())


def unread_words(rows: tuple[Row, ...]) -> str:
    """One sentence that names the lines that were not read, or nothing."""
    numbers = [row.number for row in rows if row.standing.startswith("NOT READ")]
    return f"This plan is incomplete. Not read: {', '.join(numbers)}." if numbers else ""


def fault_words(fault: Fault) -> str:
    """A fault of the sheet in one sentence: `line 7, column 9: unknown class (H7 would read)`."""
    hint = f" ({one_line(fault.hint)})" if fault.hint else ""
    text = f"; the line says: {one_line(fault.text.strip())}" if fault.text.strip() else ""
    return f"line {fault.line}, column {fault.column}: {one_line(fault.message)}{hint}{text}"
