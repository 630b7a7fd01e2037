"""Specific and global risks against worked examples, a library of many digits, and properties."""

from __future__ import annotations

import csv
import json
import math
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from mpmath import mp

from sizewright.judge.probability import conformance, outside_probability
from sizewright.judge.ratios import ratio_words, ratios
from sizewright.judge.risk import (
    Bounds,
    GammaProcess,
    NormalProcess,
    global_risk,
    guard_for_consumer_risk,
    process_sd_from_in_tolerance,
    process_sd_from_observed,
    risks,
)
from sizewright.resolve.characteristic import Limits
from sizewright.standards.distributions import gamma_above, quantile

from .support import D, budget

mp.dps = 30
DATA = Path(__file__).parent / "data" / "risk_examples.csv"


def examples() -> list[dict[str, str]]:
    lines = [line for line in DATA.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def batch(given: dict[str, float]) -> tuple[NormalProcess, float, Bounds]:
    """Process, u and limits as an example names them."""
    if "in_tolerance_probability" in given:
        sd = process_sd_from_in_tolerance(given["in_tolerance_probability"], given["upper"] - given["lower"])
        u = sd / given["process_sd_over_u"]
    else:
        sd, u = given["process_sd"], given["u"]
    return NormalProcess(given["process_mean"], sd), u, Bounds(given["lower"], given["upper"])


def found(what: str, given: dict[str, Any]) -> float:
    """The quantity that a row asks for, by the package."""
    if what.startswith("global"):
        process, u, limits = batch(given)
        consumer, producer, accepted = risks(process, u, limits, limits.drawn_in(given["guard"]))
        if "producer" in what:
            return producer
        return (consumer / accepted if "conditional" in what else consumer) * (100 if "percent" in what else 1)
    if what == "conformance_probability":
        limits_ = Limits("size", None, D(str(given["upper"])))
        return float(conformance(D(str(given["estimate"])), limits_, budget(str(given["u"]))))
    if what == "nonconforming_probability":
        assert given["distribution"] == "gamma"
        return gamma_above(given["upper"], given["shape"], given["scale"])
    if what == "specific_risk":
        return outside_probability(given["mean"], given["sd"], given["lower"], given["upper"])
    if what == "guard_band_factor_one_sided":
        return quantile(given["conformance_probability"])
    if what == "combined_standard_uncertainty_nm":
        return math.hypot(*given["contributions"])
    if what == "welch_satterthwaite":  # the budget's own code is tested where it stands; here the row recomputes
        terms = zip(given["contributions"], given["dof"], strict=True)
        return float(given["uc"] ** 4 / sum(term**4 / dof for term, dof in terms))
    raise AssertionError(what)


@pytest.mark.parametrize("row", examples(), ids=lambda row: row["what"])
def test_every_worked_example(row: dict[str, str]) -> None:
    expected, tolerance = float(row["expected"]), float(row["tolerance"])
    assert found(row["what"], json.loads(row["inputs"])) == pytest.approx(expected, abs=tolerance)


def test_a_consumer_risk_to_twelve_places() -> None:
    # N(10, 0.02), u 0.008, limits 9.95 to 10.05: scipy 1.17.1 (three ways) and mpmath 1.3.0 agree on this figure
    limits = Bounds(9.95, 10.05)
    assert risks(NormalProcess(10, 0.02), 0.008, limits, limits)[0] == pytest.approx(0.003260535452587, abs=1e-14)


# u, process sd, limits and acceptance from the process mean
BATCHES = [
    (0.008, 0.02, (-0.05, 0.05), (-0.045, 0.045)),
    (0.02, 0.008, (-0.05, 0.05), (-0.05, 0.05)),
    (0.00002, 0.02, (-0.05, 0.05), (-0.0499, 0.0499)),
    (0.02, 0.00002, (-0.00001, 0.00001), (-0.02, 0.02)),
    (0.01, 0.02, (-math.inf, 0.01), (-math.inf, 0.0)),
    (0.01, 0.02, (-0.05, 0.05), (-0.07, 0.07)),
    (0.05, 0.02, (-0.05, 0.05), (-0.001, 0.001)),
    (0.01, 0.02, (0.03, 0.05), (0.032, 0.047)),
]


@pytest.mark.parametrize(("u", "sd", "limits", "acceptance"), BATCHES)
def test_risks_against_many_digits(
    u: float, sd: float, limits: tuple[float, float], acceptance: tuple[float, float]
) -> None:
    def read_in(x: Any) -> Any:
        low = mp.ncdf((acceptance[0] - x) / u) if math.isfinite(acceptance[0]) else mp.mpf(0)
        return mp.ncdf((acceptance[1] - x) / u) - low

    def density(x: Any) -> Any:
        return mp.npdf(x, 0, sd)

    def points(start: float, end: float) -> list[float]:
        near = sorted(bound + step * u for bound in acceptance if math.isfinite(bound) for step in (-8, -3, 0, 3, 8))
        spread = [step * sd for step in (-10, -6, -3, 0, 3, 6, 10)]
        return [start, *sorted(p for p in [*near, *spread] if start < p < end), end]

    least, most = max(limits[0], -15 * sd), min(limits[1], 15 * sd)
    consumer = mp.mpf(0)
    if limits[0] > -15 * sd:
        consumer += mp.quad(lambda x: density(x) * read_in(x), points(-15 * sd, limits[0]))
    if limits[1] < 15 * sd:
        consumer += mp.quad(lambda x: density(x) * read_in(x), points(limits[1], 15 * sd))
    producer = mp.quad(lambda x: density(x) * (1 - read_in(x)), points(least, most))
    got = risks(NormalProcess(0, sd), u, Bounds(*limits), Bounds(*acceptance))
    assert got[0] == pytest.approx(float(consumer), abs=1e-12)
    assert got[1] == pytest.approx(float(producer), abs=1e-12)


# ratio T/2 over U (k = 2), worst-case consumer's risk with simple acceptance, at which in-tolerance probability:
# Dobbert's table of guard-band strategies as recomputed in an open notebook of a national laboratory
@pytest.mark.parametrize(("ratio", "worst", "at"), [(4, 0.0224, 0.647), (2, 0.0418, 0.616), (10, 0.0094, None)])
def test_worst_case_by_test_uncertainty_ratio(ratio: float, worst: float, at: float | None) -> None:
    limits = Bounds(-1, 1)
    by_share = {
        share / 1000: risks(
            NormalProcess(0, process_sd_from_in_tolerance(share / 1000, 2)), 1 / (2 * ratio), limits, limits
        )[0]
        for share in range(500, 800)
    }
    greatest = max(by_share, key=by_share.__getitem__)
    assert by_share[greatest] == pytest.approx(worst, abs=0.00005)
    if at is not None:
        assert greatest == pytest.approx(at, abs=0.0011)


def test_four_to_one_at_95_per_cent_in_tolerance() -> None:
    # 0.86 %: computed for the project's notes on decision rules, by scipy
    process, limits = NormalProcess(0, process_sd_from_in_tolerance(0.95, 2)), Bounds(-1, 1)
    assert risks(process, 1 / 8, limits, limits)[0] == pytest.approx(0.0086, abs=0.00005)


# name, tolerance over u at which it is 4: three of them ask for the same U, tolerance over U asks half as much
# (ASME B89.7.3.1 N : 1; Z540.3 practice; JCGM 106 C_m, k = 2; tolerance over U). Worst case 2.24 % or 4.18 % as above.
@pytest.mark.parametrize(
    ("name", "over_u", "worst"),
    [("tur", 16, 0.0224), ("n_to_one", 16, 0.0224), ("capability_index", 16, 0.0224), ("over_u", 8, 0.0418)],
)
def test_four_ways_to_be_four_to_one(name: str, over_u: int, worst: float) -> None:
    u = D(2) / over_u
    found = ratios(Limits("size", D(-1), D(1)), budget(str(u)))
    assert found is not None
    assert getattr(found, name) == 4
    limits = Bounds(-1, 1)
    shares = (share / 1000 for share in range(500, 800, 5))
    processes = [NormalProcess(0, process_sd_from_in_tolerance(share, 2)) for share in shares]
    assert max(risks(each, float(u), limits, limits)[0] for each in processes) == pytest.approx(worst, abs=0.0001)


def test_the_ratio_is_told_by_name_and_never_too_good() -> None:
    # own budget of the uncertainty notes: T 0.025, U 0.0063 (6.26 um): T/2U 1.98, T/U 3.97
    found = ratios(Limits("size", D("39.975"), D("40.000")), budget("0.00312", "0.0063"))
    assert found is not None
    assert (found.n_to_one, found.over_u) == (D("1.9"), D("3.9"))
    assert "T/2U: 1.9 (TUR and N : 1 alike); T/U would be 3.9" in ratio_words(found)
    assert ratios(Limits("size", None, D(1)), budget("0.1")) is None
    assert ratios(Limits("size", D(0), D(1)), budget("0")) is None


def test_a_gamma_process_and_its_acceptance_limit() -> None:
    # JCGM 106:2012, 9.5.4, bearing balls: 4.2 % out, Rc 0.8 %, acceptance limit 1.67 um for Rc 0.1 %
    process, limits = GammaProcess(4, 0.25), Bounds(upper=2)
    assert process.outside(-math.inf, 2) == pytest.approx(0.042, abs=0.0005)
    consumer, producer, _ = risks(process, 0.25, limits, limits)
    assert consumer == pytest.approx(0.008, abs=0.0005)
    exact = mp.quad(lambda x: x**3 * mp.exp(-4 * x) * 256 / 6 * mp.ncdf(4 * (x - 2)), [0, 0.5, 1, 1.25, 1.5, 1.75, 2])
    assert producer == pytest.approx(float(exact), abs=1e-12)
    guard = guard_for_consumer_risk(process, 0.25, limits, 0.001)
    assert guard is not None
    assert 2 - guard == pytest.approx(1.67, abs=0.005)


def test_guard_band_for_a_wanted_risk() -> None:
    process, limits = NormalProcess(0, 0.6), Bounds(-1, 1)
    for wanted in (0.0005, 0.02, 0.05):
        guard = guard_for_consumer_risk(process, 0.1, limits, wanted)
        assert guard is not None
        assert risks(process, 0.1, limits, limits.drawn_in(guard))[0] == pytest.approx(wanted, rel=1e-9)
        plain = risks(process, 0.1, limits, limits)[0]
        assert (guard < 0) == (wanted > plain)  # outwards where more risk is wanted than the limits as they are give
    assert guard_for_consumer_risk(process, 0.1, limits, 0.2) is None  # fewer than that are out at all


def test_an_empty_acceptance_zone_accepts_nothing() -> None:
    risk = global_risk(NormalProcess(0, 0.5), 0.1, Bounds(-1, 1), Bounds(1, -1))
    assert risk.consumer == risk.out_among_accepted == 0
    assert risk.producer == pytest.approx(Decimal("0.9545"), abs=Decimal("0.0001"))


@pytest.mark.parametrize(
    ("observed", "u", "process"), [("0.005", "0.003", "0.004"), ("0.003", "0.003", "0"), ("0.002", "0.003", "0")]
)
def test_an_observed_spread_holds_the_measurement(observed: str, u: str, process: str) -> None:
    # own arithmetic: 3, 4, 5
    assert process_sd_from_observed(D(observed), D(u)) == D(process)


widths = st.floats(0.05, 20)


@settings(max_examples=60)
@given(st.floats(-2, 2), widths, st.floats(0.02, 2), st.floats(-0.5, 0.9), st.floats(0, 0.09))
def test_a_wider_guard_lowers_the_consumer_risk(mean: float, sd: float, u: float, guard: float, more: float) -> None:
    process, limits = NormalProcess(mean, sd), Bounds(-1, 1)
    less = risks(process, u, limits, limits.drawn_in(guard))
    wider = risks(process, u, limits, limits.drawn_in(guard + more))
    assert wider[0] <= less[0] + 1e-12
    assert wider[1] >= less[1] - 1e-12


@settings(max_examples=60)
@given(st.floats(-2, 2), widths, st.floats(0.001, 50), st.floats(-1, 0.99))
def test_risks_are_probabilities_that_add_up(mean: float, sd: float, u: float, guard: float) -> None:
    process, limits = NormalProcess(mean, sd), Bounds(-1, 1)
    consumer, producer, accepted = risks(process, u, limits, limits.drawn_in(guard))
    outside = process.outside(-1, 1)
    assert -1e-12 <= consumer <= min(outside, accepted) + 1e-12
    assert 0 <= producer <= 1 - outside + 1e-12
    assert accepted - consumer == pytest.approx(1 - outside - producer, abs=1e-12)  # in and accepted, both ways
