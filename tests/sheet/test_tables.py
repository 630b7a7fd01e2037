"""CSV and XLSX: the same lines as the text, and faults in cells."""

import csv
import datetime
import io
import zipfile
from collections.abc import Sequence
from pathlib import Path

import openpyxl
import pytest

from sizewright.sheet.faults import faults_text
from sizewright.sheet.model import Line, Sheet
from sizewright.sheet.read import read_sheet, read_text
from sizewright.sheet.tables import read_csv_text
from sizewright.text.errors import InputError

SOURCE = Path("a.csv")
EXAMPLE = Path(__file__).parent / "data" / "example.sheet"
HEADER = ("balloon", "zone", "view", "class", "callout", "remark")
TEXT = """\
part: Bracket; left
unit: inch
view: front
1 @C3 [critical]: .250" DIA, THRU ; ream; deburr
3: 4x Ø.266
    cbore Ø.44 ↧.25
    2.50 ±.01
view: section A-A
7 [minor]: 1:10
"""


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    return read_text(TEXT, SOURCE)


def _content(sheet: Sheet) -> list[tuple[object, ...]]:
    return [(line.balloon, line.zone, line.view, line.class_, line.callout, line.remark) for line in sheet.lines]


def _rows(sheet: Sheet, columns: Sequence[str] = HEADER) -> list[list[str]]:
    return [list(columns)] + [[_cell(line, name) for name in columns] for line in sheet.lines]


def _cell(line: Line, name: str) -> str:
    texts = (str(line.balloon), line.zone, line.view, line.class_ or "", line.callout, line.remark)
    cells = dict(zip(HEADER, texts, strict=True))
    return cells[name.lower().strip()]


def _csv(rows: list[list[str]], delimiter: str = ",") -> str:
    text = io.StringIO()
    csv.writer(text, delimiter=delimiter).writerows(rows)
    return text.getvalue()


def _xlsx(path: Path, rows: Sequence[Sequence[object]], title: str = "Sheet") -> Path:
    book = openpyxl.Workbook()
    worksheet = book.active
    assert worksheet is not None
    worksheet.title = title
    for number, row in enumerate(rows, 1):
        for column, value in enumerate(row, 1):
            worksheet.cell(number, column, value)  # type: ignore[call-overload]
    book.save(path)
    return path


def _title(sheet: Sheet) -> dict[str, str]:
    return {word: entry.value for word, entry in sheet.title.items()}


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("columns", [HEADER, (" Remark", "CALLOUT", "class", "View", "zone", "Balloon ")])
def test_csv_gives_the_same_lines(sheet: Sheet, tmp_path: Path, delimiter: str, columns: Sequence[str]) -> None:
    path = tmp_path / "a.csv"
    title = [["part", "Bracket; left"], [], ["Unit", "inch", "", ""]]
    path.write_text(_csv([*title, *_rows(sheet, columns)], delimiter), encoding="utf-8-sig", newline="")
    read = read_sheet(path)
    assert read.faults == ()
    assert _content(read) == _content(sheet)
    assert _title(read) == _title(sheet)


@pytest.mark.parametrize("title", ["Sheet", "Callouts"])
def test_xlsx_gives_the_same_lines(sheet: Sheet, tmp_path: Path, title: str) -> None:
    path = _xlsx(tmp_path / "a.xlsx", [["part", "Bracket; left"], ["unit", "inch"], [], *_rows(sheet)], title)
    read = read_sheet(path)
    assert read.faults == ()
    assert _content(read) == _content(sheet)
    assert _title(read) == _title(sheet)


def test_the_example_as_tables(tmp_path: Path) -> None:
    example = read_sheet(EXAMPLE)
    path = _xlsx(tmp_path / "a.xlsx", _rows(example))
    assert _content(read_sheet(path)) == _content(example)
    assert _content(read_csv_text(_csv(_rows(example)).replace("\r\n", "\n"), SOURCE)) == _content(example)


