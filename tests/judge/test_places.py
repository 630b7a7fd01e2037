from __future__ import annotations

from pathlib import Path

import pytest

from sizewright.judge.places import places_of
from sizewright.output.rows import rows_of
from sizewright.output.slots import slots_of

from .sheets import SAMPLES, plan_of, sample


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_places_are_those_of_the_documents(path: Path) -> None:
    plan = sample(path)
    shown = [(slot.row.number, slot.piece, slot.instance, slot.bound.of) for slot in slots_of(rows_of(plan))]
    assert [(place.line.number, place.piece, place.instance, place.limits.of) for place in places_of(plan)] == shown


def test_every_place_has_a_key_of_its_own() -> None:
    keys = [place.key for place in places_of(plan_of())]
    assert len(set(keys)) == len(keys)
    assert ("1", 2, 1, "") in keys
    assert ("4", 1, 1, "pitch diameter") in keys
    assert ("5", 1, 1, "") in keys  # by gauge: one answer for the whole thread
