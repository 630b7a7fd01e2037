"""`sizewright restate`: a callout, or a whole sheet, as the other drawing practice writes it, in the other unit."""

from __future__ import annotations

import argparse
from pathlib import Path

from sizewright.cli.context import general_of
from sizewright.cli.tell import tell
from sizewright.notation.read import placed, read_callout
from sizewright.resolve.context import Context, Manner, Unit
from sizewright.resolve.restate import Restated, restate
from sizewright.text.caret import caret_lines, visible
from sizewright.text.errors import CalloutError, InputError

_EPILOG = """\
examples:
  sizewright restate --unit inch "25 ±0.1" "Ø25 H7"              from mm to inch, as ASME Y14.5 writes it
  sizewright restate --unit mm ".750 ±.001" "1/4-20 UNC-2B ↧.50"
  sizewright restate --unit mm --from mm --manner asme "25 ±0.1"   the other practice alone
  sizewright restate --unit inch housing.sheet -o housing-inch.sheet

Limits are converted exactly and rounded inward: what meets the new text meets the old one.
"""


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `restate`."""
    parser.epilog = _EPILOG
    parser.add_argument("texts", nargs="+", metavar="CALLOUT", help="what the drawing says, or one sheet file")
    parser.add_argument("--unit", choices=["mm", "inch"], required=True, help="the unit to write")
    parser.add_argument("--manner", choices=["iso", "asme"], help="the drawing practice to write (inch: asme, mm: iso)")
    parser.add_argument("--from", dest="source", choices=["mm", "inch"], help="the unit it is typed in (the other one)")
    parser.add_argument("--general", metavar="TEXT", help="general tolerances of what is typed: 'ISO 2768-mK'")
    parser.add_argument("-o", "--output", metavar="FILE", type=Path, help="the file for a sheet that is restated")


def run(given: argparse.Namespace) -> int:
    """Show each callout restated, with what had to change; 1 where one does not read."""
    manner: Manner = given.manner or ("asme" if given.unit == "inch" else "iso")
    if any(text.endswith(".sheet") for text in given.texts):
        return _sheet(given, manner)
    if given.output is not None:
        raise InputError("--output takes a sheet; callouts are shown")
    unit: Unit = given.source or ("mm" if given.unit == "inch" else "inch")
    general = general_of(given.general)
    if general is False:
        return 2
    context = Context(unit, "asme" if unit == "inch" else "iso", general or None)
    status = 0
    for text in given.texts:
        try:
            made = restated(text, context, manner, given.unit)
        except CalloutError as error:
            tell("\n".join(["NOT READ", *caret_lines(text, error)]))
            status = 1
            continue
        print(f"{visible(text)}  ->  {made.text}".replace("\n", " / "))
        for remark in made.remarks:
            print(f"    {remark}")
    return status


def _sheet(given: argparse.Namespace, manner: Manner) -> int:
    from sizewright.cli.restate_sheet import restate_sheet

    if len(given.texts) != 1 or given.source is not None or given.general is not None:
        raise InputError("a sheet is restated alone, and its title block says its unit and general tolerances")
    return restate_sheet(Path(given.texts[0]), manner, given.unit, given.output)


def restated(text: str, context: Context, manner: Manner, unit: Unit) -> Restated:
    """One callout restated; the new text is read again before it is given.

    Raises:
        CalloutError: it does not read or resolve; the position is in `text`.
        InputError: the new text would not read.
    """
    reading = read_callout(text)
    try:
        made = restate(reading.callout, reading.source.folded, context, manner, unit)
    except CalloutError as error:
        raise placed(error, reading.source) from None
    try:
        read_callout(made.text)
    except CalloutError as error:
        raise InputError(f"cannot be restated: {made.text!r} would not read ({error.message})") from None
    return made
