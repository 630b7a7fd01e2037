"""Pictures of scales: the lines stand on paper where the construction has them, and the words give nothing away."""

from __future__ import annotations

import re
import struct
from fractions import Fraction
from xml.etree import ElementTree

import pytest

from sizewright.output.pictures.drawing import svg_of
from sizewright.output.pictures.scale import describe_scale, exercise_pictures, scale_picture, scale_png
from sizewright.training.scales.catalogue import SCALES, scales_of
from sizewright.training.scales.exercises import Exercise, Wish, draw_exercises
from sizewright.training.scales.figures import figure, say
from sizewright.training.scales.model import AnyConstruction

SVG = "{http://www.w3.org/2000/svg}"
NAMES = [f"{each.kind} {each.form} {each.unit}" for each in SCALES]


def some_setting(construction: AnyConstruction) -> Fraction:
    steps = (construction.greatest / construction.reading_value).numerator
    return (steps * 5 // 9) * construction.reading_value


def texts(svg: str) -> list[str]:
    return [element.text or "" for element in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def upright_lines(svg: str, top: float, bottom: float) -> list[float]:
    """The places along the beam of straight lines that begin on the edge and end between `top` and `bottom`."""
    found = re.findall(r'<path d="M([\d.-]+),([\d.-]+) L([\d.-]+),([\d.-]+)"', svg)
    return sorted(
        float(x) for x, _, x2, y2 in found if x == x2 and top < float(y2) < bottom and float(y2) not in (top, bottom)
    )


@pytest.mark.parametrize("construction", SCALES, ids=NAMES)
@pytest.mark.parametrize("marked", [False, True])
def test_every_form_is_drawn_and_fits_an_upright_page(construction: AnyConstruction, marked: bool) -> None:
    pen = scale_picture(construction, some_setting(construction), "words", marked=marked)
    assert 0 < pen.width <= 182  # A4 and Letter less margins and the sides of a cell
    assert 0 < pen.height <= 150
    root = ElementTree.fromstring(svg_of(pen.drawing))
    assert root.get("width") == f"{pen.width:.3f}mm"
    assert root.find(f"{SVG}title") is not None


@pytest.mark.parametrize("form", ["0.02", "0.05", "0.1", "0.001", "1/128", "0.02-short"])
def test_vernier_lines_stand_on_paper_as_built(form: str) -> None:
    """Exactly one line of the slider continues a line of the beam, to a thousandth of a millimetre of paper."""
    (construction,) = scales_of("vernier-caliper", form=form)
    setting = some_setting(construction)
    svg = svg_of(scale_picture(construction, setting, "").drawing)
    edge = 16.0
    beam, slider = upright_lines(svg, 5, edge - 0.1), upright_lines(svg, edge + 0.1, 25)
    meeting = [i for i, at in enumerate(slider) if min(abs(at - each) for each in beam) < 0.001]
    line = construction.reading(setting).part("vernier line").count
    assert meeting == ([line] if line else [0, len(slider) - 1])


@pytest.mark.parametrize("construction", SCALES, ids=NAMES)
def test_the_words_and_the_file_do_not_give_the_reading_away(construction: AnyConstruction) -> None:
    (exercise,) = draw_exercises(Wish((construction,), 1, Fraction(0), Fraction(0)), 8)
    (picture,) = exercise_pictures(exercise)
    answer = figure(construction, exercise.reading.value)
    svg = svg_of(picture.pen.drawing)
    assert not re.search(rf"(?<![\d.]){re.escape(answer)}(?![\d./])", picture.words)
    title = ElementTree.fromstring(svg).find(f"{SVG}title")
    assert title is not None
    assert title.text == picture.words
    data = scale_png(picture.pen)
    assert not re.search(rb"tEXt|iTXt|zTXt|eXIf", data)
    (keyed,) = exercise_pictures(exercise, key=True)
    assert say(construction, exercise.reading.value) in keyed.words


def test_a_picture_of_a_caliper_says_how_large_it_is_and_what_it_reads_to() -> None:
    (construction,) = scales_of("vernier-caliper", form="0.02")
    shown = texts(svg_of(scale_picture(construction, Fraction("43.18"), "").drawing))
    assert {"drawn 3 times size", "0.02 mm", "40", "50", "0", "10"} <= set(shown)
    assert "drawn 3 times size" in describe_scale(construction)


def test_the_beam_ends_before_its_zero() -> None:
    (construction,) = scales_of("vernier-caliper", form="0.02")
    exercise = Exercise(3, construction, Fraction("43.18"), Fraction("-0.04"))
    on_part, zero = exercise_pictures(exercise)
    assert "the zero reading" in zero.words
    assert "0.04" not in zero.words + on_part.words
    assert "-10" not in texts(svg_of(zero.pen.drawing))


def test_a_sleeve_line_half_shows_near_a_whole_turn() -> None:
    """The trap is drawn: at 5.48 a stretch of the line 5.5 shows, at 5.40 none of it."""
    (construction,) = scales_of("micrometer", form="0.01")
    near = svg_of(scale_picture(construction, Fraction("5.48"), "").drawing)
    far = svg_of(scale_picture(construction, Fraction("5.40"), "").drawing)
    assert near.count('fill="#000000"') - near.count("<text") == far.count('fill="#000000"') - far.count("<text") + 1


def test_the_png_is_fine_enough_for_print() -> None:
    (construction,) = scales_of("micrometer", form="0.01")
    pen = scale_picture(construction, Fraction("22.36"), "")
    width, height = struct.unpack(">II", scale_png(pen)[16:24])
    assert abs(width - pen.width / 25.4 * 600) <= 1
    assert abs(height - pen.height / 25.4 * 600) <= 1
