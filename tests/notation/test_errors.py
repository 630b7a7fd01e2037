"""What a person sees when a callout does not read: the line, a caret under the fault, and what would read."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizewright.notation.read import _parser, read_callout, read_general
from sizewright.notation.words import WORDS
from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context
from sizewright.text.caret import caret_lines
from sizewright.text.errors import CalloutError
from sizewright.text.fold import MAX_LENGTH

# The whole text, as it stands on the screen without the indent.
SHOWN = [
    ("25 ±", "    ^", "the callout ends too early; what would read: a number, 0, a fraction, an angle"),
    ("25 +0.1/+0.2/", "             ^", "the callout ends too early; what would read: a number, 0, a fraction, an angle, +, -, Ø, R"),
    (
        "25 +0.1/+0.2",
        "   ^~~~~~~~~",
        "the upper deviation is below the lower one; the upper one first: +0.2/+0.1, if both signs are right",
    ),
    ("30°75'", "   ^~", "75 minutes; 60 make the next whole one; minutes below 60"),
    ("30.5°15'", "     ^~", "a decimal part takes no smaller part after it; 30.25° or 30°15'"),
    ("Ø", "^", '"Ø" does not read here; what would read: a number, 0, a fraction, an angle, +, -, (, ['),
    ("1e999999", " ^", '"e" does not read here; a grade after it if it is a tolerance class, as in e7; otherwise what would read: a number, 0, a fraction, an angle, +, -, ±, /'),
    ("Ø25 THUR", "    ^~~~", '"THUR" does not read here; did you mean "Ø25 THRU"?'),
    ("R5 TPY", "   ^~~", '"TPY" does not read here; did you mean "R5 TYP"?'),
    ("25 30", "   ^~", "two sizes side by side; one size a line, or a mark that tells what each is"),
    ("25 ±0.1 ±0.2", "        ^~~~", "a second tolerance; one tolerance for one size"),
    ("25 +0.2", "   ^~~~", "one deviation alone: the other is missing, or the sign is half of ±; 25 +0.2/0 or 25 ±0.2"),
    ("25 -0.1", "   ^~~~", "one deviation alone: the other is missing, or the sign is half of ±; 25 0/-0.1 or 25 ±0.1"),
    ("25 0", "   ^", "a deviation of 0 alone; 25 +0.1/0, both deviations"),
    ("25 +0.1 -0.1 +0.2", "             ^~~~", "a third deviation; two deviations, as in 25 +0.2/-0.1"),
    ("R5 DIA", "   ^~~", "both a radius and a diameter; one mark for one size"),
    ("25 MAX MIN", "       ^~~", "both MAX and MIN on one number; 12.1 MAX / 11.9 MIN"),
    ("24.9 MAX / 25.1 MIN", "                ^~~", "the MAX is below the MIN; the larger number with MAX"),
    ("25 ±0.1 MAX", "        ^~~", "MAX beside a tolerance; one or the other"),
    ("25mm ±.1in", "      ^~~~", "two units in one size; one unit for a size and its tolerance"),
    ("1/3", "^~~", "1/3 can be two limits, a fraction or a taper; 3 TO 1 for limits, 1:3 for a taper"),
    ("1 1/3", "^~~~~", '"1 1/3" has no exact decimal value; fractions of an inch are halves to 1/128'),
    (".25-20", "^~~~~~", ".25-20 can be two limits or a thread; .25 TO 20 for limits, the series after it for a thread"),
    ("0x 25", "^~", "a count of 0; a count from 1 to 5000"),
    ("2x 3x 25", "   ^~", "a second count; one count for a feature"),
    (
        "4 x 25 ±0.1",
        "^~~~~~~~~~~",
        "the x can mean a count, two sizes, or a chamfer's two legs; a blank after the x alone for a count (4x 25 ±0.1), one size a line, CHAM before it for a chamfer",
    ),
    ("12 x 13 SQ", "     ^~~~~", "a square whose sides differ; 12 x 12 SQ"),
    ("45° x 30°", "      ^~~", "an x between two angles; a size and an angle, as in 2 x 45°"),
    ("Ø5 x R3", "     ^~", "an x between sizes that do not go together; 2 x 45°, 12 x 12 SQ, Ø10 x 20 DEEP"),
    ("[25", "   ^", "the callout ends too early; what would read: ]"),
    ("Ø30°", "^~~~", "an angle where a diameter is meant; a length"),
    ("Ø5 ±6", "^~~~~", "the lower limit of the diameter is below zero; a smaller tolerance"),
    ("3/4", "^~~", 'a bare fraction on a metric drawing: inches, or two limits; 3/4" for inches, 4 TO 3 for limits'),
    ("25²", "  ^", '"²" does not read here; what would read: a number, 0, a fraction, an angle, +, -, ±, /'),
    ("25 (30°)", "    ^~~", "an angle beside a length; the same size in the other unit"),
    ("25 (24.9/25.1)", "    ^~~~~~~~~", "limits beside a size; the limits alone, 25.1/24.9, or both with limits"),
    ("25.4 [1.000 ±.004]", "      ^~~~~~~~~~~", "a tolerance beside the second dimension only; the tolerance beside the first"),
    ("4 Ø10", "^", "a whole number before a mark: a count without its x, or a size; 4x Ø10 for a count, a line of its own for a size"),
    ("1 x 45° MAX", "    ^~~~~~~", "the tolerance after the angle can be the size's or the angle's; 1 ±0.1 x 45°, or 1 x 45° ±1° with its mark"),
    ("1x45° ±0.1", "  ^~~~~~~~", "the tolerance after the angle can be the size's or the angle's; 1 ±0.1 x 45°, or 1 x 45° ±1° with its mark"),
    (".03 x 45", "      ^~", "the degree mark after 45 is missing; 45°"),
    ("C10 x 30", "      ^~", "C alone means 45°: a degree mark is missing, or CHAM is meant; C1, 1 x 30°"),
    ("CHAM 45°", "^~~~~~~~", "an angle where the size of a chamfer is meant; CHAM 1 x 30°"),
    ("12 ±0.1 x 12 SQ", "^~~~~~~", "a tolerance on one side of a square; 12 x 12 SQ ±0.1"),
    ("2x R5 4 PLACES", "      ^~~~~~~~", "a second count; one count for a feature"),
    ("7/24", "^~~~", "7/24 can be two limits, a fraction or a taper; 24 TO 7 for limits, 7:24 for a taper"),
    ("25 ±1/64", "    ^~~~", 'a bare fraction on a metric drawing: inches, or two limits; 1/64" for inches, 64 TO 1 for limits'),
    ("45'", "^~~", "feet, or minutes of arc; 0°45' for an angle, 45'-0\" for feet"),
    ("2'-6", "  ^~", "feet and inches without the inch mark; 2'-6\""),
    ("0 -0.1", "  ^~~~", "one deviation alone: the other is missing, or the sign is half of ±; 0 0/-0.1 or 0 ±0.1, or 0-0.1 for limits"),
    ("30° ±30", "     ^~", "a tolerance as large as its angle, without a mark; ±30' or ±30°"),
    ("400°", "^~~~", "an angle beyond a full turn; 360° at most"),
    ("THK 2 ±3", "^~~~~~~~", "the lower limit of the thickness is below zero; a smaller tolerance"),
    ("Ø5 THRU DEEP 10", "        ^~~~~~~", "a depth on a hole that goes through; THRU or a depth"),
    ("25 BSC MAX", "       ^~~", "MAX on a basic size; one or the other"),
    ("25 BSC REF", "       ^~~", "both basic and reference; one or the other"),
    ("-10 ±0.1", "^", "a sign before a size; no sign on a size; a deviation stands after its size"),
    ("1 000", "  ^~~", "a deviation of 0 alone; 1 +0.1/0, both deviations; 1000 without the blank if it is one number"),
    # near misses
    ("O25 H7", "^", '"O" does not read here; did you mean "Ø25 H7"?'),
    ("Ø25 7H", "     ^", '"H" does not read here; did you mean "Ø25 H7"?'),
    ("30 DEGRES", "   ^~~~~~", '"DEGRES" does not read here; did you mean "30 DEGREES"?'),
    ("CTRBORE Ø14", "^~~~~~~", '"CTRBORE" does not read here; did you mean "CBORE Ø14"?'),
    ("25..1", "^~~~~", "two points: a number with one too many, or a range from the larger down; 25.1, or 1 TO 25"),
    ("Ø6 ↧20 THRU", "   ^~~~~~~~", "a depth that goes through; THRU or a depth"),
    # threads
    ('M10x1.5-9H', '       ^~~', 'ISO 965-1 provides no TD2 of grade 9 for a pitch of 1.5 mm; defined near it: 8, 7, 6, 5, 4'),
    ('M10x1.5-6K', '       ^~~', 'Position K is not defined for metric threads; defined near it: G, H, AZ, AX'),
    ('M10x1.5-6H/5H', '       ^~~~~~', '6H/5H is no pair of an internal and an external class; 6H/6g, 2B/2A'),
    ('M35', '^~~', 'M35 has no coarse pitch in ISO 261, so its pitch has to be stated; defined near it: M35x1.5'),
    ('M10x1.5x20', '        ^~', 'a number after a thread; 20 DEEP or 20 LONG'),
    ('M10 THRU ↧20', '         ^~~', 'a depth on a thread that goes through; THRU or a depth'),
    ('TAP M10-6g', '       ^~~', '6g is the class of an external thread, a word says internal'),
    ('M16xPh4P1.5', '^~~~~~~~~~~', 'A lead of 4 is not a whole multiple of the pitch 1.5; defined near it: 3, 4.5'),
    ('M10 FINE', '^~~~~~~~', 'a fine thread without its pitch; M10x1.25, M10x1, M10x0.75'),
    ('M10-LH RH', '       ^~', 'both hands; one for a thread'),
    ('M10 MULTI START', '    ^~~~~~~~~~~', 'how many starts is not told; 2 STARTS'),
    ('BASIC M10', '^~~~~', 'a basic thread; a class, as in M10x1.5-6H'),
    ('25 (M10)', '    ^~~', 'a thread in brackets after a size; the thread after a semicolon'),
    ('Ø5 x M10', '     ^~~', 'an x beside a thread; no blank before the x for a count, 20 DEEP for a depth'),
    ('M10x1.5-6', '       ^~', 'a number that is no class; 6H for a hole, 6g for a screw'),
    ('Ø12 THRU M6', '         ^~', 'M6 can be a thread or a tolerance class; M6 after a semicolon for the thread, right behind its number for the class'),
    ('1/4-19 UNC', '^~~~~~~~~~', '1/4-19 is not a UNC thread of ASME B1.1; defined near it: 1/4-20 UNC, 1/4-28 UNF, 1/4-32 UNEF, 1/4-19 UNS'),
    ('1/4-20 UNF', '^~~~~~~~~~', '1/4-20 is not a UNF thread of ASME B1.1; defined near it: 1/4-28 UNF, 1/4-20 UNC, 1/4-32 UNEF'),
    ('1/4-18', '^~~~~~', '1/4-18 is not in the standard series of ASME B1.1 and no series is typed; defined near it: 1/4-18 NPT, 1/4-20 UNC, 1/4-28 UNF, 1/4-32 UNEF'),
    ('1/4-20 UNC-2', '          ^~', 'a number that is no class; 2B for a hole, 2A for a screw'),
    ('1/4-20 NC', '^~~~~~~~~', 'NC threads are not held here; UNC, if the drawing means the Unified thread that replaced it'),
    ('10-30 UNS', '^~~~~~~~~', '10 can be a number size or inches; #10-30 or 10"-30'),
    ('2 1/4-20', '^~~~~~~~', '2 1/4-20 can be a count and a thread 1/4-20 UNC; 2x 1/4-20 UNC, or 2 1/4-20 UN'),
    ('1/2 UN-2A', '^~~~~~~~~', 'threads per inch are not typed, and 1/2 has several UN threads in ASME B1.1; defined near it: 1/2-20 UNF, 1/2-16 UN, 1/2-13 UNC'),
    ('0-80', '^~~~', '0-80 can be two limits or a thread; 0 TO 80 for limits, the series after it for a thread'),
    ('Ø3/8-16', ' ^~~~~~', '3/8-16 can be two limits or a thread; 3/8 TO 16 for limits, the series after it for a thread'),
    ('Tr40', '^~~~', 'a trapezoidal thread without its pitch; Tr40x7, Tr40x10, Tr40x3'),
    ('Tr40x7-6H', '      ^~~', 'Class 6H is not defined for internal trapezoidal threads; defined near it: 7H, 8H, 9H'),
    ('1-5 ACME-5G', '        ^~~', '5G is not a class of general purpose Acme threads; defined near it: 2G, 3G, 4G'),
    ('7/16 NPT', '^~~~~~~~', '7/16 is not a nominal pipe size of ASME B1.20.1; defined near it: 3/8, 1/2, 1/4'),
    ('1/4-20 NPT', '^~~~~~~~~~', '1/4 NPT has 18 threads per inch, typed are 20'),
    ('G9/16', '^~~~~', 'G9/16 is not a size of ISO 228-1; defined near it: G1/2, G5/8, G3/8'),
    ('G1/2 EXT', '^~~~~~~~', 'An external G thread is class A or class B; ISO 228-1 knows no other; defined near it: G1/2A, G1/2B'),
    ('1/2 BSPT', '^~~~~~~~', 'BSPT threads are not held here; a taper pipe thread of ISO 7-1: R outside, Rc inside'),
    ('1/4-20 UNC ↧.5', '            ^~', 'a thread in inch and a depth of .5 mm; its unit: .5" or .5 mm'),
    ('M6 t=10', '   ^~~~', 'a number after a thread; 20 DEEP or 20 LONG'),
    ('M10 THRED', '    ^~~~~', '"THRED" does not read here; did you mean "M10 THREAD"?'),
]  # fmt: skip


@pytest.mark.parametrize(("callout", "mark", "message"), SHOWN, ids=[row[0] for row in SHOWN])
def test_an_error_shows_the_character_and_what_would_read(callout: str, mark: str, message: str) -> None:
    error = answer(callout, Context()).error
    assert error is not None
    assert [callout, mark, message] == caret_lines(callout, error, indent="")


# In the original text, before look-alikes are folded: (callout, column, length).
PLACES = [
    ("½ ±", 4, 0),
    ("25\u00a0\u00a0±0,1\u2003foo", 10, 3),
    ("Ø\uff12\uff15 ±", 6, 0),
    ("\u200b25 Ⓔ q", 7, 1),
    ("25 ±0.1\x07", 8, 1),
    ("\x1b[31m25", 1, 1),
    ("25 ±0.1\n\n? 3", 10, 1),
    (" " * 3, 1, 0),
    ("", 1, 0),
]


@pytest.mark.parametrize(("callout", "column", "length"), PLACES)
def test_an_error_points_into_the_text_as_typed(callout: str, column: int, length: int) -> None:
    with pytest.raises(CalloutError) as caught:
        read_callout(callout)
    assert (column, length) == (caught.value.column, caught.value.length)


def test_a_million_characters_are_refused_at_once() -> None:
    with pytest.raises(CalloutError, match="too long") as caught:
        read_callout("25 " * 333_334)
    assert caught.value.column == MAX_LENGTH + 1


def test_a_number_of_too_many_figures_is_refused() -> None:
    with pytest.raises(CalloutError, match="too long"):
        read_callout("2" * 60)


# What only looks like one size more: (callout, its fault begins in this line).
STACKED = [
    ("Ø25.1\nØ24.9", "two near sizes, one under the other"),
    ("Ø10\n20", "this far apart"),
    ("25\n4", "this far apart"),
    ("Ø20\nM6", "M6 can be a thread or the tolerance class of the size before it"),
    ("Ø25\nG6", "G6 can be a thread or the tolerance class of the size before it"),
]


@pytest.mark.parametrize(("callout", "said"), STACKED)
def test_stacked_numbers_that_can_be_two_things_are_refused(callout: str, said: str) -> None:
    error = answer(callout, Context()).error
    assert error is not None
    assert said in error.message


@pytest.mark.parametrize("text", ["", "ISO 2768-q", ".XX .XX", ".XX ±.01 .XX ±.02", "±", "angles 1 mm"])
def test_general_tolerances_that_do_not_read(text: str) -> None:
    with pytest.raises(CalloutError):
        read_general(text)


# (text, its place as typed): blanks in front do not move the place.
@pytest.mark.parametrize(
    ("text", "column", "length"), [("  xx", 3, 2), ("   ISO 2768-q", 12, 1), ("", 1, 0), (" ", 1, 0)]
)
def test_general_tolerances_point_into_the_text_as_typed(text: str, column: int, length: int) -> None:
    with pytest.raises(CalloutError) as caught:
        read_general(text)
    assert (caught.value.column, caught.value.length) == (column, length)


def test_every_terminal_has_its_word() -> None:
    terminals = _parser().terminals - {"__IGNORE_0"}
    assert terminals - set(WORDS) == set()
    assert set(WORDS) - terminals == {"$END"}


MARKS = "0123456789.,/+-±Øx°'\"()[]| \nRMXTYPCDEFINHOLKSU↧□⌢½Ⓔ=;:#"


@settings(deadline=None)
@given(st.text(st.sampled_from(MARKS), max_size=24) | st.text(max_size=40))
def test_any_text_gives_an_answer_with_a_place_inside_it(typed: str) -> None:
    given_answer = answer(typed, Context())
    if given_answer.error is not None:
        assert given_answer.characteristics == ()
        assert 1 <= given_answer.error.column <= len(typed) + 1
        assert given_answer.error.column + given_answer.error.length <= len(typed) + 1
    else:
        assert given_answer.characteristics
