"""The page and the named styles of a DOCX plan, defined once; the document itself has no direct formatting."""

from __future__ import annotations

import io
import re
from importlib.resources import as_file, files
from typing import Any
from zipfile import ZipFile

from docx import Document
from docx.document import Document as DocumentType
from docx.enum.section import WD_ORIENT
from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls, qn
from docx.shared import Mm, Pt, RGBColor

from sizewright.output.docx_xml import style_id

PAPERS = {"A4": (Mm(297), Mm(210)), "Letter": (Mm(279.4), Mm(215.9))}
MARGIN = Mm(12)
FONT = "Arial"

CELL = "Plan Cell"
STRONG = "Plan Strong"
NUMBER = "Plan Number"
HEAD = "Plan Head"
NUMBER_HEAD = "Plan Number Head"
LEGEND = "Plan Legend"
LABEL = "Plan Box Label"
CHOICE = "Plan Choice"
WARNING = "Plan Warning"
ITEM = "Plan Item"
VERDICT = "Plan Verdict"
SMALL = "Normal"  # what stands in the longest tables needs no style named
SMALL_STRONG = "Plan Small Strong"
SMALL_NUMBER = "Plan Small Number"
KEPT = "Plan Kept"
KEPT_NUMBER = "Plan Kept Number"
ANNEX = "Plan Annex"
SUM = "Plan Sum"
GRID = "Plan Grid"
BOXES = "Plan Boxes"
DENSE = "Plan Dense"

# A picture of the empty template, its styles once more for a program of 2010, and its empty bibliography.
_UNUSED_PARTS = {
    "docProps/thumbnail.jpeg", "word/stylesWithEffects.xml",
    "customXml/item1.xml", "customXml/itemProps1.xml", "customXml/_rels/item1.xml.rels",
}  # fmt: skip
_UNUSED_RELATIONS = re.compile(rb'<Relationship [^>]*/(?:thumbnail|stylesWithEffects|customXml)"[^>]*/>')
_TABLE_STYLES = re.compile(rb'<w:style w:type="table" w:styleId=.*?</w:style>', re.DOTALL)

# name: (size in points, bold, alignment, space after in points)
_PARAGRAPHS: dict[str, tuple[float, bool, str, float]] = {
    CELL: (9, False, "left", 0),
    STRONG: (9, True, "left", 0),
    NUMBER: (9, False, "right", 0),
    HEAD: (8, True, "left", 0),
    NUMBER_HEAD: (8, True, "right", 0),
    LEGEND: (9, False, "left", 3),
    LABEL: (6.5, False, "left", 0),
    CHOICE: (8.5, False, "left", 1),
    WARNING: (9.5, True, "left", 3),
    ITEM: (9, False, "left", 2),
    VERDICT: (16, True, "left", 3),
    SMALL_STRONG: (8, True, "left", 0),
    SMALL_NUMBER: (8, False, "right", 0),
    KEPT: (8, False, "left", 0),
    KEPT_NUMBER: (8, False, "right", 0),
    ANNEX: (12, True, "left", 4),
    SUM: (9, True, "left", 9),
}
# KEPT is for short tables that stay on one page with what follows them.
_KEPT_WITH_NEXT = (
    HEAD,
    NUMBER_HEAD,
    LEGEND,
    KEPT,
    KEPT_NUMBER,
    ANNEX,
)  # no title, legend or head stays behind at the foot of a page
_AFTER_TABLES = (VERDICT, SUM)  # a table has no space after it
_HANGING = '<w:ind w:left="283" w:hanging="283"/>'
_BORDER = '<w:{side} w:val="single" w:sz="{size}" w:space="0" w:color="595959"/>'
_SIDES = ("top", "left", "bottom", "right", "insideH", "insideV")


def new_document(paper: str) -> DocumentType:
    """An empty landscape document on `paper` ("A4" or "Letter") that has the styles above."""
    document = Document(_template())
    section = document.sections[0]
    section.orientation = WD_ORIENT.LANDSCAPE
    section.page_width, section.page_height = PAPERS[paper]
    section.left_margin = section.right_margin = section.top_margin = MARGIN
    section.bottom_margin = Mm(14)
    section.header_distance = section.footer_distance = Mm(7)
    _standard_styles(document)
    made = (
        _paragraph_styles(),
        _table_style(GRID, 4, head=True),
        _table_style(BOXES, 6, head=False),
        _table_style(DENSE, 4, head=True, pad=12),
    )
    for style in list(parse_xml(f"<w:styles {nsdecls('w')}>{''.join(made)}</w:styles>")):
        document.styles.element.append(style)
    return document


