"""The sentences of an instrument card: what it measures, its error in words, what uncertainty to expect, key facts.

The key facts go into a QR code: plain ASCII and short, so that a phone reads them from a small print without a network.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import ROUND_CEILING, ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction

from sizewright.instruments.amounts import decimal_of, plus, spoken, times, trimmed
from sizewright.instruments.budget_model import Budget, Term
from sizewright.instruments.demand import RATIO
from sizewright.instruments.features import OUTER, THREAD_FEATURES, word
from sizewright.instruments.model import Instrument
from sizewright.resolve.describe import UNIT_WORDS
from sizewright.text.numbers import Number, plain
from sizewright.training.cards import Card, Expected, Item, middle_of

MOST_FACTS = 340
"""Characters of the key facts: a QR code of them still reads from a print of 30 mm."""

_FEATURES = {
    "outside": "outside sizes",
    "inside": "bores",
    "slot": "slots and gaps",
    "depth": "depths",
    "step": "steps and heights",
    "mouth": "mouths of countersinks",
    "groove outside": "outside grooves",
    "groove inside": "inside grooves",
    "centres": "distances of centres",
    "outline": "outlines",
    "chamfer": "edges and chamfers",
    "radius": "radii",
    "angle": "angles",
    "chamfer angle": "angles of chamfers",
    "cone angle": "angles of countersinks",
    "taper": "tapers",
    "thread outside": "pitch diameters of outside threads",
    "thread inside": "inside threads",
    "taper thread outside": "outside taper threads",
    "taper thread inside": "inside taper threads",
    "texture": "surface texture",
    "pitch": "the pitch of a thread",
    "standard": "nothing by itself: other instruments are set or stood on it",
}
_PER = {"mm": Decimal(100), "inch": Decimal(10), "deg": Decimal(10), "um": Decimal(1), "uin": Decimal(1)}
_TEXTURE = ("um", "uin")
_LIMIT_GAUGED = frozenset({"inside", "outside"}) | THREAD_FEATURES
_PER_CENT = Decimal(100)
_FINEST_FRACTION = 128
_SECONDS_PER_DEGREE = 3600
_THREE_FIGURES = Context(prec=3, rounding=ROUND_HALF_EVEN)


def measures(card: Card) -> str:
    """What it measures, in a list of words."""
    of_gauge = "pitch diameters of " if card.kind.attribute else None
    return ", ".join(_FEATURES.get(each, each).removeprefix(of_gauge or "\n") for each in card.features)


def manner(card: Card) -> str:
    """How it comes to a result: read, carried over, compared, or by passing and not passing."""
    kind = card.kind
    if kind.attribute and kind.resolution is None and not kind.reaches & _LIMIT_GAUGED:
        return "It shows no value: part or instrument is held against it."
    if kind.attribute and kind.resolution is None:
        return "It shows no value: it tells whether the part passes."
    if kind.attribute:
        return "It shows no value: the steps that enter and do not enter have the size between them."
    if kind.transfer:
        return "It carries the size to a micrometer, on which it is read."
    return "The size is read on it." if kind.direct else "The size is compared or computed, not read on it directly."


def amount(value: Number, unit: str) -> str:
    """`value` with its unit; a binary fraction of an inch as such: `1/64 in`."""
    fraction = Fraction(value)
    if unit == "inch" and 8 <= fraction.denominator <= _FINEST_FRACTION and not fraction.denominator & 7:
        whole, rest = divmod(fraction, 1)
        return f"{whole} {rest} in" if whole else f"{rest} in"
    return spoken(value, unit)


def range_words(one: Instrument) -> str:
    """Its range: `25 to 50 mm`."""
    lower, upper = amount(one.lower, one.unit), amount(one.upper, one.unit)
    word = UNIT_WORDS.get(one.unit, one.unit)
    return f"{lower.removesuffix(word).rstrip()} to {upper}"


def own_name(one: Instrument) -> str:
    """The name that the crib gives it, where it is more than kind and range."""
    usual = f"{one.kind.name} {plain(trimmed(one.lower))}-{plain(trimmed(one.upper))} "
    return "" if one.name.startswith(usual) else one.name


def error_words(one: Instrument) -> str:
    """Its maximum permissible error with the length term: `0.003 mm + 0.0014 mm per 100 mm`; empty where unknown."""
    if one.mpe_constant is None:
        return ""
    if not one.mpe_slope:
        return amount(one.mpe_constant, one.unit)
    if one.unit in _TEXTURE:
        share = f"{plain(trimmed(one.mpe_slope * _PER_CENT))} % of the reading"
        return f"{amount(one.mpe_constant, one.unit)} + {share}" if one.mpe_constant else share
    per = _PER[one.unit]
    return (
        f"{amount(one.mpe_constant, one.unit)} + {amount(times(one.mpe_slope, per), one.unit)} "
        f"per {amount(per, one.unit)}"
    )


def error_sentences(card: Card) -> tuple[str, ...]:
    """What the permissible error of the first item means, with what comes on top of it."""
    one = card.items[0].first
    if one.mpe_constant is None:
        return ("No error of reading is stated: marks, wear and its own calibration decide.",)
    size = middle_of(one)
    error = plus(one.mpe_constant, times(one.mpe_slope, size))
    at = f" at {amount(size, one.unit)}" if one.mpe_slope else ""
    what = "a reading" if one.resolution is not None and not card.kind.attribute else "it"
    found = [
        f"{range_words(one)}: the permissible error (MPE) is {error_words(one)}; "
        f"{what} may be wrong by up to {amount(error, one.unit)} either way{at}, and it still passes."
    ]
    if card.kind.mpe_extra and any(feature not in OUTER for feature in card.features):
        found.append(f"For all but outside sizes {_in_unit(card.kind.mpe_extra, one.unit)} comes on top.")
    if card.kind.transfer:
        found.append(f"Carrying the size to the micrometer may change it by {_in_unit(card.kind.transfer, one.unit)}.")
    return tuple(found)


def _in_unit(millimetres: Decimal, unit: str) -> str:
    if unit != "inch":
        return amount(millimetres, unit)
    return f"{amount((millimetres / Decimal('25.4')).quantize(Decimal('0.0001')), unit)} (from {plain(millimetres)} mm)"


def uncertainty(value: Decimal, unit: str) -> str:
    """An uncertainty as it is reported; of an angle in whole seconds or minutes, rounded up as it was before."""
    if unit != "deg":
        return f"{plain(value)} {UNIT_WORDS.get(unit, unit)}"
    step = 60 if value * _SECONDS_PER_DEGREE >= 120 else 1
    steps = (value * _SECONDS_PER_DEGREE / step).to_integral_value(ROUND_CEILING)
    return spoken(Fraction(int(steps) * step, _SECONDS_PER_DEGREE), unit)


def expected_words(item: Item) -> str:
    """The expanded uncertainty mid-range, for each feature that differs: `0.041 mm, bores 0.061 mm`."""
    texts = []
    for number, each in enumerate(item.expected):
        text = uncertainty(each.budget.expanded, each.budget.unit)
        texts.append(f"{_short_feature(each, item)} {text}" if number else text)
    return ", ".join(texts)


def _short_feature(each: Expected, item: Item) -> str:
    if item.first.kind.mpe_extra and each.feature not in OUTER:
        return "other sizes"
    return _FEATURES.get(each.feature, each.feature)


def example_title(card: Card) -> str:
    """What the budget shown is of; empty where there is none."""
    if card.example is None:
        return ""
    item, expected = card.example
    at = "" if expected.size is None else f" {amount(expected.size, item.first.unit)}"
    return f"{word(expected.feature)}{at}, instrument of {range_words(item.first)}"


def example_sentences(card: Card) -> tuple[str, ...]:
    """How the budget adds up, and for which tolerances it will do; why there is none where there is none."""
    if card.example is None:
        return (_no_budget(card),)
    _, expected = card.example
    budget = expected.budget
    combined, factor = _rounded(budget.combined, budget), plain(budget.factor.quantize(Decimal("0.01")))
    found = [
        f"u = {combined}, the root of the sum of the squares; "
        f"U = {factor} × u = {uncertainty(budget.expanded, budget.unit)} (95 %).",
        f"Good for tolerances of {_tolerance(expected)} and wider: T/2U of {plain(RATIO)}, a step of a tenth of T.",
    ]
    return tuple(found)


def least_tolerance(item: Item) -> str:
    """The narrowest tolerance for which an item will do at the first feature it reaches; empty where not known."""
    return _tolerance(item.expected[0]) if item.expected else ""


def _tolerance(expected: Expected) -> str:
    return uncertainty(trimmed_decimal(expected.least_tolerance), expected.budget.unit)


def trimmed_decimal(value: Decimal) -> Decimal:
    """`value` without trailing zeros."""
    return decimal_of(trimmed(value))


def _no_budget(card: Card) -> str:
    if card.kind.attribute and card.kind.resolution is not None:
        return (
            "No single reading, so no budget: the size lies between the step that enters and the one that does not; "
            "the error of the steps and the feel come on top."
        )
    if card.kind.attribute and not card.kind.reaches & _LIMIT_GAUGED:
        return "It shows no value, so there is nothing to give an uncertainty to."
    if card.kind.attribute:
        return (
            "It shows no value, so there is nothing to give an uncertainty to. A part near a limit may be passed by "
            "one gauge and rejected by another: their own tolerance and wear lie there."
        )
    return "Its error is not stated in the crib, so no uncertainty can be given: ask for its calibration."


def term_cells(term: Term, budget: Budget) -> tuple[str, str, str]:
    """A source of a budget: its name, what is stated with what it is divided by, its standard uncertainty."""
    unit = UNIT_WORDS.get(term.stated_unit, term.stated_unit)
    if term.stated_unit == "/K":
        stated = f"{term.stated * 1_000_000:.1f} × 10⁻⁶ /K"
    elif term.stated_unit == "deg":
        stated = uncertainty(term.stated, "deg")
    else:
        stated = f"{plain(trimmed_decimal(_THREE_FIGURES.plus(term.stated)))} {unit}"
    divisor = {"rectangular": " / √3", "triangular": " / √6", "arcsine": " / √2"}.get(term.shape, "")
    return term.name, f"{stated}{divisor}", _rounded(term.contribution, budget)


def _rounded(value: Decimal, budget: Budget) -> str:
    """A part of `budget` with one figure more than its expanded uncertainty has."""
    if budget.unit == "deg":
        seconds = (value * _SECONDS_PER_DEGREE).quantize(Decimal("0.1"), ROUND_HALF_EVEN)
        return f'{plain(seconds)}"' if seconds < 120 else f"{plain((seconds / 60).quantize(Decimal('0.01')))}'"
    exponent = budget.expanded.as_tuple().exponent
    assert isinstance(exponent, int)
    step = Decimal(1).scaleb(exponent - 1)
    return f"{plain(value.quantize(step, ROUND_HALF_EVEN))} {UNIT_WORDS.get(budget.unit, budget.unit)}"


def key_facts(card: Card) -> str:
    """The card in a few short lines of ASCII, `MOST_FACTS` characters at most.

    Figures come first, then the check and the mistakes; the steps only where there is room for all of them, as half of
    a method misleads.
    """
    lines = [_ascii(line) for line in (card.kind.name.upper(), *_fact_ranges(card))]
    for label, phrases, whole in (
        ("CHECK", card.field_check, False),
        ("BEWARE", [each.mistake for each in card.mistakes], False),
        ("USE", card.steps, True),
    ):
        line = _ascii(f"{label}: {'; '.join(phrases)}")
        kept = _cut(line, MOST_FACTS - len("\n".join(lines)) - 1)
        if kept and (kept == line or not whole):
            lines.append(kept)
    return "\n".join(lines)


def _fact_ranges(card: Card) -> Iterator[str]:
    """One line a unit: whole range, steps, permissible errors and uncertainties from the least to the greatest."""
    for unit in dict.fromkeys(item.first.unit for item in card.items):
        items = [item for item in card.items if item.first.unit == unit]
        firsts = [item.first for item in items]
        lower, upper = min(one.lower for one in firsts), max(one.upper for one in firsts)
        facts = [_from_to([amount(lower, unit), amount(upper, unit)], unit)]
        steps = [amount(one.resolution, unit) for one in firsts if one.resolution is not None]
        errors = [error_words(one) for one in sorted(firsts, key=_error_at_end) if one.mpe_constant is not None]
        expected = sorted(item.expected[0].budget.expanded for item in items if item.expected)
        facts += [f"step {' or '.join(dict.fromkeys(steps))}"] if steps else []
        facts += [f"MPE {_from_to(errors, unit)}"] if errors else []
        facts += [f"U {_from_to([uncertainty(each, unit) for each in expected], unit)}"] if expected else []
        yield ", ".join(facts)


def _error_at_end(one: Instrument) -> Decimal:
    """Its permissible error at the upper end of its range."""
    return decimal_of(one.mpe_constant or Decimal(0)) + one.mpe_slope * one.upper


def _from_to(texts: list[str], unit: str) -> str:
    """The first and the last of `texts`, the unit once: `0.004 to 0.006 mm`."""
    first, last = texts[0], texts[-1]
    if first == last:
        return first
    if any("+" in text for text in texts):
        return " or ".join(dict.fromkeys(texts))
    return f"{first.removesuffix(UNIT_WORDS.get(unit, unit)).rstrip()} to {last}"


def _cut(line: str, room: int) -> str:
    """As many whole phrases of `line` as there is room for; nothing where not even the first fits."""
    kept = ""
    for phrase in line.split("; "):
        longer = f"{kept}; {phrase}" if kept else phrase
        if len(longer) > room:
            break
        kept = longer
    return kept


def _ascii(text: str) -> str:
    """Marks that a phone may read as another alphabet, in letters of the common one."""
    for mark, plainly in (("°", " deg"), ("µ", "u"), ("×", "x"), ("±", "+/-"), ("−", "-"), ("–", "-")):
        text = text.replace(mark, plainly)
    return text.encode("ascii", "replace").decode()
