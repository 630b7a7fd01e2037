"""What two numbers after each other can mean: two limits, a fraction, a thread, or half a tolerance.

The rules that tell them apart are common practice; where two readings remain, both are named and none is taken.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from sizewright.notation.amounts import are_near, as_angle, is_angle, is_dual
from sizewright.notation.model import Amount, Form, LimitPair
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import places, plain

_LARGEST_FRACTION_BELOW = 17  # below the line of a fraction that somebody would write by hand
_TIMES = 100  # limits are never so far apart
_FAR_APART = Decimal("1.5")  # limits further apart than this, one above the other, are more likely two sizes

Between = Literal["/", "stacked", "to", "marked"]


def limit_pair(first: Amount, second: Amount, between: Between, text: str) -> LimitPair:
    """Two limits in either order.

    Raises:
        CalloutError: the numbers can be a fraction, a taper, or two sizes.
    """
    if between == "/" and _fraction_like(first, second):
        one, two = (text[slice(*amount.span)] for amount in (first, second))
        raise CalloutError(
            f"{one}/{two} can be two limits, a fraction or a taper",
            first.span[0],
            second.span[1],
            f"{two} TO {one} for limits, {one}:{two} for a taper",
        )
    if between == "/":
        _refuse_twice(first, second)
        _refuse_rate(first, second)
    if between == "stacked" and far_apart(first, second):
        raise CalloutError(
            "two numbers this far apart, one under the other, can be two sizes",
            first.span[0],
            second.span[1],
            "TO between them for limits, a mark or a number of its own for a second size",
        )
    if between == "marked" and not _limits_of_one(first, second):
        raise CalloutError(
            "two sizes about a stroke, or the two limits of one",
            first.span[0],
            second.span[1],
            "a semicolon between two sizes, one mark for two limits",
        )
    between_them = text[first.span[1] : second.span[0]]
    if between_them.strip() == ".." and first.value > second.value:
        one, two = (text[slice(*amount.span)] for amount in (first, second))
        raise CalloutError(
            "two points: a number with one too many, or a range from the larger down",
            first.span[0],
            second.span[1],
            f"{one}.{two}, or {two} TO {one}",
        )
    return ordered(first, second)


def _limits_of_one(first: Amount, second: Amount) -> bool:
    """Whether two numbers with a mark each can only be limits: of as many places, a twenty-fifth apart at most."""
    one, two = first.value, second.value
    if first.form is not Form.DECIMAL or second.form is not Form.DECIMAL or len({first.unit, second.unit} - {None}) > 1:
        return False
    assert isinstance(one, Decimal)
    assert isinstance(two, Decimal)
    return places(one) == places(two) > 0 and 25 * abs(one - two) <= max(one, two)


def _refuse_twice(first: Amount, second: Amount) -> None:
    """`25.4 / 1.00`, `.4531 / 29/64`: about a stroke can stand one size typed twice."""
    if is_angle(first) or is_angle(second):
        return
    span = (first.span[0], second.span[1])
    if is_dual(first, second):
        hint = "the other unit in brackets for one size (25.4 [1.000]), TO between two limits"
        raise CalloutError("two limits, or one size in mm and in inches", *span, hint)
    if (first.form is Form.DECIMAL) is not (second.form is Form.DECIMAL) and are_near(first, second):
        hint = "one of the two numbers, TO between two limits"
        raise CalloutError("two limits, or a decimal and its fraction", *span, hint)


def _refuse_rate(first: Amount, second: Amount) -> None:
    """`0.02/100`: two numbers this far apart are an amount on a length."""
    if is_rate(first, second):
        span = (first.span[0], second.span[1])
        hint = "TO between two limits, the sign of the characteristic before a zone (⏥ 0.02/100)"
        raise CalloutError("two limits this far apart can be an amount on a length", *span, hint)


def is_rate(first: Amount, second: Amount) -> bool:
    """Whether one number is so many times the other that no size is made between the two."""
    if is_angle(first) is not is_angle(second):
        return False
    small, large = sorted((first.value, second.value))
    return large >= _TIMES * small > 0


def ordered(first: Amount, second: Amount) -> LimitPair:
    """Two limits, whichever is typed first."""
    one, two = alike([first, second])
    return LimitPair(one, two) if one.value >= two.value else LimitPair(two, one)


def alike(amounts: list[Amount]) -> list[Amount]:
    """The numbers of one size in one sort and one unit: all angles if one is, all in the unit that one names.

    Raises:
        CalloutError: two units, or a length beside an angle.
    """
    if any(is_angle(amount) for amount in amounts):
        return [as_angle(amount) for amount in amounts]
    units = [amount.unit for amount in amounts if amount.unit]
    if len(set(units)) > 1:
        odd = next(amount for amount in amounts if amount.unit and amount.unit != units[0])
        raise CalloutError("two units in one size", *odd.span, "one unit for a size and its tolerance")
    unit = units[0] if units else None
    return [amount._replace(unit=unit) if amount.unit != unit else amount for amount in amounts]


def dashed(nominal: Amount, deviation: Amount, text: str, kind: str | None) -> LimitPair:
    """One signed number after a size: the second of two limits (24.9-25.1).

    Only a dash with the same blanks on both sides parts limits; with a blank before it alone it is a sign.

    Raises:
        CalloutError: it is half of a tolerance, or a thread, or may be either.
    """
    start = deviation.span[0]
    written, figure = text[slice(*nominal.span)], text[slice(*deviation.span)].lstrip("+-").strip()
    even = (text[start - 1 : start] == " ") == (text[start + 1 : start + 2] == " ")
    other = deviation._replace(value=-deviation.value)
    if text[start] == "-" and even and deviation.value < 0:
        if (kind is None or not is_whole(nominal)) and _thread_like(nominal, other):
            raise CalloutError(
                f"{written}-{figure} can be two limits or a thread",
                nominal.span[0],
                deviation.span[1],
                f"{written} TO {figure} for limits, the series after it for a thread",
            )
        if other.value > nominal.value or other.value * 2 >= nominal.value:
            return ordered(nominal, other)
    raise _half_a_tolerance(nominal, deviation, written, figure)


def _half_a_tolerance(nominal: Amount, deviation: Amount, written: str, figure: str) -> CalloutError:
    if deviation.value == 0:
        hint = f"{written} +0.1/0, both deviations"
        if len(figure) == 3 and figure.isdigit():
            hint += f"; {written}{figure} without the blank if it is one number"
        return CalloutError("a deviation of 0 alone", *deviation.span, hint)
    if nominal.form is Form.FEET and "'" in written and '"' not in written:
        return CalloutError("feet and inches without the inch mark", *deviation.span, f'{written}-{figure}"')
    zero_form = f"{written} +{figure}/0" if deviation.value > 0 else f"{written} 0/-{figure}"
    limits = f", or {written}-{figure} for limits" if deviation.value < 0 and -deviation.value > nominal.value else ""
    return CalloutError(
        "one deviation alone: the other is missing, or the sign is half of ±",
        *deviation.span,
        f"{zero_form} or {written} ±{figure}{limits}",
    )


def _fraction_like(first: Amount, second: Amount) -> bool:
    """1/3, 7/24, 1/50: whole numbers, the smaller above, that nobody means as limits unless they are close."""
    if not (is_whole(first) and (is_whole(second) or is_angle(second))):
        return False
    return first.value < second.value and (second.value < _LARGEST_FRACTION_BELOW or 5 * second.value > 6 * first.value)


def far_apart(first: Amount, second: Amount) -> bool:
    """Whether two numbers are more likely two sizes than the limits of one."""
    if is_angle(first) is not is_angle(second):
        return True
    small, large = sorted((first.value, second.value))
    return large > small * _FAR_APART if isinstance(small, Decimal) else False


def _thread_like(first: Amount, second: Amount) -> bool:
    """1/4-20, 10-24, 0-80, 2-4.5: an inch size and a number of threads, at least twice as large."""
    turns = is_whole(second) or second.value == Decimal("4.5")
    return turns and second.value >= 2 * first.value and second.value > 1 and not is_angle(first)


def is_whole(amount: Amount | None) -> bool:
    """Whether a number is a whole one without a unit, as a count would be."""
    return (
        amount is not None
        and amount.form is Form.DECIMAL
        and amount.unit is None
        and isinstance(amount.value, Decimal)
        and "." not in plain(amount.value)
    )
