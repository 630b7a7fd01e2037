"""Any text gives a sheet or one clear refusal, and every character typed is somewhere in it."""

import string
import tempfile
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st

from sizewright.sheet.faults import faults_text, place
from sizewright.sheet.model import Sheet
from sizewright.sheet.read import read_sheet, read_text
from sizewright.sheet.shape import line_shape
from sizewright.sheet.tables import read_csv_text
from sizewright.sheet.title import title_word
from sizewright.text.errors import InputError

SOURCE = Path("a.sheet")

_PIECES = st.sampled_from(
    [
        "1", "2", "10", "0", "1.5", ":", ": ", " :", "：", ";", " ; ", "；", " ", "    ", "\t", "\u00a0", "@C3", "@",
        "[major]", "[crit", "]", "part", "unit", "mm", "view", "TOLERANCES", "partt", "25 ±0.1", "Ø", "1:10", "\n",
        "\n", "\n  ", "\n        ", "pieces", "general", "ISO 2768-m", "\u2028", "\x0c", "é", "漢", '"', ",", "callout",
    ]
)  # fmt: skip
_TEXTS = st.lists(_PIECES, max_size=40).map("".join) | st.text(max_size=80)


@settings(max_examples=300, deadline=None)
@given(_TEXTS)
@example("17H@C3;rt: ")  # a zone ends at a semicolon, for the look ahead too
@example("17@C3;rt: x")
def test_every_line_typed_is_in_the_sheet(text: str) -> None:
    text = text.replace("\r", "\n")
    sheet = read_text(text, SOURCE)
    for number, typed in enumerate(text.split("\n"), 1):
        shape = line_shape(typed)
        if shape.kind not in ("nothing", "view"):
            assert _held(sheet, number, typed), (number, typed)
    assert faults_text(SOURCE, sheet.faults).count("\n\n") == max(0, len(sheet.faults) - 1)


def _held(sheet: Sheet, number: int, typed: str) -> bool:
    """Whether all that stands on the line is in a callout, an entry or a fault."""
    shape = line_shape(typed)
    if any(fault.line == number and fault.text == typed for fault in sheet.faults):
        return True
    text = shape.text.text if shape.text else ""
    entry = next((entry for entry in sheet.title.values() if entry.line == number), None)
    if entry is not None:
        assert shape.head is not None
        return entry.word == title_word(shape.head.text) and entry.value in (text, text.lstrip("0"))
    held = [
        (line.balloon, callout)
        for line in sheet.lines
        for (row, _), callout in zip(line.starts, line.callout.split("\n"), strict=True)
        if row == number
    ]
    if shape.kind == "ballooned" and text:
        assert shape.head is not None
        return held == [(int(shape.head.text), text)]
    if shape.kind == "ballooned":
        return shape.head is not None and int(shape.head.text) in [line.balloon for line in sheet.lines]
    # A line that continues a callout has no head: a semicolon glued to its colon is text.
    callouts = [callout for _, callout in held]
    if callouts == [typed[shape.start : shape.end]]:
        return True
    rest = typed.strip().removeprefix(callouts[0]).lstrip() if callouts else typed
    return len(callouts) == 1 and (not rest or rest.startswith(";"))


@settings(max_examples=200, deadline=None)
@given(_TEXTS)
def test_every_character_of_a_callout_has_its_place(text: str) -> None:
    text = text.replace("\r", "\n")
    typed = text.split("\n")
    for line in read_text(text, SOURCE).lines:
        for column, char in enumerate(line.callout, 1):
            row, at = place(line, column)
            assert char == "\n" or char == typed[row - 1][at - 1]


@settings(max_examples=200, deadline=None)
@given(_TEXTS)
def test_remarks_are_kept(text: str) -> None:
    text = text.replace("\r", "\n").replace("；", ";")
    sheet = read_text(text, SOURCE)
    remarks = " ".join(line.remark for line in sheet.lines)
    for number, typed in enumerate(text.split("\n"), 1):
        on_a_callout = any(number == row for line in sheet.lines for row, _ in line.starts)
        remark = line_shape(typed).remark
        if on_a_callout and remark is not None:
            assert remark.text[1:].strip() in remarks


@settings(max_examples=200, deadline=None)
@given(_TEXTS)
def test_a_table_of_any_text_gives_a_sheet_or_a_refusal(text: str) -> None:
    text = "balloon,callout\n" + text.replace("\r", "\n")
    try:
        sheet = read_csv_text(text, SOURCE)
    except InputError:
        return
    held = "".join([line.callout for line in sheet.lines] + [fault.text for fault in sheet.faults])
    balloons = {char for line in sheet.lines for char in str(line.balloon)}
    for char in text.removeprefix("balloon,callout\n"):
        assert char in held or char in balloons or char.isspace() or char in '",;' or char in string.digits


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=60), st.sampled_from([".sheet", ".csv", ".xlsx"]))
def test_any_bytes_give_a_sheet_or_a_refusal(data: bytes, ending: str) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"a{ending}"
        path.write_bytes(data)
        try:
            sheet = read_sheet(path)
        except InputError as error:
            assert str(path) in str(error)  # noqa: PT017
        else:
            faults_text(path, sheet.faults)
