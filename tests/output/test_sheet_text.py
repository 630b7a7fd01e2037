from __future__ import annotations

from pathlib import Path

import pytest

from sizewright.output.sheet_text import sheet_text
from sizewright.sheet.model import Line
from sizewright.sheet.read import read_text


# From two figures on, four blanks would put the second line in the column of the callout: a callout of its own.
@pytest.mark.parametrize("balloon", [1, 9, 10, 12345])
@pytest.mark.parametrize("zone", ["", "C3"])
def test_a_callout_of_several_lines_stays_one(balloon: int, zone: str) -> None:
    line = Line(balloon, "Ø30 0/-0.021\nR0.5 MAX\nRa 1.6", 1, 1, (), zone=zone, remark="of two")
    read = read_text(sheet_text({"unit": "mm"}, [(line, line.callout)]), Path("x.sheet"))
    assert read.faults == ()
    assert [(each.balloon, each.callout, each.remark) for each in read.lines] == [(balloon, line.callout, "of two")]
