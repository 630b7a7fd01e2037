"""Tables of a DOCX plan, made by cloning a prepared row.

Reaching cells one by one through python-docx rebuilds the table's list of cells each time, so a long plan would take
minutes; a cloned row costs the same whether it is the first or the thousandth.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from docx.document import Document as DocumentType
from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls, qn

from sizewright.output import docx_styles as styles

_TWIPS_PER_MM = 1440 / 25.4
_BOX_HEIGHT = 9.0
_SPACE = "{http://www.w3.org/XML/1998/namespace}space"


@dataclass(frozen=True, slots=True)
class Boxes:
    """A small grid of boxes to write in, each with a label in its corner, `across` in a row, `width` mm in all."""

    labels: Sequence[str]
    across: int
    width: float


Line = tuple[str, str]  # style, text
Cell = Sequence[Line | Boxes]


def add_table(
    document: DocumentType, widths: Sequence[float], head: Sequence[Line], rows: Iterable[Sequence[Cell]], about: str
) -> None:
    """Append a table with column `widths` in mm to `document`.

    A `head` is repeated on every page (an empty one leaves it out); no row is split over two pages. `about` is the
    text for people who cannot see the table.
    """
    table = _empty_table(styles.GRID, widths, about, head=bool(head))
    prepared = _prepared_row(widths)
    if head:
        table.append(_row(prepared, [[line] for line in head], repeated=True))
    for cells in rows:
        table.append(_row(prepared, cells))
    document.element.body.insert_element_before(table, "w:sectPr")


def add_box_grid(document: DocumentType, boxes: Boxes) -> None:
    """Append a grid of boxes to `document`, outside any other table."""
    document.element.body.insert_element_before(_grid(boxes), "w:sectPr")


def _twips(millimetres: float) -> int:
    return round(millimetres * _TWIPS_PER_MM)


def _empty_table(style: str, widths: Sequence[float], about: str = "", head: bool = False) -> Any:
    table: Any = parse_xml(
        f'<w:tbl {nsdecls("w")}><w:tblPr><w:tblStyle w:val="{style.replace(" ", "")}"/>'
        f'<w:tblW w:w="{sum(map(_twips, widths))}" w:type="dxa"/><w:tblLayout w:type="fixed"/>'
        f'<w:tblLook w:val="{"0020" if head else "0000"}" w:firstRow="{int(head)}" w:lastRow="0" w:firstColumn="0" '
        'w:lastColumn="0" w:noHBand="1" w:noVBand="1"/></w:tblPr><w:tblGrid/></w:tbl>'
    )
    if about:
        description = parse_xml(f"<w:tblDescription {nsdecls('w')}/>")
        description.set(qn("w:val"), about)
        table.tblPr.append(description)
    for width in widths:
        column = parse_xml(f'<w:gridCol {nsdecls("w")} w:w="{_twips(width)}"/>')
        table.tblGrid.append(column)
    return table


def _prepared_row(widths: Sequence[float], height: float = 0) -> Any:
    cells = "".join(f'<w:tc><w:tcPr><w:tcW w:w="{_twips(width)}" w:type="dxa"/></w:tcPr></w:tc>' for width in widths)
    tall = f'<w:trHeight w:val="{_twips(height)}" w:hRule="atLeast"/>' if height else ""
    return parse_xml(f"<w:tr {nsdecls('w')}><w:trPr><w:cantSplit/>{tall}</w:trPr>{cells}</w:tr>")


def _row(prepared: Any, cells: Sequence[Cell], repeated: bool = False) -> Any:
    row = deepcopy(prepared)
    if repeated:
        row.trPr.append(parse_xml(f"<w:tblHeader {nsdecls('w')}/>"))
    for element, cell in zip(row.iterchildren(qn("w:tc")), cells, strict=True):
        for part in cell:
            element.append(_grid(part) if isinstance(part, Boxes) else _paragraph(*part))
        if not cell or isinstance(cell[-1], Boxes):  # a cell has to end with a paragraph
            element.append(_paragraph(styles.LABEL, ""))
    return row


def _paragraph(style: str, text: str) -> Any:
    paragraph = parse_xml(
        f'<w:p {nsdecls("w")}><w:pPr><w:pStyle w:val="{style.replace(" ", "")}"/></w:pPr><w:r/></w:p>'
    )
    run = paragraph[-1]
    for i, line in enumerate(text.split("\n")):
        if i:
            run.append(parse_xml(f"<w:br {nsdecls('w')}/>"))
        element = parse_xml(f"<w:t {nsdecls('w')}/>")
        element.text = line
        element.set(_SPACE, "preserve")
        run.append(element)
    return paragraph


def _grid(boxes: Boxes) -> Any:
    across = min(boxes.across, len(boxes.labels))
    widths = [boxes.width / boxes.across] * across
    table = _empty_table(styles.BOXES, widths)
    prepared = _prepared_row(widths, _BOX_HEIGHT)
    for start in range(0, len(boxes.labels), across):
        labels = boxes.labels[start : start + across]
        left_out = across - len(labels)  # no box without a label: an empty one looks like a reading forgotten
        row = prepared if not left_out else _shortened(widths[:-left_out], left_out)
        table.append(_row(row, [[(styles.LABEL, label)] for label in labels]))
    return table


def _shortened(widths: Sequence[float], left_out: int) -> Any:
    row = _prepared_row(widths, _BOX_HEIGHT)
    row.trPr.insert(0, parse_xml(f'<w:gridAfter {nsdecls("w")} w:val="{left_out}"/>'))
    return row
