from __future__ import annotations

from decimal import Decimal, localcontext
from typing import TypeAlias

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from sizewright.standards.errors import NotDefined
from sizewright.standards.threads import acme, iso261, pipe, trapezoidal, unified_series
from sizewright.standards.threads.iso965 import crest_tolerance, diameter_range, pitch_tolerance
from sizewright.standards.threads.iso_metric import default_class, metric_limits
from sizewright.standards.threads.mj import mj_limits
from sizewright.standards.threads.model import ThreadLimits
from sizewright.standards.threads.unified import unified_limits
from sizewright.standards.threads.wires import best_wire, over_wires, pitch_diameter_from_wires

from .thread_prints import least, most, published, spread

D = Decimal

Metric: TypeAlias = tuple[Decimal, Decimal]
Unified: TypeAlias = tuple[Decimal, Decimal, str]

METRIC = [(size.diameter, pitch) for size in iso261.sizes().values() for pitch in size.pitches]
UNIFIED = [(d, tpi, series) for d, size in unified_series.sizes().items() for tpi, series in size.series.items()]
NAMED = [thread for thread in UNIFIED if thread[2] != "UN"]
PITCHES = sorted({pitch for _, pitch in METRIC})


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(METRIC), st.sampled_from(["4H", "5H", "6H"]), st.sampled_from(["4h", "6h", "4h6h"]))
def test_metric_go_limits_do_not_cross_without_allowance(thread: Metric, nut: str, screw: str) -> None:
    try:
        internal = metric_limits(*thread, nut, internal=True)
        external = metric_limits(*thread, screw, internal=False)
    except NotDefined:
        # Coarse grades are not provided for the finest pitches; the usual class always is.
        assert thread[1] < D("0.8")
        return
    assert internal.pitch[0] == external.pitch[1]
    assert internal.major[0] == external.major[1] == thread[0]
    assert internal.minor[0] == external.minor[1]


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(METRIC))
def test_metric_limits_are_ordered_and_allowances_open_a_gap(thread: Metric) -> None:
    internal = metric_limits(*thread, default_class(*thread, internal=True), internal=True)
    external = metric_limits(*thread, "6g", internal=False)
    assert least(external.minor) < most(external.minor) < least(external.pitch) < most(external.pitch)
    assert most(external.pitch) < least(external.major) < most(external.major) < least(internal.major)
    assert least(internal.minor) < most(internal.minor) < least(internal.pitch) < most(internal.pitch)


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(UNIFIED))
def test_unified_go_limits_do_not_cross_without_allowance(thread: Unified) -> None:
    diameter, tpi, series = thread
    for edition in ("1989", "2003"):
        external = unified_limits(diameter, tpi, "3A", series, edition=edition)
        internal = unified_limits(diameter, tpi, "3B", series, edition=edition)
        assert external.pitch[1] == internal.pitch[0]
        assert external.major[1] == internal.major[0]
        assert most(external.minor) < least(internal.minor)


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(UNIFIED))
def test_unified_classes_widen_and_editions_stay_within_one_digit(thread: Unified) -> None:
    diameter, tpi, series = thread
    found = {}
    for edition in ("1989", "2003"):
        two, three = (unified_limits(diameter, tpi, c, series, edition=edition) for c in ("2A", "3A"))
        assert spread(two.pitch) > spread(three.pitch)
        assert most(two.pitch) < most(three.pitch)
        found[edition] = two
    for field in ("major", "pitch"):
        for old, new in zip(getattr(found["1989"], field), getattr(found["2003"], field), strict=True):
            assert abs(old - new) <= D("0.0002")


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(METRIC), st.integers(4, 7))
def test_metric_tolerances_grow_with_grade(thread: Metric, grade: int) -> None:
    diameter, pitch = thread
    try:
        finer, coarser = (pitch_tolerance(diameter, pitch, g, internal=True).value for g in (grade, grade + 1))
    except NotDefined:
        assert pitch < D("0.8") or (pitch == 1 and diameter > D("22.4"))
        return
    assert finer < coarser


@pytest.mark.parametrize("internal", [True, False])
def test_metric_crest_tolerances_grow_with_pitch(internal: bool) -> None:
    widths = [crest_tolerance(pitch, 4, internal).value for pitch in PITCHES]
    assert widths == sorted(widths)
    assert len(set(widths)) > 20


