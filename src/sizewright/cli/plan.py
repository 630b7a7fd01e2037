"""`sizewright plan`: a ballooned checklist of a sheet, on the terminal or in files."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from sizewright.cli.planned import add_planned, planned
from sizewright.cli.tell import tell

if TYPE_CHECKING:
    from sizewright.plan.model import Plan

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
    add_planned(parser)
    parser.add_argument(
        "-o", dest="files", type=Path, action="append", default=[], metavar="FILE", help="write to FILE"
    )
    parser.add_argument(
        "--readings",
        type=Path,
        metavar="FILE",
        help="write the table in which readings are typed (.csv; .xlsx has it too)",
    )
    parser.add_argument("--json", action="store_true", help="JSON Lines on standard output, for programs")
    parser.add_argument("--both-units", action="store_true", help="limits in the other unit too, rounded inward")
    parser.add_argument(
        "--order",
        choices=["balloon", "instrument"],
        default="balloon",
        help="lines by balloon, or grouped by instrument",
    )
    parser.add_argument("--paper", choices=["A4", "Letter"], default="A4", help="paper of DOCX and XLSX")


def run(given: argparse.Namespace) -> int:
    """Make the plan; 1 where the sheet has faults."""
    from sizewright.plan.order import in_order_of

    if given.files:
        from sizewright.output.write import check_ending

        for path in given.files:
            check_ending(path)
    plan = planned(given, both_units=given.both_units)
    if isinstance(plan, int):
        return plan
    _deliver(given, in_order_of(plan, given.order))
    return 1 if plan.faults else 0


def _deliver(given: argparse.Namespace, plan: Plan) -> None:
    if given.json:
        from sizewright.output.jsonl import plan_jsonl

        sys.stdout.write(plan_jsonl(plan).decode())
    if given.files:
        from sizewright.output.write import write_plan

        for path in given.files:
            write_plan(plan, path, given.paper)
            tell(f"written: {path}")
    if given.readings is not None:
        from sizewright.output.write import write_readings

        write_readings(plan, given.readings)
        tell(f"written: {given.readings}")
    if not given.json and not given.files and given.readings is None:
        from sizewright.output.terminal import print_plan

        print_plan(plan)
