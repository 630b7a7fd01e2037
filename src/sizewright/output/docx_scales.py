"""A sheet of scales to read as DOCX, and its key. Upright pages; each exercise is a box with its pictures and blanks.

The trainee's copy is made from pictures and neutral words alone: no reading goes into it, not even unseen.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from typing import Any

from docx.document import Document as DocumentType
from docx.enum.section import WD_ORIENT
from docx.enum.style import WD_STYLE_TYPE
from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls
from docx.shared import Mm, Pt

from sizewright.output import docx_styles as styles
from sizewright.output.docx_frame import add_footer, set_properties
from sizewright.output.docx_tables import Boxes, Cell, Line, box_grid_xml, table_xml
from sizewright.output.pictures.scale import Picture, exercise_pictures, scale_png
from sizewright.output.scale_words import blanks, caption, instructions, sheet_title, unit_word, zero_words
from sizewright.text.errors import InputError
from sizewright.training.scales.exercises import Exercise, sheet_mark
from sizewright.training.scales.explain import steps
from sizewright.training.scales.figures import say

_PICTURE = "Scale Picture"
_CELL_SIDES = 4.0  # mm of a cell beside its picture
_BETWEEN = 2.0
_LEAST_CELL = 56.0  # mm; narrower boxes are no room to write in


def scales_docx(exercises: Sequence[Exercise], paper: str = "A4", key: bool = False) -> bytes:
    """The sheet for trainees as the bytes of a DOCX file on `paper`, A4 or Letter; with `key` the trainer's.

    Raises:
        InputError: the paper is neither.
    """
    if paper not in styles.PAPERS:
        raise InputError(f"paper {paper} is unknown; {' and '.join(styles.PAPERS)} are there")
    document = styles.new_document(paper)
    _stand_upright(document, paper)
    width = (styles.PAPERS[paper][1] - 2 * styles.MARGIN) / Mm(1)
    title = sheet_title(exercises, key)
    mark = f"sheet {sheet_mark(exercises)}"
    set_properties(document, title)
    add_footer(document, f"{title}, {mark}", width)
    document.add_paragraph(title, style="Title")
    if key:
        _answers(document, exercises, width)
        document.add_paragraph("How each is read", style="Heading 1")
    else:
        _append(document, box_grid_xml(Boxes(("name", "date", f"right, of {len(exercises)}"), 3, width)))
        document.add_paragraph("", style=styles.LABEL)
        for text in instructions(exercises):
            document.add_paragraph(f"–\t{text}", style=styles.ITEM)
    _boxes(document, exercises, width, key)
    stream = io.BytesIO()
    document.save(stream)
    return stream.getvalue()


def _stand_upright(document: DocumentType, paper: str) -> None:
    """Scales are wide and low: an upright page holds more of them. The pictures' style is defined here too."""
    section = document.sections[0]
    section.orientation = WD_ORIENT.PORTRAIT
    section.page_height, section.page_width = styles.PAPERS[paper]
    style: Any = document.styles.add_style(_PICTURE, WD_STYLE_TYPE.PARAGRAPH)
    style.base_style = document.styles["Normal"]
    style.paragraph_format.space_before = style.paragraph_format.space_after = Pt(2)


def _answers(document: DocumentType, exercises: Sequence[Exercise], width: float) -> None:
    heads = ("no.", "instrument", "reading", "zero, or begins at", "nibs", "answer")
    rows: list[list[Cell]] = [
        [
            [(styles.NUMBER, str(each.number))],
            [(styles.CELL, caption(each))],
            [(styles.CELL, say(each.scale, each.reading.value))],
            [(styles.CELL, zero_words(each))],
            [(styles.CELL, say(each.scale, each.nibs) if each.nibs is not None else "")],
            [(styles.STRONG, say(each.scale, each.size))],
        ]
        for each in exercises
    ]
    shares = (10, 76, 26, 30, 22, 26)
    widths = [width * share / sum(shares) for share in shares]
    _append(document, table_xml(widths, [(styles.HEAD, head) for head in heads], rows, "Answers to all exercises"))


