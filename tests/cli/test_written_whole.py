"""Whatever ends the writing of a file: the old one is there, or the new one, never half."""

from __future__ import annotations

import io
import os
import signal
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from ..support_command import run

pytestmark = pytest.mark.skipif(os.name != "posix", reason="signals and limits of POSIX")
SHEET = "part: Plate\nunit: mm\n" + "".join(f"{n}: Ø{n} ±0.1\n" for n in range(1, 30))
FORMS = ["docx", "xlsx", "csv", "jsonl", "txt"]
# The command, interfered with at one step of its writing.
INTERFERED = """
import os, signal, sys, resource
from pathlib import Path
from sizewright.cli.main import main
step, how = sys.argv[1:3]
fsync, replace = os.fsync, Path.replace
def strike(*given):
    if how == "limit":
        raise AssertionError("it was to fail before")
    os.kill(os.getpid(), int(how))
    return (fsync if step == "fsync" else replace)(*given)
if step == "fsync":
    os.fsync = strike
elif step == "replace":
    Path.replace = strike
else:
    resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))
sys.dont_write_bytecode = True
sys.exit(main(sys.argv[3:]))
"""


def interfered(step: str, how: str, *arguments: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-B", "-c", INTERFERED, step, how, *arguments],
        capture_output=True, text=True, encoding="utf-8", cwd=cwd, check=False, timeout=120,
    )  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "a.sheet").write_text(SHEET, "utf-8")
    assert run("plan", "a.sheet", cwd=tmp_path).returncode == 0  # the tables of the grammar are made
    return tmp_path


def names(folder: Path) -> set[str]:
    return {each.name for each in folder.iterdir()}


@pytest.mark.parametrize("step", ["fsync", "replace"])
@pytest.mark.parametrize(("number", "status"), [(signal.SIGINT, 130), (signal.SIGTERM, 143), (signal.SIGKILL, -9)])
def test_a_signal_while_writing_leaves_the_old_file(folder: Path, step: str, number: int, status: int) -> None:
    target = folder / "plan.xlsx"
    target.write_bytes(b"old")
    done = interfered(step, str(int(number)), "plan", "a.sheet", "-o", "plan.xlsx", cwd=folder)
    assert done.returncode == status
    assert "Traceback" not in done.stderr
    if target.read_bytes() != b"old":  # the signal was seen only once the new name was there
        assert zipfile.is_zipfile(io.BytesIO(target.read_bytes()))
    if number != signal.SIGKILL:
        assert names(folder) == {"a.sheet", "plan.xlsx"}


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("old", [True, False])
def test_where_no_more_fits_the_old_file_stays(folder: Path, form: str, old: bool) -> None:
    target = folder / f"plan.{form}"
    if old:
        target.write_bytes(b"old")
    done = interfered("limit", "limit", "plan", "a.sheet", "-o", target.name, cwd=folder)
    said = f"no space left to write {target.name}; nothing was changed"
    if form == "xlsx":
        said = "no room in the folder for temporary files to make the workbook (IO_EFBIG)"
    assert (done.returncode, done.stderr) == (1, f"sizewright: {said}\n")
    assert names(folder) == ({"a.sheet", target.name} if old else {"a.sheet"})
    assert not old or target.read_bytes() == b"old"


@pytest.mark.parametrize("arguments", [
    ["plan", "a.sheet", "--readings", "/dev/full"],
    ["plan", "a.sheet", "-o", "/dev/full"],
    ["restate", "--unit", "inch", "a.sheet", "-o", "/dev/full"],
    ["read", "Ø25 H7", "--picture", "/dev/full"],
], ids=" ".join)  # fmt: skip
def test_a_device_is_not_replaced(folder: Path, arguments: list[str]) -> None:
    done = run(*arguments, cwd=folder)
    assert done.returncode == 1
    assert done.stderr.splitlines()[-1].startswith("sizewright: ")
    assert "Traceback" not in done.stderr
    assert Path("/dev/full").is_char_device()


# Root may write anywhere: the child gives that right up (capability 1 out of its bounding set) before it begins.
LIKE_ANYBODY = """
import ctypes, os, sys
if os.geteuid() == 0 and ctypes.CDLL(None).prctl(24, 1, 0, 0, 0) != 0:
    sys.exit(77)
os.execv(sys.executable, [sys.executable, "-B", "-m", "sizewright", *sys.argv[1:]])
"""


@pytest.mark.skipif(sys.platform != "linux", reason="rights are given up in a way of Linux")
@pytest.mark.parametrize("arguments", [
    ["plan", "../a.sheet", "-o", "plan.csv"],
    ["plan", "../a.sheet", "--readings", "r.csv"],
    ["take", "../a.sheet", "-o", "t.csv"],
    ["restate", "--unit", "inch", "../a.sheet", "-o", "b.sheet"],
    ["read", "Ø25 H7", "--picture", "p.svg"],
], ids=" ".join)  # fmt: skip
def test_a_folder_closed_to_writing_is_one_sentence(folder: Path, arguments: list[str]) -> None:
    locked = folder / "locked"
    locked.mkdir(mode=0o555)
    done = subprocess.run(
        [sys.executable, "-c", LIKE_ANYBODY, *arguments],
        capture_output=True, text=True, encoding="utf-8", cwd=locked, check=False, timeout=120, input="25\n",
    )  # fmt: skip
    if done.returncode == 77:
        pytest.skip("this root cannot give its rights up")
    assert done.returncode == 1, done.stderr
    assert "no permission" in done.stderr.splitlines()[-1]
    assert "Traceback" not in done.stderr
    assert list(locked.iterdir()) == []
