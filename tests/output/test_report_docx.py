from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import docx
import pytest
from docx.document import Document
from docx.oxml.ns import qn

from sizewright.judge.model import Judgement
from sizewright.output import docx_styles
from sizewright.output.docx_xml import style_id
from sizewright.output.report_docx import report_docx
from sizewright.output.report_front import simply_good
from sizewright.output.report_rows import report_rows
from sizewright.output.report_tables import budgets_of
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Limits
from sizewright.text.errors import InputError

from .conftest import needed, run
from .judgements import (
    GUARDED,
    GUARDED_WORDS,
    SIMPLE_WORDS,
    at,
    hostile_judgement,
    inside,
    judged,
    sample_plan,
    with_troubles,
)
from .plans import INJECTIONS, housing, long_plan

A = "{http://schemas.openxmlformats.org/drawingml/2006/main}"


def mixed(line: PlanLine, piece: int, instance: int, limits: Limits) -> str | None:
    """Rejected, near a limit, far out, missing, or good."""
    which = (line.balloon * 3 + piece * 5 + instance) % 11
    if which == 5 and line.balloon == 3:
        return None
    return at(limits, {0: 108, 3: 97, 7: 400}.get(which, 50))


def good() -> Judgement:
    return judged(sample_plan("bearing-cap"))


def bad() -> Judgement:
    return with_troubles(judged(sample_plan("worm-housing"), mixed))


