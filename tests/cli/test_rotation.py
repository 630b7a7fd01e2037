"""`sizewright rotation` as a user runs it."""

from __future__ import annotations

import json
from importlib.util import find_spec
from pathlib import Path

import pytest

from ..support_command import ROOT, run

SAMPLES = ROOT / "samples"
CAP, HOUSING, FAULTY = (str(SAMPLES / f"{name}.sheet") for name in ("bearing-cap", "worm-housing", "faulty-saddle"))


def test_it_tells_the_timetable_and_the_bound() -> None:
    done = run("rotation", CAP, HOUSING, "--people", "3")
    assert done.returncode == 0
    assert "shortest possible" in done.stdout
    assert "Lower bound" in done.stdout
    assert all(f"person {number}: 0:00 to" in done.stdout for number in (1, 2, 3))
    assert max(map(len, done.stdout.splitlines())) <= 80
    assert "\x1b" not in done.stdout


def test_names_and_a_time_of_day() -> None:
    done = run("rotation", CAP, "--names", "Ada, Ben", "--begin", "8:30")
    assert "Ada: 08:30 to" in done.stdout
    assert "Ben: 08:30 to" in done.stdout


def test_shared_work_takes_every_piece_once() -> None:
    lines = run("rotation", HOUSING, "--share", "--json", "--copies", "2").stdout.splitlines()
    header, *slots = (json.loads(line) for line in lines)
    assert header["rotation"]["shared"]
    tasks = [slot["slot"]["task"] for slot in slots]
    assert sorted(tasks) == sorted(task["task"] for task in header["rotation"]["tasks"])
    assert {slot["slot"]["piece"] for slot in slots} == {1, 2}


def test_the_same_twice_is_the_same() -> None:
    first, second = (run("rotation", CAP, HOUSING, "--seed", "5", "--json").stdout for _ in range(2))
    assert first == second


def test_every_form_is_written(tmp_path: Path) -> None:
    files = [tmp_path / f"rotation{ending}" for ending in (".docx", ".csv", ".jsonl", ".txt")]
    done = run("rotation", CAP, *(part for file in files for part in ("-o", str(file))))
    assert (done.returncode, done.stdout) == (0, "")
    assert all(file.stat().st_size for file in files)


def test_own_times_and_crib_are_used(tmp_path: Path) -> None:
    times = tmp_path / "times.csv"
    times.write_text("kind,prepare,line,reading\ndigital caliper,0,60,0\n", encoding="utf-8")
    crib = tmp_path / "crib.toml"
    crib.write_text(
        '[[instrument]]\nkind = "digital caliper"\nrange = [0, 150]\nunit = "mm"\nresolution = 0.01\nowned = 2\n',
        encoding="utf-8",
    )
    sheet = tmp_path / "a.sheet"
    sheet.write_text("pieces: 2\n1: 25 ±0.2\n2: 30° ±1°\n", encoding="utf-8")
    done = run("rotation", str(sheet), "--times", str(times), "--crib", str(crib))
    assert "It takes 60 minutes (1 h 00 min): shortest possible." in done.stdout
    assert "NO INSTRUMENT in the crib reaches: 2" in done.stdout
    assert {"no. 1", "no. 2"} <= {done.stdout[at : at + 5] for at in range(len(done.stdout))}


def test_a_faulty_sheet_stops_it_in_one_sentence() -> None:
    done = run("rotation", CAP, FAULTY)
    assert (done.returncode, done.stdout) == (1, "")
    assert "faulty-saddle.sheet: 9 faults, no timetable made" in done.stderr
    assert len(done.stderr.splitlines()) == 1


def test_keep_going_leaves_the_faulty_lines_out() -> None:
    done = run("rotation", CAP, FAULTY, "--keep-going")
    assert done.returncode == 1
    assert "NOT READ: 2, 3, 4, 6, 7, 8" in done.stdout.replace("\n", " ")
    assert done.stderr.count("faulty-saddle.sheet:") == 9


# (text of a.sheet, options, exit status, part of what is said)
BAD = [
    ("", (), 1, "there is no callout in it"),
    ("1: (25)\n", (), 1, "nothing to measure"),
    ("1: 25 ±0.1\n", ("a.sheet",), 1, "given twice"),
    ("1: 25 ±0.1\n", ("missing.sheet",), 1, "missing.sheet"),
    ("1: 25 ±0.1\n", ("-o", "a.pdf"), 1, "the ending tells the form"),
    ("1: 25 ±0.1\n", ("-o", "no/a.csv"), 1, "does not exist"),
    ("1: 25 ±0.1\n", ("--times", "none.csv"), 1, "there is no file none.csv"),
    ("1: 25 ±0.1\n", ("--times", "a.sheet"), 1, "no column kind"),
    ("1: 25 ±0.1\n", ("--crib", "none.toml"), 1, "none.toml"),
    ("pieces: 5000\n1: 25 ±0.1\n", ("--share",), 1, "5000 pieces are too many"),
    ("1: 25 ±0.1\n", ("--people", "0"), 2, "'0' is no number of people"),
    ("1: 25 ±0.1\n", ("--people", "two"), 2, "'two' is no number of people"),
    ("1: 25 ±0.1\n", ("--copies", "0"), 2, "'0' is no number of pieces"),
    ("1: 25 ±0.1\n", ("--names", " , "), 2, "names nobody"),
    ("1: 25 ±0.1\n", ("--names", "Ada,Ada"), 2, "'Ada' stands there twice"),
    ("1: 25 ±0.1\n", ("--begin", "25:00"), 2, "no time of day"),
]


@pytest.mark.parametrize(("text", "options", "status", "said"), BAD)
def test_what_cannot_be_done_is_told(
    tmp_path: Path, text: str, options: tuple[str, ...], status: int, said: str
) -> None:
    (tmp_path / "a.sheet").write_text(text, encoding="utf-8")
    done = run("rotation", "a.sheet", *options, cwd=tmp_path)
    assert done.returncode == status
    assert done.stdout == ""
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    if status == 1:
        assert len(done.stderr.splitlines()) == 1


@pytest.mark.skipif(find_spec("ortools") is not None, reason="the optional solver is installed")
def test_a_missing_solver_is_told_before_any_work() -> None:
    done = run("rotation", CAP, "--solver")
    assert done.returncode == 1
    assert "pip install 'sizewright[solver]'" in done.stderr
