"""Every scale is read back from its own lines: exactly the right ones meet, at thousands of settings of each form."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest

from sizewright.text.errors import InputError
from sizewright.training.scales.catalogue import KINDS, SCALES, scales_of
from sizewright.training.scales.dials import Dial
from sizewright.training.scales.figures import say
from sizewright.training.scales.micrometer import Micrometer
from sizewright.training.scales.model import AnyConstruction, Reading
from sizewright.training.scales.protractor import Protractor
from sizewright.training.scales.rules import Rule
from sizewright.training.scales.vernier import Vernier

SETTINGS = 1000  # of each form; a kind with one form alone has twice as many, so that each kind has thousands


def scale(kind: str, form: str) -> AnyConstruction:
    (found,) = scales_of(kind, form=form)
    return found


def counts(reading: Reading) -> tuple[int, ...]:
    return tuple(part.count for part in reading.parts)


def random_settings(construction: AnyConstruction, count: int = SETTINGS) -> list[Fraction]:
    """Settings over the whole range, a few below zero, and all of the range's ends."""
    rng = random.Random(f"{construction.kind} {construction.form}")
    steps = (construction.greatest / construction.reading_value).numerator
    below = 0 if isinstance(construction, Rule) else 7
    drawn = [rng.randint(-below, steps) for _ in range(count)] + [0, steps]
    return [step * construction.reading_value for step in drawn]


NAMES = [f"{each.kind} {each.form} {each.unit}" for each in SCALES]


@pytest.mark.parametrize("construction", SCALES, ids=NAMES)
def test_every_setting_is_read_back_from_the_lines(construction: AnyConstruction) -> None:
    alone = [each.kind for each in SCALES].count(construction.kind) == 1
    for setting in random_settings(construction, 2 * SETTINGS if alone else SETTINGS):
        reading = construction.reading(setting)
        assert reading.value == construction.signed(setting)
        assert construction.read_back(construction.geometry(setting)) == reading, setting


@pytest.mark.parametrize("construction", [each for each in SCALES if isinstance(each, Vernier)], ids=lambda c: c.form)
def test_exactly_the_right_vernier_line_meets(construction: Vernier) -> None:
    for setting in random_settings(construction):
        if setting < 0:
            continue
        line = construction.reading(setting).part("vernier line").count
        expected = (0, construction.lines) if line == 0 else (line,)
        assert construction.geometry(setting).meeting() == expected


@pytest.mark.parametrize("form", ["0.001", "0.002", "0.0001"])
def test_exactly_the_right_sleeve_vernier_line_meets(form: str) -> None:
    construction = scale("vernier-micrometer", form)
    assert isinstance(construction, Micrometer)
    for setting in random_settings(construction):
        line = construction.reading(setting).part("sleeve vernier line").count
        expected = (0, construction.vernier) if line == 0 else (line,)
        assert construction.geometry(setting).meeting() == expected


def test_exactly_the_right_protractor_line_meets_on_each_side() -> None:
    construction = scale("protractor", "5'")
    assert isinstance(construction, Protractor)
    for setting in random_settings(construction):
        line = construction.reading(setting).part("vernier line").count
        way = -1 if setting < 0 else 1
        expected = {-12, 0, 12} if line == 0 else {way * line, way * (line - 12)}
        assert set(construction.geometry(setting).meeting()) == expected


@pytest.mark.parametrize("construction", [each for each in SCALES if isinstance(each, Vernier)], ids=lambda c: c.form)
def test_a_vernier_between_two_readings_takes_one_of_them(construction: Vernier) -> None:
    for setting in random_settings(construction, 200):
        between = abs(setting) + construction.reading_value / 3
        read = construction.read_back(construction.geometry(between)).value
        assert read % construction.space == (abs(setting) % construction.space)


@pytest.mark.parametrize(
    "construction", [each for each in SCALES if isinstance(each, Micrometer)], ids=lambda c: c.form
)
def test_the_thimble_decides_where_a_sleeve_line_half_shows(construction: Micrometer) -> None:
    """The half-millimetre (0.025 in) trap: the edge stands a little ahead of or behind its place."""
    rng = random.Random(5)
    for _ in range(SETTINGS):
        turns = rng.randint(1, (construction.greatest / construction.pitch).numerator - 1)
        steps = (construction.pitch / construction.reading_value / 8).__ceil__()
        setting = turns * construction.pitch + rng.randint(-steps, steps) * construction.reading_value
        creep = construction.pitch / 8 * Fraction(rng.randint(-100, 100), 100)
        read = construction.read_back(construction.geometry(setting, creep))
        assert read == construction.reading(setting), (setting, creep)


