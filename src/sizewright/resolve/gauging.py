"""Limit gauges for a toleranced hole or shaft: the go and no-go sizes that would check it."""

from collections.abc import Iterator
from decimal import Decimal
from string import ascii_letters
from typing import Literal, NamedTuple

from sizewright.resolve.characteristic import Characteristic, Limits, Side
from sizewright.resolve.describe import UNIT_WORDS
from sizewright.standards.errors import NotDefined
from sizewright.standards.gauges import LimitGauge, class_plug, class_ring, gauge_grade, iso_plug, iso_ring
from sizewright.text.numbers import plain

# By kind: what a gauge of its inside and of its outside is called.
_FORMS: dict[str, dict[Side, str]] = {
    "diameter": {"internal": "plug gauge", "external": "ring or snap gauge"},
    "length": {"internal": "flat plug gauge", "external": "snap gauge"},
    "square": {"internal": "square plug gauge", "external": "snap gauge"},
}


class Gauging(NamedTuple):
    """One gauge: its form, the system that gives its sizes, and the sizes in `unit`, or why there is none."""

    form: str
    system: str
    unit: str
    gauge: LimitGauge | None
    reason: str = ""


def gaugings(made: Characteristic, *, any_size: bool = False) -> Iterator[Gauging]:
    """The gauges by each system, for each side of which a classed characteristic has limits; with `any_size` also for
    a size without a class, whose gauge has the coarsest grade that its tolerance holds."""
    if made.kind not in _FORMS or (made.class_ is None and not any_size):
        return
    if made.either is not None:
        yield from _by_system(made, "internal", made.either.internal[0])
        yield from _by_system(made, "external", made.either.external[0])
    elif made.side is not None and made.size is not None:
        yield from _by_system(made, made.side, made.size)


def _by_system(made: Characteristic, side: Side, limits: Limits) -> Iterator[Gauging]:
    lower, upper, nominal = limits.lower, limits.upper, made.nominal
    if not isinstance(lower, Decimal) or not isinstance(upper, Decimal) or not isinstance(nominal, Decimal):
        return
    form = _FORMS[made.kind][side]
    unit: Literal["mm", "inch"] = "inch" if made.unit == "inch" else "mm"
    if unit == "mm":
        system = "ISO system"
        try:
            grade = (made.class_ or "").lstrip(ascii_letters) or gauge_grade(upper - lower, nominal)
            gauge = (iso_plug if side == "internal" else iso_ring)(lower, upper, nominal, grade)
            yield Gauging(form, f"{system}, {gauge.basis}", unit, gauge)
        except NotDefined as error:
            yield Gauging(form, system, unit, None, error.message)
    system = "ten per cent rule"
    try:
        gauge = (class_plug if side == "internal" else class_ring)(lower, upper, unit)
        yield Gauging(form, f"{system}, gauge class {gauge.basis}", unit, gauge)
    except NotDefined as error:
        yield Gauging(form, system, unit, None, error.message)


def gauge_words(gauging: Gauging, *, wear: bool = True) -> str:
    """A limit gauge in words, new sizes first; with `wear`, also the size at which its go member is worn out."""
    named = f"{gauging.form} ({gauging.system})"
    if gauging.gauge is None:
        return f"{named}: none, {gauging.reason}"
    go, not_go = gauging.gauge.go, gauging.gauge.not_go
    unit = UNIT_WORDS[gauging.unit]
    words = f"{named}: go {plain(go.lower)} to {plain(go.upper)}"
    words += f", worn out at {plain(go.worn)}" if wear and go.worn is not None else ""
    words += f"; no-go {plain(not_go.lower)} to {plain(not_go.upper)} {unit}"
    if wear and gauging.gauge.wear_may_pass_limit:
        words += "; worn to that size it may accept a part just outside its limit"
    return words if gauging.gauge.confirmed else f"{words}; figures not confirmed in print"
