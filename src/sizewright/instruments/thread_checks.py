"""How a thread is checked in a workshop: gauges, wires, crests and root, and the drill that comes before the tap."""

from collections.abc import Iterator
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from fractions import Fraction
from typing import Any, NamedTuple

from sizewright.instruments.entries import WIRE_SET
from sizewright.instruments.model import Instrument
from sizewright.instruments.shelf import Crib
from sizewright.resolve.characteristic import Characteristic, Limits, Side
from sizewright.standards.errors import NotDefined
from sizewright.standards.threads import wires, workshop
from sizewright.standards.threads.model import ThreadLimits
from sizewright.text.numbers import MM_PER_INCH, plain

_TAPER = ("R", "Rc", "Rp", "NPT", "NPTF")
_LAST_PLACE = {"mm": Decimal("0.001"), "inch": Decimal("0.0001")}
_WORDS = {"mm": "mm", "inch": "in"}
# What thread micrometers and drills are for: 60 degree threads; the others have their own cutters and anvils.
_SIXTY = 60


class Check(NamedTuple):
    """One way to check a thread: what it is called, and how it is done, with its sizes."""

    label: str
    text: str


class _Thread(NamedTuple):
    """One side of a thread with limits, its lengths in `unit`."""

    form: str
    side: Side
    unit: str
    nominal: Decimal
    pitch: Decimal
    lead: Decimal
    limits: ThreadLimits
    insert: bool

    @property
    def flank(self) -> int:
        """The included flank angle in degrees."""
        return wires.FLANK_ANGLES.get(self.form, _SIXTY)

    @property
    def word(self) -> str:
        """The unit as it is written after a number."""
        return _WORDS[self.unit]


def thread_checks(made: Characteristic, crib: Crib) -> Iterator[Check]:
    """The ways to check a thread that has limits, each side in turn; nothing for any other characteristic."""
    for side, rows in _sides(made):
        thread = _thread(made, side, rows)
        if thread is None:
            continue
        before = f"{side}: " if made.either is not None else ""
        checks = _internal(thread) if side == "internal" else _external(thread, crib)
        for check in checks:
            yield Check(check.label, before + check.text)


def wire_words(made: Characteristic, crib: Crib) -> str:
    """The limits over wires of an external thread as one sentence for a plan; empty where it has none."""
    if made.side != "external" or "thread" not in made.extra:
        return ""
    thread = _thread(made, "external", made.limits)
    return "" if thread is None else next(_over_wires(thread, crib), Check("", "")).text


def _sides(made: Characteristic) -> Iterator[tuple[Side, tuple[Limits, ...]]]:
    if made.kind != "thread" or "thread" not in made.extra:
        return
    if made.either is not None:
        yield "internal", made.either.internal
        yield "external", made.either.external
    elif made.side is not None and made.limits:
        yield made.side, made.limits


def _thread(made: Characteristic, side: Side, rows: tuple[Limits, ...]) -> _Thread | None:
    told: Any = made.extra["thread"]
    if told["form"] in _TAPER or not isinstance(made.nominal, Decimal):
        return None
    by = {limits.of: (_decimal(limits.lower), _decimal(limits.upper)) for limits in rows}
    major, mean, minor = (by.get(f"{name} diameter", (None, None)) for name in ("major", "pitch", "minor"))
    limits = ThreadLimits(major, mean, minor)
    pitch = _pitch(told, made.unit)
    starts = Decimal(told["starts"])
    lead = Decimal(told["lead"]) if "lead" in told else pitch * starts
    return _Thread(told["form"], side, made.unit, made.nominal, pitch, lead, limits, "insert" in told)


def _decimal(value: object) -> Decimal | None:
    return value if isinstance(value, Decimal) else None


def _pitch(told: Any, unit: str) -> Decimal:
    if "pitch" in told:
        return Decimal(told["pitch"])
    return (Decimal(1) if unit == "inch" else MM_PER_INCH) / Decimal(told["tpi"])


# ---- internal threads ------------------------------------------------------------------------------------------------


def _internal(thread: _Thread) -> Iterator[Check]:
    for check in workshop.internal_checks(thread.limits):
        yield _gauge(check, thread)
    if thread.insert:
        return
    if thread.flank == _SIXTY:
        yield from _tap_drill(thread)
    else:
        low, high = thread.limits.minor
        if low is not None and high is not None:
            yield Check("bore", f"{plain(low)} to {plain(high)} {thread.word} before the thread, its minor diameter")


def _gauge(check: workshop.Check, thread: _Thread) -> Check:
    size = check.size if isinstance(check.size, Decimal) else None
    sizes = plain(size) if size is not None else " to ".join(plain(each) for each in check.size)  # type: ignore[union-attr]
    member = "" if check.member == "limits" else f" {check.member}"
    return Check("gauge" if member else "crests", f"{check.gauge}{member}, {sizes} {thread.word}: {check.checks}")


