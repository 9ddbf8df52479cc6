"""The law of the machine, F = a W + b: a straight line through the readings of one way, whatever wheels they come from.

Loads without error: weighted least squares, exact. With errors in loads and pulls: the best line by the effective
variance, u² = u(F)² + a² u(W)², iterated (York's unified equations, Am. J. Phys. 72, 367, 2004).
"""

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from .exact import exact_fit

_TURNS, _STILL = 100, 1e-15


class Line(Struct, frozen=True):
    """y = slope x + intercept with standard uncertainties, their correlation, and how well it fits."""

    slope: float
    intercept: float
    u_slope: float
    u_intercept: float
    correlation: float
    chi2: float
    left: int

    def at(self, x: float) -> tuple[float, float]:
        """y there and its standard uncertainty."""
        mixed = 2 * x * self.correlation * self.u_slope * self.u_intercept
        return self.slope * x + self.intercept, ((x * self.u_slope) ** 2 + self.u_intercept**2 + mixed) ** 0.5

    @property
    def scaled(self) -> "Line":
        """The same line, its uncertainties taken from its own scatter: for readings whose own are not known."""
        by = (self.chi2 / self.left) ** 0.5
        return replace(self, u_slope=self.u_slope * by, u_intercept=self.u_intercept * by, chi2=float(self.left))


def straight(x: Sequence[Fraction], y: Sequence[Fraction], u_y: Sequence[float]) -> Line:
    """The weighted line through points whose x have no error. Raises ValueError where all x are equal."""
    weights = [1 / Fraction(u) ** 2 for u in u_y]
    found = exact_fit([[Fraction(1)] * len(x), x], y, weights)
    correlation = float(found.covariance[0][1]) / (found.deviation(0) * found.deviation(1))
    return Line(
        float(found.values[1]), float(found.values[0]), found.deviation(1), found.deviation(0), correlation,
        float(found.chi2), found.left,
    )  # fmt: skip


def best(x: Sequence[float], y: Sequence[float], u_x: Sequence[float], u_y: Sequence[float]) -> Line:
    """The line through points with errors both ways. Raises ValueError where all x are equal."""
    import numpy as np

    xs, ys, vx, vy = np.array(x), np.array(y), np.array(u_x) ** 2, np.array(u_y) ** 2
    slope = straight([Fraction(v) for v in x], [Fraction(v) for v in y], u_y).slope
    for _ in range(_TURNS):
        before, weight = slope, 1 / (vy + slope * slope * vx)
        u, v = xs - np.average(xs, weights=weight), ys - np.average(ys, weights=weight)
        beta = weight * (u * vy + slope * v * vx)
        slope = float((weight * beta * v).sum() / (weight * beta * u).sum())
        if abs(slope - before) <= _STILL * abs(slope):
            break
    weight = 1 / (vy + slope * slope * vx)
    middle = float(np.average(xs, weights=weight))
    intercept = float(np.average(ys, weights=weight)) - slope * middle
    u, v = xs - middle, ys - np.average(ys, weights=weight)
    adjusted = middle + weight * (u * vy + slope * v * vx)
    centre = float(np.average(adjusted, weights=weight))
    u_slope = float((weight * (adjusted - centre) ** 2).sum()) ** -0.5
    u_intercept = (1 / float(weight.sum()) + (centre * u_slope) ** 2) ** 0.5
    chi2 = float((weight * (ys - intercept - slope * xs) ** 2).sum())
    return Line(slope, intercept, u_slope, u_intercept, -centre * u_slope / u_intercept, chi2, len(x) - 2)
