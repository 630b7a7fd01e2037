from __future__ import annotations

import csv
import datetime
import io
import shutil
import subprocess
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizewright.judge.doubts import doubts_of
from sizewright.judge.judging import judge
from sizewright.judge.model import Rule
from sizewright.judge.reading_files import Readings, read_readings
from sizewright.judge.reading_log import HEADS, SCAR
from sizewright.judge.tables import columns_of
from sizewright.output.csvfile import readings_csv
from sizewright.output.write import write_plan
from sizewright.text.errors import InputError

from .sheets import INCH, SAMPLES, plan_of, sample

D = Decimal
LOG = ",".join(HEADS)


def read(tmp_path: Path, text: str | bytes, name: str = "r.csv", **more: object) -> Readings:
    path = tmp_path / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_readings(path, plan_of(), **more)  # type: ignore[arg-type]


def values(found: Readings) -> list[tuple[object, ...]]:
    return [(each.line, each.piece, each.instance, each.of, each.value or each.answer) for each in found.readings]


def why(found: Readings) -> str:
    (only,) = found.unreadable
    return only.why


def filled_csv(answers: dict[tuple[str, str, str, str], str]) -> str:
    """The plan's own table with values typed into it."""
    rows = list(csv.DictReader(io.StringIO(readings_csv(plan_of()).decode("utf-8-sig"))))
    for row in rows:
        row["value"] = answers.get((row["balloon"], row["piece"], row["instance"], row["limits of"]), "")
        row["by"] = "AW" if row["value"] else ""
    text = io.StringIO()
    writer = csv.DictWriter(text, rows[0].keys())
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


ANSWERS = {
    ("1", "1", "1", "size"): "25.012",
    ("1", "2", "1", "size"): ".9843 in",
    ("2", "2", "2", "size"): "6,61",
    ("3", "1", "1", "size"): "30°15'",
    ("4", "1", "1", "pitch diameter"): "41.40",
    ("5", "2", "1", ""): "accept",
    ("6", "1", "1", "zone"): "12 µm",
}
READ = [
    ("1", 1, 1, "", D("25.012")),
    ("1", 2, 1, "", D("25.00122")),
    ("2", 2, 2, "", D("6.61")),
    ("3", 1, 1, "", Fraction(121, 4)),
    ("4", 1, 1, "pitch diameter", D("41.40")),
    ("5", 2, 1, "", "accept"),
    ("6", 1, 1, "", D("0.012")),
]


def test_the_plans_csv_reads(tmp_path: Path) -> None:
    found = read(tmp_path, filled_csv(ANSWERS))
    assert values(found) == READ
    assert found.unreadable == ()
    assert found.readings[0].by == "AW"
    assert found.readings[0].place.startswith("r.csv, row ")
    assert found.readings[1].typed == ".9843 in"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le-mark", "cp1252"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_any_usual_encoding_line_end_and_delimiter(tmp_path: Path, encoding: str, end: str, delimiter: str) -> None:
    rows = list(csv.reader(io.StringIO(filled_csv(ANSWERS))))
    text = io.StringIO(newline="")
    csv.writer(text, delimiter=delimiter, lineterminator=end).writerows(rows)
    written = text.getvalue().replace("⟂", "perp") if encoding == "cp1252" else text.getvalue()
    data = b"\xff\xfe" + written.encode("utf-16-le") if encoding.endswith("mark") else written.encode(encoding)
    found = read(tmp_path, data)
    assert values(found) == READ
    assert found.unreadable == ()