# (kind, form, setting, counts of lines, said, source)
WORKED = [
    ("vernier-caliper", "0.001", Fraction("1.486"), (59, 11), "1.486 in", "OD1642: 1.000 + 0.400 + 3 x 0.025, line 11"),
    ("vernier-caliper", "0.02", Fraction("43.18"), (43, 9), "43.18 mm", "instrument maker's reading instructions"),
    ("vernier-caliper", "1/128", 2 + Fraction(71, 128), (40, 7), "2 71/128 in", "course notes: 2 8/16 in, line 7"),
    ("vernier-micrometer", "0.0001", Fraction("0.2862"), (11, 11, 2), "0.2862 in", "TM 9-243: 0.200 + 0.075, 11, 2"),
    ("micrometer", "0.01", Fraction("22.36"), (44, 36), "22.36 mm", "TM 9-243: 20 + 2 mm, 36"),
    ("vernier-micrometer", "0.001", Fraction("5.783"), (11, 28, 3), "5.783 mm", "instrument maker: 5.5 mm, 28, 3"),
    ("protractor", "5'", 12 + Fraction(50, 60), (12, 10), "12°50′", "OD1642: 12 deg, line 10"),
]


@pytest.mark.parametrize(("kind", "form", "setting", "lines", "said", "source"), WORKED)
def test_published_readings(
    kind: str, form: str, setting: Fraction, lines: tuple[int, ...], said: str, source: str
) -> None:
    construction = scale(kind, form)
    reading = construction.read_back(construction.geometry(setting))
    assert counts(reading) == lines, source
    assert say(construction, reading.value) == said, source


# The published constructions: (kind, form, main space, length of the vernier or turn, spaces, reading value, source)
CONSTRUCTIONS = [
    ("vernier-caliper", "0.1", Fraction(1), Fraction(9), 10, Fraction("0.1"), "workshop article; 9 in 10"),
    ("vernier-caliper", "0.1-extended", Fraction(1), Fraction(19), 10, Fraction("0.1"), "from memory"),
    ("vernier-caliper", "0.05", Fraction(1), Fraction(19), 20, Fraction("0.05"), "from memory"),
    ("vernier-caliper", "0.05-extended", Fraction(1), Fraction(39), 20, Fraction("0.05"), "from memory"),
    ("vernier-caliper", "0.02", Fraction(1), Fraction(49), 50, Fraction("0.02"), "exam-preparation note"),
    ("vernier-caliper", "0.02-short", Fraction("0.5"), Fraction(12), 25, Fraction("0.02"), "from memory"),
    ("vernier-caliper", "0.001", Fraction("0.025"), Fraction("0.600"), 25, Fraction("0.001"), "OD1642, OD1621"),
    (
        "vernier-caliper",
        "0.001-long",
        Fraction("0.050"),
        Fraction("2.450"),
        50,
        Fraction("0.001"),
        "instrument maker's catalogue",
    ),
    ("vernier-caliper", "1/128", Fraction(1, 16), Fraction(7, 16), 8, Fraction(1, 128), "course notes"),
    ("height-gauge", "0.001", Fraction("0.025"), Fraction("0.600"), 25, Fraction("0.001"), "TM 9-243"),
    ("micrometer", "0.01", Fraction("0.5"), Fraction("0.5"), 50, Fraction("0.01"), "TM 9-243"),
    ("micrometer", "0.01-1mm", Fraction(1), Fraction(1), 100, Fraction("0.01"), "from memory"),
    (
        "micrometer",
        "0.001",
        Fraction("0.025"),
        Fraction("0.025"),
        25,
        Fraction("0.001"),
        "OD1642, TM 9-243: 40 threads to the inch",
    ),
    ("dial", "0.01", Fraction(1), Fraction(1), 100, Fraction("0.01"), "from memory"),
    ("dial", "0.001", Fraction("0.1"), Fraction("0.1"), 100, Fraction("0.001"), "from memory"),
]


