"""`sizewright plan` as a user runs it: every sample, every form, and what goes wrong."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest
from docx import Document
from openpyxl import load_workbook

from ..support_command import ROOT, run

SAMPLES = sorted((ROOT / "samples").glob("*.sheet"))
GOOD = [path for path in SAMPLES if "faulty" not in path.name]
FAULTY = ROOT / "samples" / "faulty-saddle.sheet"
ENDINGS = [".docx", ".xlsx", ".csv", ".jsonl", ".txt"]


def test_there_are_samples_of_both_units_and_a_faulty_one() -> None:
    texts = [path.read_text(encoding="utf-8") for path in SAMPLES]
    assert len(SAMPLES) >= 4
    assert any("unit: inch" in text for text in texts)
    assert any("unit: mm" in text for text in texts)
    assert all(text.startswith("; What this shows: ") for text in texts)


@pytest.mark.parametrize("sheet", GOOD, ids=lambda path: path.stem)
def test_a_sample_is_written_in_every_form(sheet: Path, tmp_path: Path) -> None:
    files = [tmp_path / f"plan{ending}" for ending in ENDINGS]
    options = [part for file in files for part in ("-o", str(file))]
    done = run("plan", str(sheet), "--both-units", *options)
    assert done.returncode == 0, done.stderr
    numbers = [json.loads(text)["line"]["number"] for text in files[3].read_text(encoding="utf-8").splitlines()[1:]]
    document = "\n".join(
        cell.text for table in Document(str(files[0])).tables for row in table.rows for cell in row.cells
    )
    workbook = load_workbook(files[1])
    column = [str(cell.value) for cell in next(workbook["plan"].iter_cols(1, 1))]
    for number in numbers:
        assert number in document
        assert number in column
        assert number in files[4].read_text(encoding="utf-8")
        assert f"\n{number}," in files[2].read_text(encoding="utf-8-sig")


@pytest.mark.parametrize("width", [80, 120])
@pytest.mark.parametrize("sheet", GOOD, ids=lambda path: path.stem)
def test_the_terminal_shows_it_within_its_width(sheet: Path, width: int) -> None:
    done = run("plan", str(sheet), env={"COLUMNS": str(width)})
    assert done.returncode == 0
    assert max(len(line) for line in done.stdout.splitlines()) <= width
    assert "\x1b" not in done.stdout


def test_json_goes_to_standard_output() -> None:
    done = run("plan", str(GOOD[0]), "--json")
    header, *lines = (json.loads(line) for line in done.stdout.splitlines())
    assert header["plan"]["title"]["part"]
    assert all("line" in line for line in lines)


def test_faults_are_shown_together_and_nothing_is_written(tmp_path: Path) -> None:
    target = tmp_path / "plan.docx"
    done = run("plan", str(FAULTY), "-o", str(target))
    assert done.returncode == 1
    assert done.stdout == ""
    assert done.stderr.count("faulty-saddle.sheet:") == 9
    assert "9 faults, no plan made" in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_keep_going_marks_the_faulty_lines(tmp_path: Path) -> None:
    target = tmp_path / "plan.jsonl"
    done = run("plan", str(FAULTY), "--keep-going", "-o", str(target))
    assert done.returncode == 1
    lines = [json.loads(line)["line"] for line in target.read_text(encoding="utf-8").splitlines()[1:]]
    assert [line["callout"] for line in lines if line["unread"]] == [
        "Ø10 THUR", "25 +0.2", "30°75'", "40 +0.1/+0.3", "3/4", "2 x 3 x 4",
    ]  # fmt: skip


def test_no_limits_are_given_under_a_faulty_unit(tmp_path: Path) -> None:
    sheet = tmp_path / "a.sheet"
    sheet.write_text("unit: furlong\n1: 25 ±0.1\n", encoding="utf-8")
    done = run("plan", str(sheet), "--keep-going", "--json")
    line = json.loads(done.stdout.splitlines()[1])["line"]
    assert line["limits"] == []
    assert "title block" in line["unread"]


def _make(path: Path, what: str) -> Path:
    if what == "folder":
        path.mkdir()
    elif what == "binary":
        path.write_bytes(bytes(range(256)) * 40)
    elif what == "empty":
        path.write_bytes(b"")
    elif what == "good":
        path.write_text("1: 25 ±0.1\n", encoding="utf-8")
    return path


# (sheet's name, what it is, output's name, part of what is said)
BAD_FILES = [
    ("a.sheet", "missing", None, "a.sheet"),
    ("a.sheet", "folder", None, "folder"),
    ("a.sheet", "binary", None, "a.sheet"),
    ("a.xlsx", "binary", None, "a.xlsx"),
    ("a.docx", "good", None, ".sheet, .csv"),
    ("a.sheet", "good", "plan.pdf", ".docx, .xlsx, .csv"),
    ("a.sheet", "good", "plan", "the ending tells the form"),
    ("a.sheet", "good", "no-folder/plan.docx", "no-folder"),
]


@pytest.mark.parametrize(("name", "what", "output", "said"), BAD_FILES)
def test_a_file_that_cannot_be_used_is_one_sentence(
    tmp_path: Path, name: str, what: str, output: str | None, said: str
) -> None:
    sheet = _make(tmp_path / name, what)
    before = sorted(tmp_path.iterdir())
    options = ["-o", str(tmp_path / output)] if output else []
    done = run("plan", str(sheet), *options)
    assert done.returncode == 1
    assert done.stdout == ""
    assert said in done.stderr
    assert len(done.stderr.splitlines()) == 1
    assert "Traceback" not in done.stderr
    assert sorted(tmp_path.iterdir()) == before


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write anywhere")
def test_an_unwritable_folder_is_told(tmp_path: Path) -> None:
    sheet = _make(tmp_path / "a.sheet", "good")
    locked = tmp_path / "locked"
    locked.mkdir(mode=0o500)
    done = run("plan", str(sheet), "-o", str(locked / "plan.csv"))
    assert done.returncode == 1
    assert list(locked.iterdir()) == []


def test_an_empty_sheet_has_nothing_to_plan(tmp_path: Path) -> None:
    sheet = _make(tmp_path / "a.sheet", "empty")
    done = run("plan", str(sheet))
    assert done.returncode == 1
    assert "no callout" in done.stderr
