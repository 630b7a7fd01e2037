"""`sizewright mark`: filled worksheets marked against the sheet and reference readings."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from sizewright.cli.planned import add_planned, planned
from sizewright.cli.tell import tell

if TYPE_CHECKING:
    from sizewright.judge.model import Reading

_EPILOG = """\
ANSWERS are the XLSX forms of `sizewright worksheet SHEET -o FORM.xlsx`, filled, one a trainee (CSV with the same heads
does too). One point a question: limits (equal numbers, however written, or in the other unit where rounded inward),
unit, instrument (any suitable one), resolution, each reading, verdict (by the trainee's own readings), a reason.

A reading is right within the allowance from the reference reading of the same piece and place. --allowance takes a
length or angle (0.02, 0.001 in), a number of uncertainties (1.5 U), or a share of the tolerance (10 %); without it,
the root of the sum of the squares of the expanded uncertainties of both readings.

examples:
  sizewright mark housing.sheet anna.xlsx ben.xlsx --reference readings.csv
  sizewright mark housing.sheet answers/*.xlsx --reference readings.xlsx --allowance "0.02 mm" -o class.docx

The ending of a file tells its form: .docx, .xlsx, .csv.
"""


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `mark`."""
    parser.epilog = _EPILOG
    add_planned(parser)
    parser.add_argument("answers", type=Path, nargs="+", metavar="ANSWERS", help="filled forms, one a trainee")
    parser.add_argument("--reference", type=Path, metavar="READINGS", help="the trainer's readings of the same parts")
    parser.add_argument("--allowance", metavar="TEXT", help="how far a reading may lie from the reference")
    parser.add_argument("--pick", default="", metavar="TEXT", help="lines that were asked (those of the forms)")
    parser.add_argument("--unit", choices=["mm", "inch", "both"], help="as the worksheet was made")
    parser.add_argument(
        "-o", dest="files", type=Path, action="append", default=[], metavar="FILE", help="write to FILE"
    )
    parser.add_argument("--paper", choices=["A4", "Letter"], default="A4", help="paper of DOCX and XLSX")


def run(given: argparse.Namespace) -> int:
    """Mark the forms; 1 where the sheet has faults or a file could not be used."""
    from sizewright.output.class_files import check_class_ending, write_class
    from sizewright.training.allowance import read_allowance
    from sizewright.training.class_marks import mark_class

    for path in given.files:
        check_class_ending(path)
    allowance = read_allowance(given.allowance)
    plan = planned(given)
    if isinstance(plan, int):
        return plan
    readings: tuple[Reading, ...] = ()
    trouble = False
    if given.reference is not None:
        from sizewright.judge.reading_files import read_readings

        found = read_readings(given.reference, plan)
        readings, trouble = found.readings, bool(found.unreadable)
        for remark in found.remarks:
            tell(f"sizewright: {given.reference.name}: {remark}")
        for bad in found.unreadable:
            tell(f"sizewright: {bad.place}: {bad.why}")
    unit = None if given.unit == "both" else given.unit
    marks = mark_class(plan, given.answers, readings, allowance, unit=unit, pick=given.pick)
    for path in given.files:
        write_class(marks, path, given.paper)
        tell(f"written: {path}")
    for _, why in marks.unreadable:
        tell(f"sizewright: {why}")
    if not given.files:
        from sizewright.output.class_terminal import print_class

        print_class(marks)
    return 1 if trouble or marks.unreadable or plan.faults else 0
