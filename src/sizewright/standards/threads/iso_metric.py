"""ISO metric threads (ISO 68-1, 261, 724, 965): limits of size by diameter, pitch and tolerance class."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from sizewright.standards.errors import NotDefined
from sizewright.standards.threads.exact import exactly, root3, rounded, trimmed
from sizewright.standards.threads.iso261 import coarse_pitch, is_standard, metric_name, near_sizes, pitches_of, sizes
from sizewright.standards.threads.iso965 import (
    ClassFigures,
    Group,
    ToleranceClass,
    class_figures,
    crest_tolerance,
    diameter_range,
    engagement_group,
    pitch_tolerance,
)
from sizewright.standards.threads.model import Doubt, ThreadLimits

__all__ = [
    "basic_minor",
    "basic_pitch",
    "check_form",
    "coarse_pitch",
    "default_class",
    "engagement_group",
    "is_standard",
    "metric_limits",
    "pitches_of",
    "reference_major_max",
    "starts",
]

Root = Literal["basic", "H/6"]

# Classes that ISO 965-1 recommends for tolerance quality medium, by group of engagement.
_MEDIUM = {
    True: {"S": ("5H",), "N": ("6H", "6G"), "L": ("7H", "7G")},
    False: {"S": ("5g6g", "5h6h"), "N": ("6g", "6f", "6e", "6h"), "L": ("7g6g", "7e6e", "7h6h")},
}


@exactly
def basic_pitch(diameter: Decimal, pitch: Decimal) -> Decimal:
    """Return d2 = D2 = d - 3/4 H = d - 0.649519 P in mm, to the micrometre as ISO 724 prints it."""
    return rounded(diameter - root3() * 3 / 8 * pitch, 3)


@exactly
def basic_minor(diameter: Decimal, pitch: Decimal) -> Decimal:
    """Return d1 = D1 = d - 1.082532 P in mm, to the micrometre as ISO 724 prints it."""
    return rounded(diameter - root3() * 5 / 8 * pitch, 3)


@exactly
def _root_h6(diameter: Decimal, pitch: Decimal) -> Decimal:
    """Return d3 = d - 17/12 H = d - 1.226869 P in mm: root rounded with H/6, the stress diameter of ISO 965-4."""
    return rounded(diameter - root3() * 17 / 24 * pitch, 3)


@exactly
def _root_least(pitch_min: Decimal, pitch: Decimal) -> Decimal:
    """Least minor diameter in mm with the least root radius R = 0.125 P: d2 min - H + 2 R = d2 min - 0.616025 P."""
    return rounded(pitch_min - (root3() / 2 - Decimal("0.25")) * pitch, 3)


@exactly
def reference_major_max(diameter: Decimal, pitch: Decimal, pitch_high: Decimal) -> Decimal:
    """Return the greatest D in mm that ASME B1.13M prints for reference: D + H/6 + `pitch_high`, which is EI + TD2."""
    return rounded(diameter + root3() / 12 * pitch + pitch_high, 3)


def default_class(diameter: Decimal, pitch: Decimal, internal: bool) -> str:
    """Return the class meant when a callout names none (ISO 965-1, designation): 6H or 6g, to M1.4 5H or 6h.

    Pitches of 0.2 and 0.25 mm have no TD1 of those grades in every case; there the coarsest grade below is taken,
    as the standard says for 0.2 mm.
    """
    if not internal:
        return "6h" if diameter <= Decimal("1.4") else "6g"
    for grade in (5, 4) if diameter <= Decimal("1.4") else (6, 5, 4):
        try:
            crest_tolerance(pitch, grade, internal=True)
            pitch_tolerance(diameter, pitch, grade, internal=True)
        except NotDefined:
            continue
        return f"{grade}H"
    # The size lies outside the tables: name the usual class and let the limits refuse it with their own reason.
    return "6H"


@exactly
def starts(lead: Decimal, pitch: Decimal) -> int:
    """Return the number of starts of a thread of `lead` and `pitch`, both in one unit (ISO 965-1: Ph and P).

    Raises:
        NotDefined: The lead is not a whole multiple of the pitch.
    """
    if pitch <= 0:
        raise NotDefined(f"{trimmed(pitch)} is not a pitch.")
    count = lead / pitch
    if count != count.to_integral_value() or count < 1:
        near = tuple(trimmed(pitch * n) for n in sorted({max(1, int(count)), max(1, int(count) + 1)}))
        raise NotDefined(f"A lead of {trimmed(lead)} is not a whole multiple of the pitch {trimmed(pitch)}.", near)
    return int(count)


@exactly
def check_form(diameter: Decimal, pitch: Decimal) -> None:
    """Refuse a pitch in mm that leaves no metric thread on `diameter` mm.

    Raises:
        NotDefined: The root would lie below half the diameter, or the diameter lies outside ISO 965-1.
    """
    diameter_range(diameter)
    # The coarsest thread of ISO 261 for its size, M1x0.25, leaves a root of 0.69 d.
    if pitch <= 0 or 2 * _root_h6(diameter, pitch) < diameter:
        message = f"A pitch of {trimmed(pitch)} mm does not go with {metric_name(diameter)}."
        raise NotDefined(message, near_sizes(diameter))


def _combination_remarks(diameter: Decimal, pitch: Decimal, figures: ClassFigures) -> list[str]:
    remarks: list[str] = []
    if not is_standard(diameter, pitch):
        known = (
            [metric_name(diameter, p) for p in pitches_of(diameter)] if diameter in sizes() else near_sizes(diameter)
        )
        name = metric_name(diameter, pitch)
        remarks.append(Doubt(f"{name} is not a standard combination of ISO 261; near: {', '.join(known)}"))
    if not figures.tabulated:
        remarks.append("ISO 965-1 does not tabulate this combination: tolerances by its formulas, rounded to R40")
    return remarks


def _is_galvanizing_size(diameter: Decimal, pitch: Decimal) -> bool:
    """Tell whether ISO 965-4 and 965-5 (hot dip galvanizing) cover a size in mm: coarse threads M10 to M64."""
    return 10 <= diameter <= 64 and diameter in sizes() and sizes()[diameter].coarse == pitch


def _class_remarks(parts: ToleranceClass, text: str, internal: bool, engagement: Group, lead_starts: int) -> list[str]:
    remarks = []
    recommended = _MEDIUM[internal][engagement]
    if engagement != "N" and text not in recommended:
        remarks.append(f"for group {engagement} ISO 965-1 recommends {' or '.join(recommended)} (quality medium)")
    if {parts.pitch_position, parts.crest_position} & set("abcd"):
        remarks.append(Doubt("deviations a to d are those of ISO 965-1:2013, not confirmed by a second print"))
    if lead_starts > 1:
        remarks.append(f"{lead_starts} starts: limits by the pitch, not the lead")
    return remarks


@exactly
def metric_limits(
    diameter: Decimal,
    pitch: Decimal,
    tolerance_class: str,
    internal: bool,
    engagement: Group = "N",
    *,
    lead: Decimal | None = None,
    root: Root | None = None,
) -> ThreadLimits:
    """Return the limits in mm of an ISO metric thread (ISO 965-1).

    Args:
        diameter: Nominal (basic major) diameter in mm.
        pitch: Pitch in mm.
        tolerance_class: `6H`, `6g`, `4g6g` ...: pitch diameter first, crest diameter second.
        internal: True for a nut or tapped hole.
        engagement: Group of the length of engagement; it chooses the recommended class, not the tolerance.
        lead: Lead in mm of a thread of several starts.
        root: Profile of the external minor diameter's upper limit: `basic`, d1 + es, the boundary of the basic profile
            that ISO 965-1 forbids to cross and limit tables print; `H/6`, d3 + es, the rounded design root.
            By default the one that the standard of the class tabulates: `H/6` for az (ISO 965-4), otherwise `basic`.

    Raises:
        NotDefined: ISO 965 has no such class, grade, position or size.
    """
    check_form(diameter, pitch)
    figures = class_figures(diameter, pitch, tolerance_class, internal)
    why = [*figures.why, f"group {engagement}"]
    remarks = _combination_remarks(diameter, pitch, figures)
    remarks += _class_remarks(
        figures.parts, tolerance_class, internal, engagement, 1 if lead is None else starts(lead, pitch)
    )
    if figures.parts.crest_position in ("az", "AZ", "AX") and not _is_galvanizing_size(diameter, pitch):
        remarks.append(f"ISO 965-4 and 965-5 define {tolerance_class} for coarse threads M10 to M64 only")
    near_edge = basic_pitch(diameter, pitch) + figures.pitch_deviation.value
    crest_edge = rounded(diameter, 3) + figures.crest_deviation.value
    if internal:
        minor_min = basic_minor(diameter, pitch) + figures.crest_deviation.value
        pitch_max = near_edge + figures.pitch_width.value
        reference = reference_major_max(diameter, pitch, figures.pitch_deviation.value + figures.pitch_width.value)
        remarks.append(f"ISO 965-1 sets no upper limit of D; ASME B1.13M prints D max {reference} mm for reference")
        minor = (minor_min, minor_min + figures.crest_width.value)
        return ThreadLimits((crest_edge, None), (near_edge, pitch_max), minor, tuple(why), tuple(remarks))
    profile: Root = root or ("H/6" if figures.parts.crest_position == "az" else "basic")
    pitch_min = near_edge - figures.pitch_width.value
    if profile == "H/6":
        minor_max = _root_h6(diameter, pitch) + figures.pitch_deviation.value
        why.append("minor max: d3 + es, root rounded with H/6")
    else:
        minor_max = basic_minor(diameter, pitch) + figures.pitch_deviation.value
        why.append("minor max: d1 + es, boundary of the basic profile")
    why.append("minor min: d2 min - 0.616025 P, least root radius 0.125 P")
    remarks.append("the external minor diameter has no tolerance of its own: the GO gauge checks its upper limit")
    major = (crest_edge - figures.crest_width.value, crest_edge)
    minor = (_root_least(pitch_min, pitch), minor_max)
    return ThreadLimits(major, (pitch_min, near_edge), minor, tuple(why), tuple(remarks))
