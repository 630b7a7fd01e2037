from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from sizewright.output.write import ENDINGS, write_plan, write_readings
from sizewright.text.errors import InputError, OutputError

from .plans import housing

BEGINNINGS = {".docx": b"PK", ".xlsx": b"PK", ".csv": b"\xef\xbb\xbfballoon", ".jsonl": b'{"plan": ', ".txt": b"\nWorm"}


@pytest.mark.parametrize("ending", ENDINGS)
def test_the_ending_tells_the_form(tmp_path: Path, ending: str) -> None:
    write_plan(housing(), tmp_path / f"plan{ending.upper()}")
    assert (tmp_path / f"plan{ending.upper()}").read_bytes().startswith(BEGINNINGS[ending])


@pytest.mark.parametrize("name", ["plan", "plan.pdf", "plan.doc", ".docx"])
def test_an_unknown_ending_lists_the_known(tmp_path: Path, name: str) -> None:
    with pytest.raises(InputError, match=r"known are \.docx, \.xlsx, \.csv, \.jsonl, \.txt"):
        write_plan(housing(), tmp_path / name)
    assert not list(tmp_path.iterdir())


def test_readings_alone_are_csv(tmp_path: Path) -> None:
    write_readings(housing(), tmp_path / "readings.csv")
    assert b"value,instrument,by,when" in (tmp_path / "readings.csv").read_bytes()
    with pytest.raises(InputError, match=r"written as \.csv"):
        write_readings(housing(), tmp_path / "readings.xlsx")


def test_a_missing_folder_is_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="does not exist"):
        write_plan(housing(), tmp_path / "none" / "plan.txt")


def test_no_library_is_loaded_before_it_is_needed() -> None:
    code = (
        "import sys, sizewright.output.write, sizewright.output.csvfile, sizewright.output.jsonl\n"
        "print([name for name in ('rich', 'docx', 'openpyxl', 'lxml', 'pint') if name in sys.modules])"
    )
    source = Path(sys.modules["sizewright.output"].__path__[0]).parents[1]
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env={"PYTHONPATH": str(source)}
    )
    assert done.stdout == "[]\n"
