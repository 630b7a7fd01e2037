"""Options that say what a sheet's title block would: unit, manner, general tolerances."""

from __future__ import annotations

import argparse
import sys

from sizewright.notation.read import read_general
from sizewright.resolve.context import Context, Manner
from sizewright.text.caret import caret_lines
from sizewright.text.errors import CalloutError

_THREADS = "edition of ASME B1.1 by which Unified threads are rounded (B1.1-2003 and later; 1989 for older prints)"


def add_context(parser: argparse.ArgumentParser) -> None:
    """Add the options."""
    group = parser.add_argument_group("what a title block would say")
    group.add_argument("--unit", choices=["mm", "inch"], default="mm", help="unit of numbers typed without one")
    group.add_argument("--manner", choices=["iso", "asme"], help="drawing practice (inch: asme, mm: iso)")
    group.add_argument("--threads", choices=["B1.1-2003", "B1.1-1989"], default="B1.1-2003", help=_THREADS)
    group.add_argument("--general", metavar="TEXT", help="general tolerances: 'ISO 2768-mK', '.XX ±.01, angles ±1°'")


def context_of(given: argparse.Namespace) -> Context | None:
    """The context that the options make, or None (after saying why) where the general tolerances do not read."""
    manner: Manner = given.manner or ("asme" if given.unit == "inch" else "iso")
    edition = given.threads.removeprefix("B1.1-")
    if given.general is None:
        return Context(given.unit, manner, edition=edition)
    try:
        return Context(given.unit, manner, read_general(given.general), edition)
    except CalloutError as error:
        print("sizewright: --general does not read", file=sys.stderr)
        print("\n".join(caret_lines(given.general, error)), file=sys.stderr)
        return None
