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
    from flint import fmpq, fmpq_mat

    many, rows = len(columns), len(y)
    if rows < many:
        raise ValueError("fewer readings than coefficients")
    sides, w = [[_q(number) for number in column] for column in columns], [_q(weight) for weight in weights]
    design = fmpq_mat(rows, many, [side[n] for n in range(rows) for side in sides])
    weighed = fmpq_mat(many, rows, [a * b for side in sides for a, b in zip(side, w, strict=True)])
    readings = fmpq_mat(rows, 1, [_q(value) for value in y])
    try:
        inverse = (weighed * design).inv()
    except ZeroDivisionError:
        raise ValueError("the columns cannot be told apart") from None
    values = inverse * (weighed * readings)
    left = (readings - design * values).entries()
    chi2 = sum((weight * r * r for weight, r in zip(w, left, strict=True)), fmpq(0))
    covariance = tuple(tuple(_f(inverse[i, j]) for j in range(many)) for i in range(many))
    return Exact(tuple(_f(values[n, 0]) for n in range(many)), covariance, _f(chi2), rows - many)


def _q(number: Fraction) -> Any:
    from flint import fmpq

    return fmpq(number.numerator, number.denominator)


def _f(number: Any) -> Fraction:
    return Fraction(int(number.p), int(number.q))
