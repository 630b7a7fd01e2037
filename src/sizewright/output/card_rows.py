"""The tables of an instrument card as text, the same for every form of output."""

from __future__ import annotations

from collections.abc import Sequence

from sizewright.instruments.field_check import CheckPoint
from sizewright.output.safe import one_line
from sizewright.plan.build import CAUTIONS as PLAN_CAUTIONS
from sizewright.training import card_words as words
from sizewright.training.cards import Card, Item

Rows = tuple[Sequence[str], list[Sequence[str]], Sequence[float]]
"""A head, the rows under it, and the shares of the columns in the width."""

CAUTIONS = (*PLAN_CAUTIONS[1:4], "The drawing and the standards it calls govern; this card is no procedure of a shop.")


def sentence(text: str) -> str:
    """`text` with a capital in front."""
    return text[:1].upper() + text[1:]


def field_check_sentence(card: Card) -> str:
    """The check before use in words."""
    found = f"{sentence('; '.join(card.field_check))}."
    return f"{found} Set it aside where it fails; its last readings are doubtful."


def item_rows(card: Card) -> Rows:
    """The crib's items; the last columns are empty where the crib does not tell: room to write."""
    head = ["range", "step", "MPE", "U (95 %) mid-range", "for T from", "owned", "place", "serial", "due"]
    shares = [29.0, 17, 35, 31, 19, 14, 18, 18, 20]
    rows = [[_range(item), *_figures(item), *_whereabouts(item)] for item in card.items]
    kept = [i for i, _ in enumerate(head) if i not in (1, 2, 3, 4) or any(row[i] for row in rows)]
    return [head[i] for i in kept], [[row[i] or ("–" if 0 < i < 5 else "") for i in kept] for row in rows], [
        shares[i] for i in kept
    ]  # fmt: skip


def _range(item: Item) -> str:
    name = words.own_name(item.first)
    return f"{words.range_words(item.first)}{f', {one_line(name)}' if name else ''}"


def _figures(item: Item) -> list[str]:
    one = item.first
    step = "" if one.resolution is None else words.amount(one.resolution, one.unit)
    least = words.least_tolerance(item)
    return [step, words.error_words(one), words.expected_words(item), least]


def _whereabouts(item: Item) -> list[str]:
    """How many, where, which, and until when; what is past its date says so."""
    each = item.instruments
    places = dict.fromkeys(one_line(one.place) for one in each if one.place)
    serials = [one_line(one.serial) for one in each if one.serial]
    late = set(map(id, item.overdue))
    dues = [f"{one.due} past" if id(one) in late else str(one.due) for one in each if one.due is not None]
    return [str(item.owned), "\n".join(places), "\n".join(serials), "\n".join(dues)]


def check_rows(card: Card) -> Rows | None:
    """The check points with what may be shown, one row an item; None where somebody looks and nothing is read."""
    rows = []
    for item in card.items:
        points = [point for point in item.check if point.lower is not None]
        if points:
            rows.append([words.range_words(item.first), "\n".join(map(_point, points))])
    if not rows:
        return None
    return ["range", "at: may show"], rows, [30, 62]


def _point(point: CheckPoint) -> str:
    assert point.lower is not None
    assert point.upper is not None
    return f"{point.point}: {point.limits()}"


def budget_rows(card: Card) -> Rows:
    """The worked example: each source, what is stated, its standard uncertainty."""
    assert card.example is not None
    budget = card.example[1].budget
    rows: list[Sequence[str]] = [words.term_cells(term, budget) for term in budget.terms]
    return ["source", "stated", "u"], rows, [46, 28, 20]

