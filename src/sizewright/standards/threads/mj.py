"""MJ threads (ISO 5855-1): the M thread with a controlled, larger root radius and a larger internal minor diameter."""

from __future__ import annotations

from decimal import Decimal

from sizewright.standards.errors import NotDefined
from sizewright.standards.threads.exact import exactly, root3, rounded, trimmed
from sizewright.standards.threads.iso261 import is_standard, near_sizes
from sizewright.standards.threads.iso965 import Group, class_figures
from sizewright.standards.threads.iso_metric import basic_pitch, check_form
from sizewright.standards.threads.model import Doubt, ThreadLimits

# Pairs of ISO 5855-1 Table 2 that ISO 261 does not have (diameter, pitch in mm).
_OWN_PAIRS = {
    (Decimal(d), Decimal(p))
    for d, p in (
        ("11", "1.25"),
        ("24", "1"),
        ("35", "2"),
        ("78", "1.5"),
        ("78", "3"),
        ("82", "1.5"),
        ("82", "3"),
        ("85", "1.5"),
        ("90", "1.5"),
    )
}


@exactly
def root_limits(pitch_min: Decimal, pitch_max: Decimal, pitch: Decimal) -> tuple[Decimal, Decimal]:
    """Return the least and greatest minor diameter under a J root, unrounded, in the unit given.

    A radius R tangent to both flanks truncates the sharp root by R: d3 = d2 - H + 2 R, with R from 0.15011 P to
    5/24 H = 0.18042 P (ISO 5855-1, ASME B1.15).
    """
    triangle = root3() / 2 * pitch
    return pitch_min - triangle + 2 * Decimal("0.15011") * pitch, pitch_max - triangle * 7 / 12


@exactly
def internal_minor_basic(diameter: Decimal, pitch: Decimal) -> Decimal:
    """Return D1 = D - 9/8 H = D - 0.974279 P, unrounded, in the unit given: crest truncated by 5/16 H."""
    return diameter - root3() * 9 / 16 * pitch


def default_class(diameter: Decimal, internal: bool) -> str:
    """Return the usual class of an MJ thread (ISO 5855-2): 4h6h; 4H6H to 5 mm, 4H5H above."""
    if not internal:
        return "4h6h"
    return "4H6H" if diameter <= 5 else "4H5H"


def _is_listed(diameter: Decimal, pitch: Decimal) -> bool:
    """Tell whether ISO 5855-1 Table 2 has the pair: that of ISO 261 without 8 mm pitches, and some of its own."""
    return (is_standard(diameter, pitch) and pitch < 8) or (diameter, pitch) in _OWN_PAIRS


@exactly
def mj_limits(
    diameter: Decimal, pitch: Decimal, tolerance_class: str, internal: bool, engagement: Group = "N"
) -> ThreadLimits:
    """Return the limits in mm of an MJ thread: deviations and tolerances of ISO 965-1 on the profile of ISO 5855-1.

    Args:
        diameter: Nominal diameter in mm, 1.6 or more.
        pitch: Pitch in mm.
        tolerance_class: Pitch diameter class, then crest class, such as `4h6h` or `4H5H`.
        internal: True for a nut or tapped hole.
        engagement: Group of the length of engagement.

    Raises:
        NotDefined: Smaller than MJ1.6, or no such class or size in ISO 965-1.
    """
    if diameter < Decimal("1.6"):
        message = f"ISO 5855 begins at MJ1.6, not MJ{trimmed(diameter)}."
        raise NotDefined(message, tuple(f"MJ{name[1:]}" for name in near_sizes(Decimal("1.6"))[:1]))
    check_form(diameter, pitch)
    figures = class_figures(diameter, pitch, tolerance_class, internal)
    why = [*figures.why, f"group {engagement}"]
    remarks: list[str] = (
        []
        if _is_listed(diameter, pitch)
        else [Doubt(f"MJ{trimmed(diameter)}x{trimmed(pitch)} is not in the table of ISO 5855-1")]
    )
    if not figures.tabulated:
        remarks.append("ISO 965-1 does not tabulate this combination: tolerances by its formulas, rounded to R40")
    crest_edge = rounded(diameter, 3) + figures.crest_deviation.value
    near_edge = basic_pitch(diameter, pitch) + figures.pitch_deviation.value
    if internal:
        minor_min = rounded(internal_minor_basic(diameter, pitch), 3) + figures.crest_deviation.value
        why.append("minor min: D - 0.974279 P, ISO 5855-1")
        remarks.append("ISO 5855-1 sets no upper limit of the internal major diameter")
        pitch_limits = (near_edge, near_edge + figures.pitch_width.value)
        minor = (minor_min, minor_min + figures.crest_width.value)
        return ThreadLimits((crest_edge, None), pitch_limits, minor, tuple(why), tuple(remarks))
    pitch_min = near_edge - figures.pitch_width.value
    # The limits of d2 are in whole micrometres; the root follows from the unrounded basic pitch diameter.
    exact_basic = diameter - root3() * 3 / 8 * pitch
    shift = exact_basic - basic_pitch(diameter, pitch)
    lower, upper = root_limits(pitch_min + shift, near_edge + shift, pitch)
    why.append("minor: root radius 0.15011 P to 0.18042 P, ISO 5855-1")
    remarks.append("the root radius is a requirement of its own, to be inspected by its profile")
    major = (crest_edge - figures.crest_width.value, crest_edge)
    minor = (rounded(lower, 3), rounded(upper, 3))
    return ThreadLimits(major, (pitch_min, near_edge), minor, tuple(why), tuple(remarks))
