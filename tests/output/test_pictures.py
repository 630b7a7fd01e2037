"""Pictures of fits: the zones to scale, every figure on them, in SVG, PNG and plain text."""

from __future__ import annotations

import io
import re
import struct
from fractions import Fraction
from pathlib import Path
from xml.etree import ElementTree

import pytest
from docx import Document

from sizewright.instruments.crib import default_crib
from sizewright.output.docx import plan_docx
from sizewright.output.pictures.drawing import png_of, svg_of
from sizewright.output.pictures.fit import describe_picture, fit_picture
from sizewright.output.pictures.fit_text import fit_text
from sizewright.output.pictures.zones import Zones, figure, zones_of
from sizewright.plan.build import build_plan
from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context, Unit
from sizewright.sheet.read import read_text

# (callout, unit, figures that the picture must show)
FITS = [
    ("Ø25 H7/g6", "mm", ["+21", "-7", "-20", "41 µm", "7 µm"]),
    ("Ø60 H7/p6", "mm", ["+30", "+32", "+51", "2 µm", "51 µm"]),
    ("Ø40 H7/k6", "mm", ["+25", "+18", "+2", "23 µm", "18 µm"]),
    ("Ø30 js6", "mm", ["+6.5", "-6.5"]),
    ("8 P9", "mm", ["-15", "-51"]),
    ("1.2500 RC4", "inch", ["+1.6", "-1", "-2", "3.6 mil", "1 mil"]),
    ("Ø1.0000 H7/g6", "inch", ["+0.82", "-0.28", "-0.78"]),
]


def zones(callout: str, unit: Unit) -> Zones:
    (found,) = zones_of(answer(callout, Context(unit)).characteristics)
    return found


@pytest.mark.parametrize(("callout", "unit", "figures"), FITS)
def test_every_figure_is_on_the_picture(callout: str, unit: Unit, figures: list[str]) -> None:
    shown = zones(callout, unit)
    root = ElementTree.fromstring(svg_of(fit_picture(shown)))
    texts = [element.text for element in root.iter("{http://www.w3.org/2000/svg}text")]
    plain = "\n".join(fit_text(shown))
    for wanted in figures:
        assert wanted in texts
        assert wanted in plain
        assert wanted in describe_picture(shown)


@pytest.mark.parametrize(("callout", "unit"), [(callout, unit) for callout, unit, _ in FITS])
def test_the_zones_are_drawn_to_scale(callout: str, unit: Unit) -> None:
    shown = zones(callout, unit)
    svg = svg_of(fit_picture(shown))
    boxes = re.findall(r'<rect x="[\d.]+" y="([\d.]+)" width="84" height="([\d.]+)"', svg)
    assert len(boxes) == len(shown.zones)
    heights = [
        float(height) / float(zone.upper - zone.lower) for (_, height), zone in zip(boxes, shown.zones, strict=True)
    ]
    tops = [float(top) + float(zone.upper) * heights[0] for (top, _), zone in zip(boxes, shown.zones, strict=True)]
    assert max(heights) - min(heights) < 1e-6 * max(heights)
    assert max(tops) - min(tops) < 1e-3


@pytest.mark.parametrize(("callout", "unit"), [(callout, unit) for callout, unit, _ in FITS])
def test_the_text_picture_fits_a_terminal(callout: str, unit: Unit) -> None:
    lines = fit_text(zones(callout, unit))
    assert max(map(len, lines)) <= 60
    assert sum("nominal" in line for line in lines) == 1


def test_the_png_is_a_picture_in_grey_that_has_letters() -> None:
    data = png_of(fit_picture(zones("Ø25 H7/g6", "mm")))
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    width, height = struct.unpack(">II", data[16:24])
    assert (width, height) == (1040, 600)
    shown = zones("Ø25 H7/g6", "mm")
    bare = fit_picture(Zones(shown.nominal, "", shown.fine_unit, (), None, ()))
    assert len(data) > 2 * len(png_of(bare))


def test_a_worksheet_shows_its_fits_with_words_for_those_who_do_not_see_them() -> None:
    sheet = read_text("1: Ø25 H7/g6\n2: 30 ±0.1\n3: Ø18 H7/p6\n", Path("a.sheet"))
    document = Document(io.BytesIO(plan_docx(build_plan(sheet, default_crib()))))
    said = [shape._inline.docPr.get("descr") for shape in document.inline_shapes]
    assert said == [
        "Tolerance zones of 25 mm H7/g6, clearance fit: H7 from 0 to +21 µm; g6 from -20 to -7 µm; "
        "largest clearance 41 µm; smallest clearance 7 µm",
        "Tolerance zones of 18 mm H7/p6, interference fit: H7 from 0 to +18 µm; p6 from +18 to +29 µm; "
        "smallest interference 0 µm; largest interference 29 µm",
    ]


@pytest.mark.parametrize(
    ("value", "text"),
    [(Fraction(21), "+21"), (Fraction(0), "0"), (Fraction(-13, 2), "-6.5"), (Fraction(100), "+100")],
)
def test_a_deviation_is_written_with_its_sign(value: Fraction, text: str) -> None:
    assert figure(value) == text
