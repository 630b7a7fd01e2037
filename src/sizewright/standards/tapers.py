"""Tapers of cones: the angle of a rate, and the rates of tapers known by name."""

from __future__ import annotations

from decimal import Context, Decimal, localcontext
from fractions import Fraction

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows
from sizewright.standards.threads.exact import PI

_DIGITS = 40
# Spindle noses of 7 in 24 (ISO 7388-1, ISO 297): CAT, BT, SK, INT and NMTB differ in their flange and thread alone.
_SEVEN_IN_24 = frozenset({"NMTB", "NST", "CAT", "BT", "SK", "INT"})


def half_angle(rate: Fraction) -> Decimal:
    """The angle in degrees between a cone's side and its axis: atan(rate / 2), to 5 places (ISO 3040)."""
    return _degrees(rate / 2)


def included_angle(rate: Fraction) -> Decimal:
    """The full angle in degrees of a cone: 2 atan(rate / 2), rounded once to 5 places; the rate is below 1."""
    half = rate / 2
    return _degrees(2 * half / (1 - half * half))  # the tangent of the double angle


def slope_angle(rate: Fraction) -> Decimal:
    """The angle in degrees of a slope: atan(rate), to 5 places."""
    return _degrees(rate)


def _degrees(tangent: Fraction) -> Decimal:
    with localcontext(Context(prec=_DIGITS)):
        x = Decimal(tangent.numerator) / Decimal(tangent.denominator)
        halvings = 0
        while abs(x) > Decimal("0.1"):  # atan x = 2 atan(x / (1 + sqrt(1 + x^2))): the series is short for a small x
            x = x / (1 + (1 + x * x).sqrt())
            halvings += 1
        term, total, n = x, x, 1
        while abs(term) > Decimal(10) ** (2 - _DIGITS):
            term = -term * x * x
            n += 2
            total += term / n
        degrees: Decimal = total * Decimal(2) ** halvings * 180 / PI
        return degrees.quantize(Decimal("0.00001"))


def rate_of(named: str, number: str) -> tuple[Fraction, str, str]:
    """The rate of a taper known by name: inches a foot or a plain ratio, which of the two, and the reason.

    Raises:
        NotDefined: no such size of it, or its figures are not held here.
    """
    if named == "Morse":
        for row in rows("morse_tapers"):
            if row["number"] == number:
                why = (
                    f"Morse taper No. {number}: {row['tpf']} in per foot, {row['gauge_diameter']} in at the gauge line"
                )
                return Fraction(row["tpf"]), "inch per foot", why
        raise NotDefined(f"there is no Morse taper No. {number}; 0 to 7")
    if named in _SEVEN_IN_24:
        return Fraction(7, 24), "ratio", f"{named} {number}: 7 in 24, that is 3.5 in per foot (ISO 7388-1, ISO 297)"
    if named == "Jarno":
        return Fraction("0.6"), "inch per foot", f"Jarno No. {number}: 0.600 in per foot, for every size"
    raise NotDefined(f"{named} {number}: its figures are not held here, its gauge decides")
