"""The command `sizewright`: its commands, their options, and what every failure comes to.

Exit status: 0 all well; 1 something typed does not read or a file cannot be used; 2 the command was used wrongly.
"""

from __future__ import annotations

import argparse
import gc
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import NoReturn

from sizewright import __version__
from sizewright.cli.tell import tell
from sizewright.text.errors import SizewrightError

_EXAMPLES = """\
what a callout means:
  sizewright read "25 ±0.1" "4x Ø6.6 THRU"
  sizewright read --unit inch --general ".XX ±.01, .XXX ±.005" "Ø.500"
  sizewright read --json - < callouts.txt
  sizewright read                         asks for callouts one by one; ? helps

the same in the other practice or unit:
  sizewright restate --unit inch "25 ±0.1" "Ø25 H7"

a part in hand, a shaft and its key:
  sizewright class 25.000 25.021 --side internal
  sizewright key 30
  sizewright thread --outside 9.85 --pitch 1.5
  sizewright position --x 0.12 --y -0.05 --zone 0.3

a drawing's checklist:
  sizewright plan housing.sheet
  sizewright plan housing.sheet -o housing.docx -o housing.xlsx

its readings, their verdicts, the report:
  sizewright take housing.sheet --by "A. Workshop"
  sizewright judge housing.sheet housing.readings.csv -o report.docx
  sizewright budget housing.sheet 1

people who share instruments and parts:
  sizewright rotation housing.sheet clamp.sheet --people 3

worksheets from a drawing, and marking them:
  sizewright worksheet housing.sheet --level guided -o housing.docx
  sizewright mark housing.sheet anna.xlsx ben.xlsx --reference readings.csv

`sizewright COMMAND --help` tells more of each command.
"""

# Each command: its module in this package, with `add(parser)` and `run(arguments) -> exit status`, and what it does.
COMMANDS = {
    "read": ("read", "explain callouts: limits, reasons, how to check"),
    "plan": ("plan", "make a ballooned checklist of a sheet"),
    "take": ("take", "take the readings of a sheet's plan at a prompt, each on disk before the next"),
    "class": ("class_", "find the tolerance classes that would hold two limits or measured sizes"),
    "restate": ("restate", "write callouts, or a sheet, in the other practice or unit"),
    "notation": ("notation", "list every form that reads, with its meaning"),
    "judge": ("judge", "hold readings against a sheet under a decision rule, and report"),
    "budget": ("budget", "the uncertainty budget of one line of a sheet"),
    "key": ("key", "the parallel key and keyways for a shaft"),
    "position": ("position", "the value of position from measured x and y, with its bonus and verdict"),
    "cards": ("cards", "make a card to laminate for each kind of instrument in the crib"),
    "scales": ("scales", "draw scales to practise reading on, as a sheet with its key or one by one"),
    "rotation": ("rotation", "make a timetable for people who share instruments and parts"),
    "worksheet": ("worksheet", "make a worksheet, or its key, from a sheet"),
    "mark": ("mark", "mark filled worksheets and show where the class went wrong"),
    "thread": ("thread", "name a thread from a measured diameter and pitch"),
}


class _Parser(argparse.ArgumentParser):
    """Shows arguments back with nothing in them that acts on the screen: a file's name can hold anything."""

    def error(self, message: str) -> NoReturn:
        """Say what is wrong with the arguments, and end."""
        from sizewright.output.safe import visible

        super().error(visible(message))


def make_parser(arguments: Sequence[str] | None = None) -> argparse.ArgumentParser:
    """The parser of a command line: with the options of the command that is named in it, wherever it stands.

    The other commands are there only where the first word is none of them: to be listed. None: all with their options.
    """
    wanted = next((each for each in arguments or () if each in COMMANDS), None)
    parser = _Parser(
        prog="sizewright",
        description="Reads dimension callouts as typed from a drawing, resolves them to exact limits with reasons, "
        "and builds inspection checklists.",
        epilog=_EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"sizewright {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    for name in [wanted] if arguments and wanted == arguments[0] else COMMANDS:
        module, summary = COMMANDS[name]
        command = commands.add_parser(
            name,
            help=summary,
            description=summary[0].upper() + summary[1:] + ".",
            formatter_class=argparse.RawDescriptionHelpFormatter,
            allow_abbrev=False,
        )
        if arguments is None or name == wanted:
            import_module(f"sizewright.cli.{module}").add(command)
    return parser


def command() -> int:
    """The whole of a process: runs its command line and returns the exit status.

    What starting up makes lives on to the end: to look through it for what can be freed, while it starts and again as
    it ends, is a sixth of what a command costs.
    """
    gc.set_threshold(50_000, 20, 20)
    status = main()
    gc.freeze()
    return status


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line; returns the exit status."""
    arguments = list(sys.argv[1:] if argv is None else argv)
    _speak_utf8()
    try:
        given = make_parser(arguments).parse_args(arguments)
        status: int = import_module(f"sizewright.cli.{COMMANDS[given.command][0]}").run(given)
        sys.stdout.flush()
    except SizewrightError as error:
        tell(f"sizewright: {error}")
        return 1
    except BrokenPipeError:
        _close_quietly()
        return 1
    except OSError as error:  # files tell for themselves: what is left is the output
        _close_quietly()
        tell(f"sizewright: the output cannot be written: {error.strerror or error}")
        return 1
    except KeyboardInterrupt:
        tell("sizewright: stopped")
        return 130
    return status


def _speak_utf8() -> None:
    """Drawing marks come through whatever the locale says, and bytes that are no text show as such."""
    _replace_closed()
    for stream in (sys.stdout, sys.stderr, sys.stdin):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(encoding="utf-8", errors="replace")


def _replace_closed() -> None:
    """A stream that was closed before the start (`>&-`) gives nothing and takes anything."""
    import os

    for name, way in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, way, encoding="utf-8"))  # noqa: PTH123, SIM115


def _close_quietly() -> None:
    """The output goes nowhere: nothing more may be written, not even while Python ends."""
    import os

    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
