"""Worksheets: derived from the sheet, the same for the same seed, and without an answer in the trainee's copy."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable
from decimal import Decimal, InvalidOperation
from fractions import Fraction
from html import unescape
from pathlib import Path

import pytest
from docx import Document
from openpyxl import load_workbook

from sizewright.instruments.kinds import kinds
from sizewright.output.safe import one_line, visible
from sizewright.output.worksheet_docx import worksheet_docx
from sizewright.output.worksheet_key import key_docx
from sizewright.output.worksheet_texts import drawing, tool_range, tool_resolution
from sizewright.output.worksheet_xlsx import worksheet_xlsx
from sizewright.text.errors import InputError
from sizewright.text.numbers import Number
from sizewright.training.hints import STEPS, hints_for, stage_of
from sizewright.training.picking import pick_lines, pickings
from sizewright.training.skills import skill_of, suggested
from sizewright.training.worksheet import LEVELS, Level, Work, Worksheet, worksheet_of

from .classroom import SAMPLES, plan_of, plan_of_text

ALL = pytest.mark.parametrize("sheet", SAMPLES, ids=lambda path: path.stem)
EVERY_LEVEL = pytest.mark.parametrize("level", LEVELS)
EVERY_UNIT = pytest.mark.parametrize("unit", [None, "mm", "inch", "both"])
HOUSING = next(path for path in SAMPLES if "worm-housing" in path.name)
BAR = next(path for path in SAMPLES if "counterweight" in path.name)
_NUMBER = re.compile(r"\d*[.,]?\d+")


# ---- nothing of the key in the trainee's copy ------------------------------------------------------------------------


def texts_in(data: bytes) -> list[str]:
    """Every text and every attribute in every part of an office file, its properties among them."""
    found: list[str] = []
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for name in archive.namelist():
            if name.endswith((".xml", ".rels")) and not name.startswith(("word/styles", "xl/styles", "word/theme")):
                xml = archive.read(name).decode("utf-8")
                found += [unescape(text) for text in re.findall(r">([^<]+)<", xml)]
                found += [unescape(text) for text in re.findall(r'(?:w:val|w:descr|promptTitle|prompt)="([^"]*)"', xml)]
    return found


def told(worksheet: Worksheet) -> set[str]:
    """The texts that a trainee may see whole: those of the drawing, and the instruments laid out to choose from."""
    allowed: set[str] = {text for pair in drawing(worksheet) for text in pair}
    for tool in worksheet.laid_out:
        texts = (visible(tool.name), tool_range(tool), tool_resolution(tool))
        allowed |= {*texts, "; ".join(texts)}
    for work in worksheet.lines:
        line = work.exercise.line
        allowed |= {visible(line.callout), *visible(line.callout).split("\n"), line.number, visible(line.description)}
        allowed |= {f"{line.number}   {visible(line.callout)}".replace("\n", "   ")}
        allowed.add(visible(line.callout).replace("\n", "   "))
    return allowed


def numbers_in(text: str) -> set[Fraction]:
    found = set()
    for each in _NUMBER.findall(text):
        try:
            found.add(Fraction(Decimal(each.replace(",", "."))))
        except InvalidOperation:
            continue
    return found


def limits_of(work: Work) -> Iterable[Number]:
    for asked in work.exercise.asked:
        for pair in (asked.limits, asked.true, asked.other):
            if pair is not None:
                yield from (bound for bound in (pair.lower, pair.upper) if bound is not None)


def leaks(worksheet: Worksheet, texts: Iterable[str]) -> list[str]:
    """The answers of `worksheet` that stand in `texts`: names of instruments, limits, verdicts."""
    allowed = told(worksheet)
    rest = [text for text in texts if text not in allowed and text.strip()]
    names = {tool.name for work in worksheet.lines for tool in suggested(work.exercise.line)}
    names |= {kind for work in worksheet.lines for kind in work.skill.kinds}
    found = [f"{name} in {text!r}" for text in rest for name in names if name in text]
    given = {number for work in worksheet.lines for number in numbers_in(work.exercise.line.callout)}
    given |= {Fraction(work.exercise.line.number) for work in worksheet.lines}
    given |= {Fraction(work.practice.reading) for work in worksheet.lines if work.practice is not None}
    for work in worksheet.lines:
        line = work.exercise.line
        known = numbers_in(line.callout) | numbers_in(line.description) | numbers_in(line.remark) | given
        # One or two figures (20 °C, step 8, box 2/3) stand in the fixed sentences; what has more can only be an answer.
        secret = {Fraction(b) for b in limits_of(work)} - known
        secret = {b for b in secret if b.denominator > 1 or b > 100}
        for text in rest:
            if one_line(line.remark) and one_line(line.remark) in text:
                continue
            found += [f"{line.number}: {float(b)} in {text!r}" for b in secret & numbers_in(text)]
    for sentence in (
        "accept where",
        "it lies within",
        "it lies outside",
        "ISO 2768-1 class",
        "a tenth of the tolerance 0",
    ):
        found += [f"{sentence!r} in {text!r}" for text in rest if sentence in text]
    return found


@ALL
@EVERY_LEVEL
@EVERY_UNIT
@pytest.mark.parametrize("seed", [0, 7])
def test_the_trainees_copy_holds_no_answer(sheet: Path, level: Level, unit: str | None, seed: int) -> None:
    worksheet = worksheet_of(plan_of(sheet), level, unit=unit, seed=seed)
    assert leaks(worksheet, texts_in(worksheet_docx(worksheet))) == []
    form = worksheet_xlsx(worksheet)
    assert leaks(worksheet, texts_in(form)) == []
    with zipfile.ZipFile(io.BytesIO(form)) as archive:
        cells = [archive.read(name).decode() for name in archive.namelist() if "worksheets/" in name]
    assert not any("<f>" in xml or "conditionalFormatting" in xml for xml in cells)


@ALL
@EVERY_LEVEL
def test_the_key_does(sheet: Path, level: Level) -> None:
    """What looks for leaks finds the answers where they are."""
    worksheet = worksheet_of(plan_of(sheet), level)
    for data in (key_docx(worksheet), worksheet_xlsx(worksheet, key=True)):
        texts = texts_in(data)
        found = leaks(worksheet, texts)
        for work in worksheet.lines:
            for tool in suggested(work.exercise.line) if work.exercise.decides else ():
                assert any(tool.name in text for text in texts)
        assert len(found) > len(worksheet.lines)


@ALL
@EVERY_LEVEL
def test_every_line_of_a_form_looks_alike(sheet: Path, level: Level) -> None:
    """Neither the cells that are framed nor the boxes to tick tell whether a line has limits."""
    worksheet = worksheet_of(plan_of(sheet), level)
    grid = load_workbook(io.BytesIO(worksheet_xlsx(worksheet)))["answers"]
    heads = [cell.value for cell in grid[5]]
    for row in grid.iter_rows(min_row=6):
        cells = dict(zip(heads, row, strict=True))
        assert all(
            not cells[head].value for head in heads if head not in ("line", "callout", "characteristic", "limits of")
        )
        if cells["limits of"].value is None:
            for head in ("lower limit", "upper limit", "unit", "instrument", "resolution", "verdict", "why"):
                assert cells[head].style == "plan box"
    if level == "guided":
        document = Document(io.BytesIO(worksheet_docx(worksheet)))
        tables = [table for table in document.tables if table.rows[0].cells[0].text.startswith("line ")]
        assert len(tables) == len(worksheet.lines)
        assert {len(table.rows) for table in tables} == {1 + len(STEPS)}
        assert all("☐ no verdict" in table.rows[-1].cells[2].text for table in tables)


# ---- the same again --------------------------------------------------------------------------------------------------


@ALL
@EVERY_LEVEL
def test_the_same_sheet_and_seed_give_the_same_bytes(sheet: Path, level: Level) -> None:
    first, second = (worksheet_of(plan_of(sheet), level, seed=3) for _ in range(2))
    for make in (worksheet_docx, key_docx, worksheet_xlsx):
        assert make(first) == make(second)


def test_another_seed_gives_another_worksheet() -> None:
    made = {worksheet_docx(worksheet_of(plan_of(HOUSING), "guided", seed=seed)) for seed in range(4)}
    assert len(made) == 4


# ---- what it says ----------------------------------------------------------------------------------------------------


@ALL
def test_hints_fade_and_name_no_instrument(sheet: Path) -> None:
    worksheet = worksheet_of(plan_of(sheet), "guided")
    stages = [work.stage for work in worksheet.lines]
    assert stages == sorted(stages, key=("full", "short", "none").index)
    for work in worksheet.lines:
        said = [hint for hint in work.hints.values() if hint]
        assert (not said) == (work.stage == "none")
        assert work.stage == "none" or len(said) == len(STEPS)
        assert not any(kind in hint for hint in said for kind in work.skill.kinds)
    full, short = (sum(map(len, hints_for(worksheet.lines[0].exercise.line, s).values())) for s in ("full", "short"))
    assert full > 2 * short


def test_every_kind_of_instrument_gives_a_hint_without_its_name() -> None:
    from sizewright.training.hints import _care, _handling

    for name, kind in kinds().items():
        for stage in ("full", "short"):
            for text in (_care(kind, stage), _handling(kind, stage)):
                assert text.endswith((".", "?")), name
                assert name not in text


@pytest.mark.parametrize(("count", "stages"), [(1, "f"), (2, "fs"), (3, "fsn"), (4, "ffss"), (7, "fffsssn")])
def test_a_third_of_the_lines_each(count: int, stages: str) -> None:
    assert "".join(stage_of(place, count)[0] for place in range(count)) == stages


@ALL
def test_the_practice_reading_is_near_and_no_limit(sheet: Path) -> None:
    for seed in range(5):
        for work in worksheet_of(plan_of(sheet), "guided", seed=seed).lines:
            if work.practice is None:
                continue
            value = Fraction(work.practice.reading)
            bounds = [Fraction(b) for b in work.exercise.asked[0].limits[1:] if b is not None]
            assert value not in bounds
            if bounds:
                low, high = work.exercise.asked[0].limits[1:]
                inside = (low is None or value >= Fraction(low)) and (high is None or value <= Fraction(high))
                assert work.practice.verdict == ("accept" if inside else "reject")
            else:
                assert work.practice.verdict == "no verdict"


@ALL
@EVERY_LEVEL
def test_what_is_needed_lies_ready_among_others(sheet: Path, level: Level) -> None:
    worksheet = worksheet_of(plan_of(sheet), level)
    needed = {tool.name for work in worksheet.lines if work.exercise.decides for tool in suggested(work.exercise.line)}
    laid_out = {tool.name for tool in worksheet.laid_out}
    assert needed <= laid_out
    assert len(laid_out) >= len(needed) + min(4, len(needed))
    assert worksheet.estimate.minutes > 0
    assert str(worksheet.estimate.minutes) in worksheet.estimate.words


def test_what_is_no_exercise_is_told(tmp_path: Path) -> None:
    plan = plan_of_text(tmp_path, "unit: mm\n1: 25 ±0.1\n2: Ø10 THUR\n3: [A]\n")
    worksheet = worksheet_of(plan, "guided")
    assert [work.exercise.line.number for work in worksheet.lines] == ["1"]
    assert [number for number, _ in worksheet.left_out] == ["2", "3"]
    with pytest.raises(InputError, match="no line of it is an exercise"):
        worksheet_of(plan_of_text(tmp_path, "unit: mm\n1: [A]\n"), "project")


def test_text_of_the_sheet_does_nothing_in_the_form(tmp_path: Path) -> None:
    plan = plan_of_text(tmp_path, "part: =1+1\nunit: mm\nview: =cmd\n1: 25 ±0.1 ; =2+5\n")
    form = load_workbook(io.BytesIO(worksheet_xlsx(worksheet_of(plan, "project"))))
    assert not any(cell.data_type == "f" for grid in form for row in grid.iter_rows() for cell in row)


# ---- picking ---------------------------------------------------------------------------------------------------------

# (what is asked for, lines of the worm housing)
PICKS = [
    ("", 20),
    ("angles", ["7", "11.2"]),
    ("angle, texture", ["7", "11.2"]),
    ("holes, easy", ["12.1"]),
    ("depth micrometer, 12", ["12.2"]),
    ("caliper", ["8", "13.1", "16"]),
    ("Calipers, 13", ["13.1"]),
    ("1, 3-4", ["1", "3", "4"]),
    ("10", ["10.1", "10.2"]),
    ("10.2", ["10.2"]),
    ("9-10.1", ["9", "10.1"]),
    ("without limits", ["5", "6", "13.2"]),
    ("single limits", ["10.2"]),
    ("general tolerances, plain sizes", ["8", "13.1", "16"]),
]


@pytest.mark.parametrize(("text", "numbers"), PICKS)
def test_lines_are_picked_by_skill(text: str, numbers: list[str] | int) -> None:
    worksheet = worksheet_of(plan_of(HOUSING), "project", pick=text)
    found = [work.exercise.line.number for work in worksheet.lines]
    assert (len(found) if isinstance(numbers, int) else found) == numbers


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("fitz", "fits"),
        ("micrometre", "micrometer"),
        ("threads", "no line"),
        ("99", "no exercise"),
        ("fits, easy", "no line"),
    ],
)
def test_a_pick_that_finds_nothing_says_what_there_is(text: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        worksheet_of(plan_of(HOUSING), "guided", pick=text)


@ALL
def test_everything_that_is_listed_can_be_picked(sheet: Path) -> None:
    lines = [work.exercise.line for work in worksheet_of(plan_of(sheet), "project").lines]
    for _, word, numbers in pickings(lines):
        assert tuple(line.number for line in pick_lines(lines, word)) == numbers


@ALL
def test_difficulty_follows_from_its_marks(sheet: Path) -> None:
    for work in worksheet_of(plan_of(sheet), "project").lines:
        skill = skill_of(work.exercise.line)
        assert skill.difficulty == ("easy", "medium", "medium", "hard", "hard")[len(skill.marks)]
        if skill.source in ("class", "thread", "general"):
            assert skill.difficulty != "easy"