def test_the_checks_before_use_in_the_plans_csv_read(tmp_path: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(readings_csv(plan_of()).decode("utf-8-sig"))))
    checks = [row for row in rows if row["balloon"] == "check"]
    assert checks
    for row in checks:
        row["value"] = row["upper limit"] or "accept"
    checks[0]["value"] = "1000"
    text = io.StringIO()
    writer = csv.DictWriter(text, rows[0].keys())
    writer.writeheader()
    writer.writerows(rows)
    found = read(tmp_path, text.getvalue())
    assert found.unreadable == ()
    assert [check.point for check in found.checks] == [row["limits of"] for row in checks]
    assert [check.passed for check in found.checks] == [False] + [True] * (len(checks) - 1)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_an_unfilled_table_holds_no_reading_and_no_fault(tmp_path: Path, path: Path) -> None:
    plan = sample(path)
    (tmp_path / "r.csv").write_bytes(readings_csv(plan))
    write_plan(plan, tmp_path / "p.xlsx")
    for name in ("r.csv", "p.xlsx"):
        found = read_readings(tmp_path / name, plan)
        assert (found.readings, found.unreadable, found.checks) == ((), (), ())


def filled_xlsx(path: Path) -> None:
    write_plan(plan_of(), path)
    book = openpyxl.load_workbook(path)
    sheet = book["readings"]
    heads = [cell.value for cell in sheet[1]]
    at = {name: heads.index(name) + 1 for name in heads}
    typed: dict[tuple[str, str, str, str], Any] = dict(ANSWERS)
    typed[("1", "1", "1", "size")] = 25.012
    typed[("2", "2", "2", "size")] = 6.61
    typed[("2", "1", "1", "size")] = datetime.date(2026, 6, 6)
    typed[("9", "1", "1", "size")] = "=12+0.01+0.02"
    typed[("9", "2", "1", "size")] = True
    for row in range(2, sheet.max_row + 1):
        names = ("balloon", "piece", "instance", "limits of")
        balloon, piece, instance, of = (str(sheet.cell(row, at[name]).value or "") for name in names)
        value = typed.get((balloon, piece, instance, of))
        if value is not None:
            sheet.cell(row, at["value"]).value = value
            sheet.cell(row, at["when"]).value = datetime.datetime(2026, 3, 1, 10, 30)
    book.save(path)


def test_the_plans_xlsx_reads_as_typed(tmp_path: Path) -> None:
    filled_xlsx(tmp_path / "p.xlsx")
    found = read_readings(tmp_path / "p.xlsx", plan_of())
    assert values(found) == READ
    assert found.readings[0].typed == "25.012"
    assert found.readings[0].when == "2026-03-01 10:30:00"
    assert [each.why for each in found.unreadable] == [
        "the spreadsheet took the cell for a date or a time",
        "the cell holds a formula that no program has computed yet; open and save it in a spreadsheet",
        "the cell holds a truth value",
    ]


@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
def test_after_another_spreadsheet_saved_it_the_same_reads_and_formulas_have_values(tmp_path: Path) -> None:
    filled_xlsx(tmp_path / "p.xlsx")
    (tmp_path / "out").mkdir()
    subprocess.run(
        ["soffice", f"-env:UserInstallation=file://{tmp_path}/profile", "--headless", "--convert-to", "xlsx",
         "--outdir", str(tmp_path / "out"), str(tmp_path / "p.xlsx")],
        check=True, capture_output=True, timeout=180,
    )  # fmt: skip
    found = read_readings(tmp_path / "out" / "p.xlsx", plan_of())
    assert values(found) == sorted([*READ, ("9", 1, 1, "", D("12.03"))], key=lambda each: int(str(each[0])))
    assert [each.why.partition(" took")[0] for each in found.unreadable] == [
        "the spreadsheet",
        "the cell holds a truth value",
    ]


@given(st.decimals(-1000, 1000, places=4))
@settings(max_examples=50)
def test_a_number_typed_into_a_cell_is_the_decimal_that_was_typed(value: Decimal) -> None:
    from sizewright.sheet.filled_rows import _shortest

    assert D(_shortest(float(value), computed=False)) == value
    assert D(_shortest(float(value), computed=True)) == value


def test_the_noise_of_a_computed_cell_is_cut() -> None:
    from sizewright.sheet.filled_rows import _shortest

    assert _shortest(0.1 + 0.2, computed=True) == "0.3"
    assert _shortest(12.7 - 0.1, computed=True) == "12.6"