def many_lines(count: int) -> Plan:
    plan = sample_plan("worm-housing")
    lines = (plan.lines * (count // len(plan.lines) + 1))[:count]
    return replace(plan, lines=tuple(each._replace(number=str(i), balloon=i) for i, each in enumerate(lines, start=1)))


def opened(judgement: Judgement, paper: str = "A4", summary_only: bool = False) -> Document:
    return docx.Document(io.BytesIO(report_docx(judgement, paper, summary_only)))


def words(document: Document) -> str:
    return "\n".join("".join(t.text or "" for t in each.iter(qn("w:t"))) for each in document.element.iter(qn("w:p")))


def table_with(document: Document, head: str) -> Any:
    return next(table for table in document.tables if head in [cell.text for cell in table.rows[0].cells])


def test_verdict_counts_rule_and_pieces_stand_in_front() -> None:
    texts = [each.text for each in opened(bad()).paragraphs]
    lines = texts.index("Verdict on each line")
    front = "\n".join(texts[:lines])
    assert "REJECTED" in texts[:lines]
    assert "rejected" in front
    assert "1 corrected, 1 unreadable" in front
    assert SIMPLE_WORDS[0] in front


def test_everything_that_needs_a_look_stands_in_front() -> None:
    judgement = with_troubles(judged(sample_plan("faulty-saddle")))
    texts = [each.text for each in opened(judgement).paragraphs]
    front = "\n".join(texts[: texts.index("Verdict on each line")])
    for line in judgement.lines:
        if line.line.unread:
            assert f"{line.line.number}: {line.line.callout}: NOT READ" in front
    assert "two and a half" in front
    assert "is the decimal mark right?" in front
    assert "the caliper failed its check before use" in front
    assert "due 2025-01-31, used 2026-11-20" in front
    assert "not in the crib" in front
    assert "THUR" in front  # a fault of the sheet


def test_a_contradiction_stands_in_front_with_both_sides() -> None:
    front = words(opened(judged(housing())))
    assert "contradiction: no limits given, no verdict (k6 gives +0.015 / +0.002; typed are +0.020 / +0.002)" in front


def test_every_line_has_its_readings_limits_and_verdict() -> None:
    judgement = bad()
    table = table_with(opened(judgement), "picture")
    rows = report_rows(judgement)
    assert len(table.rows) == len(rows) + 1
    for row, shown in zip(rows, table.rows[1:], strict=True):
        cells = [cell.text for cell in shown.cells]
        assert cells[0].split("\n")[0] == row.number
        assert cells[1].startswith(row.requirement)
        assert cells[9].split("\n")[0] == row.verdict
        for bound in row.limits:
            assert bound.said_lower in cells[3].split("\n") or not bound.said_lower
            assert bound.said_upper in cells[4].split("\n") or not bound.said_upper
        if len(row.readings) <= 12:
            assert all(each.value in cells[6].replace("\u00a0", " ").replace(",", "").split() for each in row.readings)


def test_a_guard_band_is_shown_beside_the_limits() -> None:
    document = opened(judged(sample_plan("worm-housing"), mixed, GUARDED))
    first = table_with(document, "picture").rows[1].cells
    assert (first[2].text, first[3].text, first[4].text) == ("size\naccepted", "62.000\n62.004", "62.030\n62.026")
    assert GUARDED_WORDS[0] in words(document)


def pictures(document: Document) -> list[Any]:
    return list(document.element.iter(qn("wp:docPr")))


def test_pictures_have_words_and_numbers_of_their_own() -> None:
    judgement = judged(sample_plan("worm-housing"), mixed, GUARDED)
    found = pictures(opened(judgement))
    assert len(found) == sum(len(line.statistics) for line in judgement.lines)
    assert len({each.get("id") for each in found}) == len(found)
    told = [each.get("descr") for each in found]
    assert told[0].startswith("limits 62.000 to 62.030 mm; accepted 62.004 to 62.026; 3 readings from ")
    assert any("not accepted" in each for each in told)


def test_a_picture_is_a_few_marks_and_no_part() -> None:
    data = report_docx(judged(long_plan(5)))
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        assert not [name for name in package.namelist() if "media" in name]
    drawn = list(docx.Document(io.BytesIO(data)).element.iter(qn("w:drawing")))
    assert len(drawn) == 30


# hundredths of the way between the limits, where the stroke stands at least and at most of 1000
PLACES = [
    (0, 200, 200),
    (100, 800, 800),
    (50, 500, 500),
    (25, 350, 350),
    (-1, 0, 186),
    (101, 814, 1000),
    (120, 920, 920),
]


@pytest.mark.parametrize(("percent", "least", "most"), PLACES)
def test_a_stroke_stands_where_its_reading_lies(percent: int, least: int, most: int) -> None:
    plan = sample_plan("worm-housing", 1)
    plan = replace(plan, lines=plan.lines[:1])
    shape = opened(judged(plan, lambda _line, _piece, _instance, limits: at(limits, percent)))
    strokes = [each for each in shape.element.iter(f"{A}path") if each.get("fill") == "none"]
    points = [(int(point.get("x")), int(point.get("y"))) for point in strokes[0].iter(f"{A}pt")]
    place = {x for x, y in points if y == 8}
    assert len(place) == 1
    assert least <= place.pop() <= most


def test_what_is_a_hair_outside_is_drawn_outside() -> None:
    plan = sample_plan("worm-housing", 1)
    plan = replace(plan, lines=plan.lines[:1])
    document = opened(judged(plan, lambda *_: "62.0300000000000000001"))
    points = [int(each.get("x")) for each in document.element.iter(f"{A}pt") if each.get("y") == "8"]
    assert points == [814]


def test_one_sided_limits_and_readings_far_away_are_drawn() -> None:
    document = opened(judged(sample_plan("worm-housing"), lambda _a, _b, _c, limits: at(limits, 900)))
    for point in document.element.iter(f"{A}pt"):
        assert 0 <= int(point.get("x")) <= 1000
        assert 0 <= int(point.get("y")) <= 150


def test_rows_stay_whole_and_heads_repeat() -> None:
    document = opened(bad())
    assert all(row.trPr.find(qn("w:cantSplit")) is not None for row in document.element.iter(qn("w:tr")))
    for head in ("picture", "shape", "Cp", "probability within limits"):
        tables = [each for each in document.tables if head in [cell.text for cell in each.rows[0].cells]]
        first: list[Any] = [each.rows[0]._tr for each in tables]
        assert all(row.trPr.find(qn("w:tblHeader")) is not None for row in first)


def test_styles_carry_the_looks() -> None:
    document = opened(bad())
    assert not list(document.element.body.iter(qn("w:rPr")))
    assert {child.tag for each in document.element.body.iter(qn("w:pPr")) for child in each} == {qn("w:pStyle")}
    known = [style.style_id for style in document.styles]
    assert len(known) == len(set(known))
    used = {each.get(qn("w:val")) for each in document.element.body.iter(qn("w:pStyle"), qn("w:tblStyle"))}
    assert used <= set(known)


def test_style_names_have_identifiers_of_their_own() -> None:
    names = [value for value in vars(docx_styles).values() if isinstance(value, str) and value.startswith("Plan ")]
    assert len({style_id(name) for name in names}) == len(names)


def test_instruments_tell_serial_due_date_and_checks() -> None:
    table = table_with(opened(bad()), "standing")
    first = [cell.text for cell in table.rows[1].cells]
    assert first[:4] == ["digital caliper 150", "DC-7", "2025-01-31", "1, 3"]
    assert "50: 50.06 mm, FAILED (from 49.97 to 50.03 asked), by B. Filer" in first[4]
    assert first[5].startswith("OVERDUE: due 2025-01-31, used 2026-11-20\nFAILED: point 50")
    assert [cell.text for cell in table.rows[-1].cells][-1] == "NOT IN THE CRIB"


def test_each_budget_stands_once_with_its_lines() -> None:
    judgement = bad()
    document = opened(judgement)
    texts = [each.text for each in document.paragraphs]
    budgets = budgets_of(report_rows(judgement))
    assert len(budgets) == len({id(each.budget) for each in judgement.lines if each.budget})
    tables = [each for each in document.tables if each.rows[0].cells[0].text == "term"]
    assert len(tables) == len(budgets)
    served = [number for _, numbers in budgets for number in numbers]
    assert served.count("1") == 1
    assert sorted(served) == sorted(each.line.number for each in judgement.lines if each.budget)
    for budget, numbers in budgets:
        title = f"{budget.instrument}, size, for line{'s' if len(numbers) > 1 else ''} {', '.join(numbers)}"
        assert title in texts
    assert [cell.text for cell in tables[0].rows[3].cells] == [
        "repeatability", "0.0010 mm", "normal", "0.0010 mm", "1", "0.0010 mm", "9",
        "kind of instrument; common practice, no source",
    ]  # fmt: skip
    assert any("effective degrees of freedom 61" in each and "U = 0.004 mm" in each for each in texts)


def test_statistics_and_corrected_readings_are_in_the_annex() -> None:
    document = opened(bad())
    statistics = table_with(document, "Cpk")
    heads = [cell.text for cell in statistics.rows[0].cells]
    row = next(each.cells for each in statistics.rows if each.cells[0].text == "2")
    found = dict(zip(heads, [cell.text for cell in row], strict=True))
    assert found["count"] == "12"
    assert (found["Cp"], found["Cpk"], found["Cpk, 95 % interval"]) == ("1.41", "1.22", "0.71 to 1.73")
    assert found["consumer’s risk"] == "0.12 %"
    corrected = table_with(document, "where it stands")
    assert "read upside down" in [cell.text for cell in corrected.rows[1].cells]


def test_every_reading_is_in_the_annex() -> None:
    judgement = bad()
    table = table_with(opened(judgement), "probability within limits")
    shown = [[cell.text for cell in row.cells[:2]] for row in table.rows[1:]]
    taken = [each.reading for line in judgement.lines for each in line.outcomes]
    assert shown == [[each.line, f"{each.piece}/{each.instance}"] for each in taken]


@pytest.mark.parametrize("name", ["bearing-cap", "camera-plate", "declination-clamp", "polar-axis"])
def test_a_part_that_is_good_is_signed_on_its_first_page(name: str) -> None:
    judgement = judged(sample_plan(name))
    assert simply_good(judgement)
    texts = [each.text for each in opened(judgement).paragraphs]
    assert texts.index("ACCEPTED") < texts.index("Signatures") < texts.index("Verdict on each line")
    assert texts.count("Signatures") == 1


def test_what_somebody_should_look_at_is_not_simply_good() -> None:
    plain = good()
    line = next(each for each in plain.lines if each.outcomes)
    doubtful = line.outcomes[0]._replace(doubts=("ten times off?",))
    others = [
        plain._replace(instruments=(plain.instruments[0]._replace(overdue="due yesterday"),)),
        plain._replace(instruments=(plain.instruments[0]._replace(unknown=True),)),
        plain._replace(lines=(line._replace(corrected=(line.outcomes[0].reading,)), *plain.lines[1:])),
        plain._replace(lines=(line._replace(outcomes=(doubtful, *line.outcomes[1:])), *plain.lines[1:])),
        plain._replace(lines=(line._replace(standing="incomplete", missing=1), *plain.lines[1:])),
        with_troubles(plain),
        judged(housing()),
        judged(sample_plan("faulty-saddle")),
    ]
    assert not any(map(simply_good, others))


def test_unknown_paper_is_refused() -> None:
    with pytest.raises(InputError, match="A4 and Letter"):
        report_docx(good(), "A5")


def test_typed_text_stays_text() -> None:
    text = words(opened(hostile_judgement()))
    assert all(each in text for each in INJECTIONS)
    assert "␛[31mred" in text


def test_the_file_says_what_it_is_and_not_who_ran_it() -> None:
    properties = opened(good()).core_properties
    assert properties.title == "Inspection report: Bearing cap, declination axis, TM-431, revision A"
    assert not properties.author


def test_no_readings_at_all_make_a_report_too() -> None:
    document = opened(judged(sample_plan("worm-housing"), lambda *_: None))
    assert "INCOMPLETE" in words(document)
    assert "NO VERDICT" in words(opened(judged(replace(sample_plan("worm-housing"), lines=()))))


def pages_of(folder: Path, office: Callable[[Path, str], Path], data: bytes) -> list[str]:
    pdftotext = needed("pdftotext")
    (folder / "report.docx").write_bytes(data)
    pdf = office(folder / "report.docx", "pdf") / "report.pdf"
    return run(pdftotext, "-layout", str(pdf), "-").rstrip("\f").split("\f")


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize(
    "judgement",
    [
        good(),
        bad(),
        judged(replace(sample_plan("worm-housing"), lines=())),
        judged(many_lines(60)),
        judged(many_lines(300), mixed, GUARDED),
        judged(sample_plan("counterweight-bar", 30), mixed),
        hostile_judgement(),
        good()._replace(rule_words=("A rule of very many words that goes on and on. " * 12,)),
    ],
    ids=["good", "bad", "no lines", "sixty", "300", "pieces", "hostile", "long rule"],
)
def test_the_summary_is_exactly_one_page(
    tmp_path: Path, office: Callable[[Path, str], Path], judgement: Judgement, paper: str
) -> None:
    pages = pages_of(tmp_path, office, report_docx(judgement, paper, summary_only=True))
    assert len(pages) == 1
    assert "reviewed by: signature" in pages[0]


def test_a_word_processor_shows_the_whole_report(tmp_path: Path, office: Callable[[Path, str], Path]) -> None:
    judgement = judged(many_lines(60))
    pages = pages_of(tmp_path, office, report_docx(judgement))
    assert "ACCEPTED" in pages[0]
    assert "reviewed by: signature" in pages[0]
    assert "Verdict on each line" in pages[1]
    assert all(f"page {i} of {len(pages)}" in page for i, page in enumerate(pages, start=1))
    shown = " ".join(pages).split()
    assert {each.value for row in report_rows(judgement) for each in row.readings} <= set(shown)
    listed = [page for page in pages[1:] if "picture" in page]
    assert len(listed) > 2
    assert all("no., place" in page for page in listed)


def test_no_row_is_split_over_pages(tmp_path: Path, office: Callable[[Path, str], Path]) -> None:
    """Each requirement stands on the page of its number: what is typed is its number here."""
    plan = many_lines(40)
    lines = tuple(each._replace(callout=f"first{each.number}\nsecond\nlast{each.number}") for each in plan.lines)
    pages = pages_of(tmp_path, office, report_docx(judged(replace(plan, lines=lines), inside), "Letter"))[1:]
    for line in lines:
        first = [i for i, page in enumerate(pages) if re.search(rf"\bfirst{line.number}\b", page)]
        last = [i for i, page in enumerate(pages) if re.search(rf"\blast{line.number}\b", page)]
        assert first == last


def test_another_reader_finds_the_tables(tmp_path: Path) -> None:
    pandoc = needed("pandoc")
    (tmp_path / "report.docx").write_bytes(report_docx(bad()))
    text = " ".join(run(pandoc, "--to", "plain", "--columns", "400", str(tmp_path / "report.docx")).split())
    assert "REJECTED" in text
    assert "two and a half" in text


def test_a_spread_of_probability_is_never_rounded_to_certainty() -> None:
    from sizewright.output.report_rows import percent

    cases = {"0": "0 %", "0.00001": "< 0.01 %", "0.0012": "0.12 %", "0.031": "3.1 %", "0.5": "50.0 %",
             "0.9973": "99.73 %", "0.99999": "> 99.99 %", "1": "100 %"}  # fmt: skip
    assert {text: percent(Decimal(text)) for text in cases} == cases
