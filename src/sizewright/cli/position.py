"""`sizewright position`: from measured coordinates to the value of position, and whether it is within its zone."""

from __future__ import annotations

import argparse
import textwrap
from decimal import Decimal
from typing import NamedTuple

from sizewright.cli.numbers import offset, size, width
from sizewright.resolve.characteristic import Characteristic, Side
from sizewright.standards.material_condition import Material, bonus, diametral_position, lies_within
from sizewright.text.errors import InputError
from sizewright.text.numbers import add as plus
from sizewright.text.numbers import plain

_EPILOG = """\
examples:
  sizewright position --x 0.12 --y -0.05 --zone 0.3
  sizewright position --x 0.12 --y -0.05 --zone 0.3 --at mmc --size 6.72 --mmc 6.6 --lmc 6.8
  sizewright position --x 0.12 --y -0.05 --size 6.72 --callout "Ø6.6 +0.2/0 THRU |⌖|Ø0.3(M)|A|B|"
  sizewright position --x 0.02 --y 0.03 --z 0.06 --zone 0.2     a point in a spherical zone
  sizewright position --x=-0,12 --y 0.05 --zone 0.3             a minus and a comma after =

--x, --y and --z are how far the measured axis is from its true place. The bonus goes by the actual mating size: the
largest pin that fits the hole, the smallest ring over the shaft. A size between two points can make it too large.
"""
_WIDTH = 80
_MATERIALS: dict[str, Material] = {"mmc": "M", "lmc": "L", "rfs": "S"}
_MOST_PLACES = 15


