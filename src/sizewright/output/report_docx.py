"""A judged plan as a DOCX report: the verdict and what needs a look in front, then the lines, then the annex.

A part that is simply good has everything that is signed for on its first page.
"""

from __future__ import annotations

from collections.abc import Sequence

from sizewright.judge.model import Judgement
from sizewright.output import docx_styles as styles
from sizewright.output.docx_body import HEADING, Body, file_of
from sizewright.output.docx_frame import add_signatures, add_title_block, framed_document
from sizewright.output.front import heading
from sizewright.output.report_annex import add_annex, add_grid
from sizewright.output.report_front import (
    attention,
    counts,
    lot_words,
    piece_words,
    report_remarks,
    simply_good,
    verdict_words,
)
from sizewright.output.report_lines import add_lines
from sizewright.output.report_rows import ReportRow, report_rows
from sizewright.output.report_summary import add_summary
from sizewright.output.report_tables import instruments_grid
from sizewright.output.safe import visible


def report_docx(judgement: Judgement, paper: str = "A4", summary_only: bool = False) -> bytes:
    """The report as the bytes of a DOCX file on `paper`, A4 or Letter; with `summary_only` its one page alone.

    Raises:
        InputError: the paper is neither.
    """
    plan = judgement.plan
    document, width = framed_document(plan, "Inspection report", paper)
    body, rows = Body(), report_rows(judgement)
    body.paragraph("Title", f"Inspection report: {heading(plan)}")
    if summary_only or simply_good(judgement):
        add_summary(body, judgement, rows, width, paper, alone=summary_only)
        if not summary_only:
            body.paragraph(styles.ANNEX, "Verdict on each line")
            add_lines(body, rows, width)
            _instruments(body, judgement, width)
            _said(body, judgement)
    else:
        add_title_block(body, plan, width)
        _verdict(body, judgement)
        _attention(body, judgement, rows)
        body.items("Decision rule", [visible(text) for text in judgement.rule_words])
        body.paragraph(HEADING, "Verdict on each line")
        add_lines(body, rows, width)
        _instruments(body, judgement, width)
        _said(body, judgement)
        add_signatures(body, width)
    if not summary_only:
        add_annex(body, judgement, rows, width)
    return file_of(document, body)


def _verdict(body: Body, judgement: Judgement) -> None:
    body.paragraph(HEADING, "Summary")
    body.paragraph(styles.VERDICT, f"{verdict_words(judgement)}")
    if judgement.why:
        body.paragraph(styles.WARNING, visible(judgement.why))
    pieces = piece_words(judgement)
    entries = [*counts(judgement), *([("pieces", pieces)] if pieces else [])]
    entries += [("readings from", ", ".join(map(visible, judgement.sources)))] if judgement.sources else []
    body.items("", [f"{word}: {text}" for word, text in [*entries, *(("lot", text) for text in lot_words(judgement))]])


def _attention(body: Body, judgement: Judgement, rows: Sequence[ReportRow]) -> None:
    groups = attention(judgement, rows)
    if groups:
        body.paragraph(HEADING, "What needs a look")
    for title, texts in groups:
        body.paragraph(styles.WARNING, title)
        body.items("", texts)


def _said(body: Body, judgement: Judgement) -> None:
    body.items("Remarks", report_remarks(judgement))
    body.items("Cautions", [visible(caution) for caution in judgement.plan.cautions])


def _instruments(body: Body, judgement: Judgement, width: float) -> None:
    if judgement.instruments:
        body.paragraph(HEADING, "Instruments used")
        add_grid(body, instruments_grid(judgement.instruments), width)
