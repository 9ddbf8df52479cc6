"""Certified data: what is certified is found again in exact arithmetic, and the fits of the lab give every digit."""

import hashlib
import math
import random
import tomllib
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from gantline.bench.measured.exact import exact_fit
from gantline.bench.measured.lines import best, straight

FOLDER = Path(__file__).parent / "certified"
HASHES = {
    "longley": "52e26b2b9691d6c89fe0776b2861df84e5f7737579e8b05e45a23c952b9016c6",
    "noint1": "d4729b8b5dc2ff2c07cb00528338247c342d511c4d97a48dcb03b6731be6c270",
    "noint2": "39fe90f6dca7e0c747888a394c6ae9563025e306d3398e74482745877683a50d",
    "norris": "7d0978983cb35022aa4535e5901323180c6a31e5d857c6133df9773fa0b6a488",
    "pontius": "d504809971f200aa61acf5fed664bd69c155dca6e18928b10f628f6472f6c2c6",
}
PRINTED = 14  # digits: the certified values have 15, the last one rounded


def data(name: str) -> dict[str, Any]:
    return tomllib.loads((FOLDER / f"{name}.toml").read_text("utf-8"))


def numbers(text: str) -> list[Fraction]:
    return [Fraction(word) for word in text.split()]


def columns(of: dict[str, Any]) -> list[list[Fraction]]:
    if "columns" in of:
        return [numbers(column) for column in of["columns"]]
    return [[x**power for x in numbers(of["x"])] for power in of["powers"]]


def lre(found: float | Fraction, certified: str) -> float:
    """Correct digits: minus the decimal logarithm of the relative error."""
    apart = abs(Fraction(found) - Fraction(certified)) / abs(Fraction(certified))
    return 17.0 if apart == 0 else -math.log10(apart)


def derived(design: list[list[Fraction]], y: list[Fraction]) -> tuple[list[Fraction], list[list[Fraction]], Fraction]:
    """Coefficients, inverse of the normal matrix and sum of squares by elimination in Fraction: no code of ours."""
    many = len(design)
    rows = [
        [sum(a * b for a, b in zip(one, other, strict=True)) for other in design]
        + [Fraction(n == m) for m in range(many)]
        for n, one in enumerate(design)
    ]
    for n in range(many):
        pivot = rows[n][n]
        rows[n] = [value / pivot for value in rows[n]]
        for m in range(many):
            if m != n:
                rows[m] = [a - rows[m][n] * b for a, b in zip(rows[m], rows[n], strict=True)]
    inverse = [row[many:] for row in rows]
    sides = [sum(a * b for a, b in zip(column, y, strict=True)) for column in design]
    values = [sum(a * b for a, b in zip(row, sides, strict=True)) for row in inverse]
    fitted = [sum(b * column[n] for b, column in zip(values, design, strict=True)) for n in range(len(y))]
    return values, inverse, sum(((a - b) ** 2 for a, b in zip(y, fitted, strict=True)), Fraction(0))


def test_every_file_is_the_one_that_was_checked() -> None:
    found = {path.stem: hashlib.sha256(path.read_bytes()).hexdigest() for path in FOLDER.glob("*.toml")}
    assert found == HASHES
    for path in FOLDER.glob("*.toml"):
        assert path.read_text("utf-8").startswith("# "), "the source stands beside the data"


@pytest.mark.parametrize("name", HASHES)
def test_the_certified_values_are_derived_again(name: str) -> None:
    of = data(name)
    values, inverse, squares = derived(columns(of), numbers(of["y"]))
    left = len(numbers(of["y"])) - len(values)
    assert lre(squares, of["squares"]) > PRINTED
    assert lre(math.sqrt(squares / left), of["residual"]) > PRINTED
    for n, (value, certified) in enumerate(zip(values, of["values"], strict=True)):
        assert lre(value, certified) > PRINTED
        assert lre(math.sqrt(inverse[n][n] * squares / left), of["deviations"][n]) > PRINTED


@pytest.mark.parametrize("name", HASHES)
def test_the_exact_fit_gives_every_certified_digit(name: str) -> None:
    of = data(name)
    y = numbers(of["y"])
    found = exact_fit(columns(of), y, [Fraction(1)] * len(y))
    assert lre(found.chi2, of["squares"]) > PRINTED
    for n, certified in enumerate(of["values"]):
        assert lre(float(found.values[n]), certified) > PRINTED
        assert lre(found.deviation(n, scaled=True), of["deviations"][n]) > PRINTED


