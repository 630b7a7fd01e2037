"""The table of a DOCX report that tells the verdict on every line, with its readings and their picture."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sizewright.judge.model import Outcome
from sizewright.output import docx_styles as styles
from sizewright.output.docx_bars import LEGEND, WIDTH, bar_xml
from sizewright.output.docx_body import Body
from sizewright.output.docx_tables import Line, drawn_table_xml
from sizewright.output.docx_xml import paragraph, paragraph_of, paragraphs
from sizewright.output.report_rows import ReportRow, Taken, bonus_words, gravest_first, said
from sizewright.output.rows import Bound
from sizewright.output.safe import visible
from sizewright.text.numbers import Number

MOST_SHOWN = 12  # more readings than this are told by their least and greatest; the annex has them all
_MOST_BAD = 8
_NONE = "–"
_HEADS = ("no., place", "requirement", "limits of", "lower", "upper", "unit", "readings", "picture", "instrument, U",
          "verdict")  # fmt: skip
_RIGHT = {"lower", "upper"}
_FULL_WIDTH = 273.0  # mm between the margins of landscape A4, for which the widths below are made
_NUMBER_LEAST, _DIGIT = 16.0, 1.8  # a digit of the number style, so that no number wraps
_READINGS_LEGEND = (
    "Readings are marked piece/instance: 2/3 is instance 3 on piece 2. A reading equal to a limit complies. "
    "U is the expanded uncertainty (95 %)."
)
_EMPTY = paragraph(styles.CELL, "")


def add_lines(body: Body, rows: Sequence[ReportRow], width: float) -> None:
    """Append the table, `width` mm wide, with what explains it."""
    body.paragraph(styles.LEGEND, f"{_READINGS_LEGEND} {LEGEND}")
    head: list[Line] = [(styles.NUMBER_HEAD if text in _RIGHT else styles.HEAD, text) for text in _HEADS]
    bars = _Bars()
    cells = (_cells(row, bars) for row in rows)
    body.add(*drawn_table_xml(_widths(rows, width), head, cells, "Verdict on each line, with its readings"))


def _widths(rows: Sequence[ReportRow], width: float) -> list[float]:
    """Widths of the columns in mm: numbers get what the longest needs, the requirement what is left."""
    bounds = [bound for row in rows for bound in (*row.limits, *row.acceptance)]
    longest = max((len(text) for bound in bounds for text in (bound.said_lower, bound.said_upper)), default=0)
    limit = max(_NUMBER_LEAST, 3.5 + _DIGIT * longest)
    scale = width / _FULL_WIDTH
    place, of, unit, readings, tool, verdict = (each * scale for each in (20.0, 24.0, 11.0, 52.0, 31.0, 25.0))
    picture = WIDTH + 4
    left = width - place - of - 2 * limit - unit - readings - picture - tool - verdict
    requirement = max(26.0, left)
    readings += left - requirement
    return [place, requirement, of, limit, limit, unit, readings, picture, tool, verdict]


def _cells(row: ReportRow, bars: _Bars) -> tuple[str, ...]:
    whats, lowers, uppers = _limit_lines(row)
    tool = [text for text in (row.instruments, row.uncertainty and f"U {row.uncertainty}") if text]
    return (
        _strong(row.number, row.place),
        _strong(row.requirement, (row.characteristic,) if row.characteristic else ()),
        paragraphs(styles.CELL, whats),
        paragraphs(styles.NUMBER, lowers),
        paragraphs(styles.NUMBER, uppers),
        paragraph(styles.CELL, row.unit),
        paragraphs(styles.CELL, _readings(row)),
        bars.of(row) or _EMPTY,
        paragraphs(styles.CELL, tool),
        _strong(row.verdict, (row.why,) if row.why else ()),
    )


def _strong(first: str, others: Sequence[str]) -> str:
    strong = paragraph(styles.STRONG, first)
    return strong + paragraphs(styles.CELL, others) if others else strong


def _limit_lines(row: ReportRow) -> tuple[list[str], list[str], list[str]]:
    """What, lower and upper of every limit and zone, one text line each so that the columns stay level."""
    bounds = [*row.limits, *row.acceptance]
    several = len(row.limits) > 1
    whats = [bound.label for bound in row.limits]
    whats += [f"accepted, {zone.of}" if several else "accepted" for zone in row.acceptance]
    if not bounds:
        return [""], [_NONE], [_NONE]
    return whats, [each.said_lower or _NONE for each in bounds], [each.said_upper or _NONE for each in bounds]


def _readings(row: ReportRow) -> Iterator[str]:
    """The readings of a row, those of one piece and limit on a line; very many by their ends."""
    if len(row.readings) > MOST_SHOWN:
        yield from _ends(row)
        return
    lines: dict[tuple[str, int], list[str]] = {}
    alone = row.judged.line.readings_per_piece == 1
    for taken in row.readings:
        key = taken.of, 0 if alone else taken.outcome.reading.piece
        if key in lines:
            lines[key].append(_marked(taken))
        else:
            lines[key] = [_marked(taken)]
    for (of, _), texts in lines.items():
        text = ",  ".join(texts)
        yield f"{visible(of)}: {text}" if of else text


def _marked(taken: Taken) -> str:
    """`2/3 6.58`, and what is to say about it; a blank that cannot break keeps the two together."""
    reading = taken.outcome.reading
    text = f"{reading.piece}/{reading.instance}\u00a0{taken.value}"
    told = taken.told
    return f"{text} ({told})" if told else text


def _ends(row: ReportRow) -> Iterator[str]:
    yield f"{len(row.readings)} readings, all in the annex"
    for given, least, greatest in row.summed:
        of = f"{visible(given.of)}: " if given.of else ""
        yield f"{of}least {least}, greatest {greatest}"
    if bonus_words(row):
        yield bonus_words(row)
    bad = gravest_first(row.readings)
    if bad:
        more = f",  and {len(bad) - _MOST_BAD} more" if len(bad) > _MOST_BAD else ""
        yield f"{',  '.join(map(_marked, bad[:_MOST_BAD]))}{more}"


class _Bars:
    """Counts the pictures: each has a number of its own in the document."""

    def __init__(self) -> None:
        self._count = 0

    def of(self, row: ReportRow) -> str:
        """The pictures of a row, one for each of its limits that has readings; nothing where there is none."""
        groups: dict[str, list[Outcome]] = {}
        for each in row.judged.outcomes:
            if each.reading.value is not None and (each.limits[1] is not None or each.limits[2] is not None):
                groups.setdefault(each.reading.of, []).append(each)
        made = []
        for of, outcomes in groups.items():
            self._count += 1
            drawn = bar_xml(outcomes, picture_words(row, of, outcomes), self._count)
            made.append(paragraph_of(styles.CELL, drawn))
        return "".join(made)


def picture_words(row: ReportRow, of: str, outcomes: Sequence[Outcome]) -> str:
    """The alternative text of a picture: limits, acceptance zone, and where the readings lie."""
    values = [each.reading.value for each in outcomes if each.reading.value is not None]
    bad = sum([each.verdict != "accept" for each in outcomes])
    accepted = "".join([f"; accepted {_between(zone)}" for zone in row.acceptance if not of or zone.of == of])
    limits = "".join([f"limits {_between(bound)} {row.unit}" for bound in row.limits if not of or bound.of == of])
    least, greatest = _extremes(row, of, values)
    where = f"from {least} to {greatest}" if len(values) > 1 else f"at {least}"
    readings = f"{len(values)} readings" if len(values) > 1 else "1 reading"
    told = f"{bad} not accepted" if bad else "accepted" if len(values) == 1 else "all accepted"
    bonus = ", each within its own limits drawn as one" if any(map(_widened, outcomes)) else ""
    return f"{f'{visible(of)}: ' if of else ''}{limits}{accepted}; {readings} {where}, {told}{bonus}"


def _widened(outcome: Outcome) -> bool:
    return outcome.bonus is not None


def _extremes(row: ReportRow, of: str, values: Sequence[Number]) -> tuple[str, str]:
    """The least and the greatest of `values` as text: those of the statistics where these are of the same readings."""
    for given, least, greatest in row.summed:
        if given.count == len(values) and (given.of == of or len(row.summed) == 1):
            return least, greatest
    return said(min(values)), said(max(values))


def _between(bound: Bound) -> str:
    if bound.said_lower and bound.said_upper:
        return f"{bound.said_lower} to {bound.said_upper}"
    return f"at most {bound.said_upper}" if bound.said_upper else f"at least {bound.said_lower}"
