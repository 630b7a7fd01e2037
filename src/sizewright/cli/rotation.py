"""`sizewright rotation`: a timetable for people who share instruments and parts."""

from __future__ import annotations

import argparse
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from sizewright.cli.tell import tell
from sizewright.text.errors import InputError

if TYPE_CHECKING:
    from sizewright.instruments.shelf import Crib
    from sizewright.output.rotation_rows import RotationSheet
    from sizewright.plan.model import Plan

_EPILOG = """\
A task is one part with one instrument: the lines of the part that this instrument serves. Nothing is in two hands at
once: no instrument (by the number owned in the crib), no piece; nobody does two things at once.

two ways to divide the work:
  everybody does every part (the usual one): each person measures every line once, on any piece
  --share: the tasks are split among the people; every line of every piece is measured once

examples:
  sizewright rotation housing.sheet clamp.sheet --people 3
  sizewright rotation housing.sheet --names "Ada, Ben" --begin 8:30 -o rotation.docx
  sizewright rotation housing.sheet --people 2 --share --copies 4

The ending of a file tells its form: .docx, .csv, .jsonl, .txt.
"""
_MOST_PEOPLE = 200
_MOST_COPIES = 200
_LONGEST = 3600
_TIME = re.compile(r"([01]?\d|2[0-3]):([0-5]\d)")


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `rotation`."""
    parser.epilog = _EPILOG
    parser.add_argument("sheets", nargs="+", type=Path, metavar="SHEET", help="the drawings' callouts, a sheet a part")
    who = parser.add_mutually_exclusive_group()
    who.add_argument("--people", type=_people, default=None, metavar="N", help="how many people there are (2)")
    who.add_argument("--names", type=_names, metavar="NAMES", help="who they are, with commas between")
    parser.add_argument("--share", action="store_true", help="split the tasks among the people")
    parser.add_argument("--copies", type=_copies, metavar="N", help="pieces of each part (what each sheet says)")
    parser.add_argument("--crib", metavar="FILE", help="the shop's instruments (TOML)")
    parser.add_argument("--times", type=Path, metavar="FILE", help="your own minutes for kinds of instruments (CSV)")
    parser.add_argument(
        "--begin", type=_begin, metavar="H:MM", help="time of day at which it begins (counts from 0:00)"
    )
    parser.add_argument(
        "-o", dest="files", type=Path, action="append", default=[], metavar="FILE", help="write to FILE"
    )
    parser.add_argument("--json", action="store_true", help="JSON Lines on standard output, for programs")
    parser.add_argument("--keep-going", action="store_true", help="leave out the faulty lines of a sheet")
    parser.add_argument("--seed", type=int, default=0, metavar="N", help="of the search; the same gives the same (0)")
    parser.add_argument("--solver", action="store_true", help="let the optional solver try for a shorter one")
    parser.add_argument("--seconds", type=_seconds, default=20, metavar="N", help="time for the solver (20)")
    parser.add_argument("--paper", choices=["A4", "Letter"], default="A4", help="paper of DOCX")


def run(given: argparse.Namespace) -> int:
    """Make the timetable; 1 where a sheet has faults."""
    from sizewright.instruments.crib import crib_of
    from sizewright.output.rotation_files import check_rotation_ending
    from sizewright.output.rotation_rows import RotationSheet
    from sizewright.training.rotation import rotate
    from sizewright.training.tasks import work_of
    from sizewright.training.times import times_of

    for path in given.files:
        check_rotation_ending(path)
    times = times_of(given.times)
    crib = crib_of(given.crib)
    plans = _plans(given.sheets, crib, given.keep_going)
    people = given.names or [f"person {number}" for number in range(1, (given.people or 2) + 1)]
    work, parts = work_of(plans, crib, people, times, shared=given.share, copies=given.copies)
    for part in parts:
        if part.copies > _MOST_COPIES:
            raise InputError(f"{part.name}: {part.copies} pieces are too many; --copies takes {_MOST_COPIES} at most")
    if not work.tasks:
        raise InputError("there is nothing to measure with an instrument of the crib, so there is no timetable")
    rotation = rotate(work, seed=given.seed, solver_seconds=given.seconds if given.solver else None)
    _deliver(given, RotationSheet(rotation, parts, given.begin))
    return 1 if any(plan.faults for plan in plans) else 0


def _plans(paths: list[Path], crib: Crib, keep_going: bool) -> list[Plan]:
    """The plans of the sheets.

    Raises:
        InputError: a sheet is given twice, is empty, or has faults and `keep_going` is not set.
    """
    from sizewright.plan.build import build_plan
    from sizewright.sheet.faults import faults_text
    from sizewright.sheet.read import read_sheet

    plans: list[Plan] = []
    for place, path in enumerate(paths):
        if path.resolve() in [other.resolve() for other in paths[:place]]:
            raise InputError(f"{path}: given twice; --copies tells how many pieces of a part there are")
        sheet = read_sheet(path)
        if not sheet.lines and not sheet.faults:
            raise InputError(f"{path}: there is no callout in it; a line such as `1: 25 ±0.1` is one")
        plan = build_plan(sheet, crib)
        if plan.faults:
            count = "1 fault" if len(plan.faults) == 1 else f"{len(plan.faults)} faults"
            if not keep_going:
                raise InputError(f"{path}: {count}, no timetable made (--keep-going leaves the faulty lines out)")
            tell(faults_text(sheet.source, plan.faults))
        for remark in sheet.remarks:
            tell(f"sizewright: {remark}")
        plans.append(plan)
    return plans


def _deliver(given: argparse.Namespace, sheet: RotationSheet) -> None:
    from sizewright.output.rotation_files import rotation_jsonl, write_rotation

    if given.json:
        sys.stdout.write(rotation_jsonl(sheet).decode())
    for path in given.files:
        write_rotation(sheet, path, given.paper)
        tell(f"written: {path}")
    if not given.json and not given.files:
        from sizewright.output.rotation_terminal import print_rotation

        print_rotation(sheet)


def _whole(text: str, most: int, what: str) -> int:
    if not text.strip().isdecimal() or not 1 <= int(text) <= most:
        raise argparse.ArgumentTypeError(f"{text!r} is no number of {what}; 1 to {most}")
    return int(text)


def _people(text: str) -> int:
    return _whole(text, _MOST_PEOPLE, "people")


def _copies(text: str) -> int:
    return _whole(text, _MOST_COPIES, "pieces")


def _seconds(text: str) -> int:
    return _whole(text, _LONGEST, "seconds")


def _names(text: str) -> list[str]:
    names = [" ".join(name.split()) for name in text.split(",") if name.strip()]
    if not names or len(names) > _MOST_PEOPLE:
        raise argparse.ArgumentTypeError(
            f"{text!r} names nobody; names stand with commas between, {_MOST_PEOPLE} at most"
        )
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        raise argparse.ArgumentTypeError(f"{twice!r} stands there twice; no two people may have the same name")
    return names


def _begin(text: str) -> int:
    match = _TIME.fullmatch(text.strip())
    if match is None:
        raise argparse.ArgumentTypeError(f"{text!r} is no time of day; 8:30 or 13:05 is one")
    return int(match[1]) * 60 + int(match[2])
