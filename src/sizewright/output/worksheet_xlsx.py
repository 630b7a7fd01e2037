"""The form of a worksheet as XLSX, which the trainee fills, and the same form filled with the right answers (the key).

The form holds no answer and no formula: what is right cannot be told from it.
"""

from __future__ import annotations

import io

from openpyxl import Workbook
from openpyxl.styles import Alignment
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet as Grid

from sizewright.output import worksheet_texts as texts
from sizewright.output.repeatable import WRITTEN, repeatable
from sizewright.output.safe import one_line, visible
from sizewright.output.worksheet_key import instrument_answer, limits_reason, resolution_answer, verdict_answer
from sizewright.output.xlsx_cells import BOX, HEAD, PAPERS, TEXT, add_styles, set_up_page, write_text
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import shown, unit_shown
from sizewright.text.errors import InputError
from sizewright.training.answers import Asked, Exercise
from sizewright.training.form import ANSWERS, LINES_WORD, NAME_WORD, VERDICTS
from sizewright.training.worksheet import CAUTIONS, DECISION_RULE, Worksheet

_WIDTHS = {"callout": 26, "characteristic": 26, "limits of": 16, "instrument": 28, "why": 46, "verdict": 13}
_HEAD_ROW = 5
_HOW = (
    "Fill the framed cells; type none where there is no limit, and one reading a cell: 2/3 is place 3 of piece 2. "
    "Of a line with several limits, a gauge's answer goes into any of its rows."
)


def worksheet_xlsx(worksheet: Worksheet, paper: str = "A4", *, key: bool = False) -> bytes:
    """The form as the bytes of an XLSX file; with `key` filled with the right answers. The same gives the same bytes.

    Raises:
        InputError: the paper is unknown.
    """
    if paper not in PAPERS:
        raise InputError(f"paper {one_line(paper)} is unknown; {' and '.join(PAPERS)} are there")
    workbook = Workbook()
    add_styles(workbook)
    grid: Grid = workbook.worksheets[0]
    grid.title = "key" if key else ANSWERS
    slots = sorted({slot for work in worksheet.lines for slot in work.exercise.slots})
    heads = _heads(worksheet, [f"reading {piece}/{place}" for piece, place in slots])
    _front(grid, worksheet)
    _head(grid, heads)
    row = _HEAD_ROW
    for work in worksheet.lines:
        for place, asked in enumerate(work.exercise.asked):
            row += 1
            filled = _answers(work.exercise, asked, first=not place, both=worksheet.both) if key else {}
            _row(grid, row, heads, work.exercise, asked, filled, first=not place)
    if not key:
        _verdict_list(grid, heads, row)
    _notes(workbook.create_sheet("to know"), worksheet)
    set_up_page(grid, texts.title(worksheet, key), paper, f"C{_HEAD_ROW + 1}")
    grid.print_title_rows = f"{_HEAD_ROW}:{_HEAD_ROW}"
    properties = workbook.properties
    properties.title = texts.title(worksheet, key)[:255]
    properties.creator = properties.lastModifiedBy = ""
    properties.created = properties.modified = WRITTEN
    stream = io.BytesIO()
    workbook.save(stream)
    return repeatable(stream.getvalue())


def _heads(worksheet: Worksheet, readings: list[str]) -> list[str]:
    other = ["other lower limit", "other upper limit", "other unit"] if worksheet.both else []
    front = ["line", "callout", "characteristic", "limits of", "lower limit", "upper limit", "unit", *other]
    return [*front, "instrument", "resolution", *readings, "verdict", "why"]


def _front(grid: Grid, worksheet: Worksheet) -> None:
    write_text(grid.cell(1, 1), texts.title(worksheet), TEXT)
    grid.cell(1, 1).alignment = Alignment(wrap_text=False)
    write_text(grid.cell(2, 1), NAME_WORD, HEAD)
    write_text(grid.cell(2, 2), "", BOX)
    write_text(grid.cell(2, 3), "date", HEAD)
    write_text(grid.cell(2, 4), "", BOX)
    write_text(grid.cell(3, 1), LINES_WORD, HEAD)
    write_text(grid.cell(3, 2), ", ".join(work.exercise.line.number for work in worksheet.lines), TEXT)
    grid.row_dimensions[3].height = 40


