from __future__ import annotations

import io

import pytest
from rich.cells import cell_len

from sizewright.output.rows import rows_of
from sizewright.output.terminal import make_console, plan_text, print_plan
from sizewright.plan.model import Plan

from .plans import hostile, housing, long_plan, saddle

PLANS = {"housing": housing(), "saddle": saddle(), "long": long_plan(), "hostile": hostile()}


@pytest.mark.parametrize("width", [80, 100, 120])
@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_it_fits_and_every_limit_is_whole(plan: Plan, width: int) -> None:
    text = plan_text(plan, width)
    assert max(map(cell_len, text.splitlines())) <= width
    assert "…" not in text
    words = text.split()
    for row in rows_of(plan):
        for bound in (*row.limits, *row.other_limits):
            assert {bound.said_lower or "–", bound.said_upper or "–"} <= set(words)
        assert not row.aim or row.aim in words


def test_a_narrow_screen_loses_no_number() -> None:
    words = plan_text(housing(), 30).split()
    assert {"30°20'", "2.44095", "2.44212", "41.732"} <= set(words)


AT_80 = """
 4    12 MAX                             –       12  mm    digital caliper 150
      depth                                                read to 0.1 mm
                                                           readings: 1 on each
                                                           of 2 pieces

 5    M42x1.5-6g                                     mm    thread ring gauge
 D4   external thread M42x1.5-6g                           M42x1.5 6g
                                                           readings: 1 on each
                                                           of 2 pieces
        major diameter              41.732   41.968  mm
        pitch diameter              40.854   40.994  mm
        minor diameter                   –   40.344  mm

 6    (84)                                           mm
      length 84 mm
      reference: for information,
      no verdict
"""


def test_lines_look_like_this_at_80() -> None:
    assert AT_80 in plan_text(housing(), 80)


def test_the_parts_come_in_order() -> None:
    text = plan_text(housing(), 80)
    heads = ["view: front", "instruments needed", "methods", "remarks", "faults", "cautions"]
    places = [text.index(f"\n{head}\n") for head in heads]
    assert places == sorted(places)


def test_it_is_plain_when_piped() -> None:
    stream = io.StringIO()
    print_plan(hostile(), make_console(stream, 80))
    assert "\x1b" not in stream.getvalue()
    assert "[red]x[/red]" in stream.getvalue()


def test_no_colour_is_honoured(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    assert make_console(io.StringIO()).no_color
