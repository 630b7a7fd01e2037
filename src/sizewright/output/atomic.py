"""Write a file whole or not at all."""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
import signal
import stat
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from types import FrameType

from sizewright.output.safe import one_line
from sizewright.text.errors import OutputError

_FULL = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG}


def write_whole(path: Path, data: bytes) -> None:
    """Put `data` at `path`: afterwards the file holds all of it, or what it held before.

    The data go to a temporary file in the same folder, which takes the name only once they are on the disk. A link
    stays a link: the file it points to is replaced. Access rights of an existing file are kept.

    Raises:
        OutputError: the folder is missing or closed to writing, `path` is a folder or a device, the existing file is
            read-only, or the disk is full. The temporary file is gone then.
    """
    shown = one_line(str(path))
    target = Path(os.path.realpath(path))
    try:
        mode = _mode_of_existing(target, shown)
        temporary = target.with_name(f".{secrets.token_hex(8)}.tmp")
        with _ending_like_a_failure():
            try:
                _fill(temporary, data, mode)
                temporary.replace(target)
            except BaseException:
                with contextlib.suppress(OSError):
                    temporary.unlink()
                raise
    except OSError as error:
        raise OutputError(_sentence(error, target, shown)) from error
    _sync_folder(target.parent)


@contextlib.contextmanager
def _ending_like_a_failure() -> Iterator[None]:
    """Asked to end (SIGTERM), the process takes its temporary file away first, unless it has plans of its own."""
    if threading.current_thread() is not threading.main_thread() or signal.getsignal(signal.SIGTERM) != signal.SIG_DFL:
        yield
        return
    signal.signal(signal.SIGTERM, _end)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, signal.SIG_DFL)


def _end(number: int, _: FrameType | None) -> None:
    sys.exit(128 + number)


def _mode_of_existing(target: Path, shown: str) -> int | None:
    try:
        found = target.stat()
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(found.st_mode):
        raise OutputError(f"{shown} is a folder, not a file")
    if not stat.S_ISREG(found.st_mode):
        raise OutputError(f"{shown} is not an ordinary file and cannot be replaced")
    # Replacing needs only the folder's permission; a file that its owner closed to writing is meant to stay.
    if not os.access(target, os.W_OK) or not found.st_mode & (stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH):
        raise OutputError(f"{shown} is read-only; nothing was written")
    return stat.S_IMODE(found.st_mode)


def _fill(temporary: Path, data: bytes, mode: int | None) -> None:
    # 0o666 leaves the access rights to the user's own mask, as for any file a program makes.
    descriptor = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    with os.fdopen(descriptor, "wb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())
    if mode is not None:
        temporary.chmod(mode)


def _sync_folder(folder: Path) -> None:
    """Make the new name last through a power failure where the system can; the file itself is already whole."""
    with contextlib.suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


def _sentence(error: OSError, target: Path, shown: str) -> str:
    if error.errno in _FULL:
        return f"no space left to write {shown}; nothing was changed"
    if not target.parent.is_dir():
        return f"the folder of {shown} does not exist"
    if isinstance(error, PermissionError):
        return f"{shown} cannot be written: no permission for its folder, or another program holds the file open"
    return f"{shown} could not be written: {error.strerror or error}"
