from __future__ import annotations

import io
import re
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import docx
import pytest
from docx.document import Document
from docx.oxml.ns import qn

from sizewright.output.docx import plan_docx
from sizewright.output.rows import rows_of
from sizewright.plan.model import Plan
from sizewright.text.errors import InputError

from .conftest import needed, run
from .plans import CAUTIONS, INJECTIONS, LONG_REMARK, hostile, housing, long_plan, plan_of


def opened(plan: Plan, paper: str = "A4") -> Document:
    return docx.Document(io.BytesIO(plan_docx(plan, paper)))


def checklist(document: Document) -> Any:
    return next(table for table in document.tables if table.rows[0].cells[0].text == "no., place")


def words(document: Document) -> str:
    return "\n".join(
        "".join(text.text or "" for text in each.iter(qn("w:t"))) for each in document.element.iter(qn("w:p"))
    )


@pytest.mark.parametrize(("paper", "size"), [("A4", (297, 210)), ("Letter", (279, 216))])
def test_the_page_is_landscape(paper: str, size: tuple[int, int]) -> None:
    section = opened(housing(), paper).sections[0]
    assert section.page_width is not None
    assert section.page_height is not None
    assert (round(section.page_width.mm), round(section.page_height.mm)) == size
    with pytest.raises(InputError, match="A4 and Letter"):
        plan_docx(housing(), "A5")


def test_heads_repeat_and_no_row_splits() -> None:
    document = opened(long_plan())
    rows = list(document.element.iter(qn("w:tr")))
    assert all(row.trPr.find(qn("w:cantSplit")) is not None for row in rows)
    head = checklist(document).rows[0]._tr
    assert head.trPr.find(qn("w:tblHeader")) is not None


def test_every_line_is_there_with_its_limits() -> None:
    table = checklist(opened(housing()))
    rows = rows_of(housing())
    assert len(table.rows) == len(rows) + 1
    for row, shown in zip(rows, table.rows[1:], strict=True):
        cells = shown.cells
        assert row.requirement in cells[1].text
        for bound in row.limits:
            assert bound.said_lower in cells[3].text.split() or not bound.said_lower
            assert bound.said_upper in cells[4].text.split() or not bound.said_upper


def test_only_lines_with_limits_get_verdict_boxes() -> None:
    table = checklist(opened(housing()))
    verdicts = {shown.cells[0].paragraphs[0].text: shown.cells[-1].text for shown in table.rows[1:]}
    assert verdicts["1"] == "☐ accept\n☐ reject\n☐ undecided"
    assert verdicts["6"] == "no verdict"
    assert verdicts["10"] == "NOT READ\nno verdict"
    assert verdicts["12"] == "☐ undecided"


def test_few_readings_stand_in_the_row_and_many_after_it() -> None:
    document = opened(housing(2))
    boxes = {shown.cells[0].paragraphs[0].text: shown.cells[8] for shown in checklist(document).rows[1:]}
    assert [cell.text for row in boxes["1"].tables[0].rows for cell in row.cells] == ["1/1", "2/1"]
    assert "8 readings" in boxes["2.1"].text
    assert "Readings for balloon 2.1" in [each.text for each in document.paragraphs]
    grid = next(table for table in document.tables if table.rows[0].cells[0].text == "1/1")
    assert [cell.text for cell in grid.rows[0].cells] == ["1/1", "1/2", "1/3", "1/4", "2/1", "2/2", "2/3", "2/4"]


def test_styles_carry_the_looks() -> None:
    """No run and no paragraph has formatting of its own, apart from the template's section."""
    document = opened(housing())
    assert not list(document.element.body.iter(qn("w:rPr")))
    assert {child.tag for each in document.element.body.iter(qn("w:pPr")) for child in each} == {qn("w:pStyle")}
    known = {style.style_id for style in document.styles}
    used = {each.get(qn("w:val")) for each in document.element.body.iter(qn("w:pStyle"), qn("w:tblStyle"))}
    assert used <= known


def test_properties_name_the_plan_and_no_machine() -> None:
    properties = opened(housing()).core_properties
    assert properties.title == "Inspection plan: Worm housing, EQ-310, revision C"
    assert properties.author == properties.last_modified_by == properties.comments == ""
    assert opened(plan_of(housing().lines, title={"made by": "A. Turner"})).core_properties.author == "A. Turner"


def test_the_footer_counts_pages() -> None:
    footer = opened(housing()).sections[0].footer._element
    assert [each.get(qn("w:instr")) for each in footer.iter(qn("w:fldSimple"))] == ["PAGE", "NUMPAGES"]


def test_typed_text_stays_text() -> None:
    text = words(opened(hostile()))
    assert all(each in text for each in INJECTIONS)
    assert "␛[31mred" in text


def test_a_long_plan_is_made_in_no_time() -> None:
    plan = long_plan(1)
    many = replace(plan, lines=plan.lines * 30)
    start = time.perf_counter()
    plan_docx(many)
    assert time.perf_counter() - start < 5


def test_a_word_processor_shows_all_of_it(tmp_path: Path, office: Callable[[Path, str], Path]) -> None:
    pdftotext = needed("pdftotext")
    (tmp_path / "plan.docx").write_bytes(plan_docx(housing()))
    pdf = office(tmp_path / "plan.docx", "pdf") / "plan.pdf"
    text = run(pdftotext, "-layout", str(pdf), "-")
    shown = text.split()
    for row in rows_of(housing()):
        for bound in (*row.limits, *row.other_limits):
            assert {bound.said_lower or "–", bound.said_upper or "–"} <= set(shown), "a limit is cut or broken"
    pages = text.rstrip("\f").split("\f")
    assert all(f"page {i} of {len(pages)}" in page for i, page in enumerate(pages, start=1))
    assert all("Worm housing, EQ-310, revision C" in page for page in pages)
    assert "☐ accept" in re.sub(r" +", " ", text)


def test_rows_stay_whole_and_heads_repeat_over_pages(tmp_path: Path, office: Callable[[Path, str], Path]) -> None:
    pdftotext = needed("pdftotext")
    (tmp_path / "plan.docx").write_bytes(plan_docx(long_plan(), "Letter"))
    pages = run(pdftotext, "-layout", str(office(tmp_path / "plan.docx", "pdf") / "plan.pdf"), "-").split("\f")
    listed = [page for page in pages if "accept" in page]
    assert len(listed) > 2
    assert all("no., place" in page for page in listed)
    assert all(page.count("accept") == page.count("reject") == page.count("☐ undecided") for page in listed)


def test_another_reader_finds_the_table_and_the_texts(tmp_path: Path) -> None:
    pandoc = needed("pandoc")
    (tmp_path / "plan.docx").write_bytes(plan_docx(housing()))
    text = " ".join(run(pandoc, "--to", "plain", "--columns", "400", str(tmp_path / "plan.docx")).split())
    assert all(caution in text for caution in CAUTIONS)
    assert LONG_REMARK in text
    assert "NOT READ" in text
