"""`sizewright notation`: every form that reads, by family, with what it means."""

from __future__ import annotations

import argparse
import textwrap

from sizewright.notation.examples import Example, examples
from sizewright.text.errors import InputError

_WIDTH = 80
_COLUMN = 32
_EPILOG = """\
examples:
  sizewright notation                 every family
  sizewright notation threads holes   two of them
"""


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `notation`."""
    parser.epilog = _EPILOG
    parser.add_argument("families", nargs="*", metavar="FAMILY", help="sizes, angles, fits, threads, holes ...")


def run(given: argparse.Namespace) -> int:
    """Show the forms; 1 where a family is not known."""
    known = list(dict.fromkeys(each.family for each in examples()))
    for family in given.families:
        if family not in known:
            raise InputError(f"no family is called {family!r}; known: {', '.join(known)}")
    for family in given.families or known:
        print(family)
        for each in examples():
            if each.family == family:
                print("\n".join(_lines(each)))
        print()
    print("A slash with blanks stands for a line end. Case, blanks, decimal comma or point and")
    print("look-alike characters make no difference, but where the trade makes one (H7, h7).")
    return 0


def _lines(each: Example) -> list[str]:
    """A form, with its meaning beside it or, where it is long, under it."""
    typed = "  " + each.callout.replace("\n", " / ") + (" (inch)" if each.unit == "inch" else "")
    indent = " " * _COLUMN
    beside = len(typed) < _COLUMN - 1
    head = typed.ljust(_COLUMN) if beside else indent
    meaning = textwrap.wrap(each.meaning, _WIDTH, initial_indent=head, subsequent_indent=indent)
    return meaning if beside else [typed, *meaning]
