"""The check of an instrument before use: zero, and a few known lengths spread over the sizes it is about to measure.

Each point has limits from the instrument's own maximum permissible error, rounded inward to what it shows. It is a
short check at the bench, no calibration: an instrument that fails it is set aside and its readings are doubtful.
Micrometers are tried at the lengths of ISO 3611 (from memory), which lie at different turns of the thimble; what else
is said here is common practice.
"""

from collections.abc import Callable, Iterator, Sequence
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.instruments.amounts import decimal_of, minus, plus, spoken, times, trimmed
from sizewright.instruments.model import Instrument
from sizewright.text.numbers import Number, plain

_ZERO = Decimal(0)
# Offsets from the lower end of a micrometer's range, in its unit: ISO 3611 (memory); the inch ones are common practice.
_MICROMETER_POINTS = {
    "mm": ("2.5", "5.1", "7.7", "10.3", "12.9", "15", "17.6", "20.2", "22.8", "25"),
    "inch": ("0.105", "0.210", "0.315", "0.420", "0.500", "0.605", "0.710", "0.815", "0.920", "1"),
}
_BLOCK_STEP = {"mm": Decimal("0.5"), "inch": Decimal("0.05")}
_SPAN = {"mm": Decimal(25), "inch": Decimal(1)}
_AGREE = {"mm": Decimal("0.01"), "inch": Decimal("0.0005")}  # TM 9-243 practice for a transfer done twice
_STEP = {"mm": Decimal("0.1"), "inch": Decimal("0.005")}
_ANGLES = (Fraction(0), Fraction(90))
_LEAST, _FEW = 2, 3
_APART = 10  # points lie at least this part of the range from each other


class CheckPoint(NamedTuple):
    """One point of a check.

    `point` names it (`zero`, `10.3`), `nominal` is what should be shown, the bounds what may be, all in `unit`; bounds
    are None where somebody looks and answers. `how` says against what.
    """

    point: str
    nominal: Number | None
    lower: Number | None
    upper: Number | None
    unit: str
    how: str

    def sentence(self) -> str:
        """The point in words, with its limits."""
        if self.lower is None or self.upper is None:
            return self.how
        return f"{self.point}: {self.limits()} ({self.how})"

    def limits(self) -> str:
        """Both limits as text with their unit; nothing where there are none."""
        if self.lower is None or self.upper is None:
            return ""
        lower = spoken(self.lower, self.unit) if self.unit == "deg" else plain(trimmed(self.lower))
        return f"{lower} to {spoken(self.upper, self.unit)}"


def check_points(instrument: Instrument, sizes: Sequence[Number]) -> tuple[CheckPoint, ...]:
    """The points at which `instrument` is tried before it measures `sizes`, which are in its own unit.

    None of them lies outside its range. Where its error is not known, or nothing is read on it, somebody looks and
    answers accept or reject.
    """
    make = _FORMS.get(instrument.kind.check)
    if make is None or instrument.mpe_constant is None:
        return (_looked_at(instrument),)
    within = sorted(size for size in map(decimal_of, sizes) if instrument.lower <= size <= instrument.upper)
    return tuple(make(instrument, within))


def _looked_at(instrument: Instrument) -> CheckPoint:
    return CheckPoint("look", None, None, None, instrument.unit, instrument.kind.field_check)


def _point(instrument: Instrument, name: str, nominal: Number, how: str, error: Number | None = None) -> CheckPoint:
    """A point at `nominal`, allowed the permissible error there unless another error is given."""
    allowed = _shown(_error(instrument, nominal), instrument) if error is None else error
    return CheckPoint(name, nominal, minus(nominal, allowed), plus(nominal, allowed), instrument.unit, how)


def _error(instrument: Instrument, nominal: Number) -> Number:
    assert instrument.mpe_constant is not None
    return plus(instrument.mpe_constant, times(instrument.mpe_slope, nominal))


