"""The checklist of a DOCX plan: one row a line, with boxes for readings and for the verdict."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sizewright.output import docx_styles as styles
from sizewright.output.docx_body import Body
from sizewright.output.docx_tables import EMPTY, Boxes, Line, cell_xml, drawn_table_xml
from sizewright.output.docx_xml import paragraph, paragraphs
from sizewright.output.rows import Bound, Row
from sizewright.output.slots import labels_of, slot_count

MOST_BOXES = 6  # more readings than this go to a grid of their own after the checklist
MOST_IN_GRID = 100  # more than this for one line, or than the next for all, are typed, not written on paper
MOST_IN_GRIDS = 1000
_NONE = "–"
_HEADS = (
    "no., place",
    "requirement",
    "limits of",
    "lower",
    "upper",
    "unit",
    "aim",
    "instrument",
    "readings",
    "verdict",
)
_RIGHT = {"lower", "upper", "aim"}
_FULL_WIDTH = 273.0  # mm between the margins of landscape A4, for which the widths below are made
_BOX_WIDTH = 46.0
_NUMBER_LEAST, _DIGIT = 16.0, 1.8  # a digit of the number style, so that no number wraps
_REQUIREMENT_LEAST, _INSTRUMENT_LEAST = 30.0, 22.0
_LEGEND = (
    "Each box takes one reading and is marked piece/instance: 2/3 is instance 3 on piece 2. A reading equal to a limit "
    "complies. Tick one verdict a line; undecided needs a remark."
)


def add_checklist(body: Body, rows: Sequence[Row], width: float) -> None:
    """Append the checklist, `width` mm wide, to `body`."""
    body.paragraph(styles.LEGEND, _LEGEND)
    head: list[Line] = [(styles.NUMBER_HEAD if text in _RIGHT else styles.HEAD, text) for text in _HEADS]
    printed = {row.number for row in grid_rows(rows)}
    cells = (_cells(row, width / _FULL_WIDTH, row.number in printed) for row in rows)
    body.add(*drawn_table_xml(_widths(rows, width), head, cells, "Checklist, one row a line"))


def grid_rows(rows: Iterable[Row]) -> list[Row]:
    """The rows whose readings do not fit into the checklist and get a grid of boxes after it.

    None gets one where it would have too many boxes to be filled by hand, alone or all of them together.
    """
    crowded = [row for row in rows if MOST_BOXES < slot_count(row) <= MOST_IN_GRID]
    return crowded if sum(map(slot_count, crowded)) <= MOST_IN_GRIDS else []


def _widths(rows: Sequence[Row], width: float) -> list[float]:
    """Widths of the columns in mm: numbers get what the longest needs, the requirement what is left."""
    bounds = [bound for row in rows for bound in (*row.limits, *row.other_limits)]
    limit = _number_width(text for bound in bounds for text in (bound.said_lower, bound.said_upper))
    aim = _number_width(row.aim for row in rows)
    place, of, unit, instrument, readings, verdict = (
        each * width / _FULL_WIDTH for each in (22.0, 26.0, 11.0, 34.0, _BOX_WIDTH + 4, 24.0)
    )
    left = width - place - of - 2 * limit - unit - aim - instrument - readings - verdict
    requirement = max(_REQUIREMENT_LEAST, left)
    instrument = max(_INSTRUMENT_LEAST, instrument - requirement + left)
    return [place, requirement, of, limit, limit, unit, aim, instrument, readings, verdict]


def _number_width(texts: Iterable[str]) -> float:
    return max(_NUMBER_LEAST, 3.5 + _DIGIT * max(map(len, texts), default=0))


def _cells(row: Row, scale: float, in_grid: bool) -> tuple[str, ...]:
    lines = list(_limit_lines(row))
    return (
        paragraph(styles.STRONG, row.number)
        + _filled(styles.CELL, row.zone, row.view)
        + _filled(styles.STRONG, row.class_),
        paragraph(styles.STRONG, row.requirement) + _filled(styles.CELL, row.characteristic, row.standing),
        _filled_column(styles.CELL, [line[0] for line in lines]),
        _filled_column(styles.NUMBER, [line[1] for line in lines]),
        _filled_column(styles.NUMBER, [line[2] for line in lines]),
        _filled_column(styles.CELL, [line[3] for line in lines]),
        paragraph(styles.NUMBER, row.aim),
        _filled(styles.CELL, row.instrument, row.resolution and f"read to {row.resolution}") or EMPTY,
        _readings(row, scale, in_grid),
        _verdict(row),
    )


def _strong(first: str, *others: str) -> str:
    return paragraph(styles.STRONG, first) + _filled(styles.CELL, *others)


def _filled(style: str, *texts: str) -> str:
    """A paragraph for each text that is not empty."""
    filled = [text for text in texts if text]
    return paragraphs(style, filled) if filled else ""


def _filled_column(style: str, texts: Sequence[str]) -> str:
    """A paragraph for each text, so that columns stay level."""
    return paragraphs(style, texts) if texts else EMPTY


def _limit_lines(row: Row) -> Iterable[tuple[str, str, str, str]]:
    """What, lower, upper and unit of every limit, one text line each so that the four columns stay level."""
    side = ""
    for bound in row.limits:
        if bound.side != side:
            side = bound.side
            yield f"{side}:", "", "", ""
        yield _limit_line(bound, row.unit)
    for bound in row.other_limits:
        yield _limit_line(bound, row.other_unit)
    if not row.limits and row.unit:
        yield "", _NONE, _NONE, row.unit


def _limit_line(bound: Bound, unit: str) -> tuple[str, str, str, str]:
    return bound.of, bound.said_lower or _NONE, bound.said_upper or _NONE, unit


def _readings(row: Row, scale: float, in_grid: bool) -> str:
    count = slot_count(row)
    if not count:
        return EMPTY
    if count <= MOST_BOXES:
        return cell_xml([Boxes(labels_of(row), 3, _BOX_WIDTH * scale)])
    where = f"in the boxes of “Readings for balloon {row.number}”" if in_grid else "in the table of the XLSX form"
    words: Line = (styles.CELL, f"{count} readings, {where}")
    one_range = len(row.limits) == 1 and not row.by_gauge
    return cell_xml([words, Boxes(("smallest", "largest") if one_range else ("result",), 2, _BOX_WIDTH * scale)])


def _verdict(row: Row) -> str:
    if row.standing.startswith("NOT READ"):
        return paragraph(styles.STRONG, "NOT READ") + paragraph(styles.CELL, "no verdict")
    if row.standing and not row.either:
        return paragraph(styles.CELL, "no verdict")
    words = ("undecided",) if row.either else ("accept", "reject", "undecided")
    return paragraphs(styles.CHOICE, [f"☐ {word}" for word in words])
