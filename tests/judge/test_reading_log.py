from __future__ import annotations

import errno
import os
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from sizewright.judge.reading_files import read_readings
from sizewright.judge.reading_log import HEADER, LogInUseError, ReadingLog
from sizewright.output.atomic import write_whole
from sizewright.text.errors import InputError, OutputError

from .sheets import plan_of

ROW = {"balloon": "1", "piece": "1", "instance": "1", "value": "25.01", "unit": "mm", "by": 'Ø, "x"\nµ'}


def opened(path: Path) -> ReadingLog:
    log = ReadingLog(path)
    log.open(write_whole)
    return log


def numbers(path: Path) -> list[object]:
    return [each.value for each in read_readings(path, plan_of()).readings]


def test_what_is_appended_reads_again(tmp_path: Path) -> None:
    log = opened(tmp_path / "r.csv")
    log.append(ROW)
    log.append(ROW | {"value": "-0.5", "piece": "2"})
    found = read_readings(tmp_path / "r.csv", plan_of())
    assert [each.value for each in found.readings] == [Decimal("25.01"), Decimal("-0.5")]
    assert found.readings[0].by == 'Ø, "x" µ'
    assert found.unreadable == ()
    log.close()


def test_a_row_is_one_write_and_on_the_disk_before_append_returns(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    log = opened(tmp_path / "r.csv")
    calls: list[str] = []
    write, fsync = os.write, os.fsync

    def written(where: int, data: bytes) -> int:
        calls.append("write")
        return write(where, data)

    def synced(where: int) -> None:
        calls.append("fsync")
        fsync(where)

    monkeypatch.setattr("sizewright.judge.reading_log.os.write", written)
    monkeypatch.setattr("sizewright.judge.reading_log.os.fsync", synced)
    log.append(ROW)
    assert calls == ["write", "fsync"]
    log.close()


def test_a_number_is_written_bare_and_a_text_that_looks_like_a_formula_is_guarded(tmp_path: Path) -> None:
    log = opened(tmp_path / "r.csv")
    log.append(ROW | {"lower limit": "-0.02", "by": "=x", "note": "-a"})
    log.close()
    assert (tmp_path / "r.csv").read_text("utf-8-sig").splitlines()[1] == "1,,1,1,-0.02,,25.01,mm,,'=x,,'-a"


def test_a_row_leaves_no_file_open(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    log = opened(tmp_path / "r.csv")
    taken: list[int] = []
    open_ = os.open

    def noted(*given: Any) -> int:
        taken.append(open_(*given))
        return taken[-1]

    monkeypatch.setattr("sizewright.judge.reading_log.os.open", noted)
    log.append(ROW)
    (descriptor,) = taken
    with pytest.raises(OSError, match="descriptor"):
        os.fstat(descriptor)
    log.close()


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (OSError("odd"), "cannot be written: odd"),
        (OSError(errno.EIO, "Input/output error"), "cannot be written: Input/output error"),
        (OSError(errno.EDQUOT, "Disk quota exceeded"), "no space left"),
        (PermissionError(errno.EACCES, "Permission denied"), "no permission"),
    ],
)
def test_why_a_row_is_not_stored_is_one_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: OSError, words: str
) -> None:
    log = opened(tmp_path / "r.csv")

    def no(*_: object) -> int:
        raise error

    monkeypatch.setattr("sizewright.judge.reading_log.os.open", no)
    with pytest.raises(OutputError, match=f"not stored: .*{words}"):
        log.append(ROW)
    log.close()


def test_two_at_once_are_told(tmp_path: Path) -> None:
    log = opened(tmp_path / "r.csv")
    (tmp_path / "link.csv").symlink_to(tmp_path / "r.csv")
    for name in ("r.csv", "link.csv"):
        with pytest.raises(LogInUseError, match="already"):
            opened(tmp_path / name)
    log.close()
    opened(tmp_path / "r.csv").close()