# what a cell holds, whether a program computed it, its text
@pytest.mark.parametrize(
    ("value", "computed", "text"),
    [
        (25.0, False, "25"),
        (25, False, "25"),
        (0.00001, False, "0.00001"),
        (0.1 + 0.2, True, "0.3"),
        (" x\r\n", False, " x\n"),
    ],
)
def test_a_cell_of_a_workbook_is_the_text_that_was_typed(value: object, computed: bool, text: str) -> None:
    from sizewright.sheet.filled_rows import _cell

    made = _cell(SimpleNamespace(value=value, data_type="n"), 1, computed=computed)
    assert (made.text, made.problem) == (text, "")


# (row of the log, a part of the reason)
BAD_ROWS = [
    ("99,,1,1,,,25,mm,,,,", 'no balloon "99"'),
    ("plate,,1,1,,,25,mm,,,,", "the plan has 1, 2, 3, 4 ... 12"),
    ("1,,1,1,,,25.0", "not finished"),  # a row of the log is whole or nothing, wherever it stands
    (",,1,1,,,25,mm,,,,", "no balloon"),
    ("10,,1,1,,,10,mm,,,,", "10.1, 10.2 is meant"),
    ("1,,1,1,,,abc,mm,,,,", "neither a number"),
    ("1,,0,1,,,25,mm,,,,", "counted from 1"),
    ("2,,1,x,,,6.6,mm,,,,", "no whole number"),
    ("2,,1,,,,6.6,mm,,,,", "2 places"),
    ("1,,,1,,,25,mm,,,,", "does not tell the piece"),
    ("1,,1,1,,,25,parsec,,,,", "parsec is no unit"),
    ("3,,1,1,,,30,mm,,,,", "no unit of angles"),
    ("4,,1,1,,,41.4,mm,,,,", "several limits"),
    ("4,lead,1,1,,,41.4,mm,,,,", 'no limits of "lead"'),
    ("8,lead,1,1,,,84,mm,,,,", 'no limits of "lead"; it has none'),
    ("5,,1,1,,,5.4,mm,,,,", "has to tell what was measured"),
    ("1,,1,1,,,,mm,,,,undone", "not there"),
    ("check,zero,,,,,0,mm,,,,", "name its instrument"),
]


@pytest.mark.parametrize(("row", "reason"), BAD_ROWS)
def test_a_row_that_cannot_be_used_is_kept_and_stops_nothing(tmp_path: Path, row: str, reason: str) -> None:
    found = read(tmp_path, f"{LOG}\n{row}\n1,,2,1,,,25.01,mm,,,,\n")
    assert reason in why(found)
    assert found.unreadable[0].place == "r.csv, row 2"
    assert found.unreadable[0].text.startswith(row.split(",,,,")[0].replace(",", ", ").rstrip(", ")[:1])
    assert values(found) == [("1", 2, 1, "", D("25.01"))]


def test_the_log_reads_and_a_later_row_comes_later(tmp_path: Path) -> None:
    text = f"{LOG}\n1,,1,1,25,25.021,25.03,mm,mic #OM-7,AW,2026-01-01,\n1,,1,1,25,25.021,25.01,mm,,AW,,\n"
    found = read(tmp_path, text)
    assert [each.value for each in found.readings] == [D("25.03"), D("25.01")]
    assert found.readings[0].instrument == "mic #OM-7"


def test_an_undone_reading_counts_no_more_and_the_one_before_does(tmp_path: Path) -> None:
    rows = ["1,,1,1,,,25.01,mm,,,,", "1,,1,1,,,25.02,mm,,,,", "1,,1,1,,,,mm,,,,undone", "2,,1,1,,,6.6,mm,,,,"]
    found = read(tmp_path, "\n".join([LOG, *rows, ""]))
    assert [each.value for each in found.readings] == [D("25.01"), D("6.6")]
    assert [each.typed for each in found.undone] == ["25.02"]
    assert any("undone" in each for each in found.remarks)


