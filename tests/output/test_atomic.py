from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from sizewright.output.atomic import write_whole
from sizewright.text.errors import OutputError


def only(folder: Path) -> list[str]:
    return sorted(each.name for each in folder.iterdir())


def test_a_new_file_holds_all_and_follows_the_umask(tmp_path: Path) -> None:
    write_whole(tmp_path / "plan.csv", b"data")
    plain = tmp_path / "plain"
    plain.write_bytes(b"")
    assert (tmp_path / "plan.csv").read_bytes() == b"data"
    assert (tmp_path / "plan.csv").stat().st_mode == plain.stat().st_mode


def test_an_old_file_is_replaced_and_keeps_its_rights(tmp_path: Path) -> None:
    file = tmp_path / "plan.csv"
    file.write_bytes(b"old")
    file.chmod(0o640)
    write_whole(file, b"new")
    assert file.read_bytes() == b"new"
    assert file.stat().st_mode & 0o777 == 0o640
    assert only(tmp_path) == ["plan.csv"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real.csv").write_bytes(b"old")
    (tmp_path / "link.csv").symlink_to(tmp_path / "real.csv")
    write_whole(tmp_path / "link.csv", b"new")
    assert (tmp_path / "link.csv").is_symlink()
    assert (tmp_path / "real.csv").read_bytes() == b"new"


@pytest.mark.parametrize(
    ("error", "sentence"),
    [
        (OSError(errno.ENOSPC, "No space left on device"), "no space left to write"),
        (PermissionError(errno.EACCES, "denied"), "cannot be written: no permission"),
        (OSError(errno.EIO, "Input/output error"), "could not be written: Input/output error"),
    ],
)
@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_failure_keeps_the_old_file_and_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str, error: OSError, sentence: str
) -> None:
    file = tmp_path / "plan.csv"
    file.write_bytes(b"old")

    def fail(*_: object) -> None:
        raise error

    monkeypatch.setattr(*((os, "fsync", fail) if step == "fsync" else (Path, "replace", fail)))
    with pytest.raises(OutputError, match=sentence):
        write_whole(file, b"new")
    assert file.read_bytes() == b"old"
    assert only(tmp_path) == ["plan.csv"]


def test_an_interruption_keeps_the_old_file_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "plan.csv"
    file.write_bytes(b"old")

    def interrupt(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupt)
    with pytest.raises(KeyboardInterrupt):
        write_whole(file, b"new")
    assert file.read_bytes() == b"old"
    assert only(tmp_path) == ["plan.csv"]


def test_each_place_that_cannot_be_written_gets_its_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"x")
    (tmp_path / "closed.csv").write_bytes(b"old")
    (tmp_path / "closed.csv").chmod(0o444)
    cases = {
        tmp_path / "none" / "plan.csv": "the folder of .* does not exist",
        tmp_path / "file" / "plan.csv": "the folder of .* does not exist",
        tmp_path: "is a folder, not a file",
        Path(os.devnull): "is not an ordinary file",
        tmp_path / "closed.csv": "is read-only; nothing was written",
        tmp_path / ("x" * 300): "could not be written",
    }
    for place, sentence in cases.items():
        with pytest.raises(OutputError, match=sentence):
            write_whole(place, b"new")
    assert (tmp_path / "closed.csv").read_bytes() == b"old"
    assert only(tmp_path) == ["closed.csv", "file"]


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="no folder is closed to this user")
def test_a_folder_closed_to_writing_is_said(tmp_path: Path) -> None:
    folder = tmp_path / "closed"
    folder.mkdir(mode=0o555)
    with pytest.raises(OutputError, match="no permission"):
        write_whole(folder / "plan.csv", b"new")