def test_the_worksheet_named_callouts_comes_before_the_first(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    book.create_sheet("CALLOUTS").append(["callout"])
    book["CALLOUTS"].append(["25 ±0.1"])
    book.save(tmp_path / "a.xlsx")
    assert [line.callout for line in read_sheet(tmp_path / "a.xlsx").lines] == ["25 ±0.1"]


def test_only_the_callout_column_is_needed() -> None:
    sheet = read_csv_text("callout\n25 ±0.1\n\n30\n", SOURCE)
    assert [(line.balloon, line.callout) for line in sheet.lines] == [(1, "25 ±0.1"), (2, "30")]
    assert sheet.faults == ()


def test_a_first_line_that_says_what_parts_the_cells() -> None:
    sheet = read_csv_text("sep=;\nballoon;callout\n2;25,4\n", SOURCE)
    assert [(line.balloon, line.callout, line.line) for line in sheet.lines] == [(2, "25,4", 3)]


def test_places_in_a_cell_of_several_lines() -> None:
    (line,) = read_csv_text('view,callout\n"a\nb","25\n\n +0.1"\n', SOURCE).lines
    assert (line.callout, line.starts, line.view) == ("25\n+0.1", ((3, 1), (5, 2)), "a b")


CASES = [
    (
        "ballon,callout,callout,qty\n1,25,30,2\n",
        """
a.csv:1:1: "ballon" is no column of a sheet; what is below it is not read
    ballon
    ^~~~~~
    did you mean "balloon"?

a.csv:1:1: "callout" stands twice; what is below it is not read
    callout
    ^~~~~~~
    did you mean "callout"?

a.csv:1:1: "qty" is no column of a sheet; what is below it is not read
    qty
    ^~~
    the columns are balloon, zone, view, class, callout, remark""",
    ),
    (
        "balloon,class,callout\n 1.5,key,25\n3,,30\n3,,35\n4,,\n,,4x Ø5, typ\n",
        """
a.csv:2:1: "key" is no class
    key
    ^~~
    what would read: "critical", "major" or "minor"

a.csv:2:2: "1.5" is no balloon number
     1.5
     ^~~
    a whole number, 1 or more; sub-numbers such as 2.1 are given when the callout is read

a.csv:4:1: balloon 3 already stands on line 3
    3
    ^
    the next free number is 6

a.csv:5:2: balloon 4 has no callout
    4
     ^
    as in "4: 25 ±0.1"

a.csv:6:2: the column of this cell has no heading
     typ
     ^~~
    a callout with commas in it stands in quotation marks""",
    ),
    (
        'unit,furlong\npartt,x\n1,25,x\ncallout\n".25" DIA\n30\n"35\n',
        """
a.csv:1:1: "furlong" is no unit known here
    furlong
    ^~~~~~~
    what would read: "mm" or "inch"

a.csv:2:1: this row is no title-block entry
    partt x
    ^~~~~~~
    did you mean "part"?

a.csv:3:1: this row is no title-block entry
    1 25 x
    ^~~~~~
    above the header: part, drawing, revision, unit, manner, general, threads, material, temperature, lot, \
pieces, sampling, \
remark, made by, date, with the value beside it

a.csv:5:1: the quotation marks of this row do not pair
    ".25" DIA
    ^~~~~~~~~
    a cell with a quotation mark in it stands in quotation marks, and the mark is doubled: ".25"" DIA"

a.csv:7:1: the quotation marks of this row do not pair
    "35
    ^~~
    a cell with a quotation mark in it stands in quotation marks, and the mark is doubled: ".25"" DIA\"""",
    ),
]


@pytest.mark.parametrize(("text", "expected"), CASES)
def test_faults_in_cells(text: str, expected: str) -> None:
    sheet = read_csv_text(text, SOURCE)
    assert faults_text(SOURCE, sheet.faults) == expected.lstrip("\n")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("balloon,calout\n1,25\n", 'a.csv has no column "callout"; did you mean it by "calout" on line 1?'),
        ("callout\n" + '"a"b\n' * 101, "a.csv does not read as CSV: quotation marks do not pair in more than 100 rows"),
    ],
)  # fmt: skip
def test_tables_that_cannot_be_used(text: str, message: str) -> None:
    with pytest.raises(InputError) as caught:
        read_csv_text(text, SOURCE)
    assert str(caught.value) == message


ZEROS = "the cell is a number, and the zeros typed at its end are lost; they can choose its tolerance"
DATE = "the spreadsheet took the cell for a date or a time"

# (cell, its form, unit, the callout read, what is said)
NUMBERS: list[tuple[object, str, str, str, str]] = [
    (25, "General", "mm", "25", ""),
    (25.4, "General", "mm", "25.4", ""),
    (0.25, "0.000", "inch", "0.250", ""),
    (1e-05, "General", "mm", "0.00001", ""),
    (0.25, "General", "inch", "0.25", ZEROS),
    (0.25, "0.0", "mm", "0.25", "the spreadsheet shows another number than it holds"),
    (0.25, "0%", "mm", "0.25", "the spreadsheet shows another number than it holds"),
    ("=1+2", "General", "mm", "=1+2", "the cell holds a formula"),
    ("#REF!", "General", "mm", "#REF!", "the cell holds an error of the spreadsheet"),
    (True, "General", "mm", "TRUE", "the cell holds a truth value"),
    (datetime.date(2026, 1, 4), "d-mmm", "mm", "2026-01-04 00:00:00", DATE),
]  # fmt: skip


@pytest.mark.parametrize(("value", "form", "unit", "callout", "message"), NUMBERS)
def test_cells_that_are_no_text(
    tmp_path: Path, value: object, form: str, unit: str, callout: str, message: str
) -> None:
    path = _xlsx(tmp_path / "a.xlsx", [["unit", unit], ["balloon", "callout"], [3, value]])
    book = openpyxl.load_workbook(path)
    book.worksheets[0].cell(3, 2).number_format = form
    book.save(path)
    sheet = read_sheet(path)
    assert [(line.balloon, line.callout) for line in sheet.lines] == [(3, callout)]
    assert [fault.message for fault in sheet.faults] == ([message] if message else [])


def test_a_workbook_that_unpacks_to_too_much_is_not_opened(tmp_path: Path) -> None:
    path = tmp_path / "a.xlsx"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/worksheets/sheet1.xml", b" " * 61_000_000)
    with pytest.raises(InputError, match="unpacks to more than 60 MB and is not opened"):
        read_sheet(path)


@pytest.mark.parametrize(("row", "message"), [(1_000_000, "50000 rows"), (100, "1000000 cells")])
def test_a_workbook_with_far_cells_is_refused(tmp_path: Path, row: int, message: str) -> None:
    book = openpyxl.Workbook()
    for number in range(row, row + 80):
        book.worksheets[0].cell(number if row > 100 else number - 99, 1 if row > 100 else 16_000, "25")
    book.save(tmp_path / "a.xlsx")
    with pytest.raises(InputError, match=f"has more than {message}"):
        read_sheet(tmp_path / "a.xlsx")


def test_damaged_workbooks_are_refused(tmp_path: Path) -> None:
    good = _xlsx(tmp_path / "a.xlsx", [["callout"], ["25 ±0.1"]]).read_bytes()
    path = tmp_path / "b.xlsx"
    for at in range(0, len(good), 97):
        path.write_bytes(good[:at] + bytes((good[at] ^ 0xFF,)) + good[at + 1 :])
        try:
            read_sheet(path)
        except InputError as error:
            assert str(path) in str(error)  # noqa: PT017
