"""Rational functions as formulas that read like a book's: (W + w)/4, not 1/4*W + 1/4*w."""

from fractions import Fraction
from typing import Any

from gantline.quantity import Formula, Number, Power, Product, Quotient, Sum, Symbol

from .ring import Ratio

_MOST_KNOWN = 4096
_known: dict[tuple[tuple[str, ...], str, str], Formula] = {}  # the same few functions come up again and again


def written(ratio: Ratio) -> Formula:
    """The formula of a rational function, in lowest terms."""
    lowest = ratio.reduced()
    key = (lowest.num.context().names(), str(lowest.num), str(lowest.den))
    formula = _known.get(key)
    if formula is None:
        formula = _product(_factors(lowest.num))
        if not lowest.den.is_one():
            formula = Quotient(formula, _product(_factors(lowest.den)))
        if len(_known) >= _MOST_KNOWN:
            _known.clear()
        _known[key] = formula
    return formula


def _factors(polynomial: Any) -> list[Formula]:
    """Content and powers of symbols in front, then sums; sums in one symbol alone stay multiplied out."""
    names = polynomial.context().names()
    terms = polynomial.to_dict()
    if len(terms) <= 1:
        return _monomial(terms, names)
    content = int(polynomial.content())
    if all(coefficient < 0 for coefficient in terms.values()):
        content = -content
    lowest = tuple(map(min, zip(*terms, strict=True)))
    rest = {tuple(a - b for a, b in zip(e, lowest, strict=True)): c / content for e, c in terms.items()}
    front = _monomial({lowest: content}, names)
    if front == [Number(Fraction(1))]:
        front = []
    if all(sum(exponents) <= 1 for exponents in rest):
        return [*front, _sum(rest, names)]
    return front + _sums(polynomial.context().from_dict(rest), names)


def _sums(polynomial: Any, names: tuple[str, ...]) -> list[Formula]:
    """The factors of a polynomial that no number and no symbol divides."""
    sign, factors = polynomial.factor()
    single: dict[int, Any] = {}
    found: list[Formula] = []
    for factor, exponent in factors:
        used = [n for n, degree in enumerate(factor.degrees()) if degree]
        if len(used) == 1:
            single[used[0]] = single[used[0]] * factor**exponent if used[0] in single else factor**exponent
            continue
        if sign < 0 and exponent % 2:
            sign, factor = -sign, -factor
        whole = _sum(factor.to_dict(), names)
        found.append(whole if exponent == 1 else Power(whole, exponent))
    alone = [poly if n or sign > 0 else -poly for n, poly in enumerate(single.values())]
    return [_sum(poly.to_dict(), names) for poly in alone] + found


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
