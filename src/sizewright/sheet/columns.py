"""Where characters stand when a line is shown: tabs, wide characters, and characters that must not reach a terminal."""

from __future__ import annotations

import unicodedata

TAB = 8
_UNSEEN = ("Cc", "Cf", "Cs", "Zl", "Zp")
_UNKNOWN = "\N{REPLACEMENT CHARACTER}"


def column_at(text: str, offset: int) -> int:
    """The 1-based column, as shown, of the character at `offset` of `text` (or of its end)."""
    return sum(len_shown for _, len_shown in _pieces(text[:offset])) + 1


def shown(text: str) -> tuple[str, list[int]]:
    """`text` as it is shown, and the 0-based column of each of its characters and of its end."""
    columns = [0]
    parts: list[str] = []
    for part, wide in _pieces(text):
        parts.append(part)
        columns.append(columns[-1] + wide)
    return "".join(parts), columns


def clean(text: str) -> str:
    """`text` on one line, with every character that a terminal would obey made visible."""
    return shown(text)[0]


def _pieces(text: str) -> list[tuple[str, int]]:
    pieces: list[tuple[str, int]] = []
    column = 0
    for char in text:
        if char == "\t":
            wide = TAB - column % TAB
            pieces.append((" " * wide, wide))
        elif unicodedata.category(char) in _UNSEEN:
            wide = 1
            pieces.append((_UNKNOWN, wide))
        else:
            wide = _width(char)
            pieces.append((char, wide))
        column += wide
    return pieces


def _width(char: str) -> int:
    if char.isascii():
        return 1
    if unicodedata.category(char) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(char) in ("W", "F") else 1
