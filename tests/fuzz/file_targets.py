"""Files that are fuzzed: tables and workbooks, and what becomes of them."""

from __future__ import annotations

import io
import zipfile
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from sizewright.text.errors import SizewrightError

from .checks import clean, clean_json, expect
from .targets import crib, plan, typed

if TYPE_CHECKING:
    from sizewright.judge.budgets import BudgetBook
    from sizewright.plan.model import Plan
    from sizewright.sheet.model import Sheet

PART = b"\n=== "


class _InMemory(type(Path())):  # type: ignore[misc]
    """A file that is on no disk: opening one costs more than reading what is in it."""

    data = b""

    def open(self, *_: object) -> io.BytesIO:
        return io.BytesIO(self.data)

    def exists(self) -> bool:
        return True

    is_file = exists

    def is_dir(self) -> bool:
        return False


def _file(name: str, data: bytes) -> Path:
    path = _InMemory(name)
    path.data = data
    return path


def _sheet(path: Path) -> Sheet | None:
    from sizewright.sheet.faults import faults_text
    from sizewright.sheet.read import read_sheet

    try:
        found = read_sheet(path)
    except SizewrightError:
        return None
    clean(faults_text(found.source, found.faults), "the faults as shown")
    return found


def sheet_bytes(data: bytes) -> None:
    """A sheet in any encoding."""
    _sheet(_file("x.sheet", data))


def sheet_csv(data: bytes) -> None:
    """A sheet as a table of text."""
    _sheet(_file("x.csv", data))


@cache
def budgets() -> BudgetBook:
    """The budgets of the plan's lines."""
    from sizewright.judge.budgets import BudgetBook
    from sizewright.judge.tools import Tools

    tools = Tools(plan().crib, ())
    return BudgetBook(plan(), lambda name: tools.of(name).owned)


def _readings(path: Path) -> None:
    from sizewright.judge.doubts import doubts
    from sizewright.judge.judging import judge
    from sizewright.judge.model import Rule
    from sizewright.judge.reading_files import read_readings
    from sizewright.output.report_jsonl import report_jsonl
    from sizewright.output.report_terminal import report_text

    try:
        found = read_readings(path, plan())
    except SizewrightError:
        return
    if len(found.readings) + len(found.checks) + len(found.unreadable) == 0 or len(path.data) % 16:  # type: ignore[attr-defined]
        return
    judged = judge(
        plan(),
        found.readings,
        Rule("simple"),
        budget_for=budgets(),
        checks=found.checks,
        unreadable=found.unreadable,
        doubts_of=lambda line, reading, limits: (
            () if reading.value is None else doubts(line, limits, reading.value, reading.instrument)
        ),
    )
    for line in report_jsonl(judged).decode().splitlines():
        clean_json(line)
    clean(report_text(judged), "the report")


def readings_csv(data: bytes) -> None:
    """A table of readings: every row a reading or unreadable; what is judged of it can be shown."""
    _readings(_file("r.csv", data))


def workbook(data: bytes) -> bytes:
    """A workbook of the parts that `data` names: each begins with a line `=== name`."""
    archive = io.BytesIO()
    with zipfile.ZipFile(archive, "w") as book:
        for part in (b"\n" + data).split(PART)[1:]:
            name, _, content = part.partition(b"\n")
            book.writestr(zipfile.ZipInfo(name.decode("utf-8", "replace")[:200] or "x"), content)
    return archive.getvalue()


def xlsx(data: bytes) -> None:
    """A workbook whose parts hold anything, as a sheet and as readings."""
    import warnings

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # two parts of one name
        path = _file("x.xlsx", workbook(data))
    _sheet(path)
    _readings(path)


def xlsx_bytes(data: bytes) -> None:
    """A file that may be no archive at all."""
    path = _file("x.xlsx", data)
    _sheet(path)
    _readings(path)


def plans(data: bytes) -> None:
    """A plan of any sheet can be shown, and written as data, in every form by turns."""
    from sizewright.output.csvfile import plan_csv, read_rows
    from sizewright.output.jsonl import plan_jsonl
    from sizewright.output.terminal import plan_text
    from sizewright.plan.build import build_plan
    from sizewright.sheet.read import read_text

    choice, text = typed(data)
    found = read_text(text.replace("\r", "\n"), Path("x.sheet"))
    made = build_plan(found, crib(), both_units=bool(choice & 64))
    for line in plan_jsonl(made).decode().splitlines():
        clean_json(line)
    clean(plan_text(made), "the plan on the terminal")
    expect(len(read_rows(plan_csv(made))) == len(made.lines), "the CSV of a plan has more or fewer rows than lines")
    if choice % 16 == 0:
        _documents(made)


def _documents(made: Plan) -> None:
    import openpyxl
    from docx import Document

    from sizewright.output.docx import plan_docx
    from sizewright.output.xlsx import plan_xlsx

    Document(io.BytesIO(plan_docx(made, "A4")))
    book = openpyxl.load_workbook(io.BytesIO(plan_xlsx(made, "A4")))
    ours = ("=IF(", "=COUNT", "=SUM", "=AND(", "=OR(", "=IFERROR(", "=MAX(", "=MIN(")
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                expect(cell.data_type != "f" or str(cell.value).startswith(ours), "a typed text became a formula")
                expect(cell.hyperlink is None or cell.hyperlink.target is None, "a typed text became a link")
