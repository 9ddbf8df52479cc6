"""Formulas as small trees: written out as text here; as MathML, mathematics in print or figure glyphs elsewhere."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Union

from msgspec import Struct


class Number(Struct, frozen=True, tag=True):
    """An exact number, in SI where it stands for a quantity. `shown` is how it is written, rounded and with its unit,
    where that is not the number itself: "33.3 N"."""

    value: Fraction
    shown: str = ""


class Symbol(Struct, frozen=True, tag=True):
    """A letter, with digits as its index: W, w, F, T1, m_a."""

    name: str


class Sum(Struct, frozen=True, tag=True):
    terms: tuple["Formula", ...]


class Product(Struct, frozen=True, tag=True):
    factors: tuple["Formula", ...]


class Quotient(Struct, frozen=True, tag=True):
    over: "Formula"
    under: "Formula"


class Power(Struct, frozen=True, tag=True):
    base: "Formula"
    exponent: int


Formula = Union[Number, Symbol, Sum, Product, Quotient, Power]  # noqa: UP007 - the names are forward references


class Equation(Struct, frozen=True):
    """Things that are equal, left to right: F = (W + w)/4 is two sides, F = (W + w)/4 = 90 N is three."""

    sides: tuple[Formula, ...]


def symbols(formula: Formula) -> frozenset[str]:
    """The names of all symbols in a formula."""
    match formula:
        case Symbol(name):
            return frozenset((name,))
        case Sum(parts) | Product(parts):
            return frozenset().union(*(symbols(part) for part in parts))
        case Quotient(over, under):
            return symbols(over) | symbols(under)
        case Power(base, _):
            return symbols(base)
        case _:
            return frozenset()


def value(formula: Formula, given: Mapping[str, Fraction]) -> Fraction:
    """The number a formula gives. Raises KeyError for a symbol without a number, ZeroDivisionError in arithmetic."""
    match formula:
        case Number(number):
            return number
        case Symbol(name):
            return given[name]
        case Sum(terms):
            return sum((value(term, given) for term in terms), Fraction(0))
        case Product(factors):
            product = Fraction(1)
            for factor in factors:
                product *= value(factor, given)
            return product
        case Quotient(over, under):
            return value(over, given) / value(under, given)
        case Power(base, exponent):
            return value(base, given) ** exponent


def text(formula: Formula) -> str:
    """The formula on one line, as a calculator or a computer-algebra system would read it: (W + w)/4."""
    match formula:
        case Number(number, shown):
            return shown or str(number)
        case Symbol(name):
            return name
        case Sum(terms):
            first, *rest = terms
            return text(first) + "".join(_signed(term) for term in rest)
        case Product() | Quotient() if (positive := negative(formula)) is not None:
            return "-" + (f"({text(positive)})" if isinstance(positive, Sum) else text(positive))
        case Product(factors):
            return "*".join(_factor(factor) for factor in factors)
        case Quotient(over, under):
            under_text = text(under)
            if not isinstance(under, Symbol | Power) and not (isinstance(under, Number) and under_text.isdigit()):
                under_text = f"({under_text})"
            return f"{_factor(over)}/{under_text}"
        case Power(base, exponent):
            return f"{text(base) if isinstance(base, Symbol) else f'({text(base)})'}**{exponent}"


def negative(formula: Formula) -> Formula | None:
    """The formula without its minus sign, or None where it has none in front."""
    match formula:
        case Number(number) if number < 0:
            return Number(-number)
        case Product((Number(number), *rest)) if number < 0:
            if number == -1:
                return Product(tuple(rest)) if len(rest) > 1 else rest[0]
            return Product((Number(-number), *rest))
        case Quotient(over, under):
            positive = negative(over)
            return Quotient(positive, under) if positive is not None else None
        case _:
            return None


def _signed(term: Formula) -> str:
    positive = negative(term)
    return f" + {text(term)}" if positive is None else f" - {text(positive)}"


def _factor(factor: Formula) -> str:
    plain = isinstance(factor, Symbol | Power | Product) or (isinstance(factor, Number) and str(factor.value).isdigit())
    written = text(factor)
    return written if plain and not written.startswith("-") else f"({written})"
