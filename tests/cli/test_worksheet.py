"""`sizewright worksheet` and `sizewright mark` as a trainer runs them."""

from __future__ import annotations

import csv
import io
import shutil
import subprocess
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from docx import Document
from openpyxl import load_workbook

from sizewright.training.answers import exercises_of

from ..support_command import ROOT, run
from ..training.classroom import SAMPLES, middle, perfect, plan_of, typed

GOOD = [path for path in SAMPLES if "faulty" not in path.name]
HOUSING = ROOT / "samples" / "worm-housing.sheet"
FAULTY = ROOT / "samples" / "faulty-saddle.sheet"
SOFFICE = shutil.which("soffice")


def fill(form: Path, target: Path, name: str, changes: Mapping[tuple[str, str], object] | None = None) -> None:
    """Fill a form perfectly, as a person does: head by head; `changes` by line and head."""
    book = load_workbook(form)
    grid: Any = book["answers"]
    heads = {cell.value: cell.column for cell in grid[5]}
    cells = perfect(exercises_of(plan_of(HOUSING)))
    grid["B2"] = name
    for row in range(6, grid.max_row + 1):
        line, of = str(grid.cell(row, 1).value), grid.cell(row, heads["limits of"]).value or ""
        for head, text in cells[line, of].items():
            given = (changes or {}).get((line, head), text)
            cell = grid.cell(row, heads[head])
            cell.value = given
            if isinstance(given, str):
                cell.data_type = "s"
    book.save(target)