def _tap_drill(thread: _Thread) -> Iterator[Check]:
    """Metric: d - P (ISO 2306). Inch: the standard drills inside the minor limits, nearest to 75 percent of thread."""
    low, high = thread.limits.minor
    if thread.unit == "mm":
        yield _metric_drill(thread, low, high)
    else:
        yield from _inch_drills(thread, low, high)
    if low is not None and high is not None:
        share = f"{_percent(thread, high)} to {_percent(thread, low)}"
        yield Check("", f"the minor diameter's limits leave {share} of thread; a forming tap needs a larger hole")


def _metric_drill(thread: _Thread, low: Decimal | None, high: Decimal | None) -> Check:
    hole = workshop.metric_tap_drill(thread.nominal, thread.pitch)
    if low is not None and high is not None and not low <= hole <= high:
        between = f"between {plain(low)} and {plain(high)} mm"
        return Check("tap drill", f"{between}: d - P, {plain(hole)} mm, is outside the minor diameter's limits")
    return Check("tap drill", f"{plain(hole)} mm, d - P (ISO 2306): {_percent(thread, hole)} of thread")


def _inch_drills(thread: _Thread, low: Decimal | None, high: Decimal | None) -> Iterator[Check]:
    try:
        found = workshop.tap_drills(thread.nominal, thread.pitch, minor=None if low is None else (low, high))
    except NotDefined:
        return
    inside = [each for each in found if each.inside is not False]
    named = ", ".join(
        f"{each.drill.name} ({plain(each.diameter)} in, {_whole(each.percent)})" for each in inside or found
    )
    text = named if inside else f"no standard drill lies inside the minor limits; near: {named}"
    yield Check("tap drill", f"{text} of thread, nearest to 75 % first")


def _percent(thread: _Thread, hole: Decimal) -> str:
    return _whole(workshop.percent_of_thread(thread.nominal, hole, thread.pitch))


def _whole(percent: Decimal) -> str:
    return f"{percent:.0f} %"


# ---- external threads ------------------------------------------------------------------------------------------------


def _external(thread: _Thread, crib: Crib) -> Iterator[Check]:
    for check in workshop.external_checks(thread.limits):
        yield _gauge(check, thread)
    low, high = thread.limits.pitch
    if thread.flank == _SIXTY and low is not None and high is not None:
        pitch = f"pitch {_short(thread.pitch)} {thread.word}"
        yield Check(
            "thread mic", f"with the anvils for {pitch}: pitch diameter {plain(low)} to {plain(high)} {thread.word}"
        )
    yield from _over_wires(thread, crib)


def _over_wires(thread: _Thread, crib: Crib) -> Iterator[Check]:
    low, high = thread.limits.pitch
    if low is None or high is None:
        return
    fitting = wires.wire_range(thread.pitch, thread.flank)
    sets = [each for each in crib.instruments if each.kind.name == WIRE_SET and each.wires]
    wire, named = _wire(thread, fitting, sets)
    reach = (
        f"best wire {_short(fitting.best)} {thread.word}, {_short(fitting.least)} to {_short(fitting.most)} would do"
    )
    try:
        correction = wires.lead_term(low, thread.lead, wire, thread.flank)
    except NotDefined:
        said = "the lead angle is over 5°, the wires ride higher than the formula here knows: no limits over wires"
        yield Check("three wires", f"{said}; {reach}")
        return
    lower, upper = wires.limits_over_wires((low, high), thread.pitch, wire, thread.flank, thread.lead)
    step = _LAST_PLACE[thread.unit]
    inside = f"{plain(lower.quantize(step, ROUND_CEILING))} to {plain(upper.quantize(step, ROUND_FLOOR))} {thread.word}"
    stated = f"{_short(correction, 5)} {thread.word} for the lead included"
    yield Check("three wires", f"{named}: {inside} over the wires, rounded inward, {stated}; {reach}")


def _wire(thread: _Thread, fitting: wires.WireRange, sets: list[Instrument]) -> tuple[Decimal, str]:
    """The wire of the crib nearest to the best one, or the best one where the crib has none that fits.

    Wires of the other unit serve too: their diameters are exact in both.
    """
    scale = {("inch", "mm"): MM_PER_INCH, ("mm", "inch"): 1 / MM_PER_INCH}
    found = [
        (abs(wire * factor - fitting.best), own is False, wire * factor, wire, each.unit)
        for each in sets
        for own in (each.unit == thread.unit,)
        for factor in (Decimal(1) if own else scale[each.unit, thread.unit],)
        for wire in each.wires
        if fitting.least <= wire * factor <= fitting.most
    ]
    ours = [each for each in found if not each[1]] or found
    if not ours:
        step = _LAST_PLACE[thread.unit]
        best = fitting.best.quantize(step)
        return best, f"no wire of the crib fits; with wires of {plain(best)} {thread.word}"
    _, _, size, wire, unit = min(ours)
    return size, f"wires of {plain(wire)} {_WORDS[unit]}"


def _short(value: Decimal, places: int = 4) -> str:
    exact = Fraction(value)
    return plain(Decimal(round(exact * 10**places)).scaleb(-places).normalize() + 0)