def _head(grid: Grid, heads: list[str]) -> None:
    for index, head in enumerate(heads, start=1):
        write_text(grid.cell(_HEAD_ROW, index), head, HEAD)
        grid.column_dimensions[get_column_letter(index)].width = _WIDTHS.get(head, 12)
    grid.column_dimensions["A"].width = 8
    grid.row_dimensions[_HEAD_ROW].height = 28


def _row(
    grid: Grid, row: int, heads: list[str], exercise: Exercise, asked: Asked, filled: dict[str, str], *, first: bool
) -> None:
    line = exercise.line
    printed = {
        "line": line.number,
        "callout": texts.callout(exercise),
        "characteristic": visible(line.description),
        "limits of": texts.row_label(asked),
    }
    slots = {f"reading {piece}/{place}" for piece, place in exercise.slots}
    once = {"instrument", "resolution", "verdict", "why", "unit"}
    for index, head in enumerate(heads, start=1):
        cell = grid.cell(row, index)
        if head in printed:
            write_text(cell, printed[head], TEXT)
        elif (head.startswith("reading ") and head not in slots) or (head in once and not first):
            write_text(cell, "", TEXT)  # nothing is asked here: a cell without a frame
        else:
            write_text(cell, filled.get(head, ""), BOX)
    lines = max(
        len(text) // (_WIDTHS.get(head, 12) - 2) + text.count("\n") + 1 for head, text in {**printed, **filled}.items()
    )
    grid.row_dimensions[row].height = min(400, max(28, 13 * lines + 2))


def _answers(exercise: Exercise, asked: Asked, *, first: bool, both: bool) -> dict[str, str]:
    """The right answers by head, as a trainee would type them."""
    lower, upper = bounds(asked.limits)
    found = {"lower limit": lower, "upper limit": upper}
    if both and asked.other is not None:
        found["other lower limit"], found["other upper limit"] = bounds(asked.other)
        found["other unit"] = unit_shown(asked.other_unit)
    if first:
        found |= {
            "unit": unit_shown(asked.unit),
            "instrument": instrument_answer(exercise),
            "resolution": resolution_answer(exercise) if exercise.decides else "none",
            "verdict": verdict_answer(exercise),
            "why": limits_reason(exercise),
        }
    return found


def bounds(limits: Limits) -> tuple[str, str]:
    """Both limits as they are typed, `none` where one is missing."""
    lower, upper = shown(limits)
    return lower or "none", upper or "none"


def _verdict_list(grid: Grid, heads: list[str], last: int) -> None:
    letter = get_column_letter(heads.index("verdict") + 1)
    words = DataValidation(type="list", formula1=f'"{",".join(VERDICTS)}"', allow_blank=True)
    words.errorStyle = "warning"
    words.error = "A verdict is accept, reject, undecided or no verdict."
    words.sqref = f"{letter}{_HEAD_ROW + 1}:{letter}{last}"
    grid.add_data_validation(words)


def _notes(grid: Grid, worksheet: Worksheet) -> None:
    grid.column_dimensions["A"].width = 18
    grid.column_dimensions["B"].width = 110
    entries = [("how", _HOW)]
    entries += [("how", DECISION_RULE), ("how", texts.identity(worksheet)), ("time", worksheet.estimate.words)]
    entries += [("unit", text) for text in filter(None, [texts.unit_words(worksheet)])]
    entries += texts.drawing(worksheet)
    entries += [("laid out", _tool(tool)) for tool in _tools(worksheet)]
    entries += [("caution", text) for text in CAUTIONS]
    for row, (word, text) in enumerate(entries, start=1):
        write_text(grid.cell(row, 1), word, HEAD)
        write_text(grid.cell(row, 2), text, TEXT)
        grid.row_dimensions[row].height = 13.0 * (len(text) // 105 + text.count("\n") + 1) + 2


def _tools(worksheet: Worksheet) -> list[tuple[str, str, str]]:
    return [(visible(t.name), texts.tool_range(t), texts.tool_resolution(t)) for t in worksheet.laid_out]


def _tool(parts: tuple[str, str, str]) -> str:
    return "; ".join(parts)
