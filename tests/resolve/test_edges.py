"""Notes on edges, and notes that hold everywhere."""

from __future__ import annotations

import pytest

from sizewright.notation.read import read_general
from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context, Unit

# (callout, unit of the sheet, [count kind unit nominal lower upper]); count ? where the text does not tell. Sources:
# ISO 13715:2017 (minus removes, plus leaves; one number has zero beside it); title-block texts and drafting handbooks
# for the notes, as in the table of callouts.
EDGES: list[tuple[str, Unit, list[str]]] = [
    ("BREAK SHARP EDGES", "inch", ["? edge break inch - - -"]),
    ("DEBURR ALL EDGES", "mm", ["? edge break mm - - -"]),
    ("BREAK ALL SHARP EDGES .015 MAX", "inch", ["? edge break inch 0.015 - 0.015"]),
    ("BREAK ALL SHARP EDGES 0.5 x 45°", "mm", ["? edge break mm 0.5 - -"]),
    ("BREAK EDGES .005-.015", "inch", ["? edge break inch - 0.005 0.015"]),
    ("REMOVE ALL BURRS AND SHARP EDGES .010 MAX", "inch", ["? edge break inch 0.010 - 0.010"]),
    ("UNLESS OTHERWISE SPECIFIED BREAK ALL SHARP EDGES 0.2-0.4", "mm", ["? edge break mm - 0.2 0.4"]),
    ("BREAK EDGE 0.3 ±0.1", "mm", ["1 edge break mm 0.3 0.2 0.4"]),
    ("4x BREAK EDGE 0.2 MAX", "mm", ["4 edge break mm 0.2 - 0.2"]),
    ("BREAK EDGE 0.2 MAX (4 PLACES)", "mm", ["4 edge break mm 0.2 - 0.2"]),
    ("ISO 13715 -0.3", "mm", ["? edge mm - -0.3 0"]),
    ("ISO 13715 +0.3", "mm", ["? edge mm - 0 0.3"]),
    ("ISO 13715 ±0.05", "mm", ["? edge mm - -0.05 0.05"]),
    ("ISO 13715 -0.13/-0.5", "mm", ["? edge mm - -0.5 -0.13"]),
    ("ISO 13715 OUTSIDE -0.3, INSIDE +0.3", "mm", ["? edge mm - -0.3 0", "? edge mm - 0 0.3"]),
    ("ALL FILLETS AND ROUNDS R .06 UNLESS OTHERWISE SPECIFIED", "inch", ["? radius inch 0.06 - -"]),
    ("UNLESS OTHERWISE STATED RADII R1", "mm", ["? radius mm 1 - -"]),
    ("ALL RADII 0.5 MAX", "mm", ["? radius mm 0.5 - 0.5"]),
    ("CORNER R5", "mm", ["1 radius mm 5 - -"]),
    ("ALL DRAFT ANGLES 3° UNLESS OTHERWISE SPECIFIED", "mm", ["? angle deg 3 - -"]),
    ("DRAFT 2° ±0.5°", "mm", ["? angle deg 2 1.5 2.5"]),
    ("UNSPECIFIED CHAMFERS 0.5 x 45°", "mm", ["? chamfer size mm 0.5 - -", "? chamfer angle deg 45 - -"]),
]


def said(callout: str, context: Context) -> list[str]:
    given = answer(callout, context)
    assert given.error is None, given.error
    made = []
    for each in given.characteristics:
        bounds = (each.size.lower, each.size.upper) if each.size else (None, None)
        numbers = [
            "-" if number is None else str(float(number) if each.unit == "deg" else number).removesuffix(".0")
            for number in (each.nominal, *bounds)
        ]
        made.append(" ".join(("?" if each.count is None else str(each.count), each.kind, each.unit, *numbers)))
    return made


@pytest.mark.parametrize(("callout", "unit", "wanted"), EDGES)
def test_a_note_has_its_limits_and_no_count(callout: str, unit: Unit, wanted: list[str]) -> None:
    assert said(callout, Context(unit)) == wanted


# ISO 2768-1, Table 2: broken edges from 0.5 to 3 mm in class m, ±0.2.
def test_a_note_takes_the_general_tolerance_of_broken_edges() -> None:
    context = Context(general=read_general("ISO 2768-m"))
    assert said("ALL FILLETS R1", context) == ["? radius mm 1 0.8 1.2"]
    assert said("BREAK ALL EDGES 0.5 x 45°", context) == ["? edge break mm 0.5 0.3 0.7"]


def test_a_plain_radius_is_no_note() -> None:
    assert said("RADIUS 5", Context()) == ["1 radius mm 5 - -"]


def test_an_edge_in_millimetres_on_a_sheet_in_inches_is_not_taken_in_silence() -> None:
    given = answer("ISO 13715 -0.3", Context("inch"))
    assert given.error is not None
    assert (given.error.column, given.error.length) == (11, 4)
    assert said("ISO 13715 -0.3 mm", Context("inch")) == ["? edge mm - -0.3 0"]
    assert said("ISO 13715 -.010", Context("inch")) == ["? edge inch - -0.010 0"]