@pytest.mark.parametrize("internal", [True, False])
def test_metric_pitch_tolerances_grow_with_pitch_and_diameter(internal: bool) -> None:
    widths = {(diameter_range(d), p): pitch_tolerance(d, p, 4, internal).value for d, p in METRIC}
    for (one, p), width in widths.items():
        for (other, q), wider in widths.items():
            if one <= other and p <= q:
                assert width <= wider


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
@given(st.sampled_from(NAMED), st.sampled_from(NAMED))
def test_unified_tolerances_grow_with_pitch_and_diameter(one: Unified, other: Unified) -> None:
    (d, n, series), (e, m, _) = one, other
    assume(series == other[2] and d <= e and n >= m)
    small, large = (unified_limits(x, y, "3A", series).pitch for x, y in ((d, n), (e, m)))
    assert spread(small) <= spread(large)


@settings(max_examples=100, deadline=None)
@given(st.sampled_from([t for t in METRIC if t[0] >= D("1.6") and t[1] >= D("0.35")]))
def test_mj_root_is_fuller_than_that_of_m(thread: Metric) -> None:
    m, mj = (limits(*thread, "4h6h", internal=False) for limits in (metric_limits, mj_limits))
    assert mj.pitch == m.pitch
    assert least(mj.minor) > least(m.minor)
    nut_m, nut_mj = (limits(*thread, "4H5H", internal=True) for limits in (metric_limits, mj_limits))
    assert least(nut_mj.minor) > least(nut_m.minor)
    assert most(mj.minor) < least(nut_mj.minor)


@pytest.mark.parametrize("diameter", trapezoidal.diameters())
def test_trapezoidal_limits_are_ordered_at_every_size(diameter: Decimal) -> None:
    for pitch in trapezoidal.pitches_of(diameter):
        screw, nut = (trapezoidal.tr_limits(diameter, pitch, c, c == "7H") for c in ("7e", "7H"))
        assert most(screw.minor) < least(nut.minor)
        assert most(screw.pitch) < least(nut.pitch) < most(nut.pitch)
        assert most(screw.major) < least(nut.major)


@pytest.mark.parametrize("thread_class", ["2G", "3G", "4G"])
def test_acme_screw_enters_its_nut_at_every_preferred_size(thread_class: str) -> None:
    for diameter, tpi in acme.preferred().items():
        screw, nut = (acme.acme_limits(diameter, tpi, thread_class, internal) for internal in (False, True))
        assert most(screw.pitch) < least(nut.pitch)
        assert most(screw.minor) < least(nut.minor)
        assert most(screw.major) < least(nut.major)


@settings(max_examples=100, deadline=None)
@given(
    st.decimals("2", "100", places=4),
    st.decimals("0.2", "6", places=3),
    st.sampled_from([60, 55, 30, 29]),
)
def test_reading_over_wires_is_undone(pitch_diameter: Decimal, pitch: Decimal, angle: int) -> None:
    wire = best_wire(pitch, angle)
    back = pitch_diameter_from_wires(over_wires(pitch_diameter, pitch, wire, angle), pitch, wire, angle)
    assert abs(back - pitch_diameter) < D("1e-30")


def test_limits_do_not_depend_on_the_callers_decimal_context() -> None:
    def answers() -> tuple[ThreadLimits, ...]:
        return (
            metric_limits(D(250), D(6), "6g", internal=False),
            mj_limits(D(100), D(6), "4H5H", internal=True),
            unified_limits(D("2.375"), D(20), "2A"),
            trapezoidal.tr_limits(D(250), D(22), "7e", internal=False),
            acme.acme_limits(D("1.125"), D(5), "2G", internal=False),
            pipe.g_limits("6", internal=True),
        )

    expected = answers()
    with localcontext() as context:
        context.prec = 3
        found = answers()
    assert expected == found


def test_more_than_six_hundred_published_limits_are_held_against() -> None:
    skipped = {"designation", "class", "size", "diameter", "pitch", "tpi", "source", "differs", "reason", "nps"}
    skipped |= {"internal_external", "table_rule_differs", "b1_30_differs", "kind", "angle", "wire", "basis"}
    names: tuple[str, ...] = (
        "metric_limits",
        "metric_limits_open",
        "metric_internal_open",
        "unified_pitch_mm",
        "unified_limits",
        "unified_external_open",
        "unified_internal_minor",
    )
    names += ("unified_drill_chart", "tr_limits", "tr_basic", "acme_limits", "acme_basic", "g_open", "npt_positions")
    count = sum(
        bool(cell) for name in names for row in published(name) for key, cell in row.items() if key not in skipped
    )
    assert count > 600
