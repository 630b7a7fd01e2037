"""Text that is safe in a document, a spreadsheet and a terminal.

Typed text can hold anything: escape sequences that repaint a terminal, characters that no XML file may hold, marks that
turn the reading direction, text that a spreadsheet would compute. Here it becomes harmless and stays recognisable.
"""

from __future__ import annotations

import re
import unicodedata

from sizewright.text.cells import computes, guard, unguard

__all__ = ["computes", "guard", "one_line", "unguard", "visible"]

_LINE_ENDS = re.compile(r"\r\n?|[\x0b\x0c\x85\u2028\u2029]")
_INKLESS = re.compile("[\u00ad\u200b\u2060\ufeff]")
_JOINERS = "\u200c\u200d"  # scripts and pictures need them, and they cannot mislead
_NONCHARACTER = re.compile("[\ufdd0-\ufdef]")


def visible(text: str) -> str:
    r"""`text` with nothing in it that acts instead of being read; line breaks stay, as `\n`.

    A control character shows as its picture (`␛` for escape), other acting characters by number (`‹U+202E›`), a tab as
    a space. Characters without any ink (zero-width space, soft hyphen) are left out.
    """
    if text.isprintable():
        return text
    text = _INKLESS.sub("", _LINE_ENDS.sub("\n", text).replace("\t", " "))
    return "".join(char if char.isprintable() else _stand_in(char) for char in text)


def one_line(text: str) -> str:
    """`visible(text)` on one line, for places that cannot hold a second."""
    return " ".join(visible(text).split("\n"))


def _stand_in(char: str) -> str:
    if char == "\n" or char in _JOINERS:
        return char
    code = ord(char)
    if code < 0x20:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "␡"
    if unicodedata.category(char) in ("Cc", "Cf", "Cs") or code & 0xFFFE == 0xFFFE or _NONCHARACTER.match(char):
        return f"‹U+{code:04X}›"
    return char  # unusual spaces, private use (symbol fonts), characters younger than this Python
