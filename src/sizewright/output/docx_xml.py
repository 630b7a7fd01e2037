"""WordprocessingML as text: paragraphs and table rows, made by the thousand and never parsed.

Reaching cells one by one through python-docx rebuilds a table's list of cells each time, and even a cloned row costs a
walk through its elements. Text that is put together costs least, however long the table is. Nothing here lets typed
text act: every text goes through `escaped`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from itertools import chain

_TWIPS_PER_MM = 1440 / 25.4
_CLOSE = "</w:t></w:r></w:p>"
_BREAK = '</w:t><w:br/><w:t xml:space="preserve">'
_TOGETHER = 200  # rows
_MARK = "\x1f"  # parts texts while they are escaped together; no visible text holds it


def twips(millimetres: float) -> int:
    """`millimetres` in twentieths of a point."""
    return round(millimetres * _TWIPS_PER_MM)


def escaped(text: str) -> str:
    """`text` as the content of a `w:t`; a line end becomes a break."""
    text = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return text.replace("\n", _BREAK) if "\n" in text else text


def attribute(text: str) -> str:
    """`text` as the value of an attribute in double quotes."""
    text = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return text.replace('"', "&quot;").replace("\n", "&#10;")


@cache
def style_id(style: str) -> str:
    """The identifier of a style in the file: initials, as it stands in every paragraph of a long table."""
    first, _, rest = style.partition(" ")
    return "".join(word[:2] for word in rest.split()) if first == "Plan" else style.replace(" ", "")


@cache
def _open(style: str) -> str:
    return f'<w:p><w:pPr><w:pStyle w:val="{style_id(style)}"/></w:pPr><w:r><w:t xml:space="preserve">'


@cache
def _bare_open(style: str) -> str:
    # No space preserved, and no style where it is the first one: a long table is mostly its marks.
    named = "" if style == "Normal" else f'<w:pPr><w:pStyle w:val="{style_id(style)}"/></w:pPr>'
    return f"<w:p>{named}<w:r><w:t>"


def paragraph(style: str, text: str) -> str:
    """A paragraph of one run."""
    return f"{_open(style)}{escaped(text)}{_CLOSE}"


def paragraph_of(style: str, content: str) -> str:
    """A paragraph around `content`, which is XML already."""
    return f'<w:p><w:pPr><w:pStyle w:val="{style_id(style)}"/></w:pPr><w:r>{content}</w:r></w:p>'


def table_open(style: str, widths: Sequence[float], about: str = "", head: bool = False) -> str:
    """The beginning of a table with columns `widths` mm wide; `about` is for people who cannot see it."""
    told = f'<w:tblDescription w:val="{attribute(about)}"/>' if about else ""
    columns = "".join(f'<w:gridCol w:w="{twips(width)}"/>' for width in widths)
    return (
        f'<w:tbl><w:tblPr><w:tblStyle w:val="{style_id(style)}"/>'
        f'<w:tblW w:w="{sum(map(twips, widths))}" w:type="dxa"/><w:tblLayout w:type="fixed"/>'
        f'<w:tblLook w:val="{"0020" if head else "0000"}" w:firstRow="{int(head)}" w:lastRow="0" w:firstColumn="0" '
        f'w:lastColumn="0" w:noHBand="1" w:noVBand="1"/>{told}</w:tblPr><w:tblGrid>{columns}</w:tblGrid>'
    )


def paragraphs(style: str, texts: Iterable[str]) -> str:
    """A paragraph for each text, without the blanks around it."""
    opened = _bare_open(style)
    return f"{opened}{escaped(_MARK.join(texts)).replace(_MARK, _CLOSE + opened)}{_CLOSE}"


def row(widths: Sequence[float], cells: Iterable[str], height: float = 0, head: bool = False, after: int = 0) -> str:
    """A row that no page splits; `cells` are XML. A `head` is repeated on every page; `after` columns are left out."""
    made = [f"{_cell_open(width)}{cell}</w:tc>" for width, cell in zip(widths, cells, strict=True)]
    return f"{_row_open(height, head, after)}{''.join(made)}</w:tr>"


@cache
def row_form(columns: int) -> str:
    """A row that no page splits, with a `%s` for the XML of each of its cells; their widths are the table's alone."""
    return f"{_row_open(0, False, 0)}{'<w:tc>%s</w:tc>' * columns}</w:tr>"


@cache
def _cell_open(width: float) -> str:
    return f'<w:tc><w:tcPr><w:tcW w:w="{twips(width)}" w:type="dxa"/></w:tcPr>'


@cache
def _row_open(height: float, head: bool, after: int) -> str:
    left_out = f'<w:gridAfter w:val="{after}"/>' if after else ""
    tall = f'<w:trHeight w:val="{twips(height)}" w:hRule="atLeast"/>' if height else ""
    return f"<w:tr><w:trPr>{left_out}<w:cantSplit/>{tall}{'<w:tblHeader/>' if head else ''}</w:trPr>"


def plain_rows(columns: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Rows of one text a cell in a few pieces, all of a column in one style: `columns` names the styles.

    The cells have no width, as the table's grid has it. All texts are escaped at once and put into the rows at once.
    """
    if not rows:
        return []
    cells = "".join([f"<w:tc>{_bare_open(style)}%s{_CLOSE}</w:tc>" for style in columns])
    form = f"{_row_open(0, False, 0)}{cells}</w:tr>"
    made = []
    for start in range(0, len(rows), _TOGETHER):
        chunk = rows[start : start + _TOGETHER]
        texts = escaped(_MARK.join(chain.from_iterable(chunk))).split(_MARK)
        made.append(form * len(chunk) % tuple(texts))
    return made