def norris(offset: int) -> tuple[list[Fraction], list[Fraction]]:
    of = data("norris")
    return [x + offset for x in numbers(of["x"])], numbers(of["y"])


@pytest.mark.parametrize("offset", [0, 10**6, 10**8, 10**12])
def test_a_shift_costs_no_digit(offset: int) -> None:
    x, y = norris(offset)
    assert lre(straight(x, y, [1.0] * len(x)).slope, "1.00211681802045") > PRINTED


def naive(x: Sequence[float], y: Sequence[float]) -> float:
    """The slope by the sums of the school book, in floats."""
    n = len(x)
    xy, xx = sum(a * b for a, b in zip(x, y, strict=True)), sum(a * a for a in x)
    return (n * xy - sum(x) * sum(y)) / (n * xx - sum(x) ** 2)


def test_the_naive_sums_would_fail() -> None:
    x, y = norris(10**8)
    assert lre(naive([float(a) for a in x], [float(b) for b in y]), "1.00211681802045") < 6
    x, y = norris(0)
    assert lre(naive([float(a) for a in x], [float(b) for b in y]), "1.00211681802045") > 13


def test_norris_unscaled_covariance() -> None:
    """GSL's gsl_fit_wlinear with weights 1, as its fit/test.c has it."""
    x, y = norris(0)
    found = exact_fit([[Fraction(1)] * len(x), x], y, [Fraction(1)] * len(x))
    assert lre(found.covariance[0][0], "6.92384428759429e-02") > PRINTED
    assert lre(found.covariance[0][1], "-9.89095016390515e-05") > PRINTED
    assert lre(found.covariance[1][1], "2.35960747164148e-07") > PRINTED
    scaled = found.covariance[0][1] * found.chi2 / found.left
    assert 10 < lre(scaled, "-7.74327536339570e-05") < 11  # Octave's, in GSL: right to ten digits, as exact sums show


def test_weights_of_the_gsl_manual() -> None:
    """x 1970 to 2000, y 12 11 14 13, weights .1 to .4; the values are exact."""
    x, y = numbers("1970 1980 1990 2000"), numbers("12 11 14 13")
    found = exact_fit([[Fraction(1)] * 4, x], y, numbers("1/10 2/10 3/10 4/10"))
    assert found.values == (Fraction(-533, 5), Fraction(3, 50))
    assert found.covariance == (
        (Fraction(39602), Fraction(-199, 10)),
        (Fraction(-199, 10), Fraction(1, 100)),
    )
    assert found.chi2 == Fraction(4, 5)


PEARSON_X = "0 .9 1.8 2.6 3.3 4.4 5.2 6.1 6.5 7.4"
PEARSON_Y = "5.9 5.4 4.4 4.6 3.5 3.7 2.8 2.8 2.4 1.5"
YORK_Y = "1 1.8 4 8 20 20 70 70 100 500"
YORK_X = "1000 1000 500 800 200 80 60 20 1.8 1"


def test_pearsons_data_with_yorks_weights_in_y() -> None:
    """Digits from exact arithmetic; kapteyn's iterative fit prints 6.10010929336."""
    x, y, w = numbers(PEARSON_X), numbers(PEARSON_Y), numbers(YORK_Y)
    found = exact_fit([[Fraction(1)] * 10, x], y, w)
    assert lre(found.values[0], "6.100109316665757") > PRINTED
    assert lre(found.values[1], "-0.610812956583934") > PRINTED
    assert lre(found.deviation(0), "0.204662685810594") > PRINTED
    assert lre(found.deviation(1), "0.030087448837191") > PRINTED
    assert lre(found.covariance[0][1], "-6.064590624825e-03") > 12
    assert lre(found.chi2, "34.345207498324349") > PRINTED


