"""A judged plan as an XLSX workbook: lines, readings with live verdicts, budgets, instruments, notes."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator, Sequence
from decimal import ROUND_HALF_UP, Context, Decimal

from openpyxl import Workbook
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from sizewright.judge.model import Judgement
from sizewright.output.budgets import TERMS, budget_name, budget_sum, terms_grid
from sizewright.output.columns import Column
from sizewright.output.front import heading, title_block
from sizewright.output.grids import Grid
from sizewright.output.report_columns import (
    LINE_COLUMNS,
    LIVE,
    READING_COLUMNS,
    ReadingRow,
    exact_value,
    reading_rows,
)
from sizewright.output.report_front import (
    attention,
    counts,
    lot_words,
    piece_words,
    replaced,
    report_remarks,
    verdict_words,
)
from sizewright.output.report_rows import ReportRow, report_rows
from sizewright.output.report_tables import budgets_of, instruments_grid
from sizewright.output.safe import one_line, visible
from sizewright.output.xlsx import set_properties
from sizewright.output.xlsx_cells import HEAD, PAPERS, TEXT, add_rows, add_styles, keeps, set_up_page, write_text
from sizewright.output.xlsx_readings import Cells, compared_places, live_verdict, mark_verdicts
from sizewright.text.errors import InputError

_WIDE = Context(prec=200)
_LONGEST = 200  # characters of a text within a formula
_HEADS = [column.head for column in READING_COLUMNS]
_LIVE_NOTE = (
    "The column “by simple acceptance” of the readings is computed by the spreadsheet from value and limits as they "
    "stand. A spreadsheet keeps 15 figures: a value with more is text, and has its verdict from exact arithmetic until "
    "another value is typed over it."
)


def report_xlsx(judgement: Judgement, paper: str = "A4") -> bytes:
    """The report as the bytes of an XLSX file, set up for printing on `paper`, A4 or Letter.

    Raises:
        InputError: the paper is neither.
    """
    if paper not in PAPERS:
        raise InputError(f"paper {one_line(paper)} is unknown; {' and '.join(PAPERS)} are there")
    workbook, rows = Workbook(), report_rows(judgement)
    add_styles(workbook)
    sheet: Worksheet = workbook.worksheets[0]
    sheet.title = "report"
    last = add_rows(sheet, LINE_COLUMNS, rows)
    sheet.auto_filter.ref = f"A1:{sheet.cell(last, sheet.max_column).coordinate}"
    _add_readings(workbook.create_sheet("readings"), list(reading_rows(rows)))
    _add_budgets(workbook.create_sheet("budgets"), rows)
    _add_grid(workbook.create_sheet("instruments"), instruments_grid(judgement.instruments))
    notes: tuple[Column[tuple[str, str]], ...] = (
        Column("about", lambda entry: entry[0], width=18),
        Column("text", lambda entry: entry[1], width=120),
    )
    add_rows(workbook.create_sheet("notes"), notes, _notes(judgement, rows))
    title = f"Inspection report: {heading(judgement.plan)}"
    for each in workbook.worksheets:
        set_up_page(each, title, paper, "B2" if each.title in ("report", "readings") else "A2")
    set_properties(workbook, judgement.plan, title)
    stream = io.BytesIO()
    workbook.save(stream)
    return stream.getvalue()


def _add_readings(sheet: Worksheet, items: Sequence[ReadingRow]) -> None:
    """A row for each reading; the last column computes the verdict from value and limits."""
    last = add_rows(sheet, READING_COLUMNS, items)
    place = len(_HEADS) + 1
    letter = get_column_letter(place)
    write_text(sheet.cell(1, place), LIVE, HEAD)
    sheet.column_dimensions[letter].width = 14
    for row, item in enumerate(items, start=2):
        sheet.cell(row, place, simple_formula(item, row)).style = TEXT
    if items:
        mark_verdicts(sheet, f"{letter}2:{letter}{last}")
        judged = get_column_letter(_HEADS.index("verdict") + 1)
        mark_verdicts(sheet, f"{judged}2:{judged}{last}")


def _cell(head: str, row: int) -> str:
    return f"{get_column_letter(_HEADS.index(head) + 1)}{row}"


def simple_formula(item: ReadingRow, row: int) -> str:
    """The formula that judges a reading by simple acceptance, live.

    Where the arithmetic of a spreadsheet cannot tell what exact arithmetic tells, the formula says the latter as long
    as the value stands as it was written.
    """
    assert item.taken is not None
    outcome, text = item.taken.outcome, exact_value(item)
    reading = outcome.reading
    cells = Cells(_cell("value", row), _cell("lower limit", row), _cell("upper limit", row))
    exact = item.taken.verdict
    if reading.value is not None and outcome.limits[1:] != (None, None):
        exact = "accept" if outcome.limits.holds(reading.value) else "reject"
    otherwise = exact if reading.value is None and not reading.answer else "not a number"
    by_gauge = reading.answer is not None
    pinned = ""
    if reading.value is not None and not keeps(text):
        if len(text) > _LONGEST:
            otherwise = exact
        else:
            pinned = f'"{text}"'
    elif reading.value is not None and _as_computed(item, text) != exact:
        pinned = text
    live = live_verdict(cells, item.bound, item.row.unit, by_gauge, exact, otherwise)
    return f'=IF({cells.value}={pinned},"{exact}",{live})' if pinned else f"={live}"


def _as_computed(item: ReadingRow, text: str) -> str:
    """What a spreadsheet comes to for the value `text`."""
    bound, unit = item.bound, item.row.unit
    if not bound.lower and not bound.upper:
        return item.taken.verdict if item.taken else ""
    below = bound.lower and _rounded(text, bound.lower, unit) < _rounded(bound.lower, bound.lower, unit)
    above = bound.upper and _rounded(text, bound.upper, unit) > _rounded(bound.upper, bound.upper, unit)
    return "reject" if below or above else "accept"


def _rounded(text: str, limit: str, unit: str) -> Decimal:
    step = Decimal(1).scaleb(-compared_places(limit, unit))
    return Decimal(text).quantize(step, ROUND_HALF_UP, _WIDE)


def _index(place: int) -> Callable[[tuple[str, ...]], str]:
    return lambda row: row[place]


def _add_grid(sheet: Worksheet, grid: Grid) -> None:
    columns = [
        Column(field.head, _index(place), field.number, max(10, round(field.share * 0.6)))
        for place, field in enumerate(grid.fields)
    ]
    add_rows(sheet, columns, grid.rows)


def _add_budgets(sheet: Worksheet, rows: Sequence[ReportRow]) -> None:
    """All budgets below each other: a row a term, then a row with what they come to."""
    heads = ("budget", "for lines", *(field.head for field in TERMS))
    numbers = (False, False, *(field.number for field in TERMS))
    columns = [
        Column(head, _index(place), number, 26 if place < 3 or head == "source" else 14)
        for place, (head, number) in enumerate(zip(heads, numbers, strict=True))
    ]
    add_rows(sheet, columns, _budget_rows(rows))


def _budget_rows(rows: Sequence[ReportRow]) -> Iterator[tuple[str, ...]]:
    for number, (budget, lines) in enumerate(budgets_of(rows), start=1):
        name, served = f"{number}: {budget_name(budget)}", ", ".join(lines)
        grid = terms_grid(budget)
        yield from ((name, served, *row) for row in grid.rows)
        empty = ("",) * (len(grid.fields) - 1)
        yield name, served, budget_sum(budget), *empty
        yield from ((name, served, visible(remark), *empty) for remark in budget.remarks)


def _notes(judgement: Judgement, rows: tuple[ReportRow, ...]) -> Iterator[tuple[str, str]]:
    yield "verdict", verdict_words(judgement)
    if judgement.why:
        yield "why", visible(judgement.why)
    yield from counts(judgement)
    if judgement.pieces:
        yield "pieces", piece_words(judgement)
    yield from (("lot", text) for text in lot_words(judgement))
    yield from title_block(judgement.plan)
    yield from (("decision rule", visible(text)) for text in judgement.rule_words)
    for title, texts in attention(judgement, rows):
        yield from ((title, text) for text in texts)
    for number, each in replaced(judgement):
        where = ", ".join(filter(None, map(one_line, (each.instrument, each.by, each.when, each.note, each.place))))
        yield "corrected reading", f"{number}, {each.piece}/{each.instance}: {one_line(each.typed)} ({where})"
    yield from (("remark", text) for text in report_remarks(judgement))
    yield from (("caution", visible(text)) for text in judgement.plan.cautions)
    yield from (("readings from", visible(text)) for text in judgement.sources)
    yield "how to read it", _LIVE_NOTE
