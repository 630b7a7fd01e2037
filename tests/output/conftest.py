"""Other programs that open what we write; a test that needs one is skipped where it is missing."""

from __future__ import annotations

import csv
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

# every sheet to a file of its own, UTF-8, as shown
_ALL_SHEETS = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,true,false,false,-1"


def needed(program: str) -> str:
    found = shutil.which(program)
    if found is None:
        pytest.skip(f"{program} is not installed")
    return found


def run(*command: str) -> str:
    return subprocess.run(command, check=True, capture_output=True, timeout=60, text=True).stdout


@pytest.fixture
def office(tmp_path: Path) -> Callable[[Path, str], Path]:
    """Convert a file with LibreOffice, in a profile of its own; gives the folder with what came out."""
    soffice = needed("soffice")

    def convert(file: Path, form: str) -> Path:
        folder = tmp_path / "office"
        profile = (tmp_path / "profile").as_uri()
        run(soffice, f"-env:UserInstallation={profile}", "--headless", "--convert-to", form, "--outdir", str(folder),
            str(file))  # fmt: skip
        return folder

    return convert


@pytest.fixture
def sheets(office: Callable[[Path, str], Path]) -> Callable[[Path], dict[str, list[dict[str, str]]]]:
    """The sheets of a workbook as LibreOffice computes and shows them: rows by column head."""

    def read(file: Path) -> dict[str, list[dict[str, str]]]:
        folder = office(file, _ALL_SHEETS)
        found = {}
        for each in folder.glob(f"{file.stem}-*.csv"):
            with each.open(encoding="utf-8", newline="") as stream:
                found[each.stem.removeprefix(f"{file.stem}-")] = list(csv.DictReader(stream))
        return found

    return read
