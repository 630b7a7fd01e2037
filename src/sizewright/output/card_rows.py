"""The tables of an instrument card as text, the same for every form of output."""

from __future__ import annotations

from collections.abc import Sequence

from sizewright.instruments.amounts import minus, spoken, trimmed
from sizewright.output.safe import one_line
from sizewright.text.numbers import Number, plain
from sizewright.training import card_words as words
from sizewright.training.cards import Card, Item

Rows = tuple[Sequence[str], list[Sequence[str]], Sequence[float]]
"""A head, the rows under it, and the shares of the columns in the width."""

CAUTIONS = (
    "Measure only what stands still: machine stopped and isolated.",
    "Deburr, clean, let part and instrument come to one temperature; sizes hold at 20 °C.",
    "Edges cut; lift heavy parts with help.",
    "The drawing and the standards it calls govern; safety-critical parts belong to qualified people and local rules.",
)


def sentence(text: str) -> str:
    """`text` with a capital in front."""
    return text[:1].upper() + text[1:]


def field_check_sentence(card: Card) -> str:
    """The check before use in words."""
    found = f"{sentence('; '.join(card.field_check))}."
    return f"{found} Set it aside where it fails; its last readings are doubtful."


def item_rows(card: Card) -> Rows:
    """The crib's items; where the crib tells no place, serial or date there is room to write it."""
    head = ["range", "step", "MPE", "U (95 %)", "for T from", "check: may be off", "owned", "place, serial, due"]
    shares = [25.0, 18, 31, 24, 19, 46, 13, 20]
    rows = [[_range(item), *_figures(item), check_words(item), *_whereabouts(item)] for item in card.items]
    kept = [i for i, _ in enumerate(head) if not 0 < i < 6 or any(row[i] for row in rows)]
    texts: list[Sequence[str]] = [[row[i] or ("–" if i < 6 else "") for i in kept] for row in rows]
    return [head[i] for i in kept], texts, [shares[i] for i in kept]


def _range(item: Item) -> str:
    name = words.own_name(item.first)
    return f"{words.range_words(item.first)}{f', {one_line(name)}' if name else ''}"


def _figures(item: Item) -> list[str]:
    one = item.first
    step = "" if one.resolution is None else words.amount(one.resolution, one.unit)
    least = words.least_tolerance(item)
    return [step, words.error_words(one), words.expected_words(item), least]


def _whereabouts(item: Item) -> list[str]:
    """How many, then where, which and until when, a line for each that tells; what is past its date says so."""
    late = set(map(id, item.overdue))
    lines = []
    for one in item.instruments:
        due = "" if one.due is None else f"{'overdue' if id(one) in late else 'due'} {one.due}"
        lines.append(", ".join(filter(None, (one_line(one.place), one_line(one.serial), due))))
    return [str(item.owned), "\n".join(filter(None, lines))]


def check_words(item: Item) -> str:
    """The points of its check with what the instrument may be off there: `zero, 12.5, 25: ±0.004`; points alike once.

    Empty where somebody looks and nothing is read.
    """
    points: dict[str, list[str]] = {}
    for each in item.check:
        if each.nominal is not None and each.upper is not None:
            off = minus(each.upper, each.nominal)
            points.setdefault(_off(off, each.unit), []).append(each.point)
    return "; ".join(f"{', '.join(names)}: ±{off}" for off, names in points.items())


def _off(value: Number, unit: str) -> str:
    return spoken(value, unit) if unit == "deg" else plain(trimmed(value))


def budget_rows(card: Card) -> Rows:
    """The worked example: each source, what is stated, its standard uncertainty."""
    assert card.example is not None
    budget = card.example[1].budget
    rows: list[Sequence[str]] = [words.term_cells(term, budget) for term in budget.terms]
    return ["source", "stated", "u"], rows, [38, 26, 24]
