"""A rotation in every form: what is shown, how wide, and that a second program opens it."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path

import docx
import jsonschema
import pytest
from docx.oxml.ns import qn
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.console import Console

from sizewright.output.rotation_chart import LEGEND, chart_lines
from sizewright.output.rotation_docx import rotation_docx
from sizewright.output.rotation_files import COLUMNS, rotation_csv, rotation_jsonl, schema
from sizewright.output.rotation_rows import RotationSheet, notes, person_words, summary
from sizewright.output.rotation_terminal import print_rotation, rotation_text
from sizewright.training.rotation import Rotation, rotate
from sizewright.training.tasks import Part
from sizewright.training.timetable import Work

from ..training.works import sample_work, task, work, works
from .conftest import needed, run
from .plans import ACTING, INJECTIONS


def shown(given_work: Work, begin: int | None = None) -> RotationSheet:
    parts = tuple(
        Part(chr(65 + n), name, count, (), (), ()) for n, (name, count) in enumerate(given_work.copies.items())
    )
    return RotationSheet(rotate(given_work, placings=2000), parts, begin)


def two_by_two() -> RotationSheet:
    """Two people at two tasks of 10 and 20 minutes, in turns: 10 of waiting for one of them."""
    return shown(work(task("A1", 10, "caliper"), task("A2", 20, "rule"), people=2))


def hostile() -> RotationSheet:
    texts = (*INJECTIONS, ACTING)
    tasks = [task(f"A{n}", n, text, part=text)._replace(lines=(text,)) for n, text in enumerate(texts, 1)]
    return shown(work(*tasks)._replace(people=texts[:3]))


CHART = """\
time      0:00           0:30
person 1  |A2=======|A1==.....
person 2  |A1==.....|A2======="""


def test_the_chart_as_it_stands() -> None:
    assert "\n".join(chart_lines(two_by_two(), 40)) == CHART


@settings(deadline=None, max_examples=80)
@given(works(), st.integers(30, 120), st.sampled_from([None, 0, 510, 1439]))
def test_no_line_of_the_chart_is_wider_than_the_screen(given_work: Work, width: int, begin: int | None) -> None:
    lines = chart_lines(shown(given_work, begin), width)
    assert all(len(line) <= width for line in lines)
    assert bool(lines) == bool(given_work.tasks)


@settings(deadline=None, max_examples=60)
@given(works(longest=12).filter(lambda each: bool(each.tasks)))
def test_the_chart_at_a_column_a_minute_says_what_the_timetable_says(given_work: Work) -> None:
    sheet = shown(given_work)
    begins = [line.count("|") for line in chart_lines(sheet, 2000) if not line.startswith("time")]
    assert begins == [len(sheet.rotation.timetable.of(person)) for person in given_work.people]


@pytest.mark.parametrize("width", [80, 120])
@pytest.mark.parametrize("people", [1, 3, 50])
def test_the_terminal_keeps_its_width(people: int, width: int) -> None:
    stream = io.StringIO()
    print_rotation(shown(sample_work("worm-housing", "polar-axis", people=people)), Console(file=stream, width=width))
    assert max(map(len, stream.getvalue().splitlines())) <= width
    assert len(LEGEND) <= 80


def test_the_text_tells_length_bound_and_waiting() -> None:
    sheet = two_by_two()
    assert summary(sheet) == (
        "2 people, 2 tasks: everybody measures every line once, on any piece.",
        "It takes 40 minutes: shortest possible.",
        "Lower bound 40 minutes: rule (1 owned) is needed for 40 minutes in all.",
    )
    words = [person_words(sheet, person) for person in sheet.rotation.work.people]
    assert any("waits 10 minutes" in each for each in words)
    text = rotation_text(sheet)
    assert all(each in text for each in (*summary(sheet), *words))


def test_where_the_bound_is_not_reached_it_says_how_far() -> None:
    sheet = two_by_two()
    short = sheet.rotation.bound._replace(minutes=33)
    far = sheet._replace(rotation=Rotation(sheet.rotation.work, sheet.rotation.timetable, short))
    assert summary(far)[1] == ("It takes 40 minutes: 7 more than the lower bound; a shorter one may or may not exist.")


@pytest.mark.parametrize(
    ("begin", "minute", "clock"),
    [(None, 0, "0:00"), (None, 125, "2:05"), (None, 1500, "25:00"), (510, 5, "08:35"), (1430, 20, "+1 00:10")],
)
def test_times_count_from_the_beginning_or_are_of_the_day(begin: int | None, minute: int, clock: str) -> None:
    assert two_by_two()._replace(begin=begin).clock(minute) == clock


def test_several_instruments_for_a_line_are_explained() -> None:
    assert not any("side" in note for note in notes(two_by_two()))
    assert any(
        note.startswith("A1: the drawing does not tell the side")
        for note in notes(shown(work(task("A1", 3, "a", "b"))))
    )


def test_csv_has_a_row_for_each_slot_and_computes_nothing() -> None:
    sheet = hostile()
    rows = list(csv.reader(io.StringIO(rotation_csv(sheet).decode("utf-8-sig"))))
    assert rows[0] == list(COLUMNS)
    assert len(rows) == 1 + len(sheet.rotation.timetable.slots)
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@"))]


@settings(deadline=None, max_examples=40)
@given(works())
def test_json_follows_its_schema(given_work: Work) -> None:
    sheet = shown(given_work)
    objects = [json.loads(line) for line in rotation_jsonl(sheet).splitlines()]
    validator = jsonschema.Draft202012Validator(schema())
    for each in objects:
        validator.validate(each)
    assert objects[0]["rotation"]["minutes"] == sheet.rotation.timetable.minutes
    assert len(objects) == 1 + len(sheet.rotation.timetable.slots)


def test_typed_text_acts_nowhere() -> None:
    sheet = hostile()
    assert not {"\x1b", "\x07", "\u202e"} & set(rotation_text(sheet) + rotation_csv(sheet).decode())
    document = docx.Document(io.BytesIO(rotation_docx(sheet)))
    cells = {text.text or "" for text in document.element.body.iter(qn("w:t"))}
    assert any("=1+1" in cell for cell in cells)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_document_has_the_chart_and_every_slot(paper: str) -> None:
    sheet = shown(sample_work("worm-housing", "polar-axis", people=3), 510)
    document = docx.Document(io.BytesIO(rotation_docx(sheet, paper)))
    assert all(row.find(f".//{qn('w:cantSplit')}") is not None for row in document.element.iter(qn("w:tr")))
    assert all(table.rows[0]._tr.find(f".//{qn('w:tblHeader')}") is not None for table in document.tables)
    assert not list(document.element.body.iter(qn("w:rPr")))
    lists = [table for table in document.tables if table.rows[0].cells[0].text == "from"]
    assert sum(len(table.rows) - 1 for table in lists) == len(sheet.rotation.timetable.slots)
    charts = [table for table in document.tables if table.rows[0].cells[0].text == "person"]
    assert [row.cells[0].text for row in charts[0].rows[1:]] == list(sheet.rotation.work.people)
    marks = {cell.text for table in charts for row in table.rows[1:] for cell in row.cells[1:]}
    assert {each.mark for each in sheet.rotation.work.tasks} <= {
        mark.removeprefix("▸") for text in marks for mark in text.split("\n")
    }
    properties = document.core_properties
    assert (properties.author, properties.last_modified_by) == ("", "")


def test_a_word_processor_shows_it(tmp_path: Path, office: Callable[[Path, str], Path]) -> None:
    pdftotext = needed("pdftotext")
    sheet = shown(sample_work("worm-housing", people=2))
    (tmp_path / "rotation.docx").write_bytes(rotation_docx(sheet))
    pdf = office(tmp_path / "rotation.docx", "pdf") / "rotation.pdf"
    words = run(pdftotext, "-layout", str(pdf), "-").split()
    assert {each.mark for each in sheet.rotation.work.tasks} <= set(words)
    assert {sheet.clock(slot.start) for slot in sheet.rotation.timetable.slots} <= set(words)
