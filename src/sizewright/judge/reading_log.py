"""The log of readings that `take` writes: a CSV file that only ever grows.

Columns, UTF-8 with a byte-order mark, parted by commas, line ends `\\n`:

| column | what it holds |
| --- | --- |
| balloon | the line of the plan (`2`, `2.1`), or `check` for a point of an instrument's check before use |
| limits of | which of the line's limits, empty where there is but one; of a check its point (`zero`, `10.3`) |
| piece, instance | counted from 1; empty in a check |
| lower limit, upper limit | what it was held against when it was taken, in `unit`; for a check from the MPE |
| value | as typed, a unit of its own behind it (`.9843 in`); accept or reject where a gauge answered |
| unit | the unit of the line |
| instrument | its name, with the serial number behind ` #` where the crib has one |
| by, when | who measured, and the local time with its offset (ISO 8601) |
| note | what was asked and confirmed, how a deviation was typed, or `undone` |

Nothing in it is ever changed or deleted. A later row of the same place replaces the earlier one for judging. A row
without a value whose note is `undone` takes the last reading of its place back. A row is put on the disk by one write
and is whole once its line end is there; a row that a failing machine cut off is closed by `SCAR` before the next one is
appended, and so can never be taken for a reading.
"""

from __future__ import annotations

import csv
import errno
import io
import os
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from sizewright.text.cells import guard
from sizewright.text.errors import InputError, OutputError

if TYPE_CHECKING:
    from filelock import BaseFileLock

HEADS = (
    "balloon", "limits of", "piece", "instance", "lower limit", "upper limit", "value", "unit", "instrument", "by",
    "when", "note",
)  # fmt: skip
_NUMBERS = ("piece", "instance", "lower limit", "upper limit")
HEADER = ("\ufeff" + ",".join(HEADS) + "\n").encode()
# More commas than there are columns, and then a word: a cell without a head, whatever stood before it.
SCAR = "," * len(HEADS) + "unfinished\n"
_FULL = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})


class LogInUseError(InputError):
    """Somebody else is taking readings into the same file."""


class ReadingLog:
    """The log in one file, held by one process alone from `open` to `close`.

    The system lets the lock go when the process ends, however it ends.
    """

    def __init__(self, path: Path) -> None:
        """Nothing is touched before `open`."""
        self.path = path
        self._target = Path(os.path.realpath(path))
        self._lock: BaseFileLock | None = None
        self._size = 0
        self._pending = b""

    def open(self, create: Callable[[Path, bytes], None]) -> bool:
        """Take the file for this process; `create` writes it whole where it is new. Returns whether it was there.

        Raises:
            LogInUseError: another process has it.
            InputError: it is there and is no log.
            OutputError: it cannot be written.
        """
        self._take_lock()
        try:
            there = self._target.exists()
            if not there:
                create(self._target, HEADER)
            self._begin()
        except BaseException:
            self.close()
            raise
        return there

    def append(self, cells: Mapping[str, str]) -> None:
        """Put one row on the disk; when this returns it is there.

        Raises:
            OutputError: it is not there, and the file holds what it held before.
        """
        data = self._pending + _line(cells)
        try:
            descriptor = os.open(self._target, os.O_WRONLY | os.O_APPEND | getattr(os, "O_BINARY", 0))
            try:
                if os.fstat(descriptor).st_size != self._size:
                    raise OutputError(
                        f"{self.path} was changed by another program meanwhile; this reading is not stored. "
                        "Close the other program and start again"
                    )
                self._write(descriptor, data)
                os.fsync(descriptor)
            finally:
                os.close(descriptor)
        except OSError as error:
            raise OutputError(f"not stored: {_sentence(error, self.path)}") from error
        self._size += len(data)
        self._pending = b""

    def close(self) -> None:
        """Let the file go."""
        if self._lock is not None:
            self._lock.release()
            self._lock = None

    def _take_lock(self) -> None:
        from filelock import FileLock, Timeout

        if not self._target.parent.is_dir():  # the lock would make one
            raise OutputError(f"there is no folder {self.path.parent}")
        lock = FileLock(self._target.with_name(f".{self._target.name}.lock"), timeout=0)
        try:
            lock.acquire()
        except Timeout:
            raise LogInUseError(f"readings are being taken into {self.path} already; two at once would mix") from None
        except OSError as error:
            raise OutputError(_sentence(error, self.path)) from error
        except NotImplementedError:
            raise OutputError(f"{self.path} cannot be held for one user alone on this file system") from None
        self._lock = lock

    def _begin(self) -> None:
        try:
            data = self._target.read_bytes()
            if not os.access(self._target, os.W_OK):
                raise OutputError(f"{self.path} is read-only")
        except OSError as error:
            raise OutputError(_sentence(error, self.path)) from error
        first, found, _ = data.partition(b"\n")
        if not found or first.removeprefix(b"\xef\xbb\xbf").rstrip(b"\r") + b"\n" != HEADER[3:]:
            raise InputError(
                f"{self.path} is no log that take has written, or another program has saved it anew; "
                "name another file with -o"
            )
        self._size = len(data)
        if not data.endswith(b"\n"):
            self._pending = _closing(data.rpartition(b"\n")[2])

    def _write(self, descriptor: int, data: bytes) -> None:
        """One write of the whole; where the disk took only a part of it, the part is taken back."""
        try:
            written = os.write(descriptor, data)
            if written == len(data):
                return
            reason = OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        except OSError as error:
            reason = error
        try:
            os.ftruncate(descriptor, self._size)
        except OSError:
            size = os.fstat(descriptor).st_size
            torn = data[: size - self._size]
            self._pending = _closing(torn.rpartition(b"\n")[2]) if torn else self._pending
            self._size = size
        raise reason


def _closing(torn: bytes) -> bytes:
    """What ends a row that was cut off, so that it reads as nothing."""
    return (('"' if torn.count(b'"') % 2 else "") + SCAR).encode()


def _line(cells: Mapping[str, str]) -> bytes:
    text = io.StringIO(newline="")
    row = [_cell(head, cells.get(head, "")) for head in HEADS]
    csv.writer(text, lineterminator="\n").writerow(row)
    return text.getvalue().encode("utf-8", "replace")


def _cell(head: str, text: str) -> str:
    flat = " ".join(text.split())
    return flat if head in _NUMBERS else guard(flat)


def _sentence(error: OSError, path: Path) -> str:
    if error.errno in _FULL:
        return f"no space left to write {path}"
    if isinstance(error, FileNotFoundError):
        return (
            f"the file or the folder of {path} is gone" if path.parent.is_dir() else f"there is no folder {path.parent}"
        )
    if isinstance(error, PermissionError):
        return f"{path} cannot be written: no permission for it or its folder"
    return f"{path} cannot be written: {error.strerror or error}"
