"""Title-block entries given beside a sheet, in place of its own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sizewright.sheet.model import Entry, Sheet
from sizewright.sheet.near import quoted
from sizewright.sheet.title import checked

GIVEN = 0  # the line of an entry that stands on no line of the sheet


def with_entries(sheet: Sheet, given: Mapping[str, str]) -> Sheet:
    """`sheet` with the entries `given`, by word, instead of its own; its remarks say what was replaced.

    A sampling rule that is given replaces the sheet's number of pieces too. A fault of an entry that goes goes with it.

    Raises:
        CalloutError: a value does not fit its word; the position is in the value.
    """
    title, remarks = dict(sheet.title), list(sheet.remarks)
    gone = [word for word in given if word in title]
    if "sampling" in given and "pieces" in title and "pieces" not in given:
        gone.append("pieces")
    lines = {title[word].line for word in gone}
    for word in gone:
        stands = f"{word}: {title.pop(word).value}"
        by = f"{word}: {given[word]}" if word in given else "the sampling rule given"
        remarks.append(f"{quoted(stands)} of the sheet is replaced by {quoted(by) if word in given else by}")
    for word, value in given.items():
        title[word] = Entry(word, checked(word, value), GIVEN, 1, value)
    faults = tuple(fault for fault in sheet.faults if fault.line not in lines)
    return replace(sheet, title=title, faults=faults, remarks=tuple(remarks))
