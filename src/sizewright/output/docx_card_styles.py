"""The page, the styles and the lists of a DOCX of instrument cards."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from docx.document import Document as DocumentType
from docx.enum.section import WD_ORIENT
from docx.enum.style import WD_STYLE_TYPE
from docx.oxml import OxmlElement, parse_xml
from docx.oxml.ns import nsdecls, qn
from docx.shared import Mm, Pt

from sizewright.output import docx_styles as styles
from sizewright.output.docx_frame import add_footer, set_properties

NAME = "Card Name"
HEAD = "Card Head"
HEAD_FIRST = "Card Head First"
TEXT = "Card Text"
SMALL = "Card Small"
COLUMN = "Card Column"
STEP = "Card Step"
BULLET = "Card Bullet"
PICTURE = "Card Picture"
GAP = "Card Gap"
LAYOUT = "Card Layout"
GRID = "Card Grid"

# name: (based on, size in points, bold, space before, space after)
_PARAGRAPHS: dict[str, tuple[str, float, bool, float, float]] = {
    NAME: ("Heading 1", 18, True, 0, 2),
    HEAD: ("Heading 2", 10, True, 4, 1),
    HEAD_FIRST: ("Heading 2", 10, True, 0, 1),
    TEXT: ("Normal", 8.5, False, 0, 1),
    SMALL: ("Normal", 7.5, False, 0, 0),
    COLUMN: ("Normal", 7.5, True, 0, 0),
    STEP: ("Normal", 8.5, False, 0, 0),
    BULLET: ("Normal", 8.5, False, 0, 0),
    PICTURE: ("Normal", 8, False, 0, 0),
    GAP: ("Normal", 3, False, 0, 0),
}
LARGE = " Large"
"""What the name of a style ends in that is used on cards with little on them."""
_LARGER = 1.25
_SCALED = (HEAD, HEAD_FIRST, TEXT, SMALL, COLUMN, STEP, BULLET)
_BULLETS, _STEPS = 90, 91  # abstract lists of our own, beyond those of the template


def card_document(paper: str, title: str) -> tuple[DocumentType, float]:
    """An empty upright document on `paper` with the styles, called `title`, and the width between its margins in mm."""
    document = styles.new_document(paper)
    section: Any = document.sections[0]
    section.orientation = WD_ORIENT.PORTRAIT
    section.page_height, section.page_width = styles.PAPERS[paper]
    section.top_margin, section.bottom_margin = Mm(10), Mm(12)
    section.footer_distance = Mm(6)
    width = (styles.PAPERS[paper][1] - 2 * styles.MARGIN) / Mm(1)
    _lists(document)
    for name in _PARAGRAPHS:
        _paragraph_style(document, name)
    for name in _SCALED:
        _large(document, name)
    _table_styles(document)
    set_properties(document, title)
    add_footer(document, title, width, "card")
    return document, width


def _paragraph_style(document: DocumentType, name: str) -> None:
    base, size, bold, before, after = _PARAGRAPHS[name]
    style: Any = document.styles.add_style(name, WD_STYLE_TYPE.PARAGRAPH)
    style.base_style = document.styles[base]
    style.font.name = styles.FONT
    style.element.get_or_add_rPr().rFonts.set(qn("w:eastAsia"), styles.FONT)
    style.font.size, style.font.bold = Pt(size), bold
    if base.startswith("Heading"):
        style.font.color.rgb = document.styles["Heading 1"].font.color.rgb
    form = style.paragraph_format
    form.space_before, form.space_after, form.line_spacing = Pt(before), Pt(after), 1.0
    form.keep_with_next = base.startswith("Heading")
    form.page_break_before = name == NAME
    if name in (STEP, BULLET):
        form.left_indent, form.first_line_indent = Mm(5), Mm(-5)
        style.element.get_or_add_pPr().append(_list_of(_BULLETS if name == BULLET else _STEPS))


def _large(document: DocumentType, name: str) -> None:
    """The same style for cards with little on them."""
    _, size, _, before, after = _PARAGRAPHS[name]
    style: Any = document.styles.add_style(name + LARGE, WD_STYLE_TYPE.PARAGRAPH)
    style.base_style = document.styles[name]
    style.font.size = Pt(round(2 * size * _LARGER) / 2)
    style.paragraph_format.space_before, style.paragraph_format.space_after = Pt(1.5 * before), Pt(after + 1)


def _list_of(number: int) -> Any:
    return parse_xml(f'<w:numPr {nsdecls("w")}><w:ilvl w:val="0"/><w:numId w:val="{number}"/></w:numPr>')


def _lists(document: DocumentType) -> None:
    """The two kinds of list: bullets, and steps that are numbered."""
    numbering: Any = document.part.numbering_part.element
    for at, (number, form, text) in enumerate(((_BULLETS, "bullet", "•"), (_STEPS, "decimal", "%1."))):
        numbering.insert(at, parse_xml(
            f'<w:abstractNum {nsdecls("w")} w:abstractNumId="{number}"><w:multiLevelType w:val="singleLevel"/>'
            f'<w:lvl w:ilvl="0"><w:start w:val="1"/><w:numFmt w:val="{form}"/><w:lvlText w:val="{text}"/>'
            '<w:lvlJc w:val="left"/><w:pPr><w:ind w:left="283" w:hanging="283"/></w:pPr></w:lvl></w:abstractNum>'
        ))  # fmt: skip
        numbering.append(_number(number, number))


def _number(number: int, kind: int, restart: str = "") -> Any:
    return parse_xml(f'<w:num {nsdecls("w")} w:numId="{number}"><w:abstractNumId w:val="{kind}"/>{restart}</w:num>')


def new_list(document: DocumentType) -> int:
    """A list of steps that begins at 1 again; its number."""
    numbering: Any = document.part.numbering_part.element
    number = 1 + max(int(each.get(qn("w:numId"))) for each in numbering.iterchildren(qn("w:num")))
    restart = '<w:lvlOverride w:ilvl="0"><w:startOverride w:val="1"/></w:lvlOverride>'
    numbering.append(_number(number, _STEPS, restart))
    return number


def numbered(paragraph: Any, number: int) -> None:
    """Make `paragraph` a step of the list `number`."""
    paragraph._p.get_or_add_pPr().append(_list_of(number))


def _table_styles(document: DocumentType) -> None:
    """A table without borders that only parts the page, and one with borders whose rows are low."""
    borders = "".join(
        f'<w:{side} w:val="single" w:sz="4" w:space="0" w:color="595959"/>'
        for side in ("top", "left", "bottom", "right", "insideH", "insideV")
    )
    shade = '<w:shd w:val="clear" w:color="auto" w:fill="E7E7E7"/>'
    head = f'<w:tblStylePr w:type="firstRow"><w:tcPr>{shade}</w:tcPr></w:tblStylePr>'
    for name, lines, (high, left, right), first in (
        (LAYOUT, "", (0, 0, 170), ""),
        (GRID, f"<w:tblBorders>{borders}</w:tblBorders>", (18, 70, 70), head),
    ):
        document.styles.element.append(
            parse_xml(
                f'<w:style {nsdecls("w")} w:type="table" w:customStyle="1" w:styleId="{name.replace(" ", "")}">'
                f'<w:name w:val="{name}"/><w:basedOn w:val="TableNormal"/><w:uiPriority w:val="59"/><w:tblPr>{lines}'
                f'<w:tblCellMar><w:top w:w="{high}" w:type="dxa"/><w:left w:w="{left}" w:type="dxa"/>'
                f'<w:bottom w:w="{high}" w:type="dxa"/><w:right w:w="{right}" w:type="dxa"/></w:tblCellMar>'
                f"</w:tblPr>{first}</w:style>"
            )
        )


def dressed(table: Any, style: str, widths: Sequence[float], about: str) -> list[list[Any]]:
    """`table` in `style` with fixed columns and rows that stay whole; its cells, row by row.

    A table with borders repeats its head; `about` is for people who cannot see it.
    """
    table.autofit = False
    properties = table._tbl.tblPr
    if about:
        description = OxmlElement("w:tblDescription")
        description.set(qn("w:val"), about)
        properties.append(description)
    found = []
    for at, row in enumerate(table.rows):
        row._tr.get_or_add_trPr().append(OxmlElement("w:cantSplit"))
        if not at and style == GRID:
            row._tr.trPr.append(OxmlElement("w:tblHeader"))
        cells = list(row.cells)
        for cell, width in zip(cells, widths, strict=True):
            cell.width = Mm(width)
        found.append(cells)
    for column, width in zip(table.columns, widths, strict=True):
        column.width = Mm(width)
    return found