def test_pearsons_data_with_yorks_weights_both_ways() -> None:
    """York's own formula; GTC gives u 0.057617 and 0.291933 by another, so the report names which one it uses."""
    x, y = ([float(n) for n in numbers(each)] for each in (PEARSON_X, PEARSON_Y))
    u_x, u_y = ([float(n) ** -0.5 for n in numbers(each)] for each in (YORK_X, YORK_Y))
    found = best(x, y, u_x, u_y)
    assert found.slope == pytest.approx(-0.480533407, abs=5e-10)
    assert found.intercept == pytest.approx(5.479910224, abs=5e-10)
    assert found.u_slope == pytest.approx(0.057985, abs=5e-7)
    assert found.u_intercept == pytest.approx(0.294971, abs=5e-7)
    assert found.chi2 == pytest.approx(11.866353, abs=5e-7)


def test_without_errors_in_x_both_lines_are_one() -> None:
    x, y = numbers(PEARSON_X), numbers(PEARSON_Y)
    u_y = [float(w) ** -0.5 for w in numbers(YORK_Y)]
    one = straight(x, y, u_y)
    other = best([float(a) for a in x], [float(b) for b in y], [0.0] * 10, u_y)
    for name in ("slope", "intercept", "u_slope", "u_intercept", "correlation", "chi2"):
        assert getattr(other, name) == pytest.approx(getattr(one, name), rel=1e-11), name


def some(seed: int) -> tuple[list[Fraction], list[Fraction], list[Fraction]]:
    chance = random.Random(seed)
    many = chance.randint(3, 7)
    x = [Fraction(chance.randint(-999, 999), 10 ** chance.randint(0, 3)) for _ in range(many)]
    x[0] = x[1] + 1
    y = [Fraction(chance.randint(-999, 999), 10 ** chance.randint(0, 3)) for _ in range(many)]
    return x, y, [Fraction(chance.randint(1, 50)) for _ in range(many)]


@pytest.mark.parametrize("seed", range(40))
def test_what_must_hold_of_every_fit(seed: int) -> None:
    x, y, w = some(seed)
    ones = [Fraction(1)] * len(x)
    found = exact_fit([ones, x], y, w)
    order = list(range(len(x)))
    random.Random(seed).shuffle(order)
    mixed = exact_fit([ones, [x[n] for n in order]], [y[n] for n in order], [w[n] for n in order])
    assert mixed == found, "the order of rows changes nothing, not one bit"
    repeated = [n for n in range(len(x)) for _ in range(int(w[n]))]
    rows = exact_fit([[Fraction(1)] * len(repeated), [x[n] for n in repeated]], [y[n] for n in repeated],
                     [Fraction(1)] * len(repeated))  # fmt: skip
    assert (rows.values, rows.covariance, rows.chi2) == (found.values, found.covariance, found.chi2)
    assert exact_fit([ones, x], y, [10 * each for each in w]).values == found.values
    moved = exact_fit([ones, [each + 77 for each in x]], y, w)
    assert moved.values[1] == found.values[1]
    assert moved.values[0] == found.values[0] - 77 * found.values[1]
    larger = exact_fit([ones, [1000 * each for each in x]], y, w)
    assert larger.values == (found.values[0], found.values[1] / 1000)


def test_ten_thousand_lines_are_rounded_once() -> None:
    """The float that comes out is the one next to the exact value: half a unit in the last place, no more."""
    chance = random.Random(7)
    for _ in range(10_000):
        x = [Fraction(chance.randint(-999, 999), 100) for _ in range(3)]
        x[0] = x[1] + 1
        y = [Fraction(chance.randint(-999, 999), 100) for _ in range(3)]
        mean_x, mean_y = sum(x) / 3, sum(y) / 3
        slope = sum((a - mean_x) * (b - mean_y) for a, b in zip(x, y, strict=True)) / sum((a - mean_x) ** 2 for a in x)
        found = exact_fit([[Fraction(1)] * 3, x], y, [Fraction(1)] * 3).values[1]
        assert found == slope
        assert abs(Fraction(float(found)) - slope) <= Fraction(np.spacing(abs(float(slope)))) / 2


def test_two_points_leave_nothing_over() -> None:
    found = straight(numbers("1 3"), numbers("2 7"), [0.1, 0.1])
    assert (found.slope, found.intercept, found.chi2, found.left) == (2.5, -0.5, 0.0, 0)


@pytest.mark.parametrize(("x", "says"), [("2 2 2", "told apart"), ("2", "fewer readings")])
def test_what_is_no_line_is_refused(x: str, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        straight(numbers(x), numbers(x), [1.0] * len(numbers(x)))