def _shown(error: Number, instrument: Instrument) -> Number:
    """`error` cut down to what can be read: one step of a display, a tenth of a step where the eye judges."""
    if not isinstance(error, Decimal) or not isinstance(instrument.resolution, Decimal):
        return error
    step = instrument.resolution if instrument.kind.read in ("digital", "vernier") else instrument.resolution / 10
    return (error // step) * step or error


def _zero_and_blocks(instrument: Instrument, sizes: Sequence[Decimal]) -> Iterator[CheckPoint]:
    if instrument.lower:
        yield _named(instrument, instrument.lower, "setting piece")
    else:
        yield _point(instrument, "zero", _ZERO, "wiped and closed, or on the plate")
    for block in _blocks(instrument, sizes):
        yield _named(instrument, block, "gauge block")


def _lengths(instrument: Instrument, sizes: Sequence[Decimal]) -> Iterator[CheckPoint]:
    if instrument.unit == "deg":
        yield from _angles(instrument, sizes)
        return
    for block in _blocks(instrument, sizes):
        yield _named(instrument, block, "known length")


def _ring(instrument: Instrument, sizes: Sequence[Decimal]) -> Iterator[CheckPoint]:
    near = sizes[len(sizes) // 2] if sizes else (instrument.lower + instrument.upper) / 2
    yield _marked(instrument, f"ring near {plain(trimmed(_rounded(near, instrument)))}", near, "of the setting ring")


def _twice(instrument: Instrument, _: Sequence[Decimal]) -> Iterator[CheckPoint]:
    agree = _AGREE.get(instrument.unit, _AGREE["mm"])
    how = "the same hole twice: second reading of the micrometer less the first"
    yield _point(instrument, "difference", _ZERO, how, agree)


def _angles(instrument: Instrument, _: Sequence[Decimal]) -> Iterator[CheckPoint]:
    for angle in _ANGLES:
        if instrument.lower <= angle <= instrument.upper:
            how = "on a square" if angle else "on a plate"
            yield _point(instrument, plain(angle), angle, how)


def _step(instrument: Instrument, _: Sequence[Decimal]) -> Iterator[CheckPoint]:
    spread = instrument.kind.repeatability
    step = _STEP.get(instrument.unit, _STEP["mm"])
    yield _point(
        instrument, "return to zero", _ZERO, "lifted and let down: returns to the same line", _return(instrument)
    )
    if spread is not None and step <= instrument.upper:
        yield _point(instrument, f"step {plain(step)}", step, "two gauge blocks that differ by this")


def _return(instrument: Instrument) -> Number:
    """A third of the permissible error (DIN 878: 0.003 of 0.009, from memory), one step of the scale at least."""
    third = decimal_of(instrument.mpe_constant or _ZERO) / 3
    smallest = decimal_of(instrument.resolution or _ZERO)
    return max(third.quantize(Decimal("0.0001")), smallest * Decimal("0.2")).normalize()


def _setting_gauge(instrument: Instrument, sizes: Sequence[Decimal]) -> Iterator[CheckPoint]:
    near = sizes[0] if sizes else instrument.lower
    yield _marked(instrument, "setting gauge", near, "of the setting gauge or thread plug")


def _specimen(instrument: Instrument, sizes: Sequence[Decimal]) -> Iterator[CheckPoint]:
    near = sizes[-1] if sizes else instrument.upper / 2
    yield _marked(instrument, "specimen", near, "of the reference specimen")


def _named(instrument: Instrument, nominal: Decimal, how: str) -> CheckPoint:
    return _point(instrument, plain(trimmed(nominal)), nominal, how)


def _marked(instrument: Instrument, name: str, near: Decimal, whose: str) -> CheckPoint:
    """A standard whose size is marked on it: what is noted is by how much the reading differs from that."""
    error = _shown(_error(instrument, near), instrument)
    return _point(instrument, name, _ZERO, f"reading less the marked size {whose}", error)


def _blocks(instrument: Instrument, sizes: Sequence[Decimal]) -> list[Decimal]:
    """Two or three known lengths over the sizes at hand, none so near another that it tells nothing new."""
    low, high = (sizes[0], sizes[-1]) if sizes else (instrument.lower, instrument.upper)
    middle = (instrument.lower + instrument.upper) / 2
    least = (instrument.upper - instrument.lower) / _APART
    points: list[Decimal] = []
    for each in (high, low, (low + high) / 2, middle, (instrument.lower + middle) / 2):
        point = _nearest(each, instrument)
        apart = all(abs(point - other) >= least for other in points)
        # A second length tells a false zero from a false screw; more come only from the sizes themselves.
        if point > instrument.lower and apart and (len(points) < _LEAST or low <= each <= high):
            points.append(point)
    return sorted(points[:_FEW])


def _nearest(size: Decimal, instrument: Instrument) -> Decimal:
    offsets = _MICROMETER_POINTS.get(instrument.unit, ())
    if "micrometer" in instrument.kind.name and instrument.upper - instrument.lower == _SPAN.get(instrument.unit):
        return min((instrument.lower + Decimal(each) for each in offsets), key=lambda point: abs(point - size))
    return _rounded(size, instrument)


def _rounded(size: Decimal, instrument: Instrument) -> Decimal:
    """`size` to a length that a set of blocks makes at once, inside the range."""
    step = _BLOCK_STEP.get(instrument.unit, Decimal("0.5"))
    whole = (size / step).quantize(Decimal(1), ROUND_HALF_EVEN) * step
    return min(max(whole, instrument.lower), instrument.upper)


_FORMS: dict[str, Callable[[Instrument, Sequence[Decimal]], Iterator[CheckPoint]]] = {
    "zero and blocks": _zero_and_blocks,
    "lengths": _lengths,
    "ring": _ring,
    "twice": _twice,
    "angles": _angles,
    "step": _step,
    "setting gauge": _setting_gauge,
    "specimen": _specimen,
}