@pytest.mark.parametrize("torn", [b"2,,1,1,,,6.6", b'2,,1,1,,,6.61,mm,"a, b', "2,,1,1,,,6.61,mm,Ø".encode()[:-1]])
def test_a_row_cut_off_is_closed_before_the_next(tmp_path: Path, torn: bytes) -> None:
    path = tmp_path / "r.csv"
    path.write_bytes(HEADER + torn)
    log = opened(path)
    assert path.read_bytes() == HEADER + torn  # nothing is changed before there is something to add
    log.append(ROW)
    log.append(ROW | {"piece": "2", "by": '"quoted" again'})
    log.close()
    found = read_readings(path, plan_of())
    assert len(found.readings) == 2
    assert len(found.unreadable) == 1
    assert path.read_bytes().startswith(HEADER + torn)


@pytest.mark.parametrize(
    "content", [b"", b"balloon,value\n1,25\n", b"\xd862\n", HEADER.replace(b",", b";"), HEADER[:-1]]
)
def test_a_file_that_is_no_log_is_left_alone(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "r.csv"
    path.write_bytes(content)
    with pytest.raises(InputError, match="is no log"):
        opened(path)
    assert path.read_bytes() == content


def test_a_log_with_other_line_ends_goes_on(tmp_path: Path) -> None:
    path = tmp_path / "r.csv"
    path.write_bytes(HEADER[3:-1] + b"\r\n")
    log = opened(path)
    log.append(ROW)
    log.close()
    assert numbers(path) == [Decimal("25.01")]


def test_a_file_that_another_program_changed_takes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "r.csv"
    log = opened(path)
    path.write_bytes(HEADER + b"1,,1,1,,,25.02,mm,,,,\n")
    with pytest.raises(OutputError, match="changed by another program"):
        log.append(ROW)
    path.unlink()
    with pytest.raises(OutputError, match="gone"):
        log.append(ROW)
    log.close()


@pytest.mark.parametrize("taken", [0, 1, 10, 30])
def test_where_the_disk_takes_only_a_part_the_part_is_taken_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, taken: int
) -> None:
    path = tmp_path / "r.csv"
    log = opened(path)
    log.append(ROW)
    before = path.read_bytes()
    write = os.write

    def short(descriptor: int, data: bytes) -> int:
        if not taken:
            raise OSError(errno.ENOSPC, "No space left on device")
        return write(descriptor, data[:taken])

    monkeypatch.setattr("sizewright.judge.reading_log.os.write", short)
    with pytest.raises(OutputError, match="no space left"):
        log.append(ROW)
    assert path.read_bytes() == before
    monkeypatch.setattr("sizewright.judge.reading_log.os.write", write)
    log.append(ROW | {"value": "25.02"})
    log.close()
    assert numbers(path) == [Decimal("25.01"), Decimal("25.02")]


def test_a_part_that_cannot_be_taken_back_is_closed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "r.csv"
    log = opened(path)
    write = os.write

    def no(*_: object) -> None:
        raise OSError(errno.EIO, "Input/output error")

    with monkeypatch.context() as patch:
        patch.setattr("sizewright.judge.reading_log.os.write", lambda where, data: write(where, data[:20]))
        patch.setattr("sizewright.judge.reading_log.os.ftruncate", no)
        for _ in range(2):
            with pytest.raises(OutputError):
                log.append(ROW)
    log.append(ROW)
    log.close()
    assert numbers(path) == [Decimal("25.01")]


def test_a_missing_folder_is_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="no folder"):
        opened(tmp_path / "nowhere" / "r.csv")
    assert not (tmp_path / "nowhere").exists()


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is closed to the superuser")
def test_a_closed_folder_is_one_sentence(tmp_path: Path) -> None:
    folder = tmp_path / "closed"
    folder.mkdir(mode=0o500)
    with pytest.raises(OutputError, match="no permission"):
        opened(folder / "r.csv")
