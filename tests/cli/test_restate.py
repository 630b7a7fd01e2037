"""Restating as a user runs it: callouts, and a sheet that reads again."""

from __future__ import annotations

from pathlib import Path

import pytest

from sizewright.sheet.read import read_sheet

from ..support_command import ROOT, run

# (arguments, exit status, part of the output)
RUNS = [
    (["restate", "--unit", "inch", "25 ±0.1"], 0, "25 ±0.1  ->  .9843 ±.0038"),
    (["restate", "--unit", "mm", ".750 ±.001"], 0, ".750 ±.001  ->  19,050 ±0,025"),
    (["restate", "--unit", "mm", "--from", "mm", "--manner", "asme", "0,5 +0,1/0"], 0, "->  0.5 +0.1/0"),
    (["restate", "--unit", "inch", "--general", "ISO 2768-m", "120"], 0, "4.724 ±.011"),
    (["restate", "--unit", "inch", "25 +"], 1, "NOT READ"),
    (["restate", "--unit", "inch", "--general", "nonsense", "25"], 2, "--general does not read"),
    (["restate", "25"], 2, "--unit"),
    (["restate", "--unit", "inch", "25", "-o", "x.sheet"], 1, "--output takes a sheet"),
    (["restate", "--unit", "inch", "missing.sheet"], 1, "missing.sheet"),
]


@pytest.mark.parametrize(("arguments", "status", "said"), RUNS, ids=[" ".join(row[0]) for row in RUNS])
def test_a_command(arguments: list[str], status: int, said: str) -> None:
    done = run(*arguments)
    assert done.returncode == status, done.stderr
    assert said in done.stdout + done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("sample", ["camera-plate", "worm-housing", "polar-axis", "focuser-shaft"])
def test_a_sheet_restated_reads_and_keeps_its_lines(tmp_path: Path, sample: str) -> None:
    source = read_sheet(ROOT / "samples" / f"{sample}.sheet")
    unit = "mm" if source.title["unit"].value == "inch" else "inch"
    target = tmp_path / "other.sheet"
    done = run("restate", "--unit", unit, f"samples/{sample}.sheet", "-o", str(target), cwd=ROOT)
    assert done.returncode == 0, done.stderr
    made = read_sheet(target)
    assert made.faults == ()
    assert made.title["unit"].value == unit
    assert [(line.balloon, line.zone, line.class_, line.view) for line in made.lines] == [
        (line.balloon, line.zone, line.class_, line.view) for line in source.lines
    ]