@pytest.mark.parametrize(
    ("row", "passed"),
    [
        ("check,zero,,,-0.004,0.004,0.002,mm,mic #OM-7,AW,,", True),
        ('check,zero,,,-0.004,0.004,"-0,004",mm,mic #OM-7,AW,,', True),
        ("check,zero,,,-0.004,0.004,5 µm,mm,mic #OM-7,AW,,", False),
        ("check,zero,,,,,reject,mm,mic #OM-7,AW,,", False),
        ("Check,zero,,,,,accept,mm,mic #OM-7,AW,,", True),
        ("check,zero,,,-0.004,0.004,abc,mm,mic #OM-7,AW,,", None),
        ("check,zero,,,,,0.002,mm,mic #OM-7,AW,,", None),
        ("check,zero,,,-0.033333333,0.033333333,-0°2',deg,mic #OM-7,AW,,", True),  # the limit itself, to nine places
        ("check,zero,,,89.966666667,90.033333333,89°58',deg,mic #OM-7,AW,,", True),
        ("check,zero,,,89.966666667,90.033333333,89.96666666,deg,mic #OM-7,AW,,", False),
        ("check,zero,,,-0.0002,0.0002,0.00508 mm,inch,mic #OM-7,AW,,", True),
        ("check,zero,,,-0.0002,0.0002,0.00509 mm,inch,mic #OM-7,AW,,", False),
    ],
)
def test_a_check_of_an_instrument_reads(tmp_path: Path, row: str, passed: bool | None) -> None:
    found = read(tmp_path, f"{LOG}\n{row}\n")
    (check,) = found.checks
    assert (check.instrument, check.serial, check.point, check.passed) == ("mic", "OM-7", "zero", passed)
    assert (found.readings, found.unreadable) == ((), ())


def test_an_undone_check_counts_no_more_and_the_others_do(tmp_path: Path) -> None:
    rows = [
        "check,zero,,,,,accept,,mic #OM-7,,,",
        "check,25,,,,,accept,,mic #OM-7,,,",
        "check,zero,,,,,reject,,mic #OM-8,,,",
    ]
    undone = "check,zero,,,,,,,mic #OM-7,,,undone"
    found = read(tmp_path, "\n".join([LOG, *rows, undone, ""]))
    assert [(each.serial, each.point) for each in found.checks] == [("OM-7", "25"), ("OM-8", "zero")]
    assert [each.place for each in found.undone] == ["r.csv, row 2"]
    assert found.unreadable == ()
    again = read(tmp_path, "\n".join([LOG, *rows, undone, undone, ""]))
    assert "undoes a check that is not there" in why(again)


def test_a_serial_may_have_a_column_of_its_own(tmp_path: Path) -> None:
    found = read(tmp_path, "balloon,piece,value,instrument,serial\n1,1,25.01,mic,OM-7\ncheck,,accept,mic,OM-7\n")
    assert found.readings[0].instrument == "mic #OM-7"
    assert (found.checks[0].instrument, found.checks[0].serial) == ("mic", "OM-7")


@pytest.mark.parametrize("cut", range(1, 40))
def test_a_row_cut_off_anywhere_is_never_a_reading_in_the_log(tmp_path: Path, cut: int) -> None:
    row = '2,,1,1,,,6.61,mm,"a, ""b"" µ",AW,,note\n'.encode()
    assert len(row) == 40
    head = f"\ufeff{LOG}\n1,,1,1,,,25.01,mm,,,,\n".encode()
    found = read(tmp_path, head + row[:-cut])
    assert values(found) == [("1", 1, 1, "", D("25.01"))]
    if row[:-cut].strip(b","):
        assert "not finished" in why(found) or "quotation" in why(found)


def test_a_row_closed_by_a_scar_is_never_a_reading_even_after_a_spreadsheet_saved_the_file(tmp_path: Path) -> None:
    width = len(HEADS) + 1
    text = f"{LOG}\n1,,1,1,,,25.0{SCAR}1,,2,1,,,25.01,mm,,,,\n"
    found = read(tmp_path, text)
    assert values(found) == [("1", 2, 1, "", D("25.01"))]
    assert "not finished" in why(found)
    rows = list(csv.reader(io.StringIO(text)))
    width = max(map(len, rows))
    saved = io.StringIO()
    csv.writer(saved, delimiter=";").writerows([row + [""] * (width - len(row)) for row in rows])
    again = read(tmp_path, saved.getvalue())
    assert values(again) == values(found)
    assert "not finished" in why(again)