def _append(document: DocumentType, xml: str) -> None:
    """Put a table into the body, where its paragraphs can still take pictures."""
    (table,) = parse_xml(f"<w:body {nsdecls('w')}>{xml}</w:body>")
    document.element.body.insert_element_before(table, "w:sectPr")


def _boxes(document: DocumentType, exercises: Sequence[Exercise], width: float, key: bool) -> None:
    """The exercises, as many beside each other as the page takes."""
    prepared = [(each, exercise_pictures(each, key)) for each in exercises]
    for row in _rows(prepared, width):
        share = width / len(row)
        cells: list[Cell] = [_cell(each, pictures, share, key) for each, pictures in row]
        numbers = ", ".join(str(each.number) for each, _ in row)
        _append(document, table_xml([share] * len(row), (), [cells], f"Exercise {numbers}"))
        _insert(document, [picture for _, pictures in row for picture in pictures])
        document.add_paragraph("", style=styles.LABEL)  # two tables without anything between would grow together


_Prepared = tuple[Exercise, list[Picture]]


def _rows(prepared: Sequence[_Prepared], width: float) -> Iterator[list[_Prepared]]:
    """Groups of exercises that fit side by side, all columns of a row being equally wide."""
    row: list[_Prepared] = []
    widest = 0.0
    for each in prepared:
        wanted = max(_LEAST_CELL, _width(each[1], width) + _CELL_SIDES)
        if row and max(widest, wanted) * (len(row) + 1) > width:
            yield row
            row, widest = [], 0.0
        row.append(each)
        widest = max(widest, wanted)
    if row:
        yield row


def _width(pictures: Sequence[Picture], width: float) -> float:
    """The pictures of one exercise stand beside each other where the page takes them, else below each other."""
    beside = sum(each.pen.width for each in pictures) + _BETWEEN * (len(pictures) - 1)
    return beside if beside + _CELL_SIDES <= width else max(each.pen.width for each in pictures)


def _cell(exercise: Exercise, pictures: Sequence[Picture], width: float, key: bool) -> Cell:
    cell: list[Line | Boxes] = [(styles.STRONG, f"{exercise.number}   {caption(exercise)}")]
    beside = len(pictures) > 1 and _width(pictures, width) > max(each.pen.width for each in pictures)
    if len(pictures) > 1:
        order = "left" if beside else "above"
        other = "right" if beside else "below"
        cell.append((styles.CELL, f"{order}: on the part; {other}: the zero reading of the same instrument"))
    cell += [(_PICTURE, "")] * (1 if beside or len(pictures) == 1 else len(pictures))
    if key:
        return [*cell, *((styles.ITEM, f"–\t{step}") for step in steps(exercise))]
    labels = [f"{label}, {unit_word(exercise.scale)}" for label in blanks(exercise)]
    across = min(len(labels), max(1, int((width - _CELL_SIDES) // 26)))
    return [*cell, Boxes(labels, across, min(width - _CELL_SIDES, 46.0 * across))]


def _insert(document: DocumentType, pictures: Sequence[Picture]) -> None:
    """Put the pictures into the paragraphs that the last table keeps for them, in order."""
    waiting = list(pictures)
    table: Any = document.tables[-1]
    for cell in table.rows[0].cells:
        places = [each for each in cell.paragraphs if each.style.name == _PICTURE]
        for position, place in enumerate(places):
            _add(place, waiting.pop(0))
            # One place for two pictures: they stand beside each other.
            if position == len(places) - 1 == 0 and waiting and waiting[0].words.startswith(_same(place)):
                place.add_run(" ")
                _add(place, waiting.pop(0))


def _same(place: Any) -> str:
    """How the words of a second picture of the same exercise begin."""
    words: str = place._p.xpath(".//wp:docPr/@descr")[0]
    return f"{words.partition(':')[0]}, the zero reading"


def _add(place: Any, picture: Picture) -> None:
    shape = place.add_run().add_picture(io.BytesIO(scale_png(picture.pen)), width=Mm(picture.pen.width))
    for side in ("distT", "distB", "distL", "distR"):  # left out, some programs take an eighth of an inch
        shape._inline.set(side, "0")
    properties = shape._inline.docPr
    properties.set("descr", picture.words)
    properties.set("name", picture.words.partition(":")[0])
