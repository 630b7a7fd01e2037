"""The design's example sheet: what it holds, and that every callout can be found again in the text."""

from pathlib import Path

import pytest

from sizewright.sheet.faults import place
from sizewright.sheet.model import Line, Sheet
from sizewright.sheet.read import read_sheet, read_text

EXAMPLE = Path(__file__).parent / "data" / "example.sheet"


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    return read_sheet(EXAMPLE)


def test_it_has_no_faults(sheet: Sheet) -> None:
    assert sheet.faults == ()
    assert sheet.remarks == (
        "line 16: taken as a callout of its own; what continues a callout is indented deeper than it",
    )


def test_its_title_block(sheet: Sheet) -> None:
    assert {word: entry.value for word, entry in sheet.title.items()} == {
        "part": "Worm housing",
        "drawing": "EQ-310",
        "revision": "C",
        "unit": "mm",
        "manner": "iso",
        "general": "ISO 2768-mK",
        "pieces": "3",
    }
    assert (sheet.title["general"].line, sheet.title["general"].column) == (7, 10)


def test_its_lines(sheet: Sheet) -> None:
    assert [_content(line) for line in sheet.lines] == [
        (1, "", "front", None, "Ø62 H7", "bearing seat"),
        (2, "C3", "front", None, "4x Ø6.6 THRU\ncbore Ø11 depth 6.4", "continues balloon 2"),
        (3, "", "front", None, "120.5 ±0.1", ""),
        (4, "", "front", None, "Ø30 k6 | position | Ø0.05 (M) | A | B |", ""),
        (5, "", "front", None, "M42x1.5-6H depth 18", "takes number 5"),
        (6, "", "front", None, "(84)", ""),
        (7, "", "front", None, "30° ±0°30'", ""),
        (8, "", "section A-A", None, "Ra 1.6", ""),
    ]


def test_every_character_of_a_callout_is_found_in_the_text(sheet: Sheet) -> None:
    text = EXAMPLE.read_text(encoding="utf-8").split("\n")
    for line in sheet.lines:
        for column, char in enumerate(line.callout, 1):
            row, at = place(line, column)
            assert char == "\n" or char == text[row - 1][at - 1]
        assert [text[row - 1] for row, _ in line.starts] == list(line.typed)


@pytest.mark.parametrize(
    "change",
    [
        lambda text: "\ufeff" + text,
        lambda text: text.replace("\n", "\r\n"),
        lambda text: text.replace("\n", "\r"),
        lambda text: text.replace("\n", "\n\n"),
        lambda text: text.replace("\n", "\n ; a remark\n"),
        lambda text: text.replace("\n", "\n    "),
        lambda text: text.replace(":      ", ":\t").replace("\n        M", "\n\tM").replace("\n          c", "\n\t\tc"),
        lambda text: text.replace(":   ", "：  ").replace("\n", " \n"),
    ],
    ids=["mark", "crlf", "cr", "blank lines", "remarks", "indented", "tabs", "wide colons"],
)
def test_the_same_content_in_other_dress(sheet: Sheet, change: object, tmp_path: Path) -> None:
    assert callable(change)
    path = tmp_path / "other.sheet"
    path.write_bytes(change(EXAMPLE.read_text(encoding="utf-8")).encode("utf-8"))
    other = read_sheet(path)
    assert [_content(line) for line in sheet.lines] == [_content(line) for line in other.lines]
    assert other.faults == ()


def test_utf_16_reads_the_same(sheet: Sheet, tmp_path: Path) -> None:
    path = tmp_path / "other.sheet"
    path.write_bytes(EXAMPLE.read_text(encoding="utf-8").encode("utf-16"))
    assert sheet.lines == read_sheet(path).lines


def test_written_out_plainly_it_reads_the_same(sheet: Sheet) -> None:
    rows = [f"{entry.word}: {entry.value}" for entry in sheet.title.values()]
    for line in sheet.lines:
        zone = f" @{line.zone}" if line.zone else ""
        callout = line.callout.replace("\n", "\n  ")
        rows.append(f"view: {line.view}\n{line.balloon}{zone}: {callout} ; {line.remark}")
    other = read_text("\n".join(rows), EXAMPLE)
    assert [_content(line) for line in sheet.lines] == [_content(line) for line in other.lines]


def _content(line: Line) -> tuple[object, ...]:
    return line.balloon, line.zone, line.view, line.class_, line.callout, line.remark
