"""The plan of a sheet, with the options that make it: shared by the commands that begin with one."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from sizewright.cli.tell import tell
from sizewright.cli.wish import add_wish, wish_of
from sizewright.text.errors import InputError

if TYPE_CHECKING:
    from sizewright.plan.model import Plan
    from sizewright.sheet.model import Sheet


def add_planned(parser: argparse.ArgumentParser) -> None:
    """Add the sheet, and the options that say how it becomes a plan."""
    parser.add_argument("sheet", type=Path, metavar="SHEET", help="the drawing's callouts (.sheet, .csv, .xlsx)")
    parser.add_argument("--crib", metavar="FILE", help="the shop's instruments (TOML)")
    parser.add_argument("--keep-going", action="store_true", help="make the plan in spite of faults, marked unread")
    parser.add_argument(
        "--lot", type=_lot, metavar="N", help="number of pieces in the lot, instead of what the sheet says"
    )
    parser.add_argument(
        "--sampling",
        metavar="TEXT",
        help="how many are checked: all, '5 pieces', 'II 1.0', 'critical all, minor 5'",
    )
    add_wish(parser)


def _lot(text: str) -> str:
    from sizewright.sheet.sampling import MOST_LOT

    if not text.isascii() or not text.isdecimal() or len(text) > 9 or not 1 <= int(text) <= MOST_LOT:
        raise argparse.ArgumentTypeError(f"{text!r} is no lot; a lot is a number of pieces, 1 to {MOST_LOT}")
    return str(int(text))


def planned(given: argparse.Namespace, *, both_units: bool = False) -> Plan | int:
    """The plan that the options ask for, or (after saying why) the exit status where none is made.

    Raises:
        InputError: the sheet or the crib cannot be used, or there is no callout in the sheet.
    """
    from sizewright.instruments.crib import crib_of
    from sizewright.plan.build import build_plan
    from sizewright.sheet.faults import faults_text
    from sizewright.sheet.read import read_sheet

    crib = crib_of(given.crib)
    sheet = read_sheet(given.sheet)
    if not sheet.lines and not sheet.faults:
        raise InputError(f"{given.sheet}: there is no callout in it; a line such as `1: 25 ±0.1` is one")
    replaced = _with_options(sheet, given)
    if replaced is None:
        return 2
    plan = build_plan(replaced, crib, wish_of(given), both_units=both_units)
    if _options_at_fault(plan):
        return 2
    for remark in replaced.remarks:
        tell(f"sizewright: {remark}")
    if plan.faults:
        tell(faults_text(replaced.source, plan.faults))
        if not given.keep_going:
            count = "1 fault" if len(plan.faults) == 1 else f"{len(plan.faults)} faults"
            tell(f"sizewright: {count}, no plan made (--keep-going makes one in spite of them)")
            return 1
    return plan


def _with_options(sheet: Sheet, given: argparse.Namespace) -> Sheet | None:
    """The sheet with lot and sampling as the options say, or None (after saying why) where the rule does not read."""
    entries = {word: text for word, text in (("lot", given.lot), ("sampling", given.sampling)) if text is not None}
    if not entries:
        return sheet
    from sizewright.plan.instead import with_entries
    from sizewright.text.caret import caret_lines
    from sizewright.text.errors import CalloutError

    try:
        return with_entries(sheet, entries)
    except CalloutError as error:
        tell("sizewright: --sampling does not read")
        tell("\n".join(caret_lines(given.sampling, error)))
        return None


def _options_at_fault(plan: Plan) -> bool:
    """Whether the options contradict the sheet or leave something open; that is said."""
    from sizewright.plan.instead import GIVEN

    faults = [fault for fault in plan.faults if fault.line == GIVEN]
    for fault in faults:
        tell(f"sizewright: {fault.text!r}: {fault.message}; {fault.hint}")
    return bool(faults)
