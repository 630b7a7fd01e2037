"""Instrument cards as a trainer gets them: one page each, pictures with words, codes that read from print."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import docx
import jsonschema
import pytest
from docx.oxml.ns import qn

import sizewright.output
from sizewright.instruments.crib import default_crib, parse_crib
from sizewright.output.card_scales import pictures_of
from sizewright.output.cards_jsonl import cards_jsonl
from sizewright.output.cards_terminal import cards_text
from sizewright.output.docx_cards import cards_docx
from sizewright.text.errors import InputError
from sizewright.training.card_words import key_facts
from sizewright.training.cards import Card, UnitWish, cards_of

from .conftest import needed, run

HOSTILE = parse_crib(
    '[[instrument]]\nkind = "dial caliper"\nrange = [0, 150]\nunit = "mm"\nresolution = 0.02\nmpe = 0.03\n'
    'place = "\\u001b[31m=1+1\\u202e"\nserial = "<w:p/>&"\nname = "\\u0007bell"\ndue = 2020-01-31\n'
)


def cards(unit: UnitWish = "both") -> tuple[Card, ...]:
    return cards_of(default_crib(), unit=unit)


@pytest.fixture(scope="module")
def document() -> Any:
    return docx.Document(io.BytesIO(cards_docx(cards())))


def test_every_picture_has_words(document: Any) -> None:
    described = [each.get("descr") for each in document.element.iter(qn("wp:docPr"))]
    assert all(described)
    assert len(described) >= 2 * len(cards())  # the code, and a scale or a drawing


def test_every_card_has_a_picture() -> None:
    assert all(pictures_of(card) for card in cards())


def test_the_document_has_no_direct_formatting_of_letters(document: Any) -> None:
    for run_properties in document.element.body.iter(qn("w:rPr")):
        assert {each.tag for each in run_properties} <= {qn("w:rStyle"), qn("w:noProof")}


def test_steps_begin_at_one_on_each_card(document: Any) -> None:
    steps = [p for p in document.element.iter(qn("w:p")) if p.style and p.style.startswith("CardStep")]
    numbers = [p.pPr.numPr.numId.val for p in steps]
    assert len(set(numbers)) == len(cards())


def test_another_paper_is_refused() -> None:
    with pytest.raises(InputError, match="A4 and Letter"):
        cards_docx(cards()[:1], "A5")


@pytest.mark.parametrize(("unit", "paper"), [("mm", "A4"), ("inch", "Letter"), ("both", "A4"), ("both", "Letter")])
def test_each_card_is_one_page(tmp_path: Path, office: Callable[[Path, str], Path], unit: UnitWish, paper: str) -> None:
    pdfinfo = needed("pdfinfo")
    (tmp_path / "cards.docx").write_bytes(cards_docx(cards(unit), paper))
    told = run(pdfinfo, str(office(tmp_path / "cards.docx", "pdf") / "cards.pdf"))
    (pages,) = re.findall(r"^Pages: +(\d+)$", told, re.MULTILINE)
    assert int(pages) == len(cards(unit))


def test_a_decoder_reads_each_code_from_the_printed_page(tmp_path: Path, office: Callable[[Path, str], Path]) -> None:
    zxing: Any = pytest.importorskip("zxingcpp")
    pdftoppm = needed("pdftoppm")
    (tmp_path / "cards.docx").write_bytes(cards_docx(cards()))
    pdf = office(tmp_path / "cards.docx", "pdf") / "cards.pdf"
    run(pdftoppm, "-gray", "-r", "200", str(pdf), str(tmp_path / "page"))
    pages = sorted(tmp_path.glob("page-*.pgm"))
    assert len(pages) == len(cards())
    for page, card in zip(pages, cards(), strict=True):
        (code,) = [each for each in zxing.read_barcodes(_grey(page.read_bytes())) if "QR" in str(each.format)]
        assert code.text == key_facts(card)


def _grey(pgm: bytes) -> memoryview:
    """The pixels of a binary PGM, row by row."""
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", pgm)
    assert head is not None
    width, height = int(head[1]), int(head[2])
    return memoryview(pgm)[head.end() :].cast("B", (height, width))


def test_the_json_keeps_its_promise() -> None:
    schema = json.loads(
        (Path(sizewright.output.__file__).parent / "schemas" / "card.schema.json").read_text(encoding="utf-8")
    )
    lines = cards_jsonl(cards()).decode().splitlines()
    assert [json.loads(line)["kind"] for line in lines] == [card.kind.name for card in cards()]
    for line in lines:
        jsonschema.validate(json.loads(line), schema)


@pytest.mark.parametrize("width", [60, 80, 120])
def test_the_text_keeps_within_its_width(width: int) -> None:
    assert max(map(len, cards_text(cards(), width).splitlines())) <= width


def test_what_a_crib_says_cannot_act_and_is_not_lost() -> None:
    hostile = cards_of(HOSTILE, today=date(2026, 1, 1))
    text = cards_text(hostile)
    assert "\x1b" not in text
    assert "␛[31m=1+1" in text
    assert "overdue 2020-01-31" in text
    made = docx.Document(io.BytesIO(cards_docx(hostile)))
    assert "<w:p/>&" in "".join(each.text or "" for each in made.element.iter(qn("w:t")))
