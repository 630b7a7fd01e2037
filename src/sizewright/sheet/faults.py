"""Faults: made from an error in a callout or a value, brought into order, and shown as text with a caret."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from sizewright.sheet.columns import clean, shown
from sizewright.sheet.model import Fault, Line
from sizewright.text.errors import CalloutError

MARGIN = "    "
_WIDEST = 100
_BEFORE = 60
_CUT = "…"


def fault_in(text: str, line: int, error: CalloutError, offset: int = 0) -> Fault:
    """The fault that `error` is in `text`, the sheet's line `line`, where what `error` counts begins at `offset`."""
    return Fault(line, offset + error.column, error.length, error.message, text, error.hint)


def place(line: Line, column: int) -> tuple[int, int]:
    """The sheet's line and column of the 1-based `column` of a callout that may hold line breaks."""
    index, column = _within(line, column)
    row, start = line.starts[index] if line.starts else (line.line, line.column)
    return row, start + column - 1


def callout_fault(line: Line, error: CalloutError) -> Fault:
    """The fault that `error`, found while reading the callout of `line`, is in the sheet.

    The length never goes beyond the line on which the fault begins.
    """
    index, column = _within(line, error.column)
    row, start = place(line, error.column)
    callout = line.callout.split("\n")[index]
    length = min(error.length, max(0, len(callout) - (column - 1)))
    text = line.typed[index] if line.typed else " " * (start - column) + callout
    return Fault(row, start, length, error.message, text, error.hint)


def _within(line: Line, column: int) -> tuple[int, int]:
    before = line.callout[: column - 1]
    return before.count("\n"), column - (before.rfind("\n") + 1)


def in_order(faults: Iterable[Fault]) -> tuple[Fault, ...]:
    """`faults` from the top of the sheet to its end."""
    return tuple(sorted(faults, key=lambda fault: (fault.line, fault.column)))


def faults_text(source: Path, faults: Iterable[Fault]) -> str:
    """All `faults` as text, from the top of the sheet to its end, a blank line between two."""
    return "\n\n".join(fault_text(source, fault) for fault in in_order(faults))


def fault_text(source: Path, fault: Fault) -> str:
    """One fault as text: place and message, the line with a caret under what is wrong, and the hint.

    The caret stands under the right character also where tabs and wide characters come before it; characters that a
    terminal would obey are shown as a replacement character; of a long line the part around the caret is shown.
    """
    rows = [f"{source}:{fault.line}:{fault.column}: {fault.message}"]
    if fault.text.strip():
        rows += _pointed(fault)
    if fault.hint:
        rows.append(fault.hint)
    first, *rest = (clean(row).rstrip() for row in rows)
    return "\n".join([first, *(MARGIN + row for row in rest)])


def _pointed(fault: Fault) -> tuple[str, str]:
    text, start, cut = _cut_to_fit(fault.text, fault.column - 1)
    line, columns = shown(text)
    at = columns[min(start, len(text))]
    end = columns[min(start + fault.length, len(text))]
    return line + cut, " " * at + "^" + "~" * (end - at - 1)


def _cut_to_fit(text: str, start: int) -> tuple[str, int, str]:
    if len(text) <= _WIDEST:
        return text, start, ""
    left = max(0, min(start - _BEFORE, len(text) - _WIDEST))
    cut = text[left : left + _WIDEST]
    if left:
        cut = _CUT + cut[1:]
    return cut, start - left, _CUT if left + _WIDEST < len(text) else ""
