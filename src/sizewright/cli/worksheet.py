"""`sizewright worksheet`: exercises made from a sheet, and the key to them."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from sizewright.cli.planned import add_planned, planned
from sizewright.cli.tell import tell

if TYPE_CHECKING:
    from sizewright.plan.model import Plan

_EPILOG = """\
guided goes step by step, with hints that fade over the sheet; project has the callouts and blank decisions.
The ending of a file tells its form: .docx to print, .xlsx to fill at a computer (and for `sizewright mark`).

--pick takes families (fits, threads, angles ...), instruments (micrometer, caliper ...), easy, medium, hard, and
numbers of lines (3, 5-7), with commas between. Words of one sort widen the choice, words of different sorts narrow
it. `--pick list` tells what the sheet has.

examples:
  sizewright worksheet housing.sheet --level guided -o housing.docx
  sizewright worksheet housing.sheet --level guided --key -o housing-key.docx
  sizewright worksheet housing.sheet --level project --pick "fits, micrometer, easy" -o form.xlsx
"""
_LONGEST = 60


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `worksheet`."""
    parser.epilog = _EPILOG
    add_planned(parser)
    parser.add_argument("--level", choices=["guided", "project"], default="guided", help="how much is given (guided)")
    parser.add_argument("--key", action="store_true", help="the key: every answer with its reason")
    parser.add_argument("--unit", choices=["mm", "inch", "both"], help="unit that limits are asked in (the drawing's)")
    parser.add_argument("--seed", type=_seed, default=0, metavar="N", help="another number, another worksheet (0)")
    parser.add_argument("--pick", default="", metavar="TEXT", help="lines by skill; `list` tells what there is")
    parser.add_argument("--times", type=Path, metavar="FILE", help="your own minutes for kinds of instruments (CSV)")
    parser.add_argument(
        "-o", dest="files", type=Path, action="append", default=[], metavar="FILE", help="write to FILE"
    )
    parser.add_argument("--paper", choices=["A4", "Letter"], default="A4", help="paper of DOCX and XLSX")


def run(given: argparse.Namespace) -> int:
    """Make the worksheet; 1 where the sheet has faults, 2 where no file is named."""
    from sizewright.training.times import times_of
    from sizewright.training.worksheet import worksheet_of

    listing = given.pick.strip().lower() == "list"
    if not given.files and not listing:
        tell("sizewright: a worksheet is written to a file; -o FILE.docx or -o FILE.xlsx")
        return 2
    from sizewright.output.write_worksheet import check_worksheet_ending, write_worksheet

    for path in given.files:
        check_worksheet_ending(path)
    plan = planned(given)
    if isinstance(plan, int):
        return plan
    if listing:
        _list(plan)
        return 0
    worksheet = worksheet_of(
        plan, given.level, unit=given.unit, seed=given.seed, pick=given.pick, times=times_of(given.times)
    )
    for path in given.files:
        write_worksheet(worksheet, path, given.paper, key=given.key)
        tell(f"written: {path}")
    return 1 if plan.faults else 0


def _list(plan: Plan) -> None:
    from sizewright.output.safe import visible
    from sizewright.training.answers import exercises_of
    from sizewright.training.picking import pickings
    from sizewright.training.skills import DIFFICULTY_RULE

    sort = ""
    for this, word, numbers in pickings([each.line for each in exercises_of(plan)]):
        if this != sort:
            print(f"{this}:")
            sort = this
        shown = ", ".join(map(visible, numbers))
        print(f"  {word:28} {shown if len(shown) <= _LONGEST else f'{len(numbers)} lines'}")
    print(DIFFICULTY_RULE)


def _seed(text: str) -> int:
    if not text.isascii() or not text.isdecimal() or len(text) > 9:
        raise argparse.ArgumentTypeError(f"{text!r} is no seed; a whole number from 0 on")
    return int(text)
