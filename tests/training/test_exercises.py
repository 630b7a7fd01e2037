"""Exercises: the same seed draws the same; plain ones come first; every answer follows from its parts and steps."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizewright.text.errors import InputError
from sizewright.training.scales.catalogue import KINDS, SCALES, scales_of
from sizewright.training.scales.exercises import Exercise, Wish, draw_exercises, sheet_mark
from sizewright.training.scales.explain import NAMES, steps
from sizewright.training.scales.figures import read_figure, say
from sizewright.training.scales.model import AnyConstruction, Unit


def scale(kind: str, form: str) -> AnyConstruction:
    (found,) = scales_of(kind, form=form)
    return found


def drawn(kind: str, seed: int, count: int = 12, unit: Unit = "mm", zero: int = 1, inside: int = 1) -> list[Exercise]:
    wish = Wish(scales_of(kind, unit), count, Fraction(zero, 3), Fraction(inside, 3))
    return list(draw_exercises(wish, seed))


@pytest.mark.parametrize("kind", KINDS)
def test_the_same_seed_draws_the_same(kind: str) -> None:
    first, again, other = drawn(kind, 4), drawn(kind, 4), drawn(kind, 5)
    assert first == again
    assert first != other
    assert sheet_mark(first) == sheet_mark(again) != sheet_mark(other)


@pytest.mark.parametrize("unit", ["mm", "inch"])
@pytest.mark.parametrize("kind", KINDS)
def test_every_exercise_can_be_shown_and_answered(kind: str, unit: Unit) -> None:
    for seed in range(5):
        exercises = drawn(kind, seed, 17, unit)
        assert [each.number for each in exercises] == list(range(1, 18))
        assert sum(each.zero is not None for each in exercises) == 6  # a third of 17, rounded
        for each in exercises:
            shown = each.scale.geometry(each.setting)
            assert each.scale.read_back(shown) == each.reading
            assert each.size > 0
            assert say(each.scale, each.size) in steps(each)[-1]
            if each.zero_setting is not None and each.zero is not None:
                zero = each.scale.read_back(each.scale.geometry(each.zero_setting)).value
                assert zero == each.scale.signed(each.zero)


def test_one_form_goes_from_plain_to_hard() -> None:
    wish = Wish((scale("vernier-caliper", "0.02"),), 12, Fraction(0), Fraction(0))
    assert [each.level for each in draw_exercises(wish, 4)] == [1] * 4 + [2] * 4 + [3] * 4


def test_settings_do_not_come_twice() -> None:
    wish = Wish((scale("micrometer", "0.01"),), 60)
    exercises = draw_exercises(wish, 9)
    assert len({each.setting for each in exercises}) == 60


@pytest.mark.parametrize(("kind", "unit", "nibs"), [("vernier-caliper", "mm", "10.00 mm"), ("depth-gauge", "mm", None)])
def test_only_calipers_with_nibs_read_inside(kind: str, unit: Unit, nibs: str | None) -> None:
    found = {say(scale(kind, "0.02"), each.nibs) for each in drawn(kind, 1, 24, unit) if each.nibs is not None}
    assert found == ({nibs} if nibs else set())


# (exercise, its steps, source of the figures)
EXPLAINED = [
    (
        Exercise(1, scale("vernier-caliper", "0.02"), Fraction("43.18"), Fraction("0.04")),
        ("main scale: the last line at or before the vernier's 0 is 43 mm",
         "vernier: line 9 meets: 9 x 0.02 mm = 0.18 mm", "together 43.18 mm",
         "zero reads +0.04 mm: 43.18 - 0.04 = 43.14 mm"),
        "instrument maker's reading instructions; the zero error from a school worksheet",
    ),
    (
        Exercise(1, scale("vernier-caliper", "0.001"), Fraction("1.026"), None, Fraction(1, 4)),
        ("main scale: the last line at or before the vernier's 0 is 1.025 in (1 + 1 x 0.025)",
         "vernier: line 1 meets: 1 x 0.001 in = 0.001 in", "together 1.026 in",
         "inside: add the nibs: 1.026 + 0.250 = 1.276 in"),
        "Navy aviation course 14003",
    ),
    (
        Exercise(1, scale("micrometer", "0.01"), Fraction("5.72"), Fraction("0.04")),
        ("sleeve: the last line uncovered is 5.5 mm",
         "thimble: line 22 stands at the index line: 22 x 0.01 mm = 0.22 mm", "together 5.72 mm",
         "zero reads +0.04 mm: 5.72 - 0.04 = 5.68 mm"),
        "micrometer worksheet with solution: 5.72 read, 5.68 true",
    ),
    (
        Exercise(1, scale("micrometer", "0.01"), Fraction("5.48")),
        ("sleeve: the last line uncovered is 5 mm", "thimble: line 48 stands at the index line: 48 x 0.01 mm = 0.48 mm",
         "the turn of 0.5 mm is not complete: the next sleeve line does not count, even if it shows",
         "together 5.48 mm"),
        "computed",
    ),
    (
        Exercise(1, scale("vernier-micrometer", "0.0001"), Fraction("0.2862")),
        ("sleeve: the last line uncovered is 0.275 in (2 x 0.1 + 3 x 0.025)",
         "thimble: line 11 stands last past the index line: 11 x 0.001 in = 0.0110 in",
         "sleeve vernier: line 2 meets: 2 x 0.0001 in = 0.0002 in", "together 0.2862 in"),
        "TM 9-243, chapter 7",
    ),
    (
        Exercise(1, scale("protractor", "5'"), -Fraction(77, 6)),
        ("the dial's numbers grow to the left: read both scales to the left",
         "main scale: the last line at or before the vernier's 0 is 12°",
         "vernier: line 10 meets: 10 x 5′ = 0°50′", "together 12°50′"),
        "OD1642",
    ),
    (
        Exercise(1, scale("rule", "1/64"), Fraction(91, 64), Fraction(1)),
        ("rule: the last line at or before the end of the part is 1 27/64 in",
         "the part begins at 1 in: 1 27/64 - 1 = 27/64 in"),
        "computed",
    ),
    (
        Exercise(1, scale("dial", "0.01"), Fraction("3.97"), Fraction("-0.03")),
        ("counter: 3 whole turns: 3 x 1 mm = 3.00 mm", "dial: the hand stands at line 97: 97 x 0.01 mm = 0.97 mm",
         "together 3.97 mm", "zero reads -0.03 mm (the hand stands 3 lines before 0): 3.97 - (-0.03) = 4.00 mm"),
        "computed",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("exercise", "said", "source"), EXPLAINED)
def test_the_steps_explain_the_reading(exercise: Exercise, said: tuple[str, ...], source: str) -> None:
    assert steps(exercise) == said, source


@pytest.mark.parametrize("count", [0, -1, 201])
def test_a_count_out_of_range_is_refused(count: int) -> None:
    with pytest.raises(InputError, match="from 1 to 200"):
        draw_exercises(Wish(SCALES, count), 1)


def test_a_share_out_of_range_or_no_scale_is_refused() -> None:
    with pytest.raises(InputError, match="from 0 to 1"):
        draw_exercises(Wish(SCALES, 1, Fraction(2)), 1)
    with pytest.raises(InputError, match="no scale"):
        draw_exercises(Wish((), 1), 1)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("43.18", Fraction("43.18")),
        ("43,18", Fraction("43.18")),
        (".25", Fraction(1, 4)),
        ("2 71/128", Fraction(327, 128)),
        ("2-71/128", Fraction(327, 128)),
        ("5/8", Fraction(5, 8)),
        ("12°50'", Fraction(77, 6)),
        ("-12:50", -Fraction(77, 6)),
        ("12°", Fraction(12)),
    ],
)
def test_a_typed_setting_is_read_exactly(text: str, value: Fraction) -> None:
    assert read_figure(text) == value


@pytest.mark.parametrize("text", ["", "x", "1e9", "nan", "2 7/0", "1/2/3", "12°99999'", "٣"])
def test_what_is_no_setting_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="is no reading"):
        read_figure(text)


def test_every_kind_has_a_name() -> None:
    assert set(NAMES) == set(KINDS)


def test_every_kind_asked_for_comes_before_a_second_form_of_another() -> None:
    scales = tuple(scale for kind in ("vernier-caliper", "micrometer", "dial") for scale in scales_of(kind))
    for count in range(3, 9):
        kinds = [each.scale.kind for each in draw_exercises(Wish(scales, count), 4)]
        assert (len(kinds), set(kinds)) == (count, {"vernier-caliper", "micrometer", "dial"})
