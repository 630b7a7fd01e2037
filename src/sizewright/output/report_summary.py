"""The one-page summary of a report: all that is signed for, on a page that is filled and never overflows.

Heights are reckoned before anything is laid out, on the generous side: a table that would be too long loses what is
plainly good, and says how much.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from sizewright.judge.model import InstrumentUse, Judgement
from sizewright.output import docx_styles as styles
from sizewright.output.docx_body import Body
from sizewright.output.docx_frame import add_signatures
from sizewright.output.docx_tables import plain_table_xml
from sizewright.output.front import heading, title_block
from sizewright.output.report_front import attention, counts, lot_words, piece_words, verdict_words
from sizewright.output.report_rows import ReportRow, beyond_by, least_and_greatest, limits_words
from sizewright.output.safe import one_line

_HEIGHTS = {"A4": 184.0, "Letter": 189.0}  # mm between the margins
_TITLE, _VERDICT, _SIGNATURES, _GAP, _SPARE = 10.0, 10.0, 19.0, 2.8, 6.0
_LINE, _ITEM, _ROW = 4.0, 4.6, 4.05  # a line of text, an item, a row of a dense table
_DIGIT, _LETTER, _LETTER_9 = 1.6, 1.78, 1.95  # mm a character takes at most on the average, in 8 and 9 points
_CAPITAL = 2.15  # the same of a word in capitals, bold
_PAD = 3.2
_TITLE_LETTER, _TITLE_LINE = 4.0, 8.0
_MOST_FRONT, _MOST_BACK = 11, 7  # lines of text
_MOST_ENTRIES, _PAIRS_ACROSS, _MOST_INSTRUMENTS, _MOST_GROUPS = 12, 4, 8, 6
_MOST_ROWS = 300
_LEAST_REQUIREMENT = 24.0
_GOOD = ("accept", "no verdict")


class Entry(NamedTuple):
    """One row of the compact table, as text."""

    number: str
    requirement: str
    limits: str
    least: str
    greatest: str
    verdict: str


class Layout(NamedTuple):
    """The compact table: widths of the columns of one block in mm, how many blocks stand side by side, rows in each.

    A requirement of no width is left out.
    """

    widths: tuple[float, ...]
    blocks: int
    rows: int


def add_summary(
    body: Body, judgement: Judgement, rows: Sequence[ReportRow], width: float, paper: str, alone: bool
) -> None:
    """Append the summary; with `alone` nothing comes after it, and it says what it leaves out."""
    used = _title_height(judgement, width) + _VERDICT + _SIGNATURES + 2 * _GAP + _SPARE
    used += _add_title(body, judgement, width)
    body.paragraph(styles.VERDICT, verdict_words(judgement))
    front = _as_much(_front(judgement, rows, alone), _MOST_FRONT, width)
    used += _add_items(body, front, width)
    back = [one_line(text) for text in judgement.rule_words]
    if alone and judgement.plan.cautions:
        back.append(one_line(judgement.plan.cautions[0]))
    back = _as_much([f"rule: {text}" if not place else text for place, text in enumerate(back)], _MOST_BACK, width)
    uses = judgement.instruments
    used += sum(_item_height(text, width) for text in back) + _instruments_height(uses)
    _add_entries(body, rows, width, _HEIGHTS[paper] - used - _ITEM, alone)
    body.paragraph(styles.LABEL, "")
    body.items("", back)
    _add_instruments(body, uses, width)
    add_signatures(body, width)


def _front(judgement: Judgement, rows: Sequence[ReportRow], alone: bool) -> list[str]:
    entries = [*counts(judgement), ("pieces", piece_words(judgement))]
    texts = [one_line(judgement.why), *(f"{word}: {text}" for word, text in entries if text)]
    texts += [f"lot: {text}" for text in lot_words(judgement)]
    if alone:
        groups = attention(judgement, rows)
        texts += [f"{title}: {len(said)}, told in the full report" for title, said in groups[:_MOST_GROUPS]]
    return [text for text in texts if text]


def _add_title(body: Body, judgement: Judgement, width: float) -> float:
    """The title block, as much as four rows hold; returns its height."""
    pairs = [pair for pair in title_block(judgement.plan) if pair[0] != "remark"][:_MOST_ENTRIES]
    label, value = 20.0, width / _PAIRS_ACROSS - 20.0
    pairs += [("", "")] * (-len(pairs) % _PAIRS_ACROSS)
    made = [
        [text for word, entry in pairs[start : start + _PAIRS_ACROSS] for text in (word, _cut(entry, value))]
        for start in range(0, len(pairs), _PAIRS_ACROSS)
    ]
    columns = [styles.SMALL, styles.SMALL_STRONG] * _PAIRS_ACROSS
    body.add(*plain_table_xml([label, value] * _PAIRS_ACROSS, (), columns, made, "Title block", styles.DENSE))
    return _ROW * len(made)


def _add_items(body: Body, texts: Sequence[str], width: float) -> float:
    body.items("", texts)
    return sum(_item_height(text, width) for text in texts)


def _as_much(texts: Sequence[str], lines: int, width: float) -> list[str]:
    """Of `texts` as much as so many lines hold; what is cut off leaves a mark."""
    kept: list[str] = []
    across = int((width - 8) / _LETTER_9)
    for text in texts:
        if lines < 1:
            kept[-1] = f"{kept[-1][: across - 1].rstrip()}…" if not kept[-1].endswith("…") else kept[-1]
            break
        kept.append(text if len(text) <= lines * across else f"{text[: lines * across - 1].rstrip()}…")
        lines -= math.ceil(len(text) / across)
    return kept


def _title_height(judgement: Judgement, width: float) -> float:
    letters = len(f"Inspection report: {heading(judgement.plan)}")
    return _TITLE + _TITLE_LINE * (math.ceil(letters * _TITLE_LETTER / width) - 1)


def _item_height(text: str, width: float) -> float:
    lines = math.ceil(len(text) * _LETTER_9 / (width - 8))
    return _ITEM + _LINE * (lines - 1)


def _cut(text: str, width: float) -> str:
    """`text` on one line that fits `width` mm; what is cut off leaves a mark."""
    text = one_line(text)
    room = max(4, int((width - _PAD) / _LETTER))
    return text if len(text) <= room else f"{text[: room - 1].rstrip()}…"


def _add_entries(body: Body, rows: Sequence[ReportRow], width: float, room: float, alone: bool) -> None:
    entries = list(_entries(_foremost(rows)))
    if not entries:
        return
    results = sum(max(1, len(row.judged.statistics)) for row in rows if row.verdict != "no verdict")
    most = max(1, int(room / _ROW) - 1)
    layout = _layout(entries, width, most)
    shown = _chosen(entries, layout.blocks * layout.rows)
    _add_table(body, shown, layout)
    left_out = max(results, len(entries)) - len(shown)
    if left_out:
        where = "see the full report" if alone else "they follow on the next pages"
        good = ", all accepted" if {each.verdict for each in _hidden(entries, len(shown))} <= {*_GOOD} else ""
        body.paragraph(styles.LEGEND, f"{left_out} more results are not shown on this page{good}; {where}.")


def _entries(rows: Sequence[ReportRow]) -> Iterator[Entry]:
    """What a row comes to, one entry for each of its limits; rows that ask for no verdict are only counted."""
    for row in rows:
        if row.verdict == "no verdict":
            continue
        more = ", and a bonus" if any(beyond_by(each.outcome) is not None for each in row.readings) else ""
        limits = {bound.of: f"{limits_words(bound, row.unit)}{more}" for bound in row.limits}
        found = list(least_and_greatest(row)) or [("", "", "")]
        for of, least, greatest in found:
            said = limits.get(of) or ("; ".join(limits.values()) if len(limits) == 1 else "by gauge")
            requirement = f"{one_line(row.requirement)}, {of}" if of else one_line(row.requirement)
            yield Entry(row.number, requirement, said, least, greatest, row.verdict)


def _foremost(rows: Sequence[ReportRow]) -> Sequence[ReportRow]:
    """The rows that can come onto the page at all, those that are not plainly good before all others."""
    if len(rows) <= _MOST_ROWS:
        return rows
    ranked = sorted(range(len(rows)), key=lambda place: (rows[place].verdict in _GOOD, place))
    return [rows[place] for place in sorted(ranked[:_MOST_ROWS])]


def _layout(entries: Sequence[Entry], width: float, most: int) -> Layout:
    """As few blocks as hold all entries; where no number of blocks does, as many as fit side by side."""
    fixed = [
        max(8.0, _PAD + _LETTER * max(len(text) for text in column))
        for column in (
            [each.number for each in entries],
            [each.limits for each in entries] + ["limits"],
            [each.least for each in entries] + ["least"],
            [each.greatest for each in entries] + ["greatest"],
        )
    ]
    fixed.append(_PAD + max(_CAPITAL * len(each.verdict) for each in entries))
    widest = max(1, int(width / sum(fixed)))
    blocks = min(widest, math.ceil(len(entries) / most))
    left = width / blocks - sum(fixed)
    requirement = left if left >= _LEAST_REQUIREMENT else 0.0
    if not requirement:
        fixed = [each * width / blocks / sum(fixed) for each in fixed]
    number, *others = fixed
    return Layout((number, requirement, *others), blocks, min(most, math.ceil(len(entries) / blocks)))


def _chosen(entries: Sequence[Entry], room: int) -> list[Entry]:
    """The entries there is room for: those that are not plainly good before all others, in their order."""
    return [entries[place] for place in sorted(_ranked(entries)[:room])]


def _hidden(entries: Sequence[Entry], room: int) -> list[Entry]:
    """The entries there is no room for."""
    return [entries[place] for place in _ranked(entries)[room:]]


def _ranked(entries: Sequence[Entry]) -> list[int]:
    return sorted(range(len(entries)), key=lambda place: (entries[place].verdict in _GOOD, place))


def _add_table(body: Body, entries: Sequence[Entry], layout: Layout) -> None:
    keep = [place for place, width in enumerate(layout.widths) if width]
    heads = ("no.", "requirement", "limits", "least", "greatest", "verdict")
    looks = (styles.SMALL_STRONG, styles.SMALL, styles.SMALL_NUMBER, styles.SMALL_NUMBER, styles.SMALL_NUMBER,
             styles.SMALL_STRONG)  # fmt: skip
    texts = [[each[place] if place != 1 else _cut(each[1], layout.widths[1]) for place in keep] for each in entries]
    texts += [[""] * len(keep)] * (layout.rows * layout.blocks - len(texts))
    made = [
        [text for block in range(layout.blocks) for text in texts[block * layout.rows + row]]
        for row in range(layout.rows)
    ]
    head = [(styles.NUMBER_HEAD if looks[i] == styles.SMALL_NUMBER else styles.HEAD, heads[i]) for i in keep]
    widths = [layout.widths[place] for place in keep]
    columns = [looks[place] for place in keep]
    about = "Results, one row for each pair of limits"
    blocks = layout.blocks
    body.add(*plain_table_xml(widths * blocks, head * blocks, columns * blocks, made, about, styles.DENSE))


def _instruments_height(uses: Sequence[InstrumentUse]) -> float:
    return _ROW * (1 + min(len(uses), _MOST_INSTRUMENTS)) + _ITEM * (len(uses) > _MOST_INSTRUMENTS) if uses else 0.0


def _add_instruments(body: Body, uses: Sequence[InstrumentUse], width: float) -> None:
    """The instruments with what a signature vouches for: serial, due date, and how their checks went."""
    if not uses:
        return
    bad_first = sorted(uses, key=lambda use: not (use.overdue or use.failed or use.unknown))
    shares = (70.0, 35.0, 25.0, 70.0, 73.0)
    widths = [width * share / sum(shares) for share in shares]
    made = [
        [_cut(text, widths[place]) for place, text in enumerate(_instrument(use))]
        for use in bad_first[:_MOST_INSTRUMENTS]
    ]
    heads = ("instrument", "serial", "due", "for lines", "check before use")
    columns = [styles.SMALL_STRONG, *[styles.SMALL] * 4]
    head = [(styles.HEAD, text) for text in heads]
    body.paragraph(styles.LABEL, "")
    body.add(*plain_table_xml(widths, head, columns, made, "Instruments used", styles.DENSE))
    if len(uses) > _MOST_INSTRUMENTS:
        body.paragraph(styles.LEGEND, f"{len(uses) - _MOST_INSTRUMENTS} more instruments, all in order or told before.")


def _instrument(use: InstrumentUse) -> tuple[str, str, str, str, str]:
    passed = sum(check.passed is True for check in use.checks)
    check = f"{passed} of {len(use.checks)} points passed" if use.checks else "none recorded"
    words = [word for word, text in (("OVERDUE", use.overdue), ("FAILED", use.failed)) if text]
    words += ["NOT IN THE CRIB"] if use.unknown else []
    return use.name or "not named", use.serial, use.due, ", ".join(use.lines), "; ".join([*words, check])