def _template() -> io.BytesIO:
    """The library's template without what no document of ours uses: most of its weight, read and packed with each."""
    stripped = io.BytesIO()
    template = files("docx") / "templates" / "default.docx"
    with as_file(template) as path, ZipFile(path) as whole, ZipFile(stripped, "w") as kept:
        for name in whole.namelist():
            if name not in _UNUSED_PARTS:
                data = _UNUSED_RELATIONS.sub(b"", whole.read(name))
                kept.writestr(name, _TABLE_STYLES.sub(b"", data) if name == "word/styles.xml" else data)
    return stripped


def _standard_styles(document: DocumentType) -> None:
    for name, size in (("Normal", 8.0), ("Title", 18.0), ("Heading 1", 12.0), ("Footer", 8.0)):
        style: Any = document.styles[name]
        style.font.size = Pt(size)
        style.font.color.rgb = RGBColor(0, 0, 0)
        style.font.bold = name in ("Title", "Heading 1")
        _set_font(style)
        style.paragraph_format.space_after = Pt(0 if name == "Normal" else 4)
        style.paragraph_format.line_spacing = 1.0
        style.paragraph_format.space_before = Pt(10 if name == "Heading 1" else 0)
    title: Any = document.styles["Title"]
    for border in title.element.iter(qn("w:pBdr")):  # the rule under the title is blue in the template
        border.getparent().remove(border)
        break


def _set_font(style: Any) -> None:
    style.font.name = FONT
    fonts = style.element.rPr.rFonts
    for attribute in list(fonts.attrib):  # theme fonts would win over the named one
        if "Theme" in attribute or "theme" in attribute:
            del fonts.attrib[attribute]
    for script in ("w:ascii", "w:hAnsi", "w:cs", "w:eastAsia"):
        fonts.set(qn(script), FONT)


def _paragraph_styles() -> str:
    """The paragraph styles as XML: made one by one through python-docx they cost more than a page of text."""
    return "".join(
        f'<w:style w:type="paragraph" w:customStyle="1" w:styleId="{style_id(name)}"><w:name w:val="{name}"/>'
        f'<w:basedOn w:val="Normal"/><w:qFormat/><w:pPr>{"<w:keepNext/>" if name in _KEPT_WITH_NEXT else ""}'
        f"{'<w:pageBreakBefore/>' if name == ANNEX else ''}"
        f'<w:spacing w:before="{80 if name in _AFTER_TABLES else 0}" w:after="{round(after * 20)}" w:line="240" '
        f'w:lineRule="auto"/>{_HANGING if name == ITEM else ""}<w:jc w:val="{align}"/></w:pPr>'
        f'<w:rPr>{"<w:b/>" if bold else ""}<w:sz w:val="{round(size * 2)}"/></w:rPr></w:style>'
        for name, (size, bold, align, after) in _PARAGRAPHS.items()
    )


def _table_style(name: str, size: int, head: bool, pad: int = 40) -> str:
    borders = "".join(_BORDER.format(side=side, size=size) for side in _SIDES)
    first_row = (
        '<w:tblStylePr w:type="firstRow"><w:tcPr><w:shd w:val="clear" w:color="auto" w:fill="E7E7E7"/>'
        '<w:vAlign w:val="bottom"/></w:tcPr></w:tblStylePr>'
        if head
        else ""
    )
    return (
        f'<w:style w:type="table" w:customStyle="1" w:styleId="{style_id(name)}">'
        f'<w:name w:val="{name}"/><w:basedOn w:val="TableNormal"/><w:uiPriority w:val="59"/><w:tblPr>'
        f"<w:tblBorders>{borders}</w:tblBorders><w:tblCellMar>"
        f'<w:top w:w="{pad}" w:type="dxa"/><w:left w:w="70" w:type="dxa"/>'
        f'<w:bottom w:w="{pad}" w:type="dxa"/><w:right w:w="70" w:type="dxa"/>'
        f"</w:tblCellMar></w:tblPr>{first_row}</w:style>"
    )
