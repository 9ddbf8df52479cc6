"""Rational functions as formulas that read like a book's: (W + w)/4, not 1/4*W + 1/4*w."""

from fractions import Fraction
from typing import Any

from gantline.quantity import Formula, Number, Power, Product, Quotient, Sum, Symbol

from .ring import Ratio


def written(ratio: Ratio) -> Formula:
    """The formula of a rational function, in lowest terms."""
    lowest = ratio.reduced()
    over = _factors(lowest.num)
    if lowest.den.is_one():
        return _product(over)
    return Quotient(_product(over), _product(_factors(lowest.den)))


def _factors(polynomial: Any) -> list[Formula]:
    """Content, powers of symbols, then the sums; sums in one symbol alone stay multiplied out."""
    names = polynomial.context().names()
    terms = polynomial.to_dict()
    if len(terms) <= 1:
        return _monomial(terms, names)
    content, rest = polynomial.factor() if polynomial.total_degree() > 1 else _linear(polynomial)
    symbols: list[Formula] = []
    sums: list[Formula] = []
    single: dict[int, Any] = {}
    for factor, exponent in rest:
        parts = factor.to_dict()
        if len(parts) == 1:
            symbols += _monomial({tuple(e * exponent for e in next(iter(parts))): 1}, names)
            continue
        used = [n for n, degree in enumerate(factor.degrees()) if degree]
        if len(used) == 1:
            single[used[0]] = single[used[0]] * factor**exponent if used[0] in single else factor**exponent
            continue
        if content < 0 and exponent % 2 and parts[max(parts)] > 0 and any(c < 0 for c in parts.values()):
            content, parts = -content, {exponents: -c for exponents, c in parts.items()}
        whole = _sum(parts, names)
        sums.append(whole if exponent == 1 else Power(whole, exponent))
    sums = [_sum(poly.to_dict(), names) for poly in single.values()] + sums
    number = Fraction(int(content))
    return ([Number(number)] if number != 1 else []) + sorted(symbols, key=lambda s: _order(s, names)) + sums


def _linear(polynomial: Any) -> tuple[Any, list[tuple[Any, int]]]:
    content = polynomial.content()
    if all(coefficient < 0 for coefficient in polynomial.coeffs()):
        content = -content
    return content, [(polynomial / content, 1)]


def _order(formula: Formula, names: tuple[str, ...]) -> int:
    base = formula.base if isinstance(formula, Power) else formula
    return names.index(base.name) if isinstance(base, Symbol) else len(names)


def _monomial(terms: dict[Any, Any], names: tuple[str, ...]) -> list[Formula]:
    if not terms:
        return [Number(Fraction(0))]
    ((exponents, coefficient),) = terms.items()
    number = Fraction(int(coefficient))
    letters: list[Formula] = [
        Symbol(name) if exponent == 1 else Power(Symbol(name), int(exponent))
        for name, exponent in zip(names, exponents, strict=False)
        if exponent
    ]
    return letters if number == 1 and letters else [Number(number), *letters]


def _sum(terms: dict[Any, Any], names: tuple[str, ...]) -> Formula:
    """Positive terms first, so that a sum begins without a sign where it can."""
    ordered = sorted(terms.items(), key=lambda term: term[1] < 0)
    return Sum(tuple(_product(_monomial({exponents: number}, names)) for exponents, number in ordered))


def _product(factors: list[Formula]) -> Formula:
    return factors[0] if len(factors) == 1 else Product(tuple(factors)) if factors else Number(Fraction(1))
