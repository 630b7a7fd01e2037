"""`sizewright take`: readings at a prompt, balloon by balloon, each on disk before the next is asked for."""

from __future__ import annotations

import argparse
import re
import signal
from itertools import islice
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING

from sizewright.cli.planned import add_planned, planned
from sizewright.text.errors import InputError

if TYPE_CHECKING:
    from sizewright.cli.take_session import Session

_EPILOG = """\
examples:
  sizewright take housing.sheet                            into housing.readings.csv, beside the sheet
  sizewright take housing.sheet --by "A. Workshop" --pieces 1,3-5
  sizewright take housing.sheet --order instrument         grouped to spare changes of instrument

what is typed at the prompt:
  25.012   25,012   3/8   .9843 in   30°15'                the value, in the unit of the line or its own
  +12   -0.02   +.0004   +12 µm                            a deviation from the nominal size
  accept   reject   go   no-go                             what a gauge says
A sign in front makes a deviation: on lines in mm a whole number is in µm, one with a decimal mark in mm; on lines in
inches it has a decimal mark. ? at the prompt tells the commands. Stop at any time; the same command goes on.
"""
_MOST_PIECES = 10_000
_MOST_PLACES = 1_000_000


class _TerminatedError(BaseException):
    """The system asks the process to end."""


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `take`."""
    parser.epilog = _EPILOG
    add_planned(parser)
    parser.add_argument(
        "-o", dest="file", type=Path, metavar="FILE", help="the log of readings (.csv; beside the sheet when left out)"
    )
    parser.add_argument("--by", metavar="NAME", default="", help="who measures")
    parser.add_argument("--pieces", type=_pieces, metavar="LIST", help="only these pieces: 1,3-5")
    parser.add_argument(
        "--order", choices=["balloon", "instrument", "piece"], default="balloon", help="what comes next (balloon)"
    )
    parser.add_argument(
        "--deviation", action="store_true", help="numbers without a sign are deviations too; =25.01 is then a value"
    )


def _pieces(text: str) -> frozenset[int]:
    chosen: set[int] = set()
    for part in text.replace(" ", "").split(","):
        found = re.fullmatch(r"([1-9]\d{0,4})(?:-([1-9]\d{0,4}))?", part, re.ASCII)
        if found is None or int(found[2] or found[1]) < int(found[1]) or int(found[2] or found[1]) > _MOST_PIECES:
            raise argparse.ArgumentTypeError(f"{text!r} is no list of pieces; one reads: 1,3-5")
        chosen.update(range(int(found[1]), int(found[2] or found[1]) + 1))
    return frozenset(chosen)


def run(given: argparse.Namespace) -> int:
    """Take readings; 0 where the user or the end of input stopped it."""
    from sizewright.cli.take_session import Session
    from sizewright.cli.take_talk import Talk
    from sizewright.judge.places import places_of
    from sizewright.judge.reading_log import ReadingLog
    from sizewright.output.atomic import write_whole
    from sizewright.plan.order import in_order_of

    path = given.file or given.sheet.with_name(f"{given.sheet.stem}.readings.csv")
    if path.suffix.lower() != ".csv":
        raise InputError(f"{path}: readings are written to a file that ends in .csv")
    plan = planned(given)
    if isinstance(plan, int):
        return plan
    plan = in_order_of(plan, "instrument" if given.order == "instrument" else "balloon")
    places = list(islice(places_of(plan, given.pieces), _MOST_PLACES + 1))
    if len(places) > _MOST_PLACES:
        hint = "--pieces takes some of them, a sampling rule asks for fewer"
        raise InputError(f"{given.sheet}: more than {_MOST_PLACES} readings to take; {hint}")
    if not places:
        pieces = f" of the pieces asked for; the sheet has {plan.pieces}" if given.pieces else ""
        raise InputError(f"{given.sheet}: nothing is to be measured{pieces}")
    if given.order == "piece":
        places.sort(key=lambda place: place.piece)
    talk = Talk()
    log = ReadingLog(path)
    there = log.open(write_whole)
    before = signal.signal(signal.SIGTERM, _terminate)
    try:
        return _ended(Session(plan, places, log, talk, by=given.by, deviation=given.deviation), there)
    finally:
        signal.signal(signal.SIGTERM, before)
        log.close()


def _ended(session: Session, there: bool) -> int:
    """Run the session to its end, whatever ends it, and say what is there."""
    status = 0
    try:
        session.begin(there)
        status = session.run()
    except EOFError:
        session.talk.say("")
    except KeyboardInterrupt:
        session.talk.say("")
        status = 130
    except _TerminatedError:
        session.talk.say("")
        status = 143
    session.end()
    return status


def _terminate(_: int, __: FrameType | None) -> None:
    raise _TerminatedError
