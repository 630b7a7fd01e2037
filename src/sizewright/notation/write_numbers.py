"""Numbers of callouts as text: sizes, limits, deviations, angles, in the manner of a drawing practice."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from sizewright.notation.amounts import is_angle, is_dual
from sizewright.notation.model import Amount, Form, LimitPair
from sizewright.notation.pairs import is_rate
from sizewright.notation.write_styles import Style, Unit
from sizewright.text.numbers import add, finite_decimal, plain


def limits_text(pair: LimitPair, style: Style, unit: Unit) -> str:
    """Two limits: with a stroke or a dash, or with TO where those would read as something else."""
    first = pair.upper if pair.upper.value else pair.upper._replace(unit=None)  # nothing has no unit: 0 TO 0"
    upper, lower = (amount_text(amount, style, unit) for amount in (first, pair.lower))
    with_stroke = _decimal(pair.upper, pair.lower) and not is_dual(pair.upper, pair.lower)
    if 0 in (pair.upper.value, pair.lower.value) or not with_stroke or is_rate(pair.upper, pair.lower):
        return f"{upper} TO {lower}"
    if style.high_first:
        return f"{_pointed(upper, style)}/{_pointed(lower, style)}"
    return f"{_pointed(lower, style)}-{_pointed(upper, style)}"


def _decimal(*amounts: Amount) -> bool:
    return all(amount.form in (Form.DECIMAL, Form.DEGREES) for amount in amounts)


def _pointed(text: str, style: Style) -> str:
    """A whole number as a limit gets a place: 25/16 would read as a fraction, 8-32 as a thread."""
    return text + (",0" if style.comma else ".0") if text.isdigit() else text


def deviation_text(amount: Amount, style: Style, unit: Unit, zero_sign: str) -> str:
    """A deviation with its sign; `zero_sign` is that of a zero, where the manner writes one."""
    if amount.value == 0:
        if amount.form is Form.MINUTES:
            return zero_sign + amount_text(amount, style, unit)
        inches = (amount.unit or unit) == "inch" and not is_angle(amount)
        return zero_sign + amount_text(amount, style, unit) if style.signed_zero and inches else "0"
    return ("+" if amount.value > 0 else "-") + amount_text(amount, style, unit)


def amount_text(amount: Amount, style: Style, unit: Unit) -> str:
    """The number without its sign."""
    if isinstance(amount.value, Fraction):
        return _angle(abs(amount.value), amount.form, style)
    value: Decimal = abs(amount.value)
    own_unit = amount.unit or unit
    if amount.form is Form.FEET:
        feet = int(value) // 12
        return f"{feet}'-{_mixed(add(value, Decimal(-12 * feet)))}\""  # type: ignore[arg-type]
    if amount.form is Form.FRACTION and value == int(value):
        text = f"{int(value) * 2}/2"  # a whole number alone would read as a decimal
    else:
        text = _mixed(value) if amount.form is Form.FRACTION else plain(value)
    if amount.form is Form.DECIMAL:
        if own_unit == "inch" and not style.inch_zero and text.startswith("0."):
            text = text[1:]
        if own_unit == "mm" and style.comma:
            text = text.replace(".", ",")
    return text + {"mm": " mm", "inch": '"', None: ""}[amount.unit]


def _mixed(value: Decimal) -> str:
    exact = Fraction(value)
    whole, rest = divmod(exact.numerator, exact.denominator)
    if not rest:
        return str(whole)
    if not whole and (exact.denominator & (exact.denominator - 1) or exact.denominator > 128):
        return plain(value)
    part = f"{rest}/{exact.denominator}"
    return f"{whole} {part}" if whole else part


def _angle(value: Fraction, form: Form, style: Style) -> str:
    degrees = finite_decimal(value)
    if form is Form.DEGREES and degrees is not None:
        text = plain(degrees)
        return (text.replace(".", ",") if style.comma else text) + "°"
    whole, rest = divmod(value, 1)
    minutes, part = divmod(rest * 60, 1)
    seconds = finite_decimal(part * 60)
    text = f"{whole}°{minutes}'"
    return text if not seconds else f'{text}{plain(seconds)}"'
