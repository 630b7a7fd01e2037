"""The table of forms that read, which the command shows: every row comes to what it says."""

from __future__ import annotations

import pytest

from sizewright.notation.examples import Example, examples
from sizewright.notation.read import read_callout
from sizewright.notation.write import write_callout
from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context
from sizewright.resolve.describe import in_short

from ..support_command import run


@pytest.mark.parametrize("row", examples(), ids=lambda row: f"{row.callout} ({row.unit})")
def test_an_example_means_what_the_table_says(row: Example) -> None:
    given = answer(row.callout, Context(row.unit))
    assert given.error is None, given.error
    assert "; ".join(map(in_short, given.characteristics)) == row.meaning


@pytest.mark.parametrize("manner", ["iso", "asme"])
@pytest.mark.parametrize("row", examples(), ids=lambda row: f"{row.callout} ({row.unit})")
def test_an_example_survives_being_written(row: Example, manner: str) -> None:
    model = read_callout(row.callout).callout
    text = write_callout(model, manner, row.unit)
    assert read_callout(text).callout == model, text


def test_the_command_shows_the_table() -> None:
    done = run("notation")
    assert done.returncode == 0
    assert all(row.callout.split("\n")[0] in done.stdout for row in examples())
    one = run("notation", "angles").stdout
    assert "30° ±1°" in one
    assert "Ø25 H7" not in one
    assert "no family is called 'x'; known: sizes" in run("notation", "x").stderr
