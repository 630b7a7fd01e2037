"""The wheel and the sdist carry the grammars and tables, and an installed wheel works outside the checkout."""

from __future__ import annotations

import os
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

from .support_command import ROOT

GRAMMARS = {path.name for path in (ROOT / "grammar").glob("*.lark")}


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("built")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-d", str(folder)], cwd=ROOT, check=True, capture_output=True
    )
    return folder


def test_an_unpacked_wheel_works_outside_the_checkout(built: Path, tmp_path: Path) -> None:
    (wheel,) = built.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(tmp_path / "site")
    names = {path.name for path in (tmp_path / "site" / "sizewright" / "grammar").iterdir()}
    assert names == GRAMMARS
    program = (
        "import sys, sizewright; from sizewright.cli.main import main; print(sizewright.__file__);"
        "sys.exit(main(['read', '--json', '--general', 'ISO 2768-m', '25', 'R5']) or main(['read', '25 ±0.1']))"
    )
    env = {**os.environ, "PYTHONPATH": str(tmp_path / "site"), "XDG_CACHE_HOME": str(tmp_path / "cache")}
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=tmp_path, env=env, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith(str(tmp_path / "site"))
    assert '"lower": "24.8"' in done.stdout


def test_the_sdist_carries_what_a_build_and_the_tests_need(built: Path) -> None:
    (sdist,) = built.glob("*.tar.gz")
    with tarfile.open(sdist) as archive:
        names = {name.partition("/")[2] for name in archive.getnames()}
    assert {f"grammar/{name}" for name in GRAMMARS} <= names
    assert {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "samples/worm-housing.sheet"} <= names
    assert "tests/data/callouts.csv" in names