@pytest.mark.parametrize(("kind", "form", "space", "length", "spaces", "value", "source"), CONSTRUCTIONS)
def test_the_constructions_are_as_published(
    kind: str, form: str, space: Fraction, length: Fraction, spaces: int, value: Fraction, source: str
) -> None:
    built = scale(kind, form)
    assert built.reading_value == value, source
    if isinstance(built, Vernier):
        lines = built.geometry(Fraction(0)).vernier
        assert (built.space, lines[-1].at - lines[0].at, len(lines) - 1) == (space, length, spaces), source
    elif isinstance(built, Micrometer):
        assert (built.pitch, len(built.geometry(Fraction(0)).thimble)) == (space, spaces), source
    else:
        assert isinstance(built, Dial)
        assert (built.turn, len(built.geometry(Fraction(0)).dial)) == (space, spaces), source


def test_one_space_of_the_inch_sleeve_vernier_is_nine_ten_thousandths() -> None:
    built = scale("vernier-micrometer", "0.0001")
    assert isinstance(built, Micrometer)
    first, second = built.geometry(Fraction(0)).vernier[:2]
    assert (second.at - first.at) * built.division == Fraction("0.0009")  # TM 9-243, chapter 7


def test_a_protractor_reads_the_same_both_ways_and_its_vernier_covers_23_degrees() -> None:
    built = scale("protractor", "5'")
    left, right = built.geometry(-Fraction("12.75")), built.geometry(Fraction("12.75"))
    assert built.read_back(left) == built.read_back(right)
    assert right.vernier[-1].at - right.vernier[12].at == 23


def test_a_depth_micrometer_covers_the_lines_it_counts() -> None:
    built = scale("depth-micrometer", "0.01")
    lines = built.geometry(Fraction("7.34"))
    showing = [each.label for each in lines.sleeve if each.at < lines.edge and each.label]
    assert showing == ["25", "20", "15", "10"]
    assert counts(built.read_back(lines)) == (14, 34)


# (kind, form, zero error, what is read: main part and fine part)
ZEROS = [
    ("vernier-caliper", "0.02", Fraction("-0.04"), (-1, 48)),
    ("vernier-caliper", "0.02", Fraction("0.04"), (0, 2)),
    ("micrometer", "0.01", Fraction("-0.02"), (-1, 48)),
    ("depth-micrometer", "0.01", Fraction("0.03"), (0, 3)),
    ("dial", "0.01", Fraction("-0.03"), (-1, 97)),
    ("dial-caliper", "0.02", Fraction("-0.04"), (-1, 98)),
]


@pytest.mark.parametrize(("kind", "form", "error", "lines"), ZEROS)
def test_a_zero_error_shows_on_the_lines(kind: str, form: str, error: Fraction, lines: tuple[int, ...]) -> None:
    built = scale(kind, form)
    assert counts(built.read_back(built.geometry(error))) == lines
    assert built.reading(error).value == error


def test_what_a_scale_cannot_show_is_refused() -> None:
    built = scale("vernier-caliper", "0.02")
    for setting, match in (
        (Fraction("43.19"), "steps of 0.02 mm"),
        (Fraction(151), "0 to 150"),
        (Fraction(-3), "from 0"),
    ):
        with pytest.raises(InputError, match=match):
            built.reading(setting)


def test_an_unknown_kind_or_form_names_what_there_is() -> None:
    with pytest.raises(InputError, match="rule, vernier-caliper"):
        scales_of("theodolite")
    with pytest.raises(InputError, match=r"0\.1 \(mm\), 0\.1-extended"):
        scales_of("vernier-caliper", form="0.03")
    with pytest.raises(InputError, match="in inch"):
        scales_of("micrometer", "inch", "0.01")
    assert len(KINDS) == 10
    assert {each.form for each in scales_of("vernier-caliper", "inch")} == {"0.001", "0.001-long", "1/128"}
    assert scales_of("protractor", "inch")


@pytest.mark.parametrize(
    ("kind", "form", "value", "said"),
    [
        ("rule", "1/64", Fraction(5, 8), "5/8 in"),
        ("rule", "1/64", Fraction(2), "2 in"),
        ("rule", "1", Fraction("12.5"), "12.5 mm"),
        ("micrometer", "0.01", Fraction(-2, 100), "-0.02 mm"),
        ("protractor", "5'", Fraction(5, 60), "0°05′"),
        ("vernier-caliper", "0.001", Fraction("1.4"), "1.400 in"),
    ],
)
def test_readings_are_written_as_the_scale_is_read(kind: str, form: str, value: Fraction, said: str) -> None:
    assert say(scale(kind, form), value) == said
