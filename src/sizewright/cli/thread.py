"""`sizewright thread`: from a measured diameter and pitch to the standard threads that it may be."""

from __future__ import annotations

import argparse
import textwrap
from decimal import Decimal
from typing import Literal

from sizewright.cli.numbers import size
from sizewright.standards.errors import NotDefined
from sizewright.standards.threads.identify import Candidate, identify
from sizewright.text.errors import InputError
from sizewright.text.numbers import plain

_EPILOG = """\
examples:
  sizewright thread --outside 9.85 --pitch 1.5       over the crests of a screw, and its pitch, in mm
  sizewright thread --inside 5.0 --pitch 1           the minor diameter of a nut or tapped hole
  sizewright thread --outside 13.1 --tpi 19          a diameter in mm and threads counted to the inch
  sizewright thread --outside .245 --tpi 20 --unit inch

Measure the pitch over several turns: ten turns and a tenth of the length are ten times as sure as one turn.
"""
_WIDTH = 80


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `thread`."""
    parser.epilog = _EPILOG
    diameter = parser.add_mutually_exclusive_group(required=True)
    diameter.add_argument("--outside", type=size, metavar="SIZE", help="measured over the crests of an external thread")
    diameter.add_argument("--inside", type=size, metavar="SIZE", help="measured minor diameter of an internal thread")
    turns = parser.add_mutually_exclusive_group(required=True)
    turns.add_argument("--pitch", type=size, metavar="P", help="measured pitch")
    turns.add_argument("--tpi", type=size, metavar="N", help="threads counted to the inch")
    parser.add_argument("--unit", choices=["mm", "inch"], default="mm", help="unit of the diameter and the pitch")
    parser.add_argument("--count", type=int, choices=range(1, 21), default=6, metavar="N", help="how many to show (6)")


def run(given: argparse.Namespace) -> int:
    """Show the threads, likeliest first, with how far off the measured one is."""
    internal = given.inside is not None
    measured = given.inside if internal else given.outside
    unit: Literal["mm", "in"] = "in" if given.unit == "inch" else "mm"
    try:
        found = identify(measured, pitch=given.pitch, tpi=given.tpi, internal=internal, unit=unit, count=given.count)
    except NotDefined as error:
        raise InputError(f"{error.message} Nearest: {', '.join(error.near)}") from None
    what = "minor diameter inside" if internal else "diameter over the crests"
    turns = f"pitch {plain(given.pitch)} {unit}" if given.pitch is not None else f"{plain(given.tpi)} threads per inch"
    print(f"{what} {plain(measured)} {unit}, {turns}; likeliest first:")
    for each in found:
        print("\n".join(_lines(each, unit)))
    print("A measured thread is worn or coated, its gauge has the last word.")
    return 0


def _lines(each: Candidate, unit: str) -> list[str]:
    off = f"diameter {_off(each.diameter_off)} {unit}, pitch {_off(each.pitch_off)} {unit}"
    within = "within its usual limits" if each.inside else "outside its usual limits"
    head = f"  {each.designation:<16}{off} off the basic size; {within} ({each.standard}, {each.flank_angle}° flanks)"
    lines = textwrap.wrap(head, _WIDTH, subsequent_indent=" " * 18)
    if each.warning:
        lines += textwrap.wrap(f"warning: {each.warning}", _WIDTH, initial_indent=" " * 18, subsequent_indent=" " * 18)
    return lines


def _off(value: Decimal) -> str:
    text = plain(value)
    return text if text.startswith("-") or not text.strip("0.") else f"+{text}"
