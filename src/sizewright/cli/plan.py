"""`sizewright plan`: a ballooned checklist of a sheet, on the terminal or in files."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from sizewright.cli.wish import add_wish, wish_of
from sizewright.text.errors import InputError

_EPILOG = """\
examples:
  sizewright plan housing.sheet                            on the terminal
  sizewright plan housing.sheet -o housing.docx -o housing.xlsx
  sizewright plan housing.sheet --keep-going --json        in spite of faults; they are marked

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
    parser.add_argument("--crib", metavar="FILE", help="the shop's instruments (TOML)")
    parser.add_argument("--json", action="store_true", help="JSON Lines on standard output, for programs")
    parser.add_argument("--keep-going", action="store_true", help="make the plan in spite of faults, marked unread")
    parser.add_argument("--both-units", action="store_true", help="limits in the other unit too, rounded inward")
    parser.add_argument("--paper", choices=["A4", "Letter"], default="A4", help="paper of DOCX and XLSX")
    add_wish(parser)


def run(given: argparse.Namespace) -> int:
    """Make the plan; 1 where the sheet has faults."""
    from sizewright.instruments.crib import crib_of
    from sizewright.plan.build import build_plan
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
    plan = build_plan(sheet, crib, wish_of(given), both_units=given.both_units)
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


def _deliver(given: argparse.Namespace, plan: object) -> None:
    from sizewright.plan.model import Plan

    assert isinstance(plan, Plan)
    if given.json:
        from sizewright.output.jsonl import plan_jsonl

        sys.stdout.write(plan_jsonl(plan).decode())
    if given.files:
        from sizewright.output.write import write_plan

        for path in given.files:
            write_plan(plan, path, given.paper)
            print(f"written: {path}", file=sys.stderr)
    if not given.json and not given.files:
        from sizewright.output.terminal import print_plan

        print_plan(plan)
