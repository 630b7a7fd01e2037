"""Cards of the default crib: nothing missing, figures as a plan would have them."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from sizewright.instruments.crib import default_crib, parse_crib
from sizewright.instruments.features import ALL_FEATURES
from sizewright.instruments.kinds import UnknownKindError, kinds
from sizewright.instruments.uncertainty import budget_of
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.text.errors import InputError
from sizewright.training import card_words as words
from sizewright.training.cards import FEATURES, Card, UnitWish, cards_of, left_out

CARDS = {card.kind.name: card for card in cards_of(default_crib())}

TWO = """
[[instrument]]
kind = "outside micrometer"
range = [0, 25]
unit = "mm"
resolution = 0.01
mpe = {constant = 0.004, per_length = 0.00002}
owned = 2
place = "cabinet B"
serial = "OM-07"
due = 2026-03-31

[[instrument]]
kind = "outside micrometer"
name = "the old one"
range = [0, 25]
unit = "mm"
resolution = 0.01
mpe = {constant = 0.004, per_length = 0.00002}
serial = "OM-01"
"""


def test_every_feature_has_its_place() -> None:
    assert frozenset(FEATURES) == ALL_FEATURES
    assert len(set(FEATURES)) == len(FEATURES)


def test_each_kind_of_the_crib_has_one_card() -> None:
    assert set(CARDS) == {one.kind.name for one in default_crib().instruments}


def test_every_mistake_of_the_table_of_kinds_has_its_remedy() -> None:
    from sizewright.training.cards import _instead

    asked = {(kind.name, mistake) for kind in kinds().values() for mistake in kind.mistakes.split("; ")}
    assert set(_instead()) == asked
    assert all(_instead().values())


@pytest.mark.parametrize("unit", ["mm", "inch"])
def test_a_unit_shows_its_instruments_and_angles_alone(unit: UnitWish) -> None:
    shown = {item.first.unit for card in cards_of(default_crib(), unit=unit) for item in card.items}
    assert shown == {"mm": {"mm", "um", "deg"}, "inch": {"inch", "uin", "deg"}}[unit]


def test_what_a_unit_leaves_out_is_told() -> None:
    assert left_out(default_crib(), "mm") == ("vernier outside micrometer", "taper thread gauge")
    assert left_out(default_crib(), "both") == ()


def test_references_to_other_kinds_are_followed() -> None:
    assert "depth rod enters 3 mm" in CARDS["vernier caliper"].access
    assert not any(phrase.startswith("as ") for card in CARDS.values() for phrase in (*card.access, *card.field_check))


def test_the_example_is_the_budget_that_a_plan_has() -> None:
    example = CARDS["outside micrometer"].example
    assert example is not None
    item, expected = example
    size = Decimal("12.5")
    limits = (Limits("size", size, size),)
    asked = Characteristic("diameter", "mm", Status.TOLERANCED, size, limits, side="external")
    planned = budget_of(item.first, asked)
    assert planned is not None
    assert (expected.size, expected.budget.expanded) == (size, planned.expanded)
    assert expected.least_tolerance == max(8 * planned.expanded, Decimal("0.1"))  # T/2U of 4; a step of a tenth


def test_alike_instruments_share_a_row_and_keep_what_is_their_own() -> None:
    (card,) = cards_of(parse_crib(TWO), today=date(2026, 4, 1))
    (item,) = card.items
    assert item.owned == 3
    assert [one.serial for one in item.instruments] == ["OM-07", "OM-01"]
    assert [one.serial for one in item.overdue] == ["OM-07"]
    assert words.own_name(item.instruments[1]) == "the old one"
    assert words.error_words(item.first) == "0.004 mm + 0.002 mm per 100 mm"


def test_a_kind_that_is_not_there_is_told() -> None:
    with pytest.raises(UnknownKindError, match="plug gauge"):
        cards_of(default_crib(), ["plug gage"])
    with pytest.raises(InputError, match="no plug gauge in it; there are outside micrometer"):
        cards_of(parse_crib(TWO), ["plug gauge"])
    with pytest.raises(InputError, match="not in inch"):
        cards_of(parse_crib(TWO), ["outside micrometer"], "inch")
    with pytest.raises(InputError, match="nothing in it is in inch"):
        cards_of(parse_crib(TWO), unit="inch")


@pytest.mark.parametrize("card", CARDS.values(), ids=list(CARDS))
def test_key_facts_are_short_plain_and_name_the_kind(card: Card) -> None:
    facts = words.key_facts(card)
    assert facts.isascii()
    assert len(facts) <= words.MOST_FACTS
    assert facts.startswith(card.kind.name.upper())
    assert "CHECK: " in facts
    assert "BEWARE: " in facts


# The half-width of U is rounded up, also where degrees become seconds: 0.0036 degrees are 12.96 seconds.
@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [("0.0036", "deg", '13"'), ("0.15", "deg", "9'"), ("1.3", "deg", "1° 18'"), ("0.0063", "mm", "0.0063 mm"),
     ("0.00030", "inch", "0.00030 in")],
)  # fmt: skip
def test_uncertainties_are_said_rounded_up(value: str, unit: str, said: str) -> None:
    assert words.uncertainty(Decimal(value), unit) == said


@pytest.mark.parametrize(
    ("value", "said"), [("0.015625", "1/64 in"), ("0.5", "0.5 in"), ("0.3125", "5/16 in"), ("0.01", "0.01 in")]
)
def test_binary_fractions_of_an_inch_are_said_as_such(value: str, said: str) -> None:
    assert words.amount(Decimal(value), "inch") == said
