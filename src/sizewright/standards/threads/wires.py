"""Three-wire measurement of external threads: wires, reading over wires and pitch diameter, in any one unit.

M = E + w (1 + 1/sin a) - (P/2) cot a, with a half the included flank angle, is exact for wires in annular grooves.
The helix lifts the wires; the first-order term (w/2) tan^2(lead angle) cos a cot a is added on request. It is good to a
lead angle of about 5 degrees. Elastic compression under the measuring force is not corrected (ASME B1.2, FED-STD-H28).
"""

from decimal import Decimal
from typing import NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.threads.exact import PI, cosine, cotangent, exactly, root3, sine, trimmed

FLANK_ANGLES = {"M": 60, "MJ": 60, "Tr": 30, "Acme": 29, "Stub Acme": 29, "G": 55}
"""Included flank angle in degrees by form; the series of Unified threads have 60."""

# Height of the crest above the pitch line in pitches, maximum material, by included flank angle in degrees.
# 60: 3/8 H (ISO 68-1, ASME B1.1); 55: H/3 (ISO 228-1, 0.640327 P / 2); 30 and 29: P/4 (ISO 2901, ASME B1.5).
_ADDENDA = {60: None, 55: Decimal("0.3201635"), 30: Decimal("0.25"), 29: Decimal("0.25")}

ANGLES = tuple(_ADDENDA)

# Handbooks stop at 0.90 P for 60 degree threads, well short of the crest, where flank damage is likely.
_TEXTBOOK_MOST = {60: Decimal("0.90")}

STEEPEST_LEAD_ANGLE = Decimal(5)
"""Lead angle in degrees up to which the lead term holds."""

_ROUNDS = 60


class WireRange(NamedTuple):
    """Usable wires in the unit of the pitch.

    Attributes:
        least: Just stands above the crests.
        best: Touches the flanks at the pitch line, where an angle error hardly enters.
        most: Still touches straight flanks safely.
    """

    least: Decimal
    best: Decimal
    most: Decimal


def _half(angle: int) -> Decimal:
    if angle not in _ADDENDA:
        message = f"Three-wire measurement is held for flank angles of 60, 55, 30 and 29 degrees, not {angle}."
        raise NotDefined(message, tuple(str(a) for a in sorted(ANGLES, key=lambda a: abs(a - angle))))
    return Decimal(angle) / 2


@exactly
def _addendum(angle: int) -> Decimal:
    known = _ADDENDA[angle]
    return root3() * 3 / 16 if known is None else known


@exactly
def best_wire(pitch: Decimal, angle: int = 60) -> Decimal:
    """Return the best wire P / (2 cos a), in the unit of `pitch`.

    Raises:
        NotDefined: The included flank angle is not 60, 55, 30 or 29 degrees.
    """
    return pitch / (2 * cosine(_half(angle)))


@exactly
def wire_range(pitch: Decimal, angle: int = 60) -> WireRange:
    """Return the usable wires for `pitch`, in its unit.

    The least wire stands flush with the crest, the greatest touches the flank at the crest (60 degrees: to 0.90 P).

    Raises:
        NotDefined: The included flank angle is not 60, 55, 30 or 29 degrees.
    """
    half = _half(angle)
    sharp = sine(half)
    groove = cotangent(half) / 4
    least = (_addendum(angle) + groove) * 2 / (1 + 1 / sharp)
    most = (_addendum(angle) + groove) * 2 * sharp / cosine(half) ** 2
    most = min(most, _TEXTBOOK_MOST.get(angle, most))
    return WireRange(least * pitch, best_wire(pitch, angle), most * pitch)


@exactly
def lead_term(pitch_diameter: Decimal, lead: Decimal, wire: Decimal, angle: int = 60) -> Decimal:
    """Return (w/2) s^2 cos a cot a with s = L / (pi E): by how much the helix raises the reading, in the unit given.

    Raises:
        NotDefined: The flank angle is none of those laid down, or the lead angle is over 5 degrees.
    """
    half = _half(angle)
    slope = lead / (PI * pitch_diameter)
    if slope > sine(STEEPEST_LEAD_ANGLE) / cosine(STEEPEST_LEAD_ANGLE):
        message = f"The lead term holds to a lead angle of 5 degrees; a lead of {trimmed(lead)} is steeper."
        raise NotDefined(message, ("measure without the lead term and state it", "use a helicoid calculation"))
    return wire / 2 * slope * slope * cosine(half) * cotangent(half)


@exactly
def _simple(pitch: Decimal, wire: Decimal, angle: int) -> Decimal:
    half = _half(angle)
    return wire * (1 + 1 / sine(half)) - pitch / 2 * cotangent(half)


@exactly
def over_wires(
    pitch_diameter: Decimal, pitch: Decimal, wire: Decimal, angle: int = 60, lead: Decimal | None = None
) -> Decimal:
    """Return the reading M over three wires, in the unit given, unrounded.

    Args:
        pitch_diameter: Pitch diameter E.
        pitch: Pitch P.
        wire: Diameter w of each wire.
        angle: Included flank angle in degrees.
        lead: Lead L; when given, the lead term is added, when None the simple formula is used.

    Raises:
        NotDefined: The flank angle or the lead is outside what is laid down.
    """
    term = Decimal(0) if lead is None else lead_term(pitch_diameter, lead, wire, angle)
    return pitch_diameter + _simple(pitch, wire, angle) + term


@exactly
def pitch_diameter_from_wires(
    reading: Decimal, pitch: Decimal, wire: Decimal, angle: int = 60, lead: Decimal | None = None
) -> Decimal:
    """Return the pitch diameter E from a reading M over three wires, in the unit given, unrounded.

    Arguments and errors are those of `over_wires`. With a lead the term depends on E, which is settled by repetition.
    """
    simple = reading - _simple(pitch, wire, angle)
    if lead is None:
        return simple
    found = simple
    for _ in range(_ROUNDS):
        following = simple - lead_term(found, lead, wire, angle)
        if abs(following - found) < Decimal("1e-30"):
            break
        found = following
    return found


@exactly
def limits_over_wires(
    pitch_limits: tuple[Decimal, Decimal], pitch: Decimal, wire: Decimal, angle: int = 60, lead: Decimal | None = None
) -> tuple[Decimal, Decimal]:
    """Return the lower and upper limit of the reading for limits of the pitch diameter; arguments as `over_wires`."""
    low, high = pitch_limits
    return over_wires(low, pitch, wire, angle, lead), over_wires(high, pitch, wire, angle, lead)
