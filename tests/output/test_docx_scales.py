"""The sheet of scales as DOCX: the key has every answer, the trainee's copy has none, nowhere in the file."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import docx
import pytest

from sizewright.output.docx_scales import scales_docx
from sizewright.text.errors import InputError
from sizewright.training.scales.catalogue import KINDS, scales_of
from sizewright.training.scales.exercises import Exercise, Wish, draw_exercises, sheet_mark
from sizewright.training.scales.explain import steps
from sizewright.training.scales.figures import figure, say
from sizewright.training.scales.model import Unit

from .conftest import needed, run


def sheet(kind: str, unit: Unit = "mm", count: int = 6, seed: int = 4) -> tuple[Exercise, ...]:
    return draw_exercises(Wish(scales_of(kind, unit), count, Fraction(1, 3), Fraction(1, 3)), seed)


def parts(data: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def texts(data: bytes) -> str:
    """Everything in the file that is no picture: XML with its attributes, without the numbers of the layout."""
    xml = "\n".join(each.decode("utf-8") for name, each in parts(data).items() if not name.endswith((".png", ".jpeg")))
    return re.sub(r'(?:w:\w+|cx|cy|x|y|id|r:\w+|Id|val)="[^"]*"', "", xml)


@pytest.mark.parametrize("unit", ["mm", "inch"])
@pytest.mark.parametrize("kind", KINDS)
def test_the_key_never_leaks_into_the_trainees_copy(kind: str, unit: Unit) -> None:
    exercises = sheet(kind, unit, count=4)
    data = scales_docx(exercises)
    found = texts(data)
    for each in exercises:
        for value in {each.reading.value, each.size}:
            answer = say(each.scale, value)
            shown = r"\s*".join(map(re.escape, answer.split()))
            if not re.search(rf"a line each {shown}", found):  # a reading may happen to be a reading value
                assert not re.search(rf"(?<![\d./]){shown}(?!\w)", found), answer
            if len(figure(each.scale, value)) >= 5:
                assert figure(each.scale, value) not in found
        for step in steps(each):
            assert step not in found
    for name, content in parts(data).items():
        if name.endswith(".png"):
            assert not re.search(rb"tEXt|iTXt|zTXt|eXIf", content), name
    assert "seed" not in found


def test_the_copy_and_its_key_bear_the_same_mark() -> None:
    exercises = sheet("micrometer")
    for key in (False, True):
        document = docx.Document(io.BytesIO(scales_docx(exercises, key=key)))
        assert f"sheet {sheet_mark(exercises)}" in document.sections[0].footer.paragraphs[0].text


def test_the_key_has_every_answer_and_step() -> None:
    exercises = sheet("vernier-caliper")
    document = docx.Document(io.BytesIO(scales_docx(exercises, key=True)))
    answers = [row.cells[-1].text for row in document.tables[0].rows][1:]
    assert answers == [say(each.scale, each.size) for each in exercises]
    rest = "\n".join(cell.text for table in document.tables[1:] for row in table.rows for cell in row.cells)
    assert all(step in rest for each in exercises for step in steps(each))


def test_every_exercise_has_its_pictures_and_blanks() -> None:
    exercises = sheet("micrometer", count=9)
    document = docx.Document(io.BytesIO(scales_docx(exercises)))
    said = [shape._inline.docPr.get("descr") for shape in document.inline_shapes]
    wanted = [f"Exercise {each.number}{zero}" for each in exercises for zero in ("", ", the zero reading")
              if not zero or each.zero is not None]  # fmt: skip
    assert [each.partition(":")[0] for each in said] == wanted
    blanks = [
        grid.cell(0, column).text
        for table in document.tables[1:] for row in table.rows for cell in row.cells for grid in cell.tables
        for column in range(len(grid.columns))
    ]  # fmt: skip
    corrected = sum(each.zero is not None for each in exercises)
    assert blanks.count("reading, mm") == 9
    assert blanks.count("zero reads, mm") == blanks.count("corrected, mm") == corrected == 3


@pytest.mark.parametrize(("paper", "size"), [("A4", (210, 297)), ("Letter", (216, 279))])
def test_the_page_stands_upright(paper: str, size: tuple[int, int]) -> None:
    section = docx.Document(io.BytesIO(scales_docx(sheet("rule"), paper))).sections[0]
    assert section.page_width is not None
    assert section.page_height is not None
    assert (round(section.page_width.mm), round(section.page_height.mm)) == size
    with pytest.raises(InputError, match="A4 and Letter"):
        scales_docx(sheet("rule"), "A5")


def test_properties_name_no_machine() -> None:
    properties = docx.Document(io.BytesIO(scales_docx(sheet("dial")))).core_properties
    assert properties.title == "Scale reading: dial gauge"
    assert properties.author == properties.last_modified_by == properties.comments == properties.keywords == ""


def test_a_word_processor_shows_all_of_it(tmp_path: Path, office: Callable[[Path, str], Path]) -> None:
    pdftotext = needed("pdftotext")
    exercises = sheet("vernier-caliper", count=12)
    (tmp_path / "key.docx").write_bytes(scales_docx(exercises, key=True))
    text = run(pdftotext, "-layout", str(office(tmp_path / "key.docx", "pdf") / "key.pdf"), "-")
    assert all(say(each.scale, each.size) in text for each in exercises)
    pages = text.rstrip("\f").split("\f")
    assert all(f"page {i} of {len(pages)}" in page for i, page in enumerate(pages, start=1))


def test_another_reader_finds_the_pictures(tmp_path: Path) -> None:
    pandoc = needed("pandoc")
    (tmp_path / "sheet.docx").write_bytes(scales_docx(sheet("dial")))
    text = run(pandoc, "--to", "markdown", "--wrap", "none", str(tmp_path / "sheet.docx"))
    assert text.count("Exercise 1") >= 1
    assert "reading, mm" in text
