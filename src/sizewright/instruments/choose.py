"""The instrument suggested for a characteristic, with the reason.

Kept are the instruments of the crib that reach the feature and cover its size; of those, the ones whose resolution is a
tenth of the tolerance at most and whose uncertainty is small enough against it (see `capability`). The simplest of them
is suggested, the further kinds follow. Where none passes, the best is named, with how it falls short and what would do.
An instrument past its due date is suggested only where nothing else does, and never silently.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import TypedDict

from sizewright.instruments.budget_model import Budget
from sizewright.instruments.capability import compare
from sizewright.instruments.demand import USUAL, Demand, Wish, demand
from sizewright.instruments.due import current, due_note
from sizewright.instruments.features import Needs, needs, word
from sizewright.instruments.model import Choice, Instrument
from sizewright.instruments.pick import Pick, covers, first_of_each_kind, pick, usable
from sizewright.instruments.shelf import Crib, Held
from sizewright.instruments.uncertainty import budget_for, said_of
from sizewright.instruments.wording import advice, reason
from sizewright.resolve.characteristic import Characteristic, Status

_NO_VERDICT = {
    Status.REFERENCE: "reference: nothing to decide",
    Status.BASIC: "basic: it has no verdict of its own, the tolerance it belongs to has",
    Status.CONFLICT: "conflict: nothing can be chosen before the callout is settled",
    Status.UNREAD: "unread: nothing can be chosen before the callout reads",
}


_GAUGES_PAY = 30  # readings from which a limit gauge pays: "a few dozen parts", common practice


def choose(characteristic: Characteristic, crib: Crib, wish: Wish = USUAL) -> Choice:
    """The instrument of `crib` suggested for `characteristic`; never raises for any characteristic.

    `wish` is what the shop asks of an instrument. The resolution asked for is in the characteristic's unit.
    """
    statement = _NO_VERDICT.get(characteristic.status)
    if statement is not None:
        return Choice(None, statement, characteristic.unit, None)
    need = needs(characteristic)
    if not need.features:
        return Choice(None, need.why, characteristic.unit, None)
    ask = demand(characteristic, wish)
    if len(need.features) == 1:
        return _one(need.features[0], characteristic, crib, ask, wish)
    return _several(need, characteristic, crib, ask, wish)


def _one(feature: str, characteristic: Characteristic, crib: Crib, ask: Demand, wish: Wish) -> Choice:
    shelf = crib.by_feature.get(feature, ())
    found = _pick(shelf, ask, wish)
    many = wish.pieces * (characteristic.count or 1)
    gauges = _limit_gauges(feature, shelf, characteristic, ask, many)
    notes = (
        due_note(found, shelf, ask, wish.today),
        advice(found, feature, ask, characteristic),
        _gauge_sizes(characteristic, many) if gauges else "",
        _over_wires(characteristic, crib),
    )
    return Choice(
        instrument=None if found.chosen is None else found.chosen.instrument,
        why=reason(found, feature, ask, wish.share),
        unit=characteristic.unit,
        resolution_asked=ask.asked,
        falls_short=found.short,
        alternatives=_unique([found], gauges),
        method="" if found.chosen is None else found.chosen.instrument.kind.method,
        advice="; ".join(filter(None, notes)),
        **_figures([found.chosen], characteristic, ask),
    )


class _Figures(TypedDict):
    """What a choice says of its uncertainty."""

    budgets: tuple[tuple[Instrument, Budget], ...]
    ratio: Decimal | None


def _figures(chosen: Sequence[Held | None], characteristic: Characteristic, ask: Demand) -> _Figures:
    """The budgets of those chosen, and the least ratio of the tolerance to one of them."""
    if characteristic.status is not Status.TOLERANCED or not ask.measurable:
        return {"budgets": (), "ratio": None}
    named = [one for one in chosen if one is not None]
    budgets = [(one.instrument, budget_for(one, ask, said_of(characteristic))) for one in named]
    ratios = [compare(one, ask).ratio for one in named]
    return {
        "budgets": tuple((instrument, budget) for instrument, budget in budgets if budget is not None),
        "ratio": min((ratio for ratio in ratios if ratio is not None), default=None),
    }


def _pick(shelf: Sequence[Held], ask: Demand, wish: Wish) -> Pick:
    """The pick among the instruments that are not overdue; of all where those do not do."""
    ready = current(shelf, wish.today)
    found = pick(ready, ask)
    if (found.chosen is not None and not found.short) or len(ready) == len(shelf):
        return found
    anyway = pick(shelf, ask)
    return anyway if found.chosen is None or not anyway.short else found


def _several(need: Needs, characteristic: Characteristic, crib: Crib, ask: Demand, wish: Wish) -> Choice:
    """The side is not told: one instrument that serves every side, or, where a better one is needed, one for each."""
    shelves = [crib.by_feature.get(feature, ()) for feature in need.features]
    picks = [_pick(shelf, ask, wish) for shelf in shelves]
    common = _common([current(shelf, wish.today) for shelf in shelves], ask)
    if not common or not _no_worse(common[0], picks):
        return _each_side(need, picks, shelves, characteristic, ask, wish)
    found = Pick(common[0], False, tuple(common[1:]))
    return Choice(
        instrument=common[0].instrument,
        why=f"{need.why}: this one serves them all; {reason(found, common[0].feature, ask, wish.share)}",
        unit=characteristic.unit,
        resolution_asked=ask.asked,
        alternatives=_unique([found]),
        method=common[0].instrument.kind.method,
        **_figures(common[:1], characteristic, ask),
    )


def _each_side(
    need: Needs,
    picks: Sequence[Pick],
    shelves: Sequence[Sequence[Held]],
    characteristic: Characteristic,
    ask: Demand,
    wish: Wish,
) -> Choice:
    sides = list(zip(need.features, picks, strict=True))
    served = [(word(feature), found.chosen.instrument) for feature, found in sides if found.chosen is not None]
    reasons = "; ".join(
        f"{word(feature)}: {_named(found)}{reason(found, feature, ask, wish.share)}" for feature, found in sides
    )
    notes = [(word(feature), advice(found, feature, ask, characteristic)) for feature, found in sides]
    notes += [
        (word(feature), due_note(found, shelf, ask, wish.today))
        for (feature, found), shelf in zip(sides, shelves, strict=True)
    ]
    return Choice(
        instrument=served[0][1] if served else None,
        why=f"{need.why}: one is named for each. {reasons}",
        unit=characteristic.unit,
        resolution_asked=ask.asked,
        falls_short=bool(served) and any(found.short or found.chosen is None for found in picks),
        alternatives=_unique(picks),
        method="; ".join(f"{side}: {instrument.kind.method}" for side, instrument in served),
        advice="; ".join(f"{side}: {note}" for side, note in notes if note),
        by_side=tuple(served),
        **_figures([found.chosen for found in picks], characteristic, ask),
    )


def _named(found: Pick) -> str:
    return "" if found.chosen is None else f"{found.chosen.instrument.name}, "


def _common(shelves: Sequence[Sequence[Held]], ask: Demand) -> list[Held]:
    """The instruments that are good enough whichever feature is meant, simplest first, the first of each kind.

    Each stands as it is for the feature at which it errs most, which the reason then quotes.
    """
    worst: dict[int, Held] = {}
    passing = [usable(shelf, ask) for shelf in shelves]
    for one in (one for shelf in passing for one in shelf):
        known = worst.setdefault(id(one.instrument), one)
        if (one.mpe_constant or 0) > (known.mpe_constant or 0):
            worst[id(one.instrument)] = one
    everywhere = set.intersection(*({id(one.instrument) for one in shelf} for shelf in passing))
    common = [worst[id(one.instrument)] for one in passing[0] if id(one.instrument) in everywhere]
    own = [one for one in common if one.instrument.unit == ask.unit]
    return first_of_each_kind(own or common)


def _no_worse(common: Held, picks: Sequence[Pick]) -> bool:
    """Whether one instrument for all is as simple as those for each side; else the great machine would always win."""
    ranks = [found.chosen.instrument.kind.rank for found in picks if found.chosen is not None and not found.short]
    return len(ranks) < len(picks) or common.instrument.kind.rank <= max(ranks)


def _limit_gauges(
    feature: str, shelf: Sequence[Held], characteristic: Characteristic, ask: Demand, many: int
) -> tuple[Held, ...]:
    """Gauges without a reading worth naming: plates for a texture, and plug, ring and snap for a size that has a class
    or that is read so many times that they pay."""
    worthwhile = characteristic.class_ is not None or many >= _GAUGES_PAY
    if feature != "texture" and (not worthwhile or feature not in ("inside", "outside")):
        return ()
    gauges = [one for one in shelf if one.limit_gauge and one.instrument.unit == ask.unit and covers(one, ask)]
    return tuple(first_of_each_kind(gauges))


def _gauge_sizes(characteristic: Characteristic, many: int) -> str:
    """The go and no-go sizes that a limit gauge of the crib must have, by the first system that gives them."""
    from sizewright.resolve.gauging import gauge_words, gaugings

    pays = many >= _GAUGES_PAY
    given = next((each for each in gaugings(characteristic, any_size=pays) if each.gauge is not None), None)
    if given is None:
        return ""
    words = f"by {gauge_words(given, wear=False)}"
    return (
        f"{many} readings: a limit gauge pays (common practice from {_GAUGES_PAY} on), {words}"
        if pays
        else f"or {words}"
    )


def _over_wires(characteristic: Characteristic, crib: Crib) -> str:
    """The limits over wires of an external thread, for who wants a figure where a gauge only decides."""
    if characteristic.kind != "thread":
        return ""
    from sizewright.instruments.thread_checks import wire_words

    words = wire_words(characteristic, crib)
    return f"or by three wires, {words}" if words else ""


def _unique(picks: Sequence[Pick], more: Sequence[Held] = ()) -> tuple[Instrument, ...]:
    """What else would serve: partners of split ranges first, then what each side offers, nothing twice."""
    listed = [found.partner for found in picks] + [found.chosen for found in picks[1:]]
    listed += [one for found in picks for one in found.others]
    unique = {id(one.instrument): one.instrument for one in [*listed, *more] if one is not None}
    if picks[0].chosen is not None:
        unique.pop(id(picks[0].chosen.instrument), None)
    return tuple(unique.values())
