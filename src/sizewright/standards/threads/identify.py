"""Name that thread: from a measured diameter and a pitch to the standard threads that it may be."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from functools import cache
from typing import Literal, NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.threads import acme, iso261, pipe, trapezoidal, unified_series
from sizewright.standards.threads.exact import exactly, root3, rounded, trimmed
from sizewright.standards.threads.iso965 import crest_tolerance
from sizewright.standards.threads.unified_rules import EDITIONS, major_tolerance, minor_tolerance
from sizewright.text.numbers import MM_PER_INCH

Unit = Literal["mm", "in"]

# A pitch gauge tells pitches 4 percent apart over a few turns; closer ones count as possible.
_PITCH_REACH = Decimal("0.04")
# Worn or truncated crests and a rough measurement: a third of a pitch beyond the limits still counts.
_DIAMETER_REACH = Decimal("0.35")
# Pitch errors add up over the turns measured, so they weigh more than the same error of the diameter.
_PITCH_WEIGHT = 10


class Candidate(NamedTuple):
    """A standard thread that a measured one may be; lengths in the unit asked for.

    Attributes:
        designation: Such as `M10x1.5`, `1/2-13 UNC`, `G1/2`.
        standard: The standard that lists it.
        flank_angle: Included flank angle in degrees.
        diameter: Basic diameter that was compared: major of an external, minor of an internal thread.
        pitch: Pitch.
        diameter_off: Measured less basic diameter.
        pitch_off: Measured less basic pitch.
        inside: True where the diameter lies within the usual limits of that thread.
        warning: Names look-alikes of another flank angle or of a taper; None where there are none.
    """

    designation: str
    standard: str
    flank_angle: int
    diameter: Decimal
    pitch: Decimal
    diameter_off: Decimal
    pitch_off: Decimal
    inside: bool
    warning: str | None


class _Listed(NamedTuple):
    """A thread of the catalogue in mm: basic diameter, then lower and upper end of the band of good parts."""

    designation: str
    standard: str
    angle: int
    pitch: Decimal
    major: tuple[Decimal, Decimal, Decimal]
    minor: tuple[Decimal, Decimal, Decimal]
    taper: bool = False


def _band(
    major: Decimal, below: Decimal, minor: Decimal, above: Decimal
) -> tuple[tuple[Decimal, Decimal, Decimal], tuple[Decimal, Decimal, Decimal]]:
    return (major, major - below, major), (minor, minor, minor + above)


def _metric() -> Iterator[_Listed]:
    """ISO 261; bands of grade 6 with allowance g, or of the coarsest grade there is."""
    for diameter, size in iso261.sizes().items():
        for pitch in size.pitches:
            below = crest_tolerance(pitch, 6, internal=False).value + Decimal("0.015") + Decimal("0.011") * pitch
            grade = 6 if pitch >= Decimal("0.3") else 4
            above = crest_tolerance(pitch, grade, internal=True).value
            minor = diameter - root3() * 5 / 8 * pitch
            bands = _band(diameter, below, minor, above)
            yield _Listed(iso261.metric_name(diameter, pitch), "ISO 261", 60, pitch, *bands)


def _unified() -> Iterator[_Listed]:
    """ASME B1.1 Table 2; bands of classes 2A and 2B."""
    edition = EDITIONS["2003"]
    for diameter, size in unified_series.sizes().items():
        for tpi, series in size.series.items():
            below = major_tolerance(tpi, "2A", edition) + Decimal("0.002")
            above = minor_tolerance(diameter, tpi, "2B", edition, Decimal(1))
            minor = diameter - root3() * 5 / 8 / tpi
            bands = _band(diameter * MM_PER_INCH, below * MM_PER_INCH, minor * MM_PER_INCH, above * MM_PER_INCH)
            yield _Listed(f"{size.name}-{trimmed(tpi)} {series}", "ASME B1.1", 60, MM_PER_INCH / tpi, *bands)


def _pipes() -> Iterator[_Listed]:
    """ISO 228-1 and ISO 7-1 (55 degrees), ASME B1.20.1 (60 degrees); tapers spread over their length."""
    for size in pipe.g_sizes():
        limits, inner = pipe.g_limits(size, internal=False, tolerance_class="B"), pipe.g_limits(size, internal=True)
        tpi, major, _, minor = pipe.g_basic(size)
        low, high = limits.major[0] or major, inner.minor[1] or minor
        yield _Listed(f"G{size}", "ISO 228-1", 55, MM_PER_INCH / tpi, (major, low, major), (minor, minor, high))
    for size in pipe.iso7_sizes():
        tpi, major, _, minor = pipe.g_basic(size)
        spread = pipe.iso7_gauging(size, "R").gauge_length / 16
        bands = (major, major - spread, major + spread), (minor, minor - spread, minor + spread)
        yield _Listed(f"R{size}", "ISO 7-1", 55, MM_PER_INCH / tpi, *bands, taper=True)
    for size in pipe.npt_sizes():
        outside, tpi = pipe.npt_pipe_diameter(size), pipe.npt_tpi(size)
        gauging = pipe.npt_gauging(size, internal=False)
        # ASME B1.20.1: thread height at most 0.8 P; at the small end the crest stands L2/16 below the pipe's outside.
        minor = gauging.pitch - Decimal("0.8") / tpi
        small = outside - (gauging.useful_length or Decimal(0)) / 16
        major_band = outside * MM_PER_INCH, small * MM_PER_INCH, outside * MM_PER_INCH
        minor_band = minor * MM_PER_INCH, (minor - gauging.gauge_length / 16) * MM_PER_INCH, minor * MM_PER_INCH
        yield _Listed(
            f"{size}-{trimmed(tpi)} NPT", "ASME B1.20.1", 60, MM_PER_INCH / tpi, major_band, minor_band, taper=True
        )


def _power_threads() -> Iterator[_Listed]:
    """ISO 2902 (30 degrees) and ASME B1.5 (29 degrees)."""
    for diameter in trapezoidal.diameters():
        for pitch in trapezoidal.pitches_of(diameter):
            below, above = trapezoidal.crest_tolerances(pitch)
            bands = _band(diameter, below, diameter - pitch, above)
            yield _Listed(trapezoidal.tr_name(diameter, pitch), "ISO 2902", 30, pitch, *bands)
    for diameter, tpi in acme.preferred().items():
        crest = max(Decimal("0.05") / tpi, Decimal("0.005")) * MM_PER_INCH
        bands = _band(diameter * MM_PER_INCH, crest, (diameter - 1 / tpi) * MM_PER_INCH, crest)
        yield _Listed(acme.acme_name(diameter, tpi), "ASME B1.5", 29, MM_PER_INCH / tpi, *bands)


@cache
@exactly
def _catalogue() -> tuple[_Listed, ...]:
    return (*_metric(), *_unified(), *_pipes(), *_power_threads())


def _outside_by(value: Decimal, band: tuple[Decimal, Decimal, Decimal]) -> Decimal:
    _, low, high = band
    return max(low - value, value - high, Decimal(0))


def _warning(thread: _Listed, others: list[_Listed]) -> str | None:
    different = [o.designation for o in others if o.angle != thread.angle]
    tapers = [o.designation for o in others if o.taper != thread.taper]
    if different:
        angles = {o.designation: o.angle for o in others}
        named = ", ".join(f"{name} ({angles[name]} degrees)" for name in different[:3])
        return f"flanks of {thread.angle} degrees; look-alike of another angle: {named}; check with a profile gauge"
    if tapers:
        kind = "without" if thread.taper else "with"
        return f"look-alike {kind} taper: {', '.join(tapers[:3])}; check whether the diameter grows along the thread"
    return None


def _candidate(
    thread: _Listed, measured: Decimal, pitch: Decimal, internal: bool, unit: Unit, others: list[_Listed]
) -> Candidate:
    band = thread.minor if internal else thread.major
    scale, places = (MM_PER_INCH, 5) if unit == "in" else (Decimal(1), 4)
    return Candidate(
        designation=thread.designation,
        standard=thread.standard,
        flank_angle=thread.angle,
        diameter=rounded(band[0] / scale, places),
        pitch=rounded(thread.pitch / scale, places),
        diameter_off=rounded((measured - band[0]) / scale, places),
        pitch_off=rounded((pitch - thread.pitch) / scale, places),
        inside=_outside_by(measured, band) == 0,
        warning=_warning(thread, [other for other in others if other is not thread]),
    )


@exactly
def identify(
    diameter: Decimal,
    *,
    pitch: Decimal | None = None,
    tpi: Decimal | None = None,
    internal: bool = False,
    unit: Unit = "mm",
    count: int = 5,
) -> tuple[Candidate, ...]:
    """Return the standard threads nearest to a measured one, likeliest first, metric and inch.

    Args:
        diameter: Measured major diameter of an external, or minor diameter of an internal thread, in `unit`.
        pitch: Measured pitch in `unit`; give this or `tpi`.
        tpi: Counted threads per inch.
        internal: True for a nut or tapped hole.
        unit: `mm` or `in`.
        count: How many threads to return at most.

    Raises:
        ValueError: Neither or both of `pitch` and `tpi` are given, or one is not positive.
        NotDefined: No standard thread is near; `near` names the closest.
    """
    if (pitch is None) == (tpi is None):
        raise ValueError("give either a pitch or threads per inch")
    if min(diameter, pitch or tpi or Decimal(0)) <= 0:
        raise ValueError("diameter and pitch have to be positive")
    scale = MM_PER_INCH if unit == "in" else Decimal(1)
    measured = diameter * scale
    measured_pitch = MM_PER_INCH / tpi if tpi is not None else (pitch or Decimal(0)) * scale

    def score(thread: _Listed) -> tuple[Decimal, Decimal]:
        band = thread.minor if internal else thread.major
        off = _PITCH_WEIGHT * abs(measured_pitch - thread.pitch) + _outside_by(measured, band)
        # Taper threads have wide bands: of two that hold the size, the nearer one is likelier.
        return off, abs(measured - band[0]) if thread.taper else Decimal(0)

    def possible(thread: _Listed) -> bool:
        band = thread.minor if internal else thread.major
        close = abs(measured_pitch - thread.pitch) <= _PITCH_REACH * thread.pitch
        return close and _outside_by(measured, band) <= _DIAMETER_REACH * thread.pitch

    ordered = sorted(_catalogue(), key=score)
    likely = [thread for thread in ordered if possible(thread)]
    if not likely:
        what = "minor" if internal else "major"
        message = f"No standard thread has a {what} diameter near {trimmed(diameter)} {unit} with that pitch."
        raise NotDefined(message, tuple(thread.designation for thread in ordered[:3]))
    return tuple(_candidate(thread, measured, measured_pitch, internal, unit, likely) for thread in likely[:count])
