"""Linear expansion: figures as sources give them, and the names by which materials are known."""

from __future__ import annotations

from decimal import Decimal

import pytest

from sizewright.standards.expansion import UNKNOWN, expansion_of, gauge_steel

# (text, 1e-6 per kelvin, source)
FIGURES = [
    ("gauge block steel", "11.5", "JCGM 100:2008 H.1"),
    ("aluminium 6061", "23.6", "Callister, Fundamentals of Materials Science and Engineering 3e, table B.6"),
    ("EN AW-7075 T651", "23.4", "Callister, table B.6"),
    ("Ti-6Al-4V", "8.6", "Callister, table B.6"),
    ("free-cutting brass C360", "20.5", "Callister, table B.6"),
    ("Invar", "1.6", "Callister, table B.6"),
    ("copper C110", "17.0", "Callister, table B.6"),
    ("carbon steel", "11.7", "two shop tables: mild steel 11.7, carbon steel 11.5"),
]
# (text, the row it means); which grade belongs to which family is from memory
NAMES = [
    ("EN AW-6082", "aluminium 6061"),
    ("Steel, S355J2", "carbon steel"),
    ("S355JR+AR", "carbon steel"),
    ("1.4301 (X5CrNi18-10)", "stainless 303 / 304 (austenitic)"),
    ("stainless steel 316", "stainless 316"),
    ("stainless steel 440C", "stainless 410 / 440C (martensitic)"),
    ("42CrMo4 +QT", "alloy steel (4140 etc.)"),
    ("cast aluminium", "cast aluminium 356"),
    ("EN-GJL-250", "grey cast iron"),
    ("POM-C", "acetal (POM)"),
]


@pytest.mark.parametrize(("text", "alpha", "source"), FIGURES)
def test_a_material_has_the_figure_of_its_source(text: str, alpha: str, source: str) -> None:
    found = expansion_of(text)
    assert found is not None, source
    assert found.alpha == Decimal(alpha).scaleb(-6)


def test_a_coefficient_in_words_is_in_millionths() -> None:
    """The figures of the table above; within 10 %, but gauge-block steel within 1.0 (ISO 3650, from memory)."""
    aluminium = expansion_of("aluminium 6061")
    assert aluminium is not None
    assert aluminium.words() == "aluminium 6061, 23.6e-6 within 2.36e-6 per kelvin"
    assert gauge_steel().words().endswith(", 11.5e-6 within 1e-6 per kelvin")


@pytest.mark.parametrize(("text", "row"), NAMES)
def test_a_material_is_known_by_its_usual_names(text: str, row: str) -> None:
    found = expansion_of(text)
    assert found is not None
    assert found.material == row


@pytest.mark.parametrize("text", ["", "unobtainium", "see drawing", "1 pc", "7"])
def test_a_name_that_is_not_in_the_table_is_not_guessed(text: str) -> None:
    assert expansion_of(text) is None


def test_what_is_not_known_lies_between_cast_iron_and_aluminium() -> None:
    """17e-6 within 7e-6 is 10e-6 to 24e-6: common practice, no source; aluminium 6061 has 23.6, cast iron 10.8."""
    assert (UNKNOWN.alpha, UNKNOWN.half_width) == (Decimal("0.000017"), Decimal("0.000007"))
    for name in ("aluminium 6061", "cast iron", "carbon steel"):
        found = expansion_of(name)
        assert found is not None
        assert abs(found.alpha - UNKNOWN.alpha) <= UNKNOWN.half_width


def test_gauge_block_steel_is_known_within_one_millionth() -> None:
    """ISO 3650 allows 11.5 within 1.0 (from memory)."""
    assert (gauge_steel().alpha, gauge_steel().half_width) == (Decimal("0.0000115"), Decimal("0.000001"))
