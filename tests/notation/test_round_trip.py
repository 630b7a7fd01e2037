"""What is written reads back to the same model, in both manners and units."""

from __future__ import annotations

from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizewright.notation.model import Callout
from sizewright.notation.read import read_callout
from sizewright.notation.write import write_callout

from ..support import callout_rows
from .strategies import callouts, framed_callouts, general_notes, units_notes

Unit = Literal["mm", "inch"]


@settings(max_examples=400, deadline=None)
@given(
    callouts() | framed_callouts() | general_notes() | units_notes,
    st.sampled_from(["iso", "asme"]),
    st.sampled_from(["mm", "inch"]),
)
def test_a_model_written_and_read_again_is_the_same(model: Callout, manner: str, unit: Unit) -> None:
    text = write_callout(model, manner, unit)
    assert read_callout(text).callout == model, text


# Texts that read to models the strategies do not make.
ODD = [
    "25 +0/-0",
    "2 REF x 45°",
    "2x45° REF",
    "30° +30'/-0'",
    "5x20 (=100)",
    "12 x 12 SQ",
    "Ø5; 4 HOLES, Ø12",
    "C1",
    "0.000",
    "X .90 TO 19.0",  # with a dash the second would be a coordinate below zero
    "X DRILL, TAP #10-24 UNC-2B",
    '0..0"',
    '.0 ±0"',
    "0''",
    "R19999999999999999999999999999999999999999'",
    "0 mm",
    "0.02 TO 100",
    "4 1/5",
    "C8 BASIC",
    "(C1)",
    "C1 ±0.1",
    "SPOTFACE 1 DEEP",
    "25 OD ±0.1",
    "ID 1.500",
    "MAX 25.02 MIN 24.98",
    "M6 12 DEEP DRILL 16 DEEP",
    "20 BETWEEN CENTRES",
    "M6 6 WIDE 12 DEEP",  # the depth is not the thread's
]


@pytest.mark.parametrize("manner", ["iso", "asme"])
@pytest.mark.parametrize("typed", ODD)
def test_odd_texts_survive_being_written(typed: str, manner: str) -> None:
    model = read_callout(typed).callout
    text = write_callout(model, manner)
    assert read_callout(text).callout == model, text


@pytest.mark.parametrize("manner", ["iso", "asme"])
def test_every_known_callout_survives_being_written(manner: str) -> None:
    for row in callout_rows():
        unit: Unit = "inch" if row["unit"] == "inch" else "mm"
        model = read_callout(row["callout"]).callout
        text = write_callout(model, manner, unit)
        assert read_callout(text).callout == model, (row["callout"], text)
