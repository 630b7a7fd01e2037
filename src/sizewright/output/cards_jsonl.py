"""Instrument cards as JSON Lines: one object a card, every number a string in plain decimal notation."""

from __future__ import annotations

from collections.abc import Sequence

from sizewright.instruments.model import Instrument
from sizewright.text.json_lines import dumped
from sizewright.text.numbers import Number, as_decimal, plain
from sizewright.training import card_words as words
from sizewright.training.cards import Card, Expected, Item


def cards_jsonl(cards: Sequence[Card]) -> bytes:
    """One line a card; its shape is `schemas/card.schema.json`."""
    return "".join(dumped(card_object(card)) + "\n" for card in cards).encode()


def card_object(card: Card) -> dict[str, object]:
    """The card as plain values."""
    return {
        "kind": card.kind.name,
        "crib": card.source,
        "measures": list(card.features),
        "shows_value": not card.kind.attribute,
        "reaches": list(card.access),
        "field_check": list(card.field_check),
        "steps": list(card.steps),
        "mistakes": [{"mistake": each.mistake, "instead": each.instead} for each in card.mistakes],
        "cautions": list(card.cautions),
        "items": [_item(item) for item in card.items],
        "key_facts": words.key_facts(card),
    }


def _item(item: Item) -> dict[str, object]:
    one = item.first
    return {
        "unit": one.unit,
        "lower": _text(one.lower),
        "upper": _text(one.upper),
        "resolution": _text(one.resolution),
        "mpe": {"constant": _text(one.mpe_constant), "per_length": plain(one.mpe_slope)},
        "owned": item.owned,
        "instruments": [_instrument(each) for each in item.instruments],
        "check": [
            {"point": each.point, "lower": _text(each.lower), "upper": _text(each.upper), "how": each.how}
            for each in item.check
        ],
        "expected": [_expected(each) for each in item.expected],
    }


def _instrument(one: Instrument) -> dict[str, object]:
    due = None if one.due is None else one.due.isoformat()
    return {"name": one.name, "owned": one.owned, "place": one.place, "serial": one.serial, "due": due}


def _expected(each: Expected) -> dict[str, object]:
    return {
        "feature": each.feature,
        "size": _text(each.size),
        "uncertainty": plain(each.budget.expanded),
        "factor": plain(each.budget.factor),
        "least_tolerance": plain(each.least_tolerance),
    }


def _text(value: Number | None) -> str | None:
    return None if value is None else plain(as_decimal(value))
