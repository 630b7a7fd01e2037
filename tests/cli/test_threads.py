"""Threads as a user runs the commands: reading, naming a measured one, the edition of the inch standard."""

from __future__ import annotations

from pathlib import Path

import pytest

from ..support_command import run

# (arguments, exit status, part of the output)
RUNS = [
    (["thread", "--outside", "9.85", "--pitch", "1.5"], 0, "M10x1.5         diameter -0.1500 mm"),
    (["thread", "--outside", "9.85", "--pitch", "1.5"], 0, "look-alike of another angle:"),
    (["thread", "--outside", "13.1", "--tpi", "19"], 0, "G1/4 "),
    (["thread", "--outside", ".245", "--tpi", "20", "--unit", "inch"], 0, "1/4-20 UNC"),
    (["thread", "--inside", "5", "--pitch", "1"], 0, "M6x1"),
    (["thread", "--outside", "9,85", "--pitch", "1,5", "--count", "1"], 0, "M10x1.5"),
    (["thread", "--outside", "25.4", "--tpi", "11.5"], 1, "No standard thread"),
    (["thread", "--outside", "9.85"], 2, "required"),
    (["thread", "--outside", "9.85", "--pitch", "1.5", "--tpi", "17"], 2, "not allowed with"),
    (["thread", "--outside", "-1", "--pitch", "1"], 2, "argument"),
    (["read", "M10x1.5-6H"], 0, "internal thread M10x1.5-6H"),
    (["read", "1/4-18 NPT", "--unit", "inch"], 0, "gauge plane"),
    (["read", "M10x1.5-6K"], 1, "Position K is not defined"),
    (["read", "1-8 UNC-2A", "--unit", "inch"], 0, "0.9101 in"),
    (["read", "1-8 UNC-2A", "--unit", "inch", "--threads", "B1.1-1989"], 0, "0.9100 in"),
    (["read", "1-8 UNC-2A", "--threads", "1950"], 2, "invalid choice"),
]  # fmt: skip


@pytest.mark.parametrize(("arguments", "status", "said"), RUNS, ids=[" ".join(row[0]) for row in RUNS])
def test_a_command(arguments: list[str], status: int, said: str) -> None:
    done = run(*arguments)
    assert done.returncode == status, done.stderr
    assert said in done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    assert all(len(line) <= 80 for line in done.stdout.splitlines())


@pytest.mark.parametrize(("entry", "limit"), [("", "0.9101"), ("threads: ASME B1.1-1989\n", "0.9100")])
def test_the_title_block_chooses_the_edition(tmp_path: Path, entry: str, limit: str) -> None:
    sheet = tmp_path / "stud.sheet"
    sheet.write_text(f"part: Saddle stud\nunit: inch\n{entry}1: 1-8 UNC-2A\n", encoding="utf-8")
    done = run("plan", str(sheet))
    assert done.returncode == 0, done.stderr
    assert limit in done.stdout


def test_an_edition_that_is_none_is_a_fault_of_the_sheet(tmp_path: Path) -> None:
    sheet = tmp_path / "stud.sheet"
    sheet.write_text("part: Saddle stud\nthreads: B1.1-1066\n1: 1-8 UNC-2A\n", encoding="utf-8")
    done = run("plan", str(sheet))
    assert done.returncode == 1
    assert '"B1.1-1066" is no edition of ASME B1.1 known here' in done.stderr + done.stdout
