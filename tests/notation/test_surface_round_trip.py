"""Surfaces, edges, hardness, tapers, knurls and sheets: what is written reads back to the same model."""

from __future__ import annotations

from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizewright.notation.model import Callout
from sizewright.notation.read import read_callout
from sizewright.notation.write import write_callout

from ..resolve.test_edges import EDGES
from ..resolve.test_hardness import HARDNESSES
from ..resolve.test_knurls import KNURLS
from ..resolve.test_tapers import TAPERS
from ..resolve.test_texture import TEXTURES
from .surface_strategies import surfaces

Unit = Literal["mm", "inch"]
TYPED = [row[0] for row in (*EDGES, *HARDNESSES, *KNURLS, *TAPERS, *TEXTURES)]


@settings(max_examples=400, deadline=None)
@given(surfaces(), st.sampled_from(["iso", "asme"]), st.sampled_from(["mm", "inch"]))
def test_a_surface_written_and_read_again_is_the_same(model: Callout, manner: str, unit: Unit) -> None:
    text = write_callout(model, manner, unit)
    assert read_callout(text).callout == model, text


@pytest.mark.parametrize("manner", ["iso", "asme"])
@pytest.mark.parametrize("typed", TYPED)
def test_every_typed_surface_survives_being_written(typed: str, manner: str) -> None:
    model = read_callout(typed).callout
    text = write_callout(model, manner)
    assert read_callout(text).callout == model, text
