"""`sizewright read`: callouts from the command line, from standard input, or asked for one by one."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterable

from sizewright.cli.context import add_context, context_of
from sizewright.cli.tell import tell
from sizewright.resolve.answer import answer
from sizewright.resolve.characteristic import Answer
from sizewright.resolve.context import Context

Show = Callable[[Answer], None]

_EPILOG = """\
examples:
  sizewright read "Ø17 +0.2/0 THRU"
  sizewright read --unit inch ".750 ±.001" "1-1/2"
  sizewright read --general "ISO 2768-m" 120 R5 "2 x 45°"
  sizewright read "Ø25 H7/g6" --picture fit.png
  sizewright read --json - < callouts.txt      one callout a line, one JSON object a line
  sizewright read -- -A-                       callouts that begin with a dash, after --
"""


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `read`."""
    parser.epilog = _EPILOG
    parser.add_argument("callouts", nargs="*", metavar="CALLOUT", help="what the drawing says; - reads standard input")
    parser.add_argument("--json", action="store_true", help="one JSON object a line, for programs")
    parser.add_argument("--crib", metavar="FILE", help="the shop's instruments (TOML), for how to check")
    parser.add_argument("--picture", metavar="FILE", help="draw the fit or the tolerance zone (.svg, .png)")
    add_context(parser)


def run(given: argparse.Namespace) -> int:
    """Read the callouts; 1 where one of them does not read."""
    context = context_of(given)
    if context is None:
        return 2
    say = _sayer(given.json, given.crib)

    def show(made: Answer) -> None:
        sys.stdout.write(say(made))

    if given.picture is not None:
        return _drawn(given, context, show)
    if given.callouts == ["-"] or (not given.callouts and not sys.stdin.isatty()):
        from sizewright.cli.stream import answer_stream

        return answer_stream(_answering, (context, given.json, given.crib))
    if given.callouts:
        return _all(given.callouts, context, show)
    from sizewright.cli.ask import ask

    return ask(context, show)


def _all(callouts: Iterable[str], context: Context, show: Show) -> int:
    status = 0
    for callout in callouts:
        given = answer(callout, context)
        status = status or (1 if given.error else 0)
        show(given)
    return status


def _answering(context: Context, as_json: bool, crib: str | None) -> Callable[[str], tuple[str, bool]]:
    """What is said of one callout, and whether it does not read."""
    say = _sayer(as_json, crib)

    def answered(callout: str) -> tuple[str, bool]:
        made = answer(callout, context)
        return say(made), made.error is not None

    return answered


def _drawn(given: argparse.Namespace, context: Context, show: Show) -> int:
    """One callout, shown and drawn."""
    from pathlib import Path

    from sizewright.output.pictures.drawing import check_picture_ending, write_picture
    from sizewright.output.pictures.fit import fit_picture
    from sizewright.output.pictures.zones import zones_of
    from sizewright.text.errors import InputError

    path = Path(given.picture)
    check_picture_ending(path)
    if len(given.callouts) != 1 or given.callouts == ["-"]:
        raise InputError("--picture draws one callout, given as an argument")
    made = answer(given.callouts[0], context)
    show(made)
    if made.error is not None:
        return 1
    zones = next(zones_of(made.characteristics), None)
    if zones is None:
        raise InputError("there is nothing to draw: a picture shows a tolerance class or a fit, as in Ø25 H7/g6")
    write_picture(fit_picture(zones), path)
    tell(f"written: {path}")
    return 0


def _sayer(as_json: bool, crib: str | None) -> Callable[[Answer], str]:
    """What is printed of an answer, with its line end."""
    if as_json:
        from sizewright.resolve.answer import answer_json
        from sizewright.text.json_lines import dumped

        return lambda made: dumped(answer_json(made)) + "\n"
    from sizewright.instruments.crib import crib_of
    from sizewright.output.explain import explain

    instruments = crib_of(crib)
    return lambda made: explain(made, instruments) + "\n"
