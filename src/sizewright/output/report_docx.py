"""A judged plan as a DOCX report: the verdict and what needs a look in front, then the lines, then the annex.

A part that is simply good has everything that is signed for on its first page.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from sizewright.judge.model import Judgement, Outcome
from sizewright.output import docx_styles as styles
from sizewright.output.docx_bars import LEGEND, WIDTH, bar_xml
from sizewright.output.docx_body import HEADING, Body, file_of
from sizewright.output.docx_frame import add_signatures, add_title_block, framed_document
from sizewright.output.docx_tables import Cell, Drawn, Line, table_xml
from sizewright.output.docx_xml import paragraph_of
from sizewright.output.front import heading
from sizewright.output.report_annex import add_annex, add_grid
from sizewright.output.report_front import (
    attention,
    counts,
    piece_words,
    report_remarks,
    simply_good,
    verdict_words,
)
from sizewright.output.report_rows import ReportRow, Taken, place_words, report_rows, said
from sizewright.output.report_summary import add_summary
from sizewright.output.report_tables import instruments_grid
from sizewright.output.safe import visible

MOST_SHOWN = 12  # more readings than this are told by their least and greatest; the annex has them all
_MOST_BAD = 8
_NONE = "–"
_HEADS = (
    "no., place",
    "requirement",
    "limits of",
    "lower",
    "upper",
    "unit",
    "readings",
    "picture",
    "instrument, U",
    "verdict",
)
_RIGHT = {"lower", "upper"}
_FULL_WIDTH = 273.0
_NUMBER_LEAST, _DIGIT = 16.0, 1.8
_READINGS_LEGEND = (
    "Readings are marked piece/instance: 2/3 is instance 3 on piece 2. A reading equal to a limit complies. "
    "U is the expanded uncertainty (95 %)."
)


def report_docx(judgement: Judgement, paper: str = "A4", summary_only: bool = False) -> bytes:
    """The report as the bytes of a DOCX file on `paper`, A4 or Letter; with `summary_only` its one page alone.

    Raises:
        InputError: the paper is neither.
    """
    plan = judgement.plan
    document, width = framed_document(plan, "Inspection report", paper)
    body, rows = Body(), report_rows(judgement)
    body.paragraph("Title", f"Inspection report: {heading(plan)}")
    if summary_only or simply_good(judgement):
        add_summary(body, judgement, rows, width, paper, alone=summary_only)
        if not summary_only:
            body.paragraph(styles.ANNEX, "Verdict on each line")
            _lines(body, rows, width)
            _instruments(body, judgement, width)
            _said(body, judgement)
    else:
        add_title_block(body, plan, width)
        _verdict(body, judgement)
        _attention(body, judgement, rows)
        body.items("Decision rule", [visible(text) for text in judgement.rule_words])
        body.paragraph(HEADING, "Verdict on each line")
        _lines(body, rows, width)
        _instruments(body, judgement, width)
        _said(body, judgement)
        add_signatures(body, width)
    if not summary_only:
        add_annex(body, judgement, rows, width)
    return file_of(document, body)


def _verdict(body: Body, judgement: Judgement) -> None:
    body.paragraph(HEADING, "Summary")
    body.paragraph(styles.VERDICT, f"{verdict_words(judgement)}")
    if judgement.why:
        body.paragraph(styles.WARNING, visible(judgement.why))
    pieces = piece_words(judgement)
    entries = [*counts(judgement), *([("pieces", pieces)] if pieces else [])]
    entries += [("readings from", ", ".join(map(visible, judgement.sources)))] if judgement.sources else []
    body.items("", [f"{word}: {text}" for word, text in entries])


def _attention(body: Body, judgement: Judgement, rows: Sequence[ReportRow]) -> None:
    groups = attention(judgement, rows)
    if groups:
        body.paragraph(HEADING, "What needs a look")
    for title, texts in groups:
        body.paragraph(styles.WARNING, title)
        body.items("", texts)


def _said(body: Body, judgement: Judgement) -> None:
    body.items("Remarks", report_remarks(judgement))
    body.items("Cautions", [visible(caution) for caution in judgement.plan.cautions])


def _instruments(body: Body, judgement: Judgement, width: float) -> None:
    if judgement.instruments:
        body.paragraph(HEADING, "Instruments used")
        add_grid(body, instruments_grid(judgement.instruments), width)


def _lines(body: Body, rows: Sequence[ReportRow], width: float) -> None:
    """The verdict on every line, with its readings and their picture."""
    body.paragraph(styles.LEGEND, f"{_READINGS_LEGEND} {LEGEND}")
    head: list[Line] = [(styles.NUMBER_HEAD if text in _RIGHT else styles.HEAD, text) for text in _HEADS]
    bars = _Bars()
    cells = (_cells(row, bars) for row in rows)
    body.add(table_xml(_widths(rows, width), head, cells, "Verdict on each line, with its readings"))


def _widths(rows: Sequence[ReportRow], width: float) -> list[float]:
    """Widths of the columns in mm: numbers get what the longest needs, the requirement what is left."""
    bounds = [bound for row in rows for bound in (*row.limits, *row.acceptance)]
    longest = max((len(text) for bound in bounds for text in (bound.said_lower, bound.said_upper)), default=0)
    limit = max(_NUMBER_LEAST, 3.5 + _DIGIT * longest)
    scale = width / _FULL_WIDTH
    place, of, unit, readings, tool, verdict = (each * scale for each in (20.0, 24.0, 11.0, 52.0, 31.0, 25.0))
    picture = WIDTH + 4
    left = width - place - of - 2 * limit - unit - readings - picture - tool - verdict
    requirement = max(26.0, left)
    readings += left - requirement
    return [place, requirement, of, limit, limit, unit, readings, picture, tool, verdict]


class _Bars:
    """Counts the pictures: each has a number of its own in the document."""

    def __init__(self) -> None:
        self._count = 0

    def of(self, row: ReportRow) -> Iterator[Drawn]:
        """The pictures of a row, one for each of its limits that has readings."""
        groups: dict[str, list[Outcome]] = {}
        for each in row.judged.outcomes:
            if each.reading.value is not None and not (each.limits.lower is None and each.limits.upper is None):
                groups.setdefault(each.reading.of, []).append(each)
        for of, outcomes in groups.items():
            self._count += 1
            words = picture_words(row, of, outcomes)
            yield Drawn(paragraph_of(styles.CELL, bar_xml(outcomes, words, self._count)))


def picture_words(row: ReportRow, of: str, outcomes: Sequence[Outcome]) -> str:
    """The alternative text of a picture: limits, acceptance zone, and where the readings lie."""
    limits, zone = outcomes[0].limits, outcomes[0].acceptance
    values = [each.reading.value for each in outcomes if each.reading.value is not None]
    bad = sum(each.verdict != "accept" for each in outcomes)
    name = f"{visible(of)}: " if of else ""
    accepted = "" if zone[1:] == limits[1:] else f"; accepted {_between(zone.lower, zone.upper)}"
    where = f"from {said(min(values))} to {said(max(values))}" if len(values) > 1 else f"at {said(values[0])}"
    readings = f"{len(values)} readings" if len(values) > 1 else "1 reading"
    told = f"{bad} not accepted" if bad else "accepted" if len(values) == 1 else "all accepted"
    return f"{name}limits {_between(limits.lower, limits.upper)} {row.unit}{accepted}; {readings} {where}, {told}"


def _between(lower: object, upper: object) -> str:
    low, high = (None if each is None else said(each) for each in (lower, upper))  # type: ignore[arg-type]
    if low is None or high is None:
        return f"at most {high}" if low is None else f"at least {low}"
    return f"{low} to {high}"


def _cells(row: ReportRow, bars: _Bars) -> list[Cell]:
    lines = list(_limit_lines(row))
    return [
        [(styles.STRONG, row.number), *[(styles.CELL, text) for text in row.place]],
        [(styles.STRONG, row.requirement), *[(styles.CELL, text) for text in (row.characteristic,) if text]],
        [(styles.CELL, line[0]) for line in lines],
        [(styles.NUMBER, line[1]) for line in lines],
        [(styles.NUMBER, line[2]) for line in lines],
        [(styles.CELL, row.unit)],
        [(styles.CELL, text) for text in _readings(row)],
        list(bars.of(row)),
        [(styles.CELL, text) for text in (row.instruments, row.uncertainty and f"U {row.uncertainty}") if text],
        [(styles.STRONG, row.verdict), *[(styles.CELL, text) for text in (row.why,) if text]],
    ]


def _limit_lines(row: ReportRow) -> Iterable[tuple[str, str, str]]:
    """What, lower and upper of every limit and zone, one text line each so that the columns stay level."""
    several = len(row.limits) > 1
    for bound in row.limits:
        yield bound.label, bound.said_lower or _NONE, bound.said_upper or _NONE
    for zone in row.acceptance:
        yield f"accepted{f', {zone.of}' if several else ''}", zone.said_lower or _NONE, zone.said_upper or _NONE
    if not row.limits:
        yield "", _NONE, _NONE


def _readings(row: ReportRow) -> Iterator[str]:
    """The readings of a row, those of one piece and limit on a line; very many by their ends."""
    if not row.readings:
        return
    if len(row.readings) > MOST_SHOWN:
        yield from _ends(row)
        return
    lines: dict[tuple[str, int], list[str]] = {}
    alone = row.judged.line.readings_per_piece == 1
    for each in row.readings:
        reading = each.outcome.reading
        lines.setdefault((each.of, 0 if alone else reading.piece), []).append(_marked(each))
    for (of, _), texts in lines.items():
        yield f"{f'{visible(of)}: ' if of else ''}{',  '.join(texts)}"


def _marked(taken: Taken) -> str:
    """`2/3 6.58`, and what is to say about it; blanks that cannot break keep the two together."""
    mark = f" ({taken.mark})" if taken.mark else ""
    return f"{place_words(taken.outcome)}\u00a0{taken.value}{mark}"


def _ends(row: ReportRow) -> Iterator[str]:
    yield f"{len(row.readings)} readings, all in the annex"
    for each in row.judged.statistics:
        of = f"{visible(each.of)}: " if each.of else ""
        yield f"{of}least {said(each.least)}, greatest {said(each.greatest)}"
    bad = [each for each in row.readings if each.mark]
    if bad:
        more = f",  and {len(bad) - _MOST_BAD} more" if len(bad) > _MOST_BAD else ""
        yield f"{',  '.join(map(_marked, bad[:_MOST_BAD]))}{more}"
