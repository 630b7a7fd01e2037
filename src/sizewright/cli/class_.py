"""`sizewright class`: from two limits, or from measured sizes, to the tolerance classes that would hold them."""

from __future__ import annotations

import argparse
from decimal import Decimal

from sizewright.cli.numbers import size
from sizewright.standards.classes import classes_holding, classes_holding_sizes
from sizewright.standards.errors import NotDefined
from sizewright.text.errors import InputError
from sizewright.text.numbers import MM_PER_INCH, plain

_EPILOG = """\
examples:
  sizewright class 25.000 25.021 --side internal       two limits: the classes nearest to them
  sizewright class 24.987 24.991 24.989 --side external --measured
  sizewright class 0.9998 1.0006 --side internal --unit inch
"""


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `class`."""
    parser.epilog = _EPILOG
    parser.add_argument("sizes", nargs="+", type=size, metavar="SIZE", help="two limits, or sizes with --measured")
    parser.add_argument("--side", choices=["internal", "external"], required=True, help="a hole or a shaft")
    parser.add_argument("--measured", action="store_true", help="the sizes are readings of a part, not limits")
    parser.add_argument("--nominal", type=size, help="the nominal size, if it is known")
    parser.add_argument("--unit", choices=["mm", "inch"], default="mm", help="unit of the sizes")
    parser.add_argument("--count", type=int, choices=range(1, 51), default=5, metavar="N", help="how many to show (5)")


def run(given: argparse.Namespace) -> int:
    """Show the classes, nearest first, with what differs."""
    sizes = [_in_mm(value, given.unit) for value in given.sizes]
    nominal = None if given.nominal is None else _in_mm(given.nominal, given.unit)
    internal, inch = given.side == "internal", given.unit == "inch"
    try:
        if given.measured:
            lines = _measured(sizes, nominal, internal=internal, inch=inch, count=given.count)
        elif len(sizes) == 2:
            lines = _limits(min(sizes), max(sizes), nominal, internal=internal, inch=inch, count=given.count)
        else:
            raise InputError("two limits are needed; for readings of a part add --measured")
    except NotDefined as error:
        raise InputError(error.message) from None
    if given.unit == "inch":
        print("taken in mm, 1 in = 25.4 mm exactly")
    print("\n".join(lines))
    return 0


def _in_mm(value: Decimal, unit: str) -> Decimal:
    return value * MM_PER_INCH if unit == "inch" else value


def _limits(
    lower: Decimal, upper: Decimal, nominal: Decimal | None, *, internal: bool, inch: bool, count: int
) -> list[str]:
    matches = classes_holding(lower, upper, nominal, internal, count, inch=inch)
    lines = [f"limits {plain(lower)} to {plain(upper)} mm, nominal size {plain(matches[0].nominal)} mm:"]
    for match in matches:
        low, high = match.deviations.limits(match.nominal)
        differs = "exactly these limits"
        if not match.exact:
            below, above = _micrometres(match.lower_difference), _micrometres(match.upper_difference)
            differs = f"lower limit {below}, upper limit {above}"
        preferred = ", in a list of preferred fits" if match.preferred else ""
        lines.append(f"  {match.name:<6}{plain(low)} to {plain(high)} mm: {differs}{preferred}")
    return lines


def _measured(sizes: list[Decimal], nominal: Decimal | None, *, internal: bool, inch: bool, count: int) -> list[str]:
    held = classes_holding_sizes(sizes, nominal, internal, count, inch=inch)
    span = f"{plain(min(sizes))} to {plain(max(sizes))} mm"
    if not held:
        return [f"no class of ISO 286 holds {span}"]
    lines = [f"measured {span}, nominal size {plain(held[0].nominal)} mm; classes that hold it:"]
    for each in held:
        low, high = each.deviations.limits(each.nominal)
        room = f"{plain(_um(each.room_below))} µm of room below, {plain(_um(each.room_above))} µm above"
        preferred = ", in a list of preferred fits" if each.preferred else ""
        lines.append(f"  {each.name:<6}{plain(low)} to {plain(high)} mm: {room}{preferred}")
    lines.append("A part that lies in a class need not have been made to it: the drawing tells.")
    return lines


def _um(value: Decimal) -> Decimal:
    micrometres = value * 1000
    return (
        micrometres.quantize(Decimal(1)) if micrometres == micrometres.to_integral_value() else micrometres.normalize()
    )


def _micrometres(value: Decimal) -> str:
    if value == 0:
        return "the same"
    return f"{plain(_um(abs(value)))} µm {'above' if value > 0 else 'below'}"
