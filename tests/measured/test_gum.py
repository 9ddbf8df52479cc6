"""The examples of the GUM and of its first supplement, to the digits printed there."""

from collections.abc import Callable
from fractions import Fraction
from math import inf, sqrt

import numpy as np
import pytest

from gantline.bench.measured.budget import Part, combined, coverage, propagated
from gantline.bench.measured.lines import straight
from gantline.bench.measured.shown import to_place, value_and


def test_the_end_gauge() -> None:
    """GUM H.1, first order: l 50.000838 mm, u 32 nm, 16 degrees of freedom, U99 93 nm. Second-order terms, which this
    product does not take, raise u to 34."""
    standard, difference, alpha, theta = 50000623.0, 215.0, 11.5e-6, -0.1
    compared = combined([Part("repeats", 5.8, 24), Part("random", 3.9, 5), Part("systematic", 6.7, 8)])
    assert to_place(compared.u, 1) == "9.7"
    parts = [
        Part("standard", 25, 18),
        Part("difference", compared.u, compared.freedom),
        Part("difference of expansion", standard * abs(theta) * 1e-6 / sqrt(3), 50),
        Part("difference of temperature", standard * alpha * 0.05 / sqrt(3), 2),
    ]
    whole = combined(parts, 0.99)
    assert [to_place(part.u, 3) for part in parts] == ["25.000", "9.682", "2.887", "16.599"]
    assert to_place(whole.u, 3) == "31.664"
    assert to_place(whole.freedom, 2) == "16.75"
    assert (to_place(whole.u, 0), int(whole.freedom)) == ("32", 16)
    assert to_place(coverage(whole.freedom, 0.99), 2) == "2.92"
    assert to_place(coverage(16, 0.99) * 31.664, 0) in ("92", "93")
    assert to_place(2.92 * 32, 0) == "93"  # as the GUM multiplies, from its rounded numbers
    assert standard + difference == 50000838


V = [5.007, 4.994, 5.005, 4.990, 4.999]
CURRENT = [19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3]
PHI = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433]


def test_resistance_and_reactance() -> None:
    """GUM H.2. u(X) computes to .2956; the printed .295 comes from rounded steps."""
    readings = np.array([V, CURRENT, PHI])
    v, i, phi = readings.mean(axis=1)
    r, x, z = v / i * np.cos(phi), v / i * np.sin(phi), v / i
    slopes = np.array([[r / v, -r / i, -x], [x / v, -x / i, r], [z / v, -z / i, 0.0]])
    covariance = propagated(slopes, np.cov(readings) / readings.shape[1])
    u = np.sqrt(np.diag(covariance))
    correlation = covariance / np.outer(u, u)
    assert [to_place(each, 3) for each in (r, x, z)] == ["127.732", "219.847", "254.260"]
    assert [to_place(each, 6) for each in (r, x, z)] == ["127.732170", "219.846512", "254.259702"]
    assert [to_place(each, 6) for each in u] == ["0.071071", "0.295582", "0.236336"]
    assert [to_place(u[n], 3) for n in (0, 2)] == ["0.071", "0.236"]
    assert abs(u[1] - 0.295) < 0.0006
    assert [to_place(correlation[pair], 3) for pair in ((0, 1), (0, 2), (1, 2))] == ["−0.588", "−0.485", "0.993"]


T = "1.521 2.012 2.512 3.003 3.507 3.999 4.513 5.002 5.503 6.010 6.511"
B = "-.171 -.169 -.166 -.159 -.164 -.165 -.156 -.157 -.159 -.161 -.160"


def test_the_thermometer() -> None:
    """GUM H.3: y1 -0.1712(29), y2 0.00218(67), r -0.930, s 0.0035, b(30) -0.1494(41)."""
    plain = straight([Fraction(t) for t in T.split()], [Fraction(b) for b in B.split()], [1.0] * 11)
    line, s = plain.scaled, sqrt(plain.chi2 / plain.left)
    assert value_and(line.intercept, line.u_intercept) == ("−0.1712", "0.0029")
    assert value_and(line.slope, line.u_slope) == ("0.00218", "0.00067")
    assert to_place(line.correlation, 3) == "−0.930"
    assert to_place(s, 4) == "0.0035"
    at, u = line.at(10.0)
    assert value_and(at, u) == ("−0.1494", "0.0041")
    digits = (line.intercept, line.u_intercept, line.slope, line.u_slope, s, at, u)
    printed = ("−0.17120379", "0.00287760", "0.00218270", "0.00066794", "0.00349756", "−0.14937681", "0.00413860")
    assert tuple(to_place(each, 8) for each in digits) == printed


@pytest.mark.parametrize(
    ("draw", "half"),
    [(lambda random, n: random.standard_normal(n), 3.92),
     (lambda random, n: sqrt(3) * (2 * random.random(n) - 1), 3.88)],
    ids=["normal", "rectangular"],
)  # fmt: skip
def test_sums_of_four(draw: Callable, half: float) -> None:
    """JCGM 101, 9.2: four unit inputs added have u 2.0; normal or rectangular, the intervals differ a little."""
    random, many = np.random.default_rng(3), 400_000
    total = sum(draw(random, many) for _ in range(4))
    low, high = np.quantile(total, (0.025, 0.975))
    assert total.std() == pytest.approx(2.0, abs=4 * 2.0 / sqrt(2 * many))
    error = 4 * sqrt(0.025 * 0.975 / many) / 0.029  # of a quantile: the density of either sum there is above 0.029
    assert low == pytest.approx(-half, abs=error + 0.005)
    assert high == pytest.approx(half, abs=error + 0.005)
    whole = combined([Part(str(n), 1.0) for n in range(4)])
    assert (whole.u, to_place(whole.half, 2)) == (2.0, "3.92")


def test_a_mass_in_air_shows_where_first_order_fails() -> None:
    """JCGM 101, 9.3: 0.0539 mg by propagation, 0.0754 mg by Monte Carlo; from memory, so the tolerance is wide."""
    random, many = np.random.default_rng(4), 400_000
    reference = random.normal(100_000, 0.05, many) + random.normal(1.234, 0.02, many)
    air = random.uniform(1.10, 1.30, many)
    weight, standard = random.uniform(7000, 9000, many), random.uniform(7950, 8050, many)
    drawn = reference * (1 + (air - 1.2) * (1 / weight - 1 / standard)) - 100_000
    first = combined([Part("reference", 0.05), Part("difference", 0.02)])
    assert to_place(first.u, 4) == "0.0539"
    assert drawn.std() == pytest.approx(0.0754, abs=0.0005)
    assert drawn.std() > 1.3 * first.u


def test_effective_degrees_of_freedom_of_equal_parts_add_up() -> None:
    whole = combined([Part("one", 1.0, 5), Part("other", 1.0, 5)])
    assert whole.freedom == pytest.approx(10)
    assert combined([Part("limit", 1.0)]).freedom == inf


@pytest.mark.parametrize(("value", "u", "shown"), [
    (0.93672, 0.002565, ("0.9367", "0.0026")), (1234.5, 45.6, ("1235", "46")), (0.5, 0.0996, ("0.50", "0.10")),
    (-0.0001, 0.02, ("0.000", "0.020")), (12345, 678, ("12350", "680")),
])  # fmt: skip
def test_two_figures_of_uncertainty(value: float, u: float, shown: tuple[str, str]) -> None:
    assert value_and(value, u) == shown