class Zone(NamedTuple):
    """The zone, what makes it grow, and the limits of the feature where they are told. One unit for all."""

    width: Decimal
    material: Material
    lower: Decimal | None = None
    upper: Decimal | None = None
    internal: bool | None = None
    shifts: bool = False  # a datum has (M) or (L)
    notes: tuple[str, ...] = ()


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `position`."""
    parser.epilog = _EPILOG
    parser.add_argument("--x", type=offset, required=True, metavar="DX", help="measured x less the basic one")
    parser.add_argument("--y", type=offset, required=True, metavar="DY", help="measured y less the basic one")
    parser.add_argument("--z", type=offset, metavar="DZ", help="measured z less the basic one, for a spherical zone")
    zone = parser.add_mutually_exclusive_group(required=True)
    zone.add_argument("--zone", type=width, metavar="D", help="diameter of the zone as the frame states it")
    zone.add_argument("--callout", metavar="TEXT", help="the size and its frame, which give zone, condition and limits")
    parser.add_argument("--at", choices=list(_MATERIALS), help="condition after the zone (rfs where there is none)")
    parser.add_argument("--size", type=size, metavar="D", help="measured size of the hole or shaft")
    parser.add_argument("--mmc", type=size, metavar="D", help="limit at maximum material: smallest hole, largest pin")
    parser.add_argument("--lmc", type=size, metavar="D", help="limit at least material: largest hole, smallest pin")
    parser.add_argument("--side", choices=["internal", "external"], help="hole or shaft, where a callout does not tell")
    parser.add_argument("--unit", choices=["mm", "inch"], default="mm", help="unit of all numbers")


def run(given: argparse.Namespace) -> int:
    """Show the value, the zone with its bonus, and the verdict."""
    zone = _from_options(given) if given.callout is None else _from_callout(given)
    unit = "in" if given.unit == "inch" else "mm"
    z = given.z or Decimal(0)
    earned, notes = _earned(zone, given.size, unit)
    allowed = _sum(zone.width, earned)
    within = lies_within(given.x, given.y, z, diameter=allowed)
    value = _value(given.x, given.y, z, allowed, within=within)
    mark = "SØ" if given.z is not None else "Ø"
    off = ", ".join(plain(each) for each in (given.x, given.y, given.z) if each is not None)
    grown = f": {plain(zone.width)} and a bonus of {plain(earned)}" if earned else ""
    lines = [
        f"position {mark}{plain(value)} {unit}: twice the distance of ({off}) from the true place, rounded up",
        f"zone {mark}{plain(allowed)} {unit}" + grown,
        _verdict(zone, given.size, within=within, spare=_sum(allowed, -value)),
        *(f"note: {note}" for note in (*zone.notes, *notes)),
    ]
    for line in lines:
        print(textwrap.fill(line, _WIDTH, subsequent_indent="  "))
    return 0


def _sum(one: Decimal, other: Decimal) -> Decimal:
    total = plus(one, other)
    assert isinstance(total, Decimal)  # of two lengths
    return total


def _value(x: Decimal, y: Decimal, z: Decimal, allowed: Decimal, *, within: bool) -> Decimal:
    """The value to as many places as it takes to show on which side of the zone it lies."""
    for places in range(4, _MOST_PLACES):
        value = diametral_position(x, y, z, places=places)
        if (value <= allowed) is within:
            break
    return value


def _earned(zone: Zone, measured: Decimal | None, unit: str) -> tuple[Decimal, list[str]]:
    """The bonus, and what is to be said of it."""
    if zone.material == "S":
        return Decimal(0), ["no modifier on the zone: no bonus at any size"] if measured is not None else []
    if measured is None:
        return Decimal(0), ["the size is not given: no bonus is counted"]
    if zone.lower is None or zone.upper is None or zone.internal is None:
        raise InputError("a bonus needs both limits of the size: add --mmc and --lmc, or --callout")
    earned = bonus(measured, zone.lower, zone.upper, zone.material, internal=zone.internal)
    feature = "hole" if zone.internal else "shaft"
    reached = zone.lower if zone.internal == (zone.material == "M") else zone.upper
    name = "MMC" if zone.material == "M" else "LMC"
    said = (
        f"{feature} {plain(measured)}, {name} {plain(reached)} {unit}; the size is that of the actual mating envelope"
    )
    return earned, [said]


def _verdict(zone: Zone, measured: Decimal | None, *, within: bool, spare: Decimal) -> str:
    lower, upper = zone.lower, zone.upper
    if measured is not None and lower is not None and upper is not None and not lower <= measured <= upper:
        return f"REJECT: the size {plain(measured)} is out of its limits, {plain(lower)} to {plain(upper)}"
    if within:
        return f"ACCEPT: {plain(spare)} to spare"
    if zone.material != "S" and measured is None:
        return "UNDECIDED: outside the stated zone; the measured size may add a bonus, give --size"
    if zone.shifts:
        return (
            f"UNDECIDED: {plain(-spare)} too far, unless the shift of a datum with (M) or (L) brings it in: not counted"
        )
    return f"REJECT: {plain(-spare)} too far"


def _from_options(given: argparse.Namespace) -> Zone:
    material = _MATERIALS[given.at or "rfs"]
    if given.side is not None:
        raise InputError("--side goes with --callout; --mmc and --lmc tell hole from shaft by themselves")
    if (given.mmc is None) is not (given.lmc is None):
        raise InputError("--mmc and --lmc go together")
    if given.mmc is None:
        return Zone(given.zone, material)
    if given.mmc == given.lmc:
        raise InputError("--mmc and --lmc are the same: nothing tells a hole from a shaft")
    lower, upper = sorted((given.mmc, given.lmc))
    notes = () if given.at else ("--at is not given: the zone is taken without a modifier",)
    return Zone(given.zone, material, lower, upper, given.mmc < given.lmc, notes=notes)


def _from_callout(given: argparse.Namespace) -> Zone:
    from sizewright.resolve.answer import answer
    from sizewright.resolve.context import Context
    from sizewright.text.caret import caret_lines

    if given.at or given.mmc or given.lmc:
        raise InputError("--callout tells the condition and the limits: leave out --at, --mmc and --lmc")
    read = answer(given.callout, Context(given.unit, "asme" if given.unit == "inch" else "iso"))
    if read.error is not None:
        raise InputError("\n".join(["the callout does not read", *caret_lines(given.callout, read.error)]))
    frames = [made for made in read.characteristics if made.kind == "position"]
    if len(frames) != 1:
        raise InputError(f"the callout has {len(frames)} frames of position: give one")
    frame = frames[0]
    wanted = "sphere" if given.z is not None else "diameter"
    if frame.extra["zone_shape"] != wanted:
        hint = "--z goes with SØ" if given.z is not None else "Ø before it for an axis, SØ and --z for a point"
        raise InputError(f"the zone of the frame is {frame.extra['zone_shape']}, not a {wanted}: {hint}")
    sizes = [made for made in read.characteristics if made.kind in ("diameter", "spherical diameter")]
    if any(made.unit != given.unit for made in (frame, *sizes)):
        raise InputError(f"the callout is not in {given.unit} throughout: set --unit")
    modifiers, datums, stated = frame.extra["modifiers"], frame.extra["datums"], frame.limits[0].upper
    assert isinstance(modifiers, list)
    assert isinstance(datums, list)
    assert isinstance(stated, Decimal)
    material: Material = "M" if "M" in modifiers else "L" if "L" in modifiers else "S"
    shifts = any(mark in str(datum) for datum in datums for mark in ("(M)", "(L)"))
    zone = Zone(stated, material, shifts=shifts)
    return zone if len(sizes) != 1 else _with_limits(zone, sizes[0], given.side)


def _with_limits(zone: Zone, made: Characteristic, told: Side | None) -> Zone:
    """The zone with the limits of the size that carries it; a bonus asks which side it is."""
    if made.side is not None and told not in (None, made.side):
        raise InputError(f"--side {told}, the callout says {made.side}")
    side = made.side or told
    if side is None and (zone.material != "S" or made.either is not None):
        raise InputError("the callout does not tell a hole from a shaft: add --side internal or --side external")
    pairs = made.limits
    if made.either is not None:
        pairs = made.either.internal if side == "internal" else made.either.external
    if len(pairs) != 1 or not isinstance(pairs[0].lower, Decimal) or not isinstance(pairs[0].upper, Decimal):
        return zone
    return zone._replace(lower=pairs[0].lower, upper=pairs[0].upper, internal=side == "internal")
