"""Weighted linear least squares in exact rational arithmetic: data are decimals, and nothing is lost on the way."""

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from msgspec import Struct


class Exact(Struct, frozen=True):
    """`values` are the coefficients, `covariance` the inverse of the weighted normal matrix (rows), `chi2` the weighted
    sum of squares left over, `left` its degrees of freedom."""

    values: tuple[Fraction, ...]
    covariance: tuple[tuple[Fraction, ...], ...]
    chi2: Fraction
    left: int

    def deviation(self, n: int, scaled: bool = False) -> float:
        """The standard deviation of a coefficient; `scaled` by the scatter that is left over."""
        variance = self.covariance[n][n] * (self.chi2 / self.left if scaled else 1)
        return math.sqrt(variance)


def exact_fit(columns: Sequence[Sequence[Fraction]], y: Sequence[Fraction], weights: Sequence[Fraction]) -> Exact:
    """Fits y by a sum of the columns, each reading with its weight (one over its variance).

    Raises ValueError where the columns cannot be told apart, or readings are fewer than columns.
    """
    from flint import fmpq_mat

    many, rows = len(columns), len(y)
    if rows < many:
        raise ValueError("fewer readings than coefficients")
    design = fmpq_mat(rows, many, [_q(column[n]) for n in range(rows) for column in columns])
    weighed = fmpq_mat(many, rows, [_q(column[n] * weights[n]) for column in columns for n in range(rows)])
    normal = weighed * design
    try:
        inverse = normal.inv()
    except ZeroDivisionError:
        raise ValueError("the columns cannot be told apart") from None
    values = inverse * (weighed * fmpq_mat(rows, 1, [_q(value) for value in y]))
    found = tuple(_f(values[n, 0]) for n in range(many))
    fitted = [sum((b * column[n] for b, column in zip(found, columns, strict=True)), Fraction(0)) for n in range(rows)]
    chi2 = sum((w * (a - b) ** 2 for w, a, b in zip(weights, y, fitted, strict=True)), Fraction(0))
    covariance = tuple(tuple(_f(inverse[i, j]) for j in range(many)) for i in range(many))
    return Exact(found, covariance, chi2, rows - many)


def _q(number: Fraction) -> Any:
    from flint import fmpq

    return fmpq(number.numerator, number.denominator)


def _f(number: Any) -> Fraction:
    return Fraction(int(number.p), int(number.q))
