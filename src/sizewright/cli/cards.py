"""`sizewright cards`: a card for each kind of instrument in the crib, on the terminal or in files."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from sizewright.cli.tell import tell

_EPILOG = """\
examples:
  sizewright cards -o cards.docx                           one page a kind, to print and laminate
  sizewright cards --kind "outside micrometer"             one card on the terminal
  sizewright cards --crib shop.toml --unit inch -o cards.docx --paper Letter
  sizewright cards --json                                  JSON Lines, a card a line

The ending of a file tells its form: .docx, .txt, .jsonl. Each DOCX page has a QR code that holds the key facts as text.
"""


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `cards`."""
    parser.epilog = _EPILOG
    parser.add_argument("--crib", metavar="FILE", help="the shop's instruments (TOML)")
    parser.add_argument(
        "--kind", dest="kinds", action="extend", nargs="+", default=[], metavar="NAME", help="these kinds alone"
    )
    parser.add_argument(
        "--unit", choices=["mm", "inch", "both"], default="both", help="instruments in this unit (both)"
    )
    parser.add_argument(
        "-o", dest="files", type=Path, action="append", default=[], metavar="FILE", help="write to FILE"
    )
    parser.add_argument("--json", action="store_true", help="JSON Lines on standard output, for programs")
    parser.add_argument("--paper", choices=["A4", "Letter"], default="A4", help="paper of a DOCX")


def run(given: argparse.Namespace) -> int:
    """Make the cards."""
    from datetime import date

    from sizewright.instruments.crib import crib_of
    from sizewright.training.cards import cards_of, left_out

    if given.files:
        from sizewright.output.write_cards import check_ending

        for path in given.files:
            check_ending(path)
    crib = crib_of(given.crib)
    cards = cards_of(crib, given.kinds, given.unit, date.today())
    missing = left_out(crib, given.unit)
    if missing and not given.kinds:
        tell(f"sizewright: no card, as nothing of it is in {given.unit}: {', '.join(missing)}")
    if given.json:
        from sizewright.output.cards_jsonl import cards_jsonl

        sys.stdout.write(cards_jsonl(cards).decode())
    if given.files:
        from sizewright.output.write_cards import write_cards

        for path in given.files:
            write_cards(cards, path, given.paper)
            tell(f"written: {path}")
    if not given.json and not given.files:
        from sizewright.output.cards_terminal import print_cards

        print_cards(cards)
    return 0
