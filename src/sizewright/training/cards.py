"""Instrument cards: what a trainee has to know of one kind of instrument, with the crib's own figures for it.

A card is data. Its texts come from the table of kinds, its checks and its uncertainty are worked out from the entries
of the crib, as for a plan.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import ROUND_HALF_EVEN, Context, Decimal
from functools import cache
from importlib import resources
from typing import Literal, NamedTuple

from sizewright.instruments.amounts import decimal_of, to_base, trimmed
from sizewright.instruments.budget_model import Budget
from sizewright.instruments.demand import RATIO, SHARE, Demand
from sizewright.instruments.features import FEATURE_WORDS, FORM_FEATURES, IDLE_FEATURES, units_of
from sizewright.instruments.field_check import CheckPoint, check_points
from sizewright.instruments.kinds import kind, kinds
from sizewright.instruments.model import Instrument, Kind
from sizewright.instruments.shelf import Crib, held
from sizewright.instruments.uncertainty import budget_for
from sizewright.text.errors import InputError

UnitWish = Literal["mm", "inch", "both"]
UNITS: Mapping[str, frozenset[str]] = {
    "mm": frozenset({"mm", "um", "deg"}),
    "inch": frozenset({"inch", "uin", "deg"}),
    "both": frozenset({"mm", "um", "inch", "uin", "deg"}),
}
_FORMS = (
    "straightness", "flatness", "roundness", "cylindricity", "parallelism", "perpendicularity", "angularity",
    "position", "concentricity", "symmetry", "circular run-out", "total run-out", "line profile", "surface profile",
)  # fmt: skip
FEATURES = (*FEATURE_WORDS, *_FORMS, *sorted(IDLE_FEATURES))
"""All features in the order in which a card names them."""
_METRIC_FIRST = ("mm", "um", "deg", "inch", "uin")
_REFERS = "as "  # what begins a phrase that stands for those of another kind
_RIGHT_ANGLE = Decimal(90)


class Expected(NamedTuple):
    """The uncertainty to expect of one reading: of `feature` at `size` in `unit` (None: of a zone, whatever its size).

    `least_tolerance`, in `unit`, is the narrowest tolerance for which that will do: T/2U of 4, and a step of a tenth.
    """

    feature: str
    size: Decimal | None
    budget: Budget
    least_tolerance: Decimal


class Item(NamedTuple):
    """Instruments of the crib that are alike but for place, serial and due date; `overdue` are those past it.

    `expected` holds the features that differ in what is to be expected, the first one reached foremost; it is empty
    where no value is shown or the error is not known.
    """

    instruments: tuple[Instrument, ...]
    check: tuple[CheckPoint, ...]
    expected: tuple[Expected, ...]
    overdue: tuple[Instrument, ...] = ()

    @property
    def first(self) -> Instrument:
        """The one that stands for all in range, resolution and error."""
        return self.instruments[0]

    @property
    def owned(self) -> int:
        """How many there are."""
        return sum(each.owned for each in self.instruments)


class Mistake(NamedTuple):
    """A usual mistake, and what to do instead."""

    mistake: str
    instead: str


class Card(NamedTuple):
    """All that one card tells; `source` names the crib."""

    kind: Kind
    source: str
    features: tuple[str, ...]
    access: tuple[str, ...]
    items: tuple[Item, ...]
    field_check: tuple[str, ...]
    steps: tuple[str, ...]
    mistakes: tuple[Mistake, ...]
    cautions: tuple[str, ...]

    @property
    def example(self) -> tuple[Item, Expected] | None:
        """The budget shown in full: that of the first item that has one."""
        return next(((item, item.expected[0]) for item in self.items if item.expected), None)


def cards_of(
    crib: Crib, names: Sequence[str] = (), unit: UnitWish = "both", today: date | None = None
) -> tuple[Card, ...]:
    """A card for each kind of `crib`, simplest first, or for the kinds called `names` alone.

    Items of the other unit are left out, and kinds that then have none. What was due before `today` is marked.

    Raises:
        UnknownKindError: a name is no kind of instrument.
        InputError: the crib has nothing of a kind that was named, or nothing in the unit.
    """
    wanted = {kind(name).name: name for name in names}
    found = []
    for each in kinds().values():
        if wanted and each.name not in wanted:
            continue
        own = [one for one in crib.instruments if one.kind.name == each.name and one.unit in UNITS[unit]]
        if own:
            found.append(_card(each, own, crib.source, today))
        elif each.name in wanted:
            raise InputError(_nothing_of(crib, each.name, unit))
    if not found:
        raise InputError(f"{crib.source}: nothing in it is in {unit}")
    return tuple(found)


def left_out(crib: Crib, unit: UnitWish) -> tuple[str, ...]:
    """The kinds of `crib` that have no card because nothing of them is in `unit`."""
    held_kinds = {one.kind.name for one in crib.instruments}
    shown = {one.kind.name for one in crib.instruments if one.unit in UNITS[unit]}
    return tuple(name for name in kinds() if name in held_kinds - shown)


def _nothing_of(crib: Crib, name: str, unit: UnitWish) -> str:
    of_kind = {one.unit for one in crib.instruments if one.kind.name == name}
    if of_kind:
        return f"{crib.source}: its {name} is not in {unit}; --unit both shows it"
    owned = dict.fromkeys(one.kind.name for one in crib.instruments)
    return f"{crib.source}: no {name} in it; there are {', '.join(owned)}"


def _card(of: Kind, own: Sequence[Instrument], source: str, today: date | None) -> Card:
    return Card(
        kind=of,
        source=source,
        features=tuple(feature for feature in FEATURES if feature in of.reaches),
        access=_phrases(of, "access"),
        items=tuple(_items(own, today)),
        field_check=_phrases(of, "field_check"),
        steps=tuple(of.method.split("; ")),
        mistakes=tuple(Mistake(each, _instead().get((of.name, each), "")) for each in of.mistakes.split("; ")),
        cautions=_handling().get(of.name, ()),
    )


def _phrases(of: Kind, column: Literal["access", "field_check"]) -> tuple[str, ...]:
    """The phrases of a cell of the kinds table; where one says `as KIND`, those of that kind stand in its place."""
    found: list[str] = []
    for phrase in str(getattr(of, column)).split("; "):
        other = kinds().get(phrase.removeprefix(_REFERS)) if phrase.startswith(_REFERS) else None
        found += [phrase] if other is None else _phrases(other, column)
    return tuple(found)


def _items(own: Iterable[Instrument], today: date | None) -> Iterable[Item]:
    ordered = sorted(own, key=lambda one: _METRIC_FIRST.index(one.unit))
    alike: dict[tuple[object, ...], list[Instrument]] = {}
    for each in ordered:
        alike.setdefault(_figures(each), []).append(each)
    for group in alike.values():
        first = group[0]
        late = tuple(one for one in group if today is not None and one.due is not None and one.due < today)
        yield Item(tuple(group), check_points(first, ()), tuple(_expected(first)), late)


def _figures(one: Instrument) -> tuple[object, ...]:
    """All by which two instruments of one kind differ in use."""
    spread = None if one.repeatability is None else (one.repeatability.spread, one.repeatability.readings)
    error = (one.mpe_constant, one.mpe_slope, spread, one.material)
    return one.unit, one.lower, one.upper, one.resolution, *error, one.wires


def _expected(one: Instrument) -> Iterable[Expected]:
    """What to expect of each feature it reaches, at the middle of its range; features that come out alike once."""
    if one.kind.attribute:  # it brackets or decides: nothing is read
        return
    features = [each for each in FEATURES if each in one.kind.reaches and one.unit in units_of(each)]
    made = [found for found in (_expected_of(one, feature) for feature in features) if found is not None]
    different: dict[Decimal, Expected] = {}
    for each in made:
        different.setdefault(each.budget.expanded, each)
    yield from different.values()


def _expected_of(one: Instrument, feature: str) -> Expected | None:
    size = None if feature in FORM_FEATURES else middle_of(one)
    base = None if size is None else to_base(size, one.unit)
    budget = budget_for(held(one, feature), Demand(one.unit, base, base), feature)
    if budget is None or one.resolution is None:
        return None
    by_ratio = 2 * RATIO * budget.expanded
    by_step = decimal_of(one.resolution) / SHARE
    return Expected(feature, size, budget, max(by_ratio, by_step))


def middle_of(one: Instrument) -> Decimal:
    """The middle of its range, to three figures; of an angle, the middle of the first quarter of the circle."""
    upper = min(one.upper, _RIGHT_ANGLE) if one.unit == "deg" else one.upper
    return decimal_of(trimmed(Context(prec=3, rounding=ROUND_HALF_EVEN).plus((one.lower + upper) / 2)))


@cache
def _instead() -> Mapping[tuple[str, str], str]:
    return {(row["kind"], row["mistake"]): row["instead"] for row in _rows("mistakes.csv")}


@cache
def _handling() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for row in _rows("handling.csv"):
        found[row["kind"]] = (*found.get(row["kind"], ()), row["caution"])
    return found


def _rows(table: str) -> list[dict[str, str]]:
    text = (resources.files("sizewright.training") / table).read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))
