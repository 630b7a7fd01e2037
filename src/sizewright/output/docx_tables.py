"""Tables of a DOCX plan or report: cells of styled lines and of boxes to write in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

from sizewright.output import docx_styles as styles
from sizewright.output.docx_xml import paragraph, plain_rows, row, row_form, table_open

_BOX_HEIGHT = 9.0
EMPTY = paragraph(styles.LABEL, "")  # an empty cell still has a paragraph


class Boxes(NamedTuple):
    """A small grid of boxes to write in, each with a label in its corner, `across` in a row, `width` mm in all."""

    labels: Sequence[str]
    across: int
    width: float


Line = tuple[str, str]  # style, text
Cell = Sequence[Line | Boxes]


def table_xml(widths: Sequence[float], head: Sequence[Line], rows: Iterable[Sequence[Cell]], about: str) -> str:
    """A table with column `widths` in mm.

    A `head` is repeated on every page (an empty one leaves it out); no row is split over two pages. `about` is the
    text for people who cannot see the table.
    """
    return "".join(drawn_table_xml(widths, head, ([cell_xml(cell) for cell in cells] for cells in rows), about))


def drawn_table_xml(
    widths: Sequence[float], head: Sequence[Line], rows: Iterable[Sequence[str]], about: str
) -> list[str]:
    """The same of cells that are XML already, in pieces."""
    form = row_form(len(widths))
    made = [table_open(styles.GRID, widths, about, head=bool(head)), _head(widths, head)]
    made += [form % tuple(cells) for cells in rows]
    return [*made, "</w:tbl>"]


def plain_table_xml(
    widths: Sequence[float],
    head: Sequence[Line],
    columns: Sequence[str],
    rows: Sequence[Sequence[str]],
    about: str,
    look: str = styles.GRID,
) -> list[str]:
    """A table of one text a cell, all of a column in the style that `columns` names: the way for very many rows.

    It comes in pieces: to join them, only to write them, would cost as much as to make them.
    """
    opened = table_open(look, widths, about, head=bool(head))
    return [opened, _head(widths, head), *plain_rows(columns, rows), "</w:tbl>"]


def box_grid_xml(boxes: Boxes) -> str:
    """A grid of boxes as a table of its own."""
    return _box_grid(tuple(boxes.labels), boxes.across, boxes.width)


@lru_cache(maxsize=256)
def _box_grid(all_labels: tuple[str, ...], most_across: int, width: float) -> str:
    """Made once where many lines have the same boxes."""
    across = min(most_across, len(all_labels))
    widths = [width / most_across] * across
    made = [table_open(styles.BOXES, widths)]
    for start in range(0, len(all_labels), across):
        labels = all_labels[start : start + across]
        left_out = across - len(labels)  # no box without a label: an empty one looks like a reading forgotten
        texts = [paragraph(styles.LABEL, label) for label in labels]
        made.append(row(widths[: len(labels)], texts, _BOX_HEIGHT, after=left_out))
    return "".join([*made, "</w:tbl>"])


def _head(widths: Sequence[float], head: Sequence[Line]) -> str:
    return row(widths, [paragraph(*line) for line in head], head=True) if head else ""


def cell_xml(cell: Cell) -> str:
    """The content of one cell."""
    parts = [_part(part) for part in cell]
    if not cell or isinstance(cell[-1], Boxes):  # a cell has to end with a paragraph
        parts.append(EMPTY)
    return "".join(parts)


def _part(part: Line | Boxes) -> str:
    if isinstance(part, Boxes):
        return box_grid_xml(part)
    return paragraph(*part)