def test_the_last_line_of_another_program_may_lack_its_end(tmp_path: Path) -> None:
    found = read(tmp_path, "balloon,piece,value\n1,1,25.01\n1,2,25.02")
    assert len(found.readings) == 2
    found = read(tmp_path, "balloon,piece,value,by\n1,1,25.01,AW\n1,2,25.0")
    assert len(found.readings) == 1
    assert "not finished" in why(found)


def test_another_programs_table_by_a_column_map(tmp_path: Path) -> None:
    text = "Report of cell 4\n\nFeature No;Serial;Nominal;Actual;Dev\n1;SN-101;25;25,012;0,012\n#1;SN-102;25;25,003;0\n"
    found = read(tmp_path, text, columns=columns_of("value=actual, balloon=FEATURE  no, piece=Serial"))
    assert values(found) == [("1", 1, 1, "", D("25.012")), ("1", 2, 1, "", D("25.003"))]
    assert found.remarks[0].endswith("numbered in the order they come: SN-101 is 1, SN-102 is 2")


@pytest.mark.parametrize(("pieces", "end"), [(8, "s8 is 8"), (9, "s8 is 8 ...")])
def test_of_many_named_pieces_the_first_are_shown(tmp_path: Path, pieces: int, end: str) -> None:
    rows = "".join(f"1,s{piece},25.01\n" for piece in range(1, pieces + 1))
    found = read(tmp_path, f"balloon,piece,value\n{rows}")
    assert [each.piece for each in found.readings] == list(range(1, pieces + 1))
    assert found.remarks[0].endswith(end)


def test_without_piece_and_instance_readings_fall_into_place(tmp_path: Path) -> None:
    found = read(tmp_path, "balloon,value\n1,25.01\n2,6.6\n2,6.61\n2,6.62\n1,25.02\n2,6.63\n")
    assert [each[:3] for each in values(found)] == [
        ("1", 1, 1), ("2", 1, 1), ("2", 1, 2), ("2", 2, 1), ("1", 2, 1), ("2", 2, 2)
    ]  # fmt: skip
    assert any("no column tells the piece" in each for each in found.remarks)


def test_whether_the_plan_has_room_for_a_reading_is_left_to_judging(tmp_path: Path) -> None:
    found = read(tmp_path, "balloon,piece,value\n1,7,25.01\n")
    assert values(found) == [("1", 7, 1, "", D("25.01"))]


def test_an_inch_plan_takes_millimetres_exactly(tmp_path: Path) -> None:
    (tmp_path / "r.csv").write_text("balloon,piece,value,unit\n1,1,31.76,mm\n2,1,3 3/8,\n")
    found = read_readings(tmp_path / "r.csv", plan_of(INCH))
    assert [each.value for each in found.readings] == [Fraction(3176, 2540), D("3.375")]


@pytest.mark.parametrize(
    ("text", "columns", "words"),
    [
        ("", None, "empty"),
        ("a,b\n1,2\n", None, '"balloon" and "value"'),
        ("feature,actual\n1,2\n", "value=Actual, balloon=Feature No", "Feature No"),
        ("balloon,value\n1,25\n", "piece=Serial", '"Serial" for piece; it has "balloon", "value"'),
        ("balloon,value,serial no\n1,25,7\n", "piece=Serial nr", 'for piece; did you mean "serial no"'),
    ],
)
def test_a_table_without_its_columns_is_refused(tmp_path: Path, text: str, columns: str | None, words: str) -> None:
    with pytest.raises(InputError, match=r"r\.csv") as refused:
        read(tmp_path, text, columns=columns_of(columns) if columns else None)
    assert words.casefold() in str(refused.value).casefold()


