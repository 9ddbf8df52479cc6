"""The numbers the solver works with: exact rationals, or rational functions of the symbols.

Both offer `zero`, `one`, `constant(Fraction)` and `given(Given)`; their elements add, subtract, multiply, divide and
know whether they are zero. The assembly of a system takes one of them as an argument and asks no sign of an element.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, Protocol

from flint import fmpq, fmpz_mpoly_ctx

from gantline.rig import Given


class Ring(Protocol):
    zero: Any
    one: Any

    def constant(self, number: Fraction | int) -> Any: ...
    def given(self, given: Given) -> Any: ...


class Rationals:
    """Exact rationals. `numbers` holds a number for every symbol."""

    zero = fmpq(0)
    one = fmpq(1)

    def __init__(self, numbers: Mapping[str, fmpq]) -> None:
        self._numbers = numbers

    def constant(self, number: Fraction | int) -> fmpq:
        return fmpq(number.numerator, number.denominator)

    def given(self, given: Given) -> fmpq:
        return self._numbers[given.symbol]


MOST_TERMS = 200  # a formula of more terms is no explanation, and its gcds take seconds


class FormulaTooLarge(Exception):
    """A function has outgrown MOST_TERMS: the answer has to do with numbers."""


class Ratio:
    """A quotient of two polynomials with integer coefficients. Reduced to lowest terms only by `reduced`, or where a
    denominator that is not a constant has come in: gcds are what costs time."""

    __slots__ = ("den", "num")

    def __init__(self, num: Any, den: Any) -> None:
        self.num = num
        self.den = den

    def __bool__(self) -> bool:
        return bool(self.num != 0)

    def __neg__(self) -> "Ratio":
        return Ratio(-self.num, self.den)

    def __add__(self, other: "Ratio") -> "Ratio":
        if self.den == other.den:
            total = self.num + other.num
            return Ratio(total, self.den) if self.den.is_one() else Ratio(total, self.den).reduced()
        return Ratio(self.num * other.den + other.num * self.den, self.den * other.den).reduced()

    def __sub__(self, other: "Ratio") -> "Ratio":
        return self + -other

    def __mul__(self, other: "Ratio") -> "Ratio":
        if self.den.is_one() and other.den.is_one():
            return Ratio(self.num * other.num, self.den)
        return Ratio(self.num * other.num, self.den * other.den).reduced()

    def __truediv__(self, other: "Ratio") -> "Ratio":
        if other.num.is_one():
            return Ratio(self.num * other.den, self.den)
        return Ratio(self.num * other.den, self.den * other.num).reduced()

    def reduced(self) -> "Ratio":
        """The same in lowest terms, with the leading coefficient of the denominator positive."""
        if self.num == 0:
            return Ratio(self.num, self.num + 1)
        if len(self.num) > MOST_TERMS or len(self.den) > MOST_TERMS:
            raise FormulaTooLarge
        common = self.num.gcd(self.den)
        num, den = (self.num, self.den) if common.is_one() else (self.num / common, self.den / common)
        return Ratio(-num, -den) if den.leading_coefficient() < 0 else Ratio(num, den)


class Functions:
    """Rational functions of `names`, in that order of importance for printing."""

    def __init__(self, names: tuple[str, ...]) -> None:
        self.context = fmpz_mpoly_ctx.get(list(names) or ["_"], "lex")
        self._unit = self.context.constant(1)
        self.zero = Ratio(self.context.constant(0), self._unit)
        self.one = Ratio(self._unit, self._unit)
        self._symbols = {name: Ratio(gen, self._unit) for name, gen in zip(names, self.context.gens(), strict=False)}

    def constant(self, number: Fraction | int) -> Ratio:
        context = self.context
        return Ratio(context.constant(number.numerator), context.constant(number.denominator))

    def symbol(self, name: str) -> Ratio:
        return self._symbols[name]

    def given(self, given: Given) -> Ratio:
        return self._symbols[given.symbol]
