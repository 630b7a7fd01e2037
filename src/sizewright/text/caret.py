"""An error shown under the text it belongs to."""

from __future__ import annotations

import unicodedata

from sizewright.text.errors import CalloutError


def caret_lines(typed: str, error: CalloutError, indent: str = "  ") -> list[str]:
    """The line at fault, a caret with tildes under the fault, and the message with what would read."""
    start = min(error.column - 1, len(typed))
    line_start = typed.rfind("\n", 0, start) + 1
    line_end = typed.find("\n", start)
    line = typed[line_start : line_end if line_end >= 0 else len(typed)]
    before, faulty = typed[line_start:start], typed[start : start + error.length].split("\n")[0]
    window = max(0, _width(before) - 60)
    mark = " " * (_width(before) - window) + "^" + "~" * max(0, _width(faulty) - 1)
    shown = line if len(line) <= 120 and not window else _cut(line, len(before))
    return [indent + visible(shown), indent + mark, indent + said(error)]


def said(error: CalloutError) -> str:
    """The message in one line, with the hint."""
    return f"{error.message}; {error.hint}" if error.hint else error.message


def visible(text: str) -> str:
    """`text` with control characters and tabs as one visible character each, so that nothing typed acts on a screen."""
    return "".join(
        " " if c == "\t" else "\ufffd" if unicodedata.category(c) in ("Cc", "Cf", "Cs", "Co", "Zl", "Zp") else c
        for c in text
    )


def _cut(line: str, at: int) -> str:
    return line[max(0, at - 60) : at + 60]


def _width(text: str) -> int:
    return sum(2 if unicodedata.east_asian_width(c) in "WF" else 0 if unicodedata.combining(c) else 1 for c in text)
