"""Text in the cells of a CSV file, which knows no text cells: what a spreadsheet would compute gets a mark in front."""

from __future__ import annotations

import re

_COMPUTED = re.compile(r"'*[=+\-@\t\r]")
_GUARDED = re.compile(r"'+[=+\-@\t\r]")


def computes(text: str) -> bool:
    """Whether a spreadsheet may take `text` for a formula."""
    return _COMPUTED.match(text) is not None


def guard(text: str) -> str:
    """`text` for a CSV cell: one apostrophe before what a spreadsheet would compute. `unguard` takes it off again.

    CSV has no text cells, so the mark has to be part of the text; the apostrophe is the one spreadsheets know.
    """
    return f"'{text}" if computes(text) else text


def unguard(text: str) -> str:
    """What `guard` was given."""
    return text[1:] if _GUARDED.match(text) else text
