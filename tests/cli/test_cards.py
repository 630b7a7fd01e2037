"""`sizewright cards` as a user runs it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from ..support_command import run


def test_one_card_on_the_terminal() -> None:
    done = run("cards", "--kind", "outside micrometer", "--unit", "mm")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("OUTSIDE MICROMETER\n")
    assert "1. wipe faces and part" in done.stdout


def test_json_is_a_card_a_line_and_what_is_left_out_is_told() -> None:
    done = run("cards", "--json", "--unit", "mm")
    names = [json.loads(line)["kind"] for line in done.stdout.splitlines()]
    assert "taper thread gauge" not in names
    assert "taper thread gauge" in done.stderr


@pytest.mark.parametrize("name", ["cards.docx", "cards.txt", "cards.jsonl"])
def test_files(tmp_path: Path, name: str) -> None:
    done = run("cards", "--kind", "plug gauge", "ring gauge", "-o", str(tmp_path / name))
    assert (done.returncode, done.stdout) == (0, "")
    assert (tmp_path / name).stat().st_size > 500


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--kind", "plug gage"], "near: plug gauge"),
        (["-o", "cards.pdf"], "the ending tells the form"),
        (["--kind", "taper thread gauge", "--unit", "mm"], "not in mm"),
        (["--crib", "nowhere.toml"], "there is no file"),
    ],
)
def test_what_cannot_be_done_is_one_sentence(arguments: list[str], said: str) -> None:
    done = run("cards", *arguments)
    assert (done.returncode, done.stdout) == (1, "")
    assert said in done.stderr
    assert "Traceback" not in done.stderr
