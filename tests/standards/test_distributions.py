"""Distribution functions against a library of many digits and printed tables."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mpmath import mp

from sizewright.standards.distributions import (
    above,
    below,
    between,
    gamma_above,
    gamma_density,
    normal_above,
    quantile,
    quantile_above,
)

mp.dps = 40
# `abs=0` throughout: the usual absolute tolerance of 1e-12 would pass any tail smaller than that

# t by degrees of freedom, for 95 % and 95.45 % coverage, as tables of t print it (JCGM 100:2008, G.2; here recomputed)
PRINTED_T = {
    1: (12.71, 13.97), 2: (4.30, 4.53), 3: (3.18, 3.31), 4: (2.78, 2.87), 5: (2.57, 2.65), 6: (2.45, 2.52),
    8: (2.31, 2.37), 9: (2.26, 2.32), 10: (2.23, 2.28), 15: (2.13, 2.18), 16: (2.12, 2.17), 20: (2.09, 2.13),
    30: (2.04, 2.09), 50: (2.01, 2.05), None: (1.960, 2.000),
}  # fmt: skip


def exact_above(x: float, dof: int) -> float:
    """The tail of t by the incomplete beta function (mpmath 1.3), `x` above zero."""
    t, n = mp.mpf(x), mp.mpf(dof)
    return float(mp.betainc(n / 2, mp.mpf(1) / 2, 0, n / (n + t * t), regularized=True) / 2)


@pytest.mark.parametrize("dof", [1, 2, 3, 4, 5, 9, 16, 53, 120, 249, 250, 1000])
@pytest.mark.parametrize("x", [1e-6, 0.01, 0.5, 1.0, 1.224, 1.25, 2.0, 3.0, 5.0, 8.0])
def test_a_tail_of_t_keeps_its_figures(dof: int, x: float) -> None:
    assert above(x, dof) == pytest.approx(exact_above(x, dof), rel=1e-11, abs=0)


@pytest.mark.parametrize("dof", [1, 2, 3, 4, 9, 10, 79, 80, 81, 250])
@pytest.mark.parametrize(("a", "b"), [(-1.0, 1.0), (-0.01, 2.0), (-3.0, 0.0), (0.5, 1.5), (-8.0, -0.5), (-30.0, 30.0)])
def test_an_interval_of_t(a: float, b: float, dof: int) -> None:
    low, high = (exact_above(x, dof) if x > 0 else 1 - exact_above(-x, dof) if x else 0.5 for x in (a, b))
    assert between(a, b, dof) == pytest.approx(low - high, rel=1e-10, abs=0)
    assert between(b, a, dof) == 0.0


def test_an_interval_of_few_degrees_of_freedom() -> None:
    # One degree of freedom is Cauchy's: half of it lies within 1; two: x over the root of 2 + x squared (A&S 26.7.4)
    assert between(-1.0, 1.0, 1) == pytest.approx(0.5, rel=1e-14)
    assert between(-1.0, 1.0, 2) == pytest.approx(1 / math.sqrt(3), rel=1e-14)


@pytest.mark.parametrize("x", [30.0, 1e3, 1e6, 1e12])
def test_a_far_tail_of_t(x: float) -> None:
    for dof in (1, 2, 3, 7):
        assert above(x, dof) == pytest.approx(exact_above(x, dof), rel=1e-10, abs=1e-280)


@pytest.mark.parametrize("x", [-9.0, -3.3, -0.1, 0.0, 0.7, 2.5, 8.0, 20.0, 37.0])
def test_a_tail_of_the_normal_distribution(x: float) -> None:
    assert above(x) == pytest.approx(float(mp.ncdf(-mp.mpf(x))), rel=1e-13, abs=0)
    assert below(x) == pytest.approx(float(mp.ncdf(x)), rel=1e-13, abs=0)


def test_many_degrees_of_freedom_come_to_the_normal_distribution() -> None:
    assert above(2.0, 10**9) == pytest.approx(normal_above(2.0), rel=1e-8)
    assert above(math.inf, 5) == 0.0
    assert above(-math.inf, 5) == 1.0


@pytest.mark.parametrize(("dof", "printed"), PRINTED_T.items())
def test_coverage_factors_as_printed(dof: int | None, printed: tuple[float, float]) -> None:
    for share, value in zip((0.95, 0.9545), printed, strict=True):
        assert quantile(0.5 + share / 2, dof) == pytest.approx(value, abs=0.005001)


# probability, quantile of the normal distribution (decision_rules: needed distance; more places by mpmath erfinv)
@pytest.mark.parametrize(
    ("probability", "z"), [(0.8, 0.84), (0.9, 1.28), (0.95, 1.645), (0.975, 1.96), (0.99, 2.33), (0.999, 3.09)]
)
def test_needed_distance_from_one_limit(probability: float, z: float) -> None:
    assert quantile(probability) == pytest.approx(z, abs=0.005)
    assert quantile(probability) == pytest.approx(float(mp.sqrt(2) * mp.erfinv(2 * mp.mpf(probability) - 1)), rel=1e-13)


@given(st.floats(-15, -1e-3), st.one_of(st.none(), st.integers(1, 400)))
def test_a_quantile_is_the_inverse_even_far_out(exponent: float, dof: int | None) -> None:
    tail = 0.5 * 10**exponent
    assert above(quantile_above(tail, dof), dof) == pytest.approx(tail, rel=1e-9, abs=0)


@given(st.floats(0.001, 0.999), st.integers(1, 400))
def test_quantiles_mirror(probability: float, dof: int) -> None:
    assert quantile(probability, dof) == pytest.approx(-quantile(1 - probability, dof), rel=1e-9, abs=1e-12)


@given(st.floats(-40, 40), st.floats(-40, 40), st.one_of(st.none(), st.integers(1, 400)))
def test_an_interval_has_a_probability(a: float, b: float, dof: int | None) -> None:
    assert 0.0 <= between(a, b, dof) <= 1.0


@given(st.floats(-8, 8), st.floats(0, 3), st.integers(1, 600))
def test_the_distribution_grows(x: float, further: float, dof: int) -> None:
    assert below(x, dof) <= below(x + further, dof) + 1e-15


@pytest.mark.parametrize("shape", [0.5, 1.0, 4.0, 30.0])
@pytest.mark.parametrize("x", [0.01, 0.2, 1.0, 2.0, 8.0, 30.0])
def test_gamma_tail(shape: float, x: float) -> None:
    exact = mp.gammainc(shape, mp.mpf(x) / mp.mpf("0.25"), mp.inf, regularized=True)
    assert gamma_above(x, shape, 0.25) == pytest.approx(float(exact), rel=1e-10, abs=1e-300)


def test_gamma_density_is_the_slope_of_its_tail() -> None:
    slope = (gamma_above(1.0 - 1e-5, 4, 0.25) - gamma_above(1.0 + 1e-5, 4, 0.25)) / 2e-5
    assert gamma_density(1.0, 4, 0.25) == pytest.approx(slope, rel=1e-7)
    assert gamma_density(0.0, 4, 0.25) == 0.0


def test_what_is_no_distribution() -> None:
    with pytest.raises(ValueError, match="start at 1"):
        above(1.0, 0)
    for probability in (0.0, 1.0, -0.1):
        with pytest.raises(ValueError, match="between 0 and 1"):
            quantile(probability)
