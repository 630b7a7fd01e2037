"""A plan that asks for more readings than anything holds says so, at once."""

from __future__ import annotations

from itertools import islice
from pathlib import Path

import pytest

from sizewright.instruments.crib import default_crib
from sizewright.judge.places import places_of
from sizewright.output.csvfile import readings_csv
from sizewright.output.xlsx import plan_xlsx
from sizewright.plan.build import build_plan
from sizewright.plan.model import Plan
from sizewright.sheet.read import read_text
from sizewright.text.errors import InputError


def plan() -> Plan:
    return build_plan(read_text("pieces: 1000000\n1: 5000x Ø5 ±0.1\n", Path("a.sheet")), default_crib())


def test_tables_for_readings_are_refused() -> None:
    with pytest.raises(InputError, match="5000000000 readings are more than a spreadsheet opens"):
        readings_csv(plan())
    with pytest.raises(InputError, match="5000000000 readings are more than a sheet of XLSX holds"):
        plan_xlsx(plan())


def test_places_of_some_pieces_are_found_without_the_others() -> None:
    places = list(islice(places_of(plan(), {999_999, 1_000_000}), 10_001))
    assert (len(places), places[0].piece, places[-1].piece) == (10_000, 999_999, 1_000_000)
