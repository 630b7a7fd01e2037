"""What fuzzing once needed keeps its rules; and the script runs."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from ..support_command import ROOT
from .all_targets import TARGETS
from .seeds import HERE, kept


def test_every_file_of_inputs_has_its_target() -> None:
    assert {path.stem for path in HERE.glob("*.jsonl")} <= set(TARGETS)


@pytest.mark.parametrize("target", [name for name in TARGETS if kept(name)])
def test_kept_inputs_keep_the_rules(target: str) -> None:
    for data in kept(target):
        TARGETS[target].check(data)


def test_the_script_runs_without_what_watches_it(tmp_path: Path) -> None:
    options = ["--blind", "--runs", "300", "--work", str(tmp_path)]
    done = subprocess.run(
        [sys.executable, "-m", "tests.fuzz.run", "values", "sheet_csv", *options],
        capture_output=True, text=True, encoding="utf-8", cwd=ROOT, check=False, timeout=120,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.count("300 inputs") == 2
