"""The annex of a DOCX report: corrected readings, statistics, uncertainty budgets, every reading as taken."""

from __future__ import annotations

from collections.abc import Sequence

from sizewright.judge.model import Judgement
from sizewright.output import docx_styles as styles
from sizewright.output.budgets import budget_sum, budget_title, terms_grid
from sizewright.output.docx_body import HEADING, Body
from sizewright.output.docx_tables import plain_table_xml
from sizewright.output.grids import Grid
from sizewright.output.report_rows import ReportRow
from sizewright.output.report_tables import budgets_of, corrected_grid, readings_grid, statistics_grid
from sizewright.output.safe import visible

_STATISTICS_LEGEND = (
    "Cp and Cpk compare the tolerance with six times the standard deviation; few readings tell little, as the interval "
    "shows. Consumer’s risk: an item is out of its limits and accepted. Producer’s risk: an item within them is not "
    "accepted."
)
_BUDGET_LEGEND = (
    "After the Guide to the expression of uncertainty in measurement (JCGM 100:2008). Contribution is the standard "
    "uncertainty times the sensitivity. ∞: the term is taken as known exactly."
)


def add_annex(body: Body, judgement: Judgement, rows: Sequence[ReportRow], width: float) -> None:
    """Append the annex; parts that hold nothing are left out."""
    title, style = "Annex: ", styles.ANNEX
    corrected = corrected_grid(judgement)
    if corrected.rows:
        body.paragraph(style, f"{title}corrected readings")
        body.paragraph(styles.LEGEND, "A later reading took their place. They are kept and not judged.")
        add_grid(body, corrected, width)
        style = HEADING
    statistics = statistics_grid(rows)
    if statistics.rows:
        body.paragraph(style, f"{title}statistics")
        body.paragraph(styles.LEGEND, _STATISTICS_LEGEND)
        add_grid(body, statistics.trimmed(), width, look=styles.DENSE)
        style = HEADING
    _budgets(body, rows, width, style, title)
    readings = readings_grid(rows)
    if readings.rows:
        body.paragraph(HEADING, f"{title}readings as taken")
        add_grid(body, readings.trimmed(), width, look=styles.DENSE)


def _budgets(body: Body, rows: Sequence[ReportRow], width: float, style: str, title: str) -> None:
    budgets = budgets_of(rows)
    if not budgets:
        return
    body.paragraph(style, f"{title}uncertainty budgets")
    body.paragraph(styles.LEGEND, _BUDGET_LEGEND)
    for budget, numbers in budgets:
        body.paragraph(styles.LEGEND, budget_title(budget, numbers))
        add_grid(body, terms_grid(budget), width, kept=True)
        body.paragraph(styles.SUM, budget_sum(budget))
        body.items("", [visible(remark) for remark in budget.remarks])


def add_grid(body: Body, grid: Grid, width: float, kept: bool = False, look: str = styles.GRID) -> None:
    """Append a table of texts `width` mm wide; a `kept` one stays on one page with what follows."""
    whole = sum(field.share for field in grid.fields)
    widths = [width * field.share / whole for field in grid.fields]
    head = [(styles.NUMBER_HEAD if field.number else styles.HEAD, field.head) for field in grid.fields]
    text, number = (styles.KEPT, styles.KEPT_NUMBER) if kept else (styles.SMALL, styles.SMALL_NUMBER)
    columns = [number if field.number else text for field in grid.fields]
    body.add(*plain_table_xml(widths, head, columns, grid.rows, grid.about, look))
