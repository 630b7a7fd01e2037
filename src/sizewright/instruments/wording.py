"""The sentences of a choice: why an instrument was chosen, how it falls short, what would do."""

from __future__ import annotations

from decimal import Decimal

from sizewright.instruments.amounts import rounded_up, spoken
from sizewright.instruments.capability import compare
from sizewright.instruments.demand import Demand
from sizewright.instruments.features import THREAD_FEATURES, word
from sizewright.instruments.pick import Pick, fine_enough, kind_that_would_do
from sizewright.instruments.shelf import Held
from sizewright.instruments.uncertainty import two_figures_up
from sizewright.resolve.characteristic import Characteristic
from sizewright.resolve.describe import designation
from sizewright.standards.threads.wires import FLANK_ANGLES
from sizewright.text.errors import with_article
from sizewright.text.numbers import Number, plain

_SHARES = {Decimal("0.1"): "a tenth", Decimal("0.2"): "a fifth", Decimal("0.25"): "a quarter", Decimal("0.5"): "half"}


def reason(found: Pick, feature: str, ask: Demand, share: Decimal) -> str:
    """Why `found` was chosen for `feature`, or that nothing was found; who shows it names the instrument beside it."""
    one = found.chosen
    if one is None:
        return f"nothing in the crib reaches this {word(feature)}{_of_size(ask)}"
    return _judged(one, found.short, ask, share)


def advice(found: Pick, feature: str, ask: Demand, characteristic: Characteristic) -> str:
    """What else to see to: the gauge's class, the partner of a split range, what would do where all fall short."""
    one = found.chosen
    if one is None or found.short:
        return _what_would_do(feature, ask)
    if found.partner is not None:
        return (
            f"the limits lie on both sides of {spoken(one.instrument.lower, one.instrument.unit)}: "
            f"sizes below it need {found.partner.instrument.name}"
        )
    if feature in THREAD_FEATURES and not one.limit_gauge:
        return _anvils(characteristic)
    if feature in THREAD_FEATURES:
        thread = characteristic.extra.get("thread")
        made_for = designation(thread) if isinstance(thread, dict) else "this size, pitch and class"
        return f"the gauge must be made for {made_for}"
    return ""


def _anvils(characteristic: Characteristic) -> str:
    """Anvils and wires go by the flanks; those of 60° threads are the usual ones."""
    thread = characteristic.extra.get("thread")
    form = thread.get("form") if isinstance(thread, dict) else None
    angle = FLANK_ANGLES.get(str(form), 60)
    return f"its anvils must be those of a {angle}° thread" if angle != 60 else ""


def _judged(one: Held, short: bool, ask: Demand, share: Decimal) -> str:
    if ask.tolerance is None:
        return _without_tolerance(ask)
    if one.limit_gauge and one.feature in THREAD_FEATURES:
        return "go and not-go decide, by the gauge's own limits; it shows no value"
    if one.limit_gauge:
        return f"falls short: it shows no value to hold against {ask.said}"
    text = f"{_resolution(one, ask, share)}; {_uncertainty(one, ask)}"
    return f"falls short: {text}" if short else text


def _without_tolerance(ask: Demand) -> str:
    if not ask.measurable:
        return "the simplest that reaches it; its figures are neither length nor angle, so nothing is held against them"
    if ask.upper is None:
        return "nothing sets a resolution; the simplest that reaches it (common practice)"
    return f"no tolerance, so nothing sets a resolution; the simplest that covers{_size(ask)} (common practice)"


def _resolution(one: Held, ask: Demand, share: Decimal) -> str:
    part = _SHARES.get(share) or f"{plain(share)} times"
    asked = spoken(ask.asked or Decimal(0), ask.unit)
    tenth = f"{part} of {ask.said}" if share in _SHARES else f"{part} {ask.said}"
    resolution = one.instrument.resolution
    if one.instrument.kind.attribute and resolution is not None:
        return f"goes in steps of {spoken(resolution, one.instrument.unit)}, {tenth} is {asked}"
    if resolution is None:
        return f"shows no value, {tenth} is {asked}"
    own = f"resolution {spoken(resolution, one.instrument.unit)}"
    return f"{own}, {tenth} is {asked}" if fine_enough(one, ask) else f"{own} is coarser than {asked}, {tenth}"


def _uncertainty(one: Held, ask: Demand) -> str:
    found = compare(one, ask)
    asked = f"{plain(found.asked.normalize())} asked"
    allowed = _shown(found.allowed or Decimal(0), ask.unit, down=True)
    if found.uncertainty is None:
        return f"its uncertainty is not known, {allowed} would do for T/2U {asked}"
    own = f"U {_shown(two_figures_up(found.uncertainty), ask.unit)}"
    if found.ratio is None:  # a tolerance of nothing
        return f"{own}, which no instrument can be held against"
    reached = f"T/2U {plain(found.ratio)}"
    return f"{own}, {reached}, {asked}" if found.enough else f"{own} gives {reached}, {asked}: {allowed} would do"


def _what_would_do(feature: str, ask: Demand) -> str:
    found = kind_that_would_do(feature, ask)
    if found is None:
        return "no kind in the table is known to do: ask a measuring room, or whether the tolerance can be wider"
    size = "" if ask.lower is None else f" whose range takes{_size(ask)}"
    if found.resolution is None or found.attribute:
        return f"{_an(found.name)}{size} would do"
    return f"{_an(found.name)}{size}, usual resolution {_shown(found.resolution, ask.unit)}, would do"


def _of_size(ask: Demand) -> str:
    """The size, where there is one: a zone has none."""
    return "" if ask.lower is None else f" of{_size(ask)}"


def _size(ask: Demand) -> str:
    return "" if ask.upper is None else f" {_shown(ask.upper, ask.unit)}"


def _shown(base: Number, unit: str, *, down: bool = False) -> str:
    """A base amount in `unit`; an error or a size is rounded up, what is allowed down, to six places."""
    if down:
        return spoken(-rounded_up(-base, unit), unit)
    return spoken(base if unit == "deg" else rounded_up(base, unit), unit)


def _an(name: str) -> str:
    """An instrument with its article; those that come as a set, gauge blocks, have none."""
    return name if name.endswith("s") else with_article(name)
