"""The depth of a thread held against the depth of the hole that is drilled for it."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from sizewright.notation.kinds import DEPENDENT_KINDS, OF_THE_DRILL
from sizewright.notation.model import Deviations, Feature, PlusMinus, Size, Thread
from sizewright.resolve.scope import Scope
from sizewright.resolve.thread_forms import Designated, designate
from sizewright.standards.threads.workshop import TAP_LEADS
from sizewright.text.numbers import plain


def check_depths(features: tuple[Feature, ...], scope: Scope) -> None:
    """Hold the depth of a thread against the depth of the hole that is drilled for it, where both are typed."""
    threads = [each for each in features if isinstance(each, Thread)]
    depths = [each for each in features if isinstance(each, Size) and each.kind == "thread depth"]
    if len(threads) != 1 or len(depths) != 1:
        return
    designated = designate(threads[0], scope)
    holes = list(_drilled(features, designated))
    thread, hole = _extreme(depths[0], 1), _extreme(holes[0], -1) if len(holes) == 1 else None
    if thread is None or hole is None or _unit(depths[0], scope) != _unit(holes[0], scope):
        return
    spare = hole - thread
    said = f"thread {plain(thread)} deep in a hole {plain(hole)} deep"
    span = holes[0].measure.span
    if spare <= 0:
        scope.warn(f"{said}: no room for the tap to run out", span)
    elif _unit(depths[0], scope) == designated.unit:
        turns = spare / designated.exact_pitch
        kinds = [name for name, lead in TAP_LEADS if turns >= Fraction(lead)]
        fits = f"a {kinds[0]} tap can do it" if kinds else "too little even for a bottoming tap's lead"
        text = f"{said}: {_tenths(turns)} pitches for the tap to run out, {fits} (common practice)"
        (scope.info if kinds else scope.warn)(text, span)


def _drilled(features: tuple[Feature, ...], designated: Designated) -> Iterator[Size]:
    """Depths of holes that a tap could be for: a pilot hole's, or of a hole a little smaller than the thread."""
    owner: Feature | None = None
    for feature in features:
        if not isinstance(feature, Size) or feature.kind not in DEPENDENT_KINDS:
            owner = feature
        elif feature.kind == "depth" and (
            not OF_THE_DRILL.isdisjoint(feature.notes) or _is_tap_drill(owner, designated)
        ):
            yield feature


def _is_tap_drill(owner: Feature | None, designated: Designated) -> bool:
    nominal = owner.measure.nominal if isinstance(owner, Size) and owner.kind == "diameter" else None
    if nominal is None or designated.nominal is None:
        return False
    major = Fraction(designated.nominal)
    return major - 2 * designated.exact_pitch < Fraction(nominal.value) < major


def _extreme(size: Size, way: int) -> Fraction | None:
    """The depth at its worst: the greatest (`way` 1) or the least (-1); None where a bound leaves it open."""
    nominal = size.measure.nominal
    if nominal is None or size.measure.bound:
        return None
    match size.measure.tolerance:
        case None:
            return Fraction(nominal.value)
        case PlusMinus(amount):
            return Fraction(nominal.value) + way * Fraction(amount.value)
        case Deviations(upper, lower):
            return Fraction(nominal.value) + Fraction(upper.value if way == 1 else lower.value)
        case _:
            return None


def _unit(size: Size, scope: Scope) -> str:
    return scope.unit_of_measure(size.measure)


def _tenths(value: Fraction) -> str:
    return plain(Decimal(int(value * 10)).scaleb(-1))
