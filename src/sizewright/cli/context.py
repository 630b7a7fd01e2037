"""Options that say what a sheet's title block would: unit, manner, general tolerances."""

from __future__ import annotations

import argparse
from typing import Literal

from sizewright.cli.tell import tell
from sizewright.notation.model import GeneralNote
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
    general = general_of(given.general)
    return None if general is False else Context(given.unit, manner, general or None, edition)


def general_of(text: str | None) -> GeneralNote | Literal[False] | None:
    """The general tolerances `text`, None where there are none, False (after saying why) where they do not read."""
    if text is None:
        return None
    try:
        return read_general(text)
    except CalloutError as error:
        tell("sizewright: --general does not read")
        tell("\n".join(caret_lines(text, error)))
        return False
