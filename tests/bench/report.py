"""What a long plan costs to write, and to judge and report, beside plain tables of the same cells.

The yardstick is the fastest way known to write a table with python-docx: its rows as one text, parsed once and put into
the body. It writes the texts of all cells, boxes included, and nothing else: no style, no picture, no heading.
"""

from __future__ import annotations

import gc
import io
import time
from collections.abc import Callable
from html import escape
from itertools import groupby
from pathlib import Path
from typing import Any

import docx
from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls, qn

from sizewright.instruments.crib import default_crib
from sizewright.judge.budgets import BudgetBook
from sizewright.judge.doubts import doubts_of
from sizewright.judge.judging import judge
from sizewright.judge.model import Judgement, Reading, Rule
from sizewright.judge.tools import Tools
from sizewright.output.docx import plan_docx
from sizewright.output.report_docx import report_docx
from sizewright.plan.build import build_plan
from sizewright.plan.model import Plan
from sizewright.sheet.read import read_sheet
from tests.output.judgements import judged

LINES, PIECES = 1000, 5
PLAN, REPORT = "plan of 1,000 lines, as DOCX", "judge and report, 1,000 lines x 5"
AGAINST = "plain DOCX tables of the same cells"
_FORMS = ("{0}.5 ±0.1", "Ø{0} H7", "{0} ±0.05", "Ø{0}.2 h6", "R{0} ±0.5", "{0} MAX", "Ø{0}.25 ±0.02", "{0}° ±30'")


def long_plan(folder: Path) -> Plan:
    """A plan of a thousand lines, one reading each on five pieces: forty sizes in eight forms."""
    callouts = (_FORMS[i % len(_FORMS)].format(5 + i % 40) for i in range(LINES))
    text = "\n".join(f"{i}: {callout}" for i, callout in enumerate(callouts, start=1))
    path = folder / "long.sheet"
    path.write_text(f"part: Test strip\nunit: mm\npieces: {PIECES}\n\n{text}\n", encoding="utf-8")
    return build_plan(read_sheet(path), default_crib())


def readings_of(plan: Plan) -> list[Reading]:
    """A reading for every place of the plan."""
    return [outcome.reading for line in judged(plan).lines for outcome in line.outcomes]


def judge_again(plan: Plan, readings: list[Reading]) -> Judgement:
    """The plan judged as the command does it."""
    tools = Tools(plan.crib, ())
    book = BudgetBook(plan, lambda name: tools.of(name).owned)
    return judge(plan, readings, Rule("simple"), budget_for=book, doubts_of=doubts_of)


Cells = list[list["str | Cells"]]
"""The cells of a table by row: a text each, or what stands in them as a table of their own."""


def cells_of(data: bytes) -> list[Cells]:
    """The cells of a document's tables."""
    document = docx.Document(io.BytesIO(data))
    return [_cells_of(table) for table in document.element.body.iterchildren(qn("w:tbl"))]


def _cells_of(table: Any) -> Cells:
    return [[_content_of(cell) for cell in row.iterchildren(qn("w:tc"))] for row in table.iterchildren(qn("w:tr"))]


def _content_of(cell: Any) -> str | Cells:
    inner = cell.find(qn("w:tbl"))
    if inner is not None:
        return _cells_of(inner)
    return "\n".join("".join(t.text or "" for t in p.iter(qn("w:t"))) for p in cell.iterchildren(qn("w:p")))


def plain_tables(tables: list[Cells]) -> bytes:
    """The yardstick: the same cells in tables of as many columns, tables of one width joined to one."""
    document = docx.Document()
    for _, group in groupby((row for table in tables for row in table), key=len):
        made = _plain_table(list(group), f" {nsdecls('w')}")
        document.element.body.insert_element_before(parse_xml(made), "w:sectPr")
    stream = io.BytesIO()
    document.save(stream)
    return stream.getvalue()


def _plain_table(rows: Cells, names: str = "") -> str:
    made = [
        f'<w:tbl{names}><w:tblPr><w:tblStyle w:val="TableGrid"/><w:tblW w:w="0" w:type="auto"/></w:tblPr>'
        f"<w:tblGrid>{'<w:gridCol/>' * max(map(len, rows))}</w:tblGrid>"
    ]
    made += [f"<w:tr><w:tc>{_plain_row(row)}</w:tc></w:tr>" for row in rows]
    return "".join([*made, "</w:tbl>"])


def _plain_row(row: list[str | Cells]) -> str:
    texts = [_escaped(cell) for cell in row if isinstance(cell, str)]
    if len(texts) == len(row):
        return f"{_OPEN}{f'{_CLOSE}</w:tc><w:tc>{_OPEN}'.join(texts)}{_CLOSE}"
    cells = [f"{_OPEN}{_escaped(c)}{_CLOSE}" if isinstance(c, str) else f"{_plain_table(c)}<w:p/>" for c in row]
    return "</w:tc><w:tc>".join(cells)


_OPEN, _CLOSE = "<w:p><w:r><w:t>", "</w:t></w:r></w:p>"


def _escaped(text: str) -> str:
    return escape(text, quote=False).replace("\n", "</w:t><w:br/><w:t>")


def clocked(work: Callable[[], object]) -> float:
    """Milliseconds of processor time."""
    gc.collect()
    start = time.process_time()
    work()
    return 1000 * (time.process_time() - start)


def report_pairs(folder: Path, runs: int) -> list[tuple[float, float]]:
    """Ours and the yardstick in milliseconds, in turn; both collect garbage as seldom as the command does."""
    plan = long_plan(folder)
    readings = readings_of(plan)
    return _pairs(lambda: report_docx(judge_again(plan, readings)), runs)


def plan_pairs(folder: Path, runs: int) -> list[tuple[float, float]]:
    """The same of the plan itself; a box for a reading is a cell."""
    plan = long_plan(folder)
    return _pairs(lambda: plan_docx(plan), runs)


def _pairs(ours: Callable[[], bytes], runs: int) -> list[tuple[float, float]]:
    gc.set_threshold(50_000, 20, 20)  # as sizewright.cli.main
    tables = cells_of(ours())
    plain_tables(tables)
    return [(clocked(ours), clocked(lambda: plain_tables(tables))) for _ in range(runs)]