@pytest.fixture(scope="module")
def room(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the form of the housing, and the reference readings."""
    folder = tmp_path_factory.mktemp("room")
    assert run("worksheet", str(HOUSING), "--level", "project", "-o", str(folder / "form.xlsx")).returncode == 0
    with (folder / "reference.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(("balloon", "piece", "instance", "value"))
        for each in exercises_of(plan_of(HOUSING)):
            for _ in each.reads:
                value = middle(each, "")
                assert value is not None
                writer.writerows((each.line.number, *slot, typed(value)) for slot in each.slots)
    return folder


@pytest.mark.parametrize("sheet", GOOD, ids=lambda path: path.stem)
def test_a_sample_is_made_in_every_form(sheet: Path, tmp_path: Path) -> None:
    for level in ("guided", "project"):
        for key in ([], ["--key"]):
            files = [tmp_path / f"{level}{''.join(key)}{ending}" for ending in (".docx", ".xlsx")]
            options = [part for file in files for part in ("-o", str(file))]
            done = run("worksheet", str(sheet), "--level", level, "--unit", "both", *key, *options)
            assert done.returncode == 0, done.stderr
            assert done.stdout == ""
            assert Document(str(files[0])).tables
            assert load_workbook(files[1]).worksheets[0].title == ("key" if key else "answers")


@pytest.mark.skipif(SOFFICE is None, reason="no second program to open documents with")
def test_a_second_program_opens_them(tmp_path: Path) -> None:
    for name, options in (("guided", []), ("project", []), ("key", ["--key"])):
        level = "project" if name == "project" else "guided"
        target = tmp_path / f"{name}.docx"
        assert run("worksheet", str(HOUSING), "--level", level, *options, "-o", str(target)).returncode == 0
    command = [
        str(SOFFICE),
        f"-env:UserInstallation=file://{tmp_path}/profile",
        "--headless",
        "--convert-to",
        "txt:Text",
    ]
    subprocess.run(
        [*command, "--outdir", str(tmp_path), *map(str, sorted(tmp_path.glob("*.docx")))],
        check=True, capture_output=True, timeout=180,
    )  # fmt: skip
    guided = (tmp_path / "guided.txt").read_text(encoding="utf-8-sig")
    for number in ("1", "8", "16"):
        assert f"line {number}" in guided
    assert "1 Callout" in guided
    assert "Do not hand it out" in (tmp_path / "key.txt").read_text(encoding="utf-8-sig")


def test_the_same_seed_gives_the_same_file(tmp_path: Path) -> None:
    for name, seed in (("a", "5"), ("b", "5"), ("c", "6")):
        for ending in (".docx", ".xlsx"):
            run("worksheet", str(HOUSING), "--seed", seed, "-o", str(tmp_path / f"{name}{ending}"))
    for ending in (".docx", ".xlsx"):
        a, b, c = ((tmp_path / f"{name}{ending}").read_bytes() for name in "abc")
        assert a == b != c


def test_what_can_be_picked_is_listed() -> None:
    done = run("worksheet", str(HOUSING), "--pick", "list")
    assert done.returncode == 0
    assert "  angles                       7, 11.2\n" in done.stdout
    assert "difficulty:" in done.stdout


# (options, exit status, part of what is said)
BAD_USE = [
    ([str(HOUSING)], 2, "-o FILE.docx"),
    ([str(HOUSING), "-o", "a.pdf"], 1, ".docx or .xlsx"),
    ([str(HOUSING), "--pick", "fitz", "-o", "a.docx"], 1, 'did you mean "fits"?'),
    ([str(HOUSING), "--seed", "x", "-o", "a.docx"], 2, "no seed"),
    ([str(FAULTY), "-o", "a.docx"], 1, "9 faults"),
    (["missing.sheet", "-o", "a.docx"], 1, "missing.sheet"),
]


@pytest.mark.parametrize(("options", "status", "said"), BAD_USE)
def test_bad_use_of_worksheet(tmp_path: Path, options: list[str], status: int, said: str) -> None:
    done = run("worksheet", *options, cwd=tmp_path)
    assert done.returncode == status
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_class_is_marked(room: Path, tmp_path: Path) -> None:
    fill(room / "form.xlsx", tmp_path / "anna.xlsx", "Anna")
    wrong = {("3", "lower limit"): 120, ("3", "why"): "", ("7", "instrument"): "steel rule"}
    fill(room / "form.xlsx", tmp_path / "ben.xlsx", "Ben", wrong)
    fill(room / "form.xlsx", tmp_path / "cleo.xlsx", "Cleo", {("3", "lower limit"): "120"})
    answers = [str(tmp_path / f"{name}.xlsx") for name in ("anna", "ben", "cleo")]
    files = [tmp_path / f"class{ending}" for ending in (".docx", ".xlsx", ".csv")]
    options = ["--reference", str(room / "reference.csv"), *(part for file in files for part in ("-o", str(file)))]
    done = run("mark", str(HOUSING), *answers, *options)
    assert done.returncode == 0, done.stderr
    rows = list(csv.DictReader(io.StringIO(files[2].read_text(encoding="utf-8-sig"))))
    lost = [(row["trainee"], row["line"], row["question"]) for row in rows if row["points"] == "0"]
    assert lost == [
        ("Ben", "3", "lower limit"), ("Ben", "3", "reason"), ("Ben", "7", "instrument"), ("Cleo", "3", "lower limit"),
    ]  # fmt: skip
    book = load_workbook(files[1])
    points = {str(row[0].value): str(row[-2].value).split("/") for row in book["class"].iter_rows(min_row=2)}
    assert points["Anna"][0] == points["Anna"][1]
    assert int(points["Ben"][0]) == int(points["Anna"][0]) - 3
    worst = [cell.value for cell in book["by line"][2]]
    assert worst == ["3", "lower limit", "1/3", "33 %", "120 (2)"]
    text = "\n".join(cell.text for table in Document(str(files[0])).tables for row in table.rows for cell in row.cells)
    assert "steel rule" in text
    assert "120 (2)" in text


@pytest.mark.parametrize("width", [80, 120])
def test_the_class_is_shown_on_the_terminal(room: Path, tmp_path: Path, width: int) -> None:
    fill(room / "form.xlsx", tmp_path / "ben.xlsx", "Ben", {("3", "lower limit"): "\u202ered", ("4", "verdict"): "yes"})
    done = run(
        "mark", str(HOUSING), str(tmp_path / "ben.xlsx"), "--reference", str(room / "reference.csv"),
        env={"COLUMNS": str(width)},
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "\x1b" not in done.stdout
    assert "\u202e" not in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= width
    assert "root of the sum of the squares" in " ".join(done.stdout.split())


def test_files_that_are_no_form_are_told_and_the_others_marked(room: Path, tmp_path: Path) -> None:
    fill(room / "form.xlsx", tmp_path / "anna.xlsx", "Anna")
    (tmp_path / "bad.xlsx").write_bytes(bytes(range(256)) * 9)
    (tmp_path / "other.csv").write_text("a,b\n1,2\n", encoding="utf-8")
    names = ("anna.xlsx", "bad.xlsx", "other.csv", "gone.xlsx", "note.txt")
    target = tmp_path / "class.csv"
    done = run(
        "mark", str(HOUSING), *(str(tmp_path / name) for name in names), "--reference", str(room / "reference.csv"),
        "-o", str(target),
    )  # fmt: skip
    assert done.returncode == 1
    assert "Traceback" not in done.stderr
    for name in names[1:]:
        assert name in done.stderr
    assert "Anna" in target.read_text(encoding="utf-8-sig")


def test_cells_that_a_spreadsheet_spoilt_are_told(room: Path, tmp_path: Path) -> None:
    import datetime

    fill(
        room / "form.xlsx", tmp_path / "ben.xlsx", "Ben",
        {("3", "lower limit"): datetime.date(2026, 1, 2), ("3", "upper limit"): True, ("7", "upper limit"): 61 / 2},
    )  # fmt: skip
    target = tmp_path / "class.csv"
    run("mark", str(HOUSING), str(tmp_path / "ben.xlsx"), "--reference", str(room / "reference.csv"), "-o", str(target))
    rows = list(csv.DictReader(io.StringIO(target.read_text(encoding="utf-8-sig"))))
    lost = {(row["line"], row["question"]): row["why"] for row in rows if row["points"] == "0"}
    assert set(lost) == {("3", "lower limit"), ("3", "upper limit")}
    assert "date" in lost["3", "lower limit"]
    assert "truth" in lost["3", "upper limit"]


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--allowance", "wide"], "does not read"),
        (["-o", "class.pdf"], ".docx, .xlsx, .csv"),
        (["--reference", "no.csv"], "no.csv"),
    ],
)
def test_bad_use_of_mark(room: Path, tmp_path: Path, options: list[str], said: str) -> None:
    done = run("mark", str(HOUSING), str(room / "form.xlsx"), *options, cwd=tmp_path)
    assert done.returncode == 1
    assert said in done.stderr
    assert "Traceback" not in done.stderr


def test_without_a_reference_readings_are_not_marked(room: Path) -> None:
    done = run("mark", str(HOUSING), str(room / "form.xlsx"))
    assert done.returncode == 0
    assert "without a reference" in " ".join(done.stdout.split())