@pytest.mark.parametrize("text", ["value", "value=", "=Actual", "val=Actual", "value=A, value=B", "value=A; balloon"])
def test_a_column_map_that_does_not_read_is_refused(text: str) -> None:
    if text == "value=A; balloon":
        assert columns_of(text) == {"value": "A; balloon"}
        return
    with pytest.raises(InputError):
        columns_of(text)


@pytest.mark.parametrize(
    ("text", "words"), [("valeu=Actual", 'did you mean "value"'), ("xyz=Actual", "ours are balloon, limits of, piece")]
)
def test_a_column_that_is_none_of_ours_is_told_which_are(text: str, words: str) -> None:
    with pytest.raises(InputError) as refused:
        columns_of(text)
    assert words in str(refused.value)


def test_a_line_above_the_header_may_name_one_of_its_columns(tmp_path: Path) -> None:
    found = read(tmp_path, "note;measured by night\nballoon;value\n1;25.01\n")
    assert values(found) == [("1", 1, 1, "", D("25.01"))]


def test_a_head_with_a_comma_stands_in_quotation_marks() -> None:
    assert columns_of('value="Actual, mm",balloon=No') == {"value": "Actual, mm", "balloon": "No"}


def test_guarded_cells_lose_their_apostrophe(tmp_path: Path) -> None:
    found = read(tmp_path, f"{LOG}\n6,,1,1,,,'+0.01,mm,'=x,,,'-note\n")
    assert found.readings[0].typed == "+0.01"
    assert (found.readings[0].instrument, found.readings[0].note) == ("=x", "-note")


@given(st.lists(st.text(alphabet=st.characters(codec="utf-8"), max_size=12), min_size=1, max_size=14))
@settings(max_examples=150)
def test_whatever_a_row_holds_it_is_read_kept_or_missing(
    tmp_path_factory: pytest.TempPathFactory, cells: list[str]
) -> None:
    path = tmp_path_factory.mktemp("any") / "r.csv"
    text = io.StringIO()
    csv.writer(text).writerows([HEADS, cells])
    path.write_text(text.getvalue(), encoding="utf-8", newline="", errors="replace")
    try:
        read_readings(path, plan_of())
    except InputError:
        assert "\0" in text.getvalue()


@given(st.binary(max_size=300))
@settings(max_examples=100)
def test_whatever_bytes_follow_the_header_the_rows_before_stand(
    tmp_path_factory: pytest.TempPathFactory, tail: bytes
) -> None:
    path = tmp_path_factory.mktemp("any") / "r.csv"
    path.write_bytes(f"\ufeff{LOG}\n1,,1,1,,,25.01,mm,,,,\n".encode() + tail)
    found = read_readings(path, plan_of())
    assert values(found)[:1] == [("1", 1, 1, "", D("25.01"))]


def test_a_log_is_judged_as_it_was_taken(tmp_path: Path) -> None:
    rows = [
        "1,,1,1,25.000,25.021,25.03,mm,,AW,2026-01-01T10:00:00,",
        "1,,1,1,25.000,25.021,.9843 in,mm,,AW,2026-01-01T10:05:00,",
        "1,,2,1,25.000,25.021,250.1,mm,,AW,2026-01-01T10:06:00,",
        "3,,1,1,29.5,30.5,30°15',deg,,AW,2026-01-01T10:07:00,",
    ]
    (tmp_path / "r.csv").write_text("\n".join([LOG, *rows, ""]), encoding="utf-8")
    found = read_readings(tmp_path / "r.csv", plan_of())
    made = judge(
        plan_of(), found.readings, Rule("simple"), budget_for=lambda *_: None, checks=found.checks, doubts_of=doubts_of
    )
    lines = {each.line.number: each for each in made.lines}
    assert [each.verdict for each in lines["1"].outcomes] == ["accept", "reject"]
    assert [each.typed for each in lines["1"].corrected] == ["25.03"]
    assert any("ten times the size" in each for each in lines["1"].outcomes[1].doubts)
    assert [each.verdict for each in lines["3"].outcomes] == ["accept"]
