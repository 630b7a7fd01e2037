"""`sizewright plan`: a ballooned checklist of a sheet, on the terminal or in files."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from sizewright.cli.wish import add_wish, wish_of
from sizewright.text.errors import InputError

if TYPE_CHECKING:
    from sizewright.plan.model import Plan
    from sizewright.sheet.model import Sheet

_EPILOG = """\
examples:
  sizewright plan housing.sheet                            on the terminal
  sizewright plan housing.sheet -o housing.docx -o housing.xlsx
  sizewright plan housing.sheet --keep-going --json        in spite of faults; they are marked
  sizewright plan housing.sheet --lot 500 --sampling "critical all, major II 0.65, minor II 2.5"

The ending of a file tells its form: .docx and .xlsx with boxes to fill, .csv, .jsonl, .txt.
A sheet is a text file (.sheet) or a table (.csv, .xlsx) with the columns balloon, zone, view, class, callout, remark.
"""


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `plan`."""
    parser.epilog = _EPILOG
    parser.add_argument("sheet", type=Path, metavar="SHEET", help="the drawing's callouts (.sheet, .csv, .xlsx)")
    parser.add_argument(
        "-o", dest="files", type=Path, action="append", default=[], metavar="FILE", help="write to FILE"
    )
    parser.add_argument(
        "--readings",
        type=Path,
        metavar="FILE",
        help="write the table in which readings are typed (.csv; .xlsx has it too)",
    )
    parser.add_argument("--crib", metavar="FILE", help="the shop's instruments (TOML)")
    parser.add_argument("--json", action="store_true", help="JSON Lines on standard output, for programs")
    parser.add_argument("--keep-going", action="store_true", help="make the plan in spite of faults, marked unread")
    parser.add_argument("--both-units", action="store_true", help="limits in the other unit too, rounded inward")
    parser.add_argument(
        "--lot", type=_lot, metavar="N", help="number of pieces in the lot, instead of what the sheet says"
    )
    parser.add_argument(
        "--sampling",
        metavar="TEXT",
        help="how many are checked: all, '5 pieces', 'II 1.0', 'critical all, minor 5'",
    )
    parser.add_argument(
        "--order",
        choices=["balloon", "instrument"],
        default="balloon",
        help="lines by balloon, or grouped by instrument",
    )
    parser.add_argument("--paper", choices=["A4", "Letter"], default="A4", help="paper of DOCX and XLSX")
    add_wish(parser)


def _lot(text: str) -> str:
    from sizewright.sheet.sampling import MOST_LOT

    if not text.isascii() or not text.isdecimal() or len(text) > 9 or not 1 <= int(text) <= MOST_LOT:
        raise argparse.ArgumentTypeError(f"{text!r} is no lot; a lot is a number of pieces, 1 to {MOST_LOT}")
    return str(int(text))


def run(given: argparse.Namespace) -> int:
    """Make the plan; 1 where the sheet has faults."""
    from sizewright.instruments.crib import crib_of
    from sizewright.plan.build import build_plan
    from sizewright.plan.order import in_order_of
    from sizewright.sheet.faults import faults_text
    from sizewright.sheet.read import read_sheet

    if given.files:
        from sizewright.output.write import check_ending

        for path in given.files:
            check_ending(path)
    crib = crib_of(given.crib)
    sheet = read_sheet(given.sheet)
    if not sheet.lines and not sheet.faults:
        raise InputError(f"{given.sheet}: there is no callout in it; a line such as `1: 25 ±0.1` is one")
    replaced = _with_options(sheet, given)
    if replaced is None:
        return 2
    sheet = replaced
    plan = build_plan(sheet, crib, wish_of(given), both_units=given.both_units)
    if _options_at_fault(plan):
        return 2
    plan = in_order_of(plan, given.order)
    for remark in sheet.remarks:
        print(f"sizewright: {remark}", file=sys.stderr)
    if plan.faults:
        print(faults_text(sheet.source, plan.faults), file=sys.stderr)
        if not given.keep_going:
            count = "1 fault" if len(plan.faults) == 1 else f"{len(plan.faults)} faults"
            print(f"sizewright: {count}, no plan made (--keep-going makes one in spite of them)", file=sys.stderr)
            return 1
    _deliver(given, plan)
    return 1 if plan.faults else 0


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
        print("sizewright: --sampling does not read", file=sys.stderr)
        print("\n".join(caret_lines(given.sampling, error)), file=sys.stderr)
        return None


def _options_at_fault(plan: Plan) -> bool:
    """Whether the options contradict the sheet or leave something open; that is said."""
    from sizewright.plan.instead import GIVEN

    faults = [fault for fault in plan.faults if fault.line == GIVEN]
    for fault in faults:
        print(f"sizewright: {fault.text!r}: {fault.message}; {fault.hint}", file=sys.stderr)
    return bool(faults)


def _deliver(given: argparse.Namespace, plan: Plan) -> None:
    if given.json:
        from sizewright.output.jsonl import plan_jsonl

        sys.stdout.write(plan_jsonl(plan).decode())
    if given.files:
        from sizewright.output.write import write_plan

        for path in given.files:
            write_plan(plan, path, given.paper)
            print(f"written: {path}", file=sys.stderr)
    if given.readings is not None:
        from sizewright.output.write import write_readings

        write_readings(plan, given.readings)
        print(f"written: {given.readings}", file=sys.stderr)
    if not given.json and not given.files and given.readings is None:
        from sizewright.output.terminal import print_plan

        print_plan(plan)
