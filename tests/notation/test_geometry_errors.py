# ruff: noqa: E501 - one row a message
"""Frames and datums that do not read: the character, what is wrong, and what would read."""

from __future__ import annotations

import random

import pytest

from sizewright.notation.geometry import WORDS, _parser
from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context
from sizewright.text.caret import caret_lines

SHOWN = [
    ("|⌖|", " ^", "a position without its tolerance; |⌖|Ø0.1(M)|A|B|C|"),
    ("POSITION TO A", "^~~~~~~~", "a position without its tolerance; |⌖|Ø0.1(M)|A|B|C|"),
    ("⌖ Ø0 A", "   ^", "a zone of 0 without (M) or (L); Ø0(M): all of it is bonus"),
    ("⏥ Ø0.1", "   ^~~", "a zone with Ø on flatness; no mark before it: the zone is two planes"),
    ("FLATNESS 0.05 TO A", "                 ^", "flatness is a form: it refers to no datum; flatness without it, or parallelism or perpendicularity to the datum"),
    ("↗ 0.1(M) A", "     ^~~", "(M) on circular run-out, which takes none; no modifier; position or perpendicularity take (M)"),
    ("|⌖|Ø0.1|A|A|", "          ^", "datum A twice; each datum once"),
    ("|⌖|Ø0.1(M)(L)|A|", "          ^~~", "(M) and (L) on one tolerance; one of them"),
    ("|⌖|Ø0.1(M)(M)|A|", "          ^~~", "(M) twice; each modifier once"),
    ("|⌖|Ø0.1|M|A|", "        ^", "M after the tolerance can be a modifier or a datum; (M) for the modifier, TO M for the datum"),
    ("POS Ø.010 M A B C", "          ^", "M after the tolerance can be a modifier or a datum; (M) for the modifier, TO M for the datum"),
    ("|⌖|Ø0.1(E)|A|", "       ^~~", "(E) belongs to a size, not to a geometric tolerance; (E) after the size"),
    ("|⌖|Ø0.1|A|(M)|", "          ^~~", "a modifier in a compartment of its own; |B(M)|"),
    ("|⌖|Ø0.1|A(P)|", "         ^~~", "(P) after the datums; after the tolerance: |⌖|Ø0.1(M)|A|B|C|"),
    ("|⌖|(M)Ø0.1|A|", "   ^~~", "a modifier with nothing before it; |⌖|Ø0.1(M)|A|B|C|"),
    ("|⌖|Ø0.1|A|B| 0.2", "             ^~~", "a second number in a frame; one tolerance; (P) before a projected height"),
    ("⌖ Ø0.1 TO", "       ^~", 'nothing after "TO"; |⌖|Ø0.1(M)|A|B|C|'),
    ("↗ 0.1 A-", "       ^", 'nothing after "-"; |⌖|Ø0.1(M)|A|B|C|'),
    ("PERP .005 TO A AND B", "               ^~~", "datums joined by a word: a common datum, or one after the other; A-B for a common datum, A|B for one after the other"),
    ("PROFILE 0.5 A", "^~~~~~~", "a profile of a line, or of a surface; PROFILE OF A SURFACE, PROFILE OF A LINE"),
    ("∠ 0.5° A", "     ^", "an angle where the width of a zone is meant; the width of the zone; the angle itself is a basic size, [30°]"),
    ("⌓ 0.4 (U) 0.5 A", "          ^~~", "the part outside the true profile is more than the zone; 0 to the zone's width"),
    ("⌓ 0.4 (U) A", "      ^~~", "(U) without its amount; (U) 0.1, UZ+0.1"),
    ("⏥ 0.1/0.05", "     ^~~~~", "the part of the feature is smaller than its zone; 0.1/100: zone, then length"),
    ("STRAIGHTNESS .001 PER INCH", "                  ^~~~~~~~", "a unit on one number of a frame alone; .001in too"),
    ("|⌖|Ø0.2|A|B|\n|Ø0.8(M)|A|", "  ^~~", "the lower segment is no tighter than the one above it (0.2); the wider zone on top"),
    ("Ø12/H7", "^~~~~~", "H7 can be a datum target or a tolerance class; DATUM TARGET H7, or the class without the stroke"),
    ("(DATUM A", "^~~~~~~~", "a bracket about a datum that is not closed, or closed twice; [A], -A-, DATUM A"),
    ("⌖ Ø1/64 A", "   ^~~~", 'a bare fraction on a metric drawing: inches, or two limits; 1/64" for inches, 64 TO 1 for limits'),
    ("FLATNES 0.05", "^~~~~~~", '"FLATNES" does not read here; did you mean "FLATNESS 0.05"?'),
    ("4x 4x |⌖|Ø0.1|A|", "   ^~", "a second count; one count for a feature"),
    ("4x |⌖|Ø0.1|A| 5 PLACES", "              ^~~~~~~~", "a second count; one count for a feature"),
    ("0.1 x |⌖|Ø0.1|A|", "      ^~~~~~~~~~", "an x beside what is no size; no blank before the x for a count, 20 DEEP for a depth"),
]  # fmt: skip


@pytest.mark.parametrize(("callout", "mark", "message"), SHOWN, ids=[row[0] for row in SHOWN])
def test_an_error_shows_the_character_and_what_would_read(callout: str, mark: str, message: str) -> None:
    error = answer(callout, Context()).error
    assert error is not None
    assert [callout.split("\n")[-1], mark, message] == caret_lines(callout, error, indent="")[-3:]


def test_every_terminal_has_its_word() -> None:
    terminals = _parser().terminals - {"__IGNORE_0"}
    assert terminals - set(WORDS) == set()
    assert set(WORDS) - terminals == {"$END"}


SEEDS = [
    "4x Ø10 ±0.1\n|⌖|Ø0.2(M)|A|B(M)|C|",
    "|⌖|Ø0.8(M)|A|B|C|\n|Ø0.25(M)|A| 4 PLACES",
    "POSITION WITHIN DIA .010 TO A, B AND C AT MMC TYP",
    "⌓ 0.4 (U) 0.1 A-B ALL AROUND, BETWEEN X AND Y",
    "CONCENTRIC TO -A- WITHIN .005 TIR; DATUM B",
    "⏥ 0.1/25x25\n[A]\nØ12/A1",
]
LETTERS = "|[]()Ø⌖⏥⟂∥↗ABCMLPTU0123456789.,/-+ \n;xX°'\"="


def test_any_edit_gives_an_answer_with_a_place_inside_it() -> None:
    chance = random.Random(1101)
    for _ in range(1500):
        text = list(chance.choice(SEEDS))
        for _ in range(chance.randint(1, 4)):
            at = chance.randrange(len(text) + 1)
            text[at : at + chance.randint(0, 2)] = chance.choice(LETTERS) * chance.randint(0, 1)
        typed = "".join(text)
        given = answer(typed, Context())
        if given.error is not None:
            assert 1 <= given.error.column <= given.error.column + given.error.length <= len(typed) + 1, typed
        else:
            assert given.characteristics
