"""Files: their bytes, and the text in them. Everything that can be wrong with a file is one `InputError`."""

from __future__ import annotations

import codecs
import re
from pathlib import Path

from sizewright.text.errors import InputError

MOST_BYTES = 5_000_000
MOST_LINES = 50_000
MOST_CELLS = 1_000_000
_LONGEST = 20_000

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig", "UTF-8"),
    (codecs.BOM_UTF32_LE, "utf-32", "UTF-32"),  # begins like the mark of UTF-16, so it stands before it
    (codecs.BOM_UTF32_BE, "utf-32", "UTF-32"),
    (codecs.BOM_UTF16_LE, "utf-16", "UTF-16"),
    (codecs.BOM_UTF16_BE, "utf-16", "UTF-16"),
)
_WINDOWS = [bytes((byte,)).decode("cp1252", "ignore") or chr(byte) for byte in range(256)]
# Text has blanks and line ends below U+0020, and at times the end-of-file mark of old systems.
_NOT_TEXT = re.compile(r"[\x00-\x08\x0e-\x19\x1b-\x1f]")
_NOT_UTF_8 = (
    "the file is not UTF-8; it is read as Windows-1252 (Latin-1): look at its marks, above all Ø, ± and °, "
    "or save it as UTF-8"
)


def file_bytes(path: Path) -> bytes:
    """The bytes of the file `path`.

    Raises:
        InputError: it is missing, no file, cannot be read, or is too large.
    """
    try:
        if path.is_dir():
            raise InputError(f"{path} is a folder, not a file")
        if path.exists() and not path.is_file():
            raise InputError(f"{path} is no ordinary file")
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise InputError(f"there is no file {path}") from None
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise InputError(f"{path} cannot be read: {reason}") from None
    if len(data) > MOST_BYTES:
        raise InputError(f"{path} is too large: {MOST_BYTES // 1_000_000} MB is the most")
    return data


def file_text(path: Path) -> tuple[str, tuple[str, ...]]:
    """The text of the file `path`, line ends all `\\n`, and remarks on how it was read.

    Raises:
        InputError: the file cannot be used (see `file_bytes`), or holds no text.
    """
    text, remarks = _decoded(file_bytes(path), path)
    return text.replace("\r\n", "\n").replace("\r", "\n"), remarks


def text_lines(text: str, path: Path) -> list[str]:
    """The lines of `text`.

    Raises:
        InputError: there are too many, or one is too long.
    """
    lines = text.split("\n")
    if len(lines) > MOST_LINES:
        raise InputError(f"{path} has {len(lines)} lines; {MOST_LINES} are the most")
    for number, line in enumerate(lines, 1):
        if len(line) > _LONGEST:
            raise InputError(f"{path}: line {number} has {len(line)} characters; {_LONGEST} are the most")
    return lines


def _decoded(data: bytes, path: Path) -> tuple[str, tuple[str, ...]]:
    for mark, encoding, name in _MARKS:
        if data.startswith(mark):
            try:
                return data.decode(encoding), ()
            except UnicodeDecodeError:
                raise InputError(f"{path} is marked as {name} but does not read as {name}") from None
    remarks: tuple[str, ...] = ()
    try:
        text = data.decode("utf-8")
        binary = "\0" in text
    except UnicodeDecodeError:
        # The few bytes that Windows-1252 leaves open mean what they mean in Latin-1.
        text, remarks = "".join(_WINDOWS[byte] for byte in data), (_NOT_UTF_8,)
        binary = _NOT_TEXT.search(text) is not None
    if binary:
        raise InputError(f"{path} is not a text file; a sheet is plain text, saved as UTF-8")
    return text, remarks
