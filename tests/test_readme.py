"""Every example of the README does what it says."""

from __future__ import annotations

import re
import shlex
import tomllib
from pathlib import Path

import pytest

from sizewright.instruments.crib import parse_crib
from sizewright.plan.build import build_plan
from sizewright.sheet.read import read_text

from .support_command import ROOT, run

README = (ROOT / "README.md").read_text(encoding="utf-8")
CONSOLE = re.findall(r"^```console\n\$ (.*?)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
SHEETS = re.findall(r"^```\n(part:.*?)^```$", README, re.MULTILINE | re.DOTALL)
CRIBS = re.findall(r"^```toml\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
COMMANDS = re.findall(r"^```sh\n(.*?)\n```$", README, re.MULTILINE | re.DOTALL)


@pytest.mark.parametrize(("command", "output"), CONSOLE, ids=[command for command, _ in CONSOLE])
def test_a_console_example_prints_what_it_shows(command: str, output: str) -> None:
    name, *arguments = shlex.split(command)
    assert name == "sizewright"
    shown = [line.rstrip() for line in run(*arguments).stdout.splitlines()]  # tables fill their lines with blanks
    assert shown == output.splitlines()


def test_the_sheet_and_the_crib_of_the_readme_read() -> None:
    (sheet,) = (read_text(text, Path("readme.sheet")) for text in SHEETS)
    (crib,) = (parse_crib(text) for text in CRIBS)
    assert tomllib.loads(CRIBS[0])
    plan = build_plan(sheet, crib)
    assert plan.faults == ()
    assert [line.number for line in plan.lines] == ["1", "2", "3"]


def test_the_main_command_makes_the_sample_document(tmp_path: Path) -> None:
    install_and_run, install_and_test = COMMANDS
    *install, plan = install_and_run.split(" && ")
    assert install == ["python3 -m venv .venv", ".venv/bin/pip install -q ."]
    _, *arguments = shlex.split(plan)
    target = tmp_path / arguments[-1]
    done = run(*arguments[:-1], str(target), cwd=ROOT)
    assert (done.returncode, done.stdout) == (0, "")
    assert target.read_bytes().startswith(b"PK")
    assert install_and_test.endswith(".venv/bin/pytest -n auto")
