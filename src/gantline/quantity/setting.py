"""How a formula is set: letters, numerals, signs, fractions in a row, the same for the page and for print."""

import re
from typing import Literal, Union

from msgspec import Struct

from .formula import Equation, Formula, Number, Power, Product, Quotient, Sum, Symbol, negative, text
from .units import UNITS

Shown = Equation | Formula | str  # a string is a short formula in words: "F = ?", "W = 348 N, w = 12 N"
_TOKEN = re.compile(r"(?:m|ft)/s[2²]|kg m[2²]|\d+(?:[.,]\d+)*|[^\W\d_]+(?:_?\w+)?|\S|\s+")
_UNITS = {*UNITS, "J", "m/s²", "ft/s²", "kg m²"}


class Letter(Struct, frozen=True):
    """A symbol: its letter italic, what follows it an upright index. Several letters (MA) stand upright."""

    name: str
    index: str = ""


class Numeral(Struct, frozen=True):
    """Digits; `unit` follows them after a space that does not break."""

    digits: str
    unit: str = ""


class Words(Struct, frozen=True):
    text: str


class Sign(Struct, frozen=True):
    """An operator. `times` is not seen; `prefix` is a minus in front."""

    sign: str
    role: Literal["binary", "relation", "prefix", "times", "bracket", "comma", "plain"]


class Stacked(Struct, frozen=True):
    """A fraction."""

    over: "Set"
    under: "Set"


class Raised(Struct, frozen=True):
    base: "Set"
    exponent: int


class Row(Struct, frozen=True):
    parts: "tuple[Set, ...]"


Set = Union[Letter, Numeral, Words, Sign, Stacked, Raised, Row]  # noqa: UP007 - the names are forward references
_MINUS = Sign("−", "prefix")


def set_out(shown: Shown) -> Row:
    """A formula as it is set."""
    if isinstance(shown, str):
        return _words(shown)
    sides = shown.sides if isinstance(shown, Equation) else (shown,)
    return Row(tuple(part for n, side in enumerate(sides) for part in _side(side, n)))


def plain(shown: Shown) -> str:
    """A formula on one line of text: F = (W + w)/4 = 90 N."""
    if isinstance(shown, str):
        return shown
    sides = shown.sides if isinstance(shown, Equation) else (shown,)
    return " = ".join(side.shown if isinstance(side, Number) and side.shown else text(side) for side in sides)


def _side(side: Formula, n: int) -> tuple[Set, ...]:
    return (Sign("=", "relation"), _formula(side)) if n else (_formula(side),)


def _formula(formula: Formula) -> Set:
    match formula:
        case Number():
            return _number(formula)
        case Symbol(name):
            return letter(name)
        case Sum(terms):
            return Row((_formula(terms[0]), *(part for term in terms[1:] for part in _signed(term))))
        case Product(factors):
            positive = negative(formula)
            return _product(factors) if positive is None else Row((_MINUS, _formula(positive)))
        case Quotient(over, under):
            positive = negative(over)
            if positive is not None:
                return Row((_MINUS, Stacked(_formula(positive), _formula(under))))
            return Stacked(_formula(over), _formula(under))
        case Power(base, exponent):
            return Raised(_factor(base), exponent)


def _signed(term: Formula) -> tuple[Set, Set]:
    positive = negative(term)
    if isinstance(term, Number) and term.shown[:1] in ("−", "-") and term.shown:
        positive = Number(-term.value, term.shown[1:])
    return Sign("+" if positive is None else "−", "binary"), _formula(term if positive is None else positive)


def _product(factors: tuple[Formula, ...]) -> Row:
    made: list[Set] = []
    for n, factor in enumerate(factors):
        if n:
            made.append(Sign("×", "binary") if isinstance(factor, Number) else Sign("\u2062", "times"))
        made.append(_factor(factor))
    return Row(tuple(made))


def _factor(factor: Formula) -> Set:
    inner = _formula(factor)
    return Row((Sign("(", "bracket"), inner, Sign(")", "bracket"))) if isinstance(factor, Sum) else inner


def _number(number: Number) -> Set:
    if number.shown:
        return measured(number.shown)
    if number.value < 0:
        return Row((_MINUS, _number(Number(-number.value))))
    over, under = number.value.as_integer_ratio()
    return Numeral(str(over)) if under == 1 else Stacked(Numeral(str(over)), Numeral(str(under)))


def measured(shown: str) -> Set:
    """A numeral with its unit: 90 N, −2.5 m/s², 58/15."""
    digits, _, unit = shown.replace("\u00a0", " ").partition(" ")
    if digits[:1] in "−-" and digits[1:]:
        return Row((_MINUS, measured(shown[1:])))
    over, slash, under = digits.partition("/")
    if slash:
        return Row((Stacked(Numeral(over), Numeral(under)), *((Words(f"\u00a0{unit}"),) if unit else ())))
    return Numeral(digits, unit)


def letter(name: str) -> Letter:
    """A symbol's letter and index: F, T1, m_a; MA as it stands."""
    first, index = name[:1], name[1:].lstrip("_")
    return Letter(first, index) if not index or index.isdigit() or name[1:2] == "_" else Letter(name)


def _words(shown: str) -> Row:
    """A formula in words, token by token; a unit is a known one behind a number."""
    made: list[Set] = []
    for token in _TOKEN.findall(shown.replace("\u00a0", " ")):
        before = made[-1] if made else None
        if token.isspace():
            continue
        if token[0].isdigit():
            made.append(Numeral(token))
        elif isinstance(before, Numeral) and not before.unit and token in _UNITS:
            made[-1] = Numeral(before.digits, token)
        elif token[0].isalpha():
            made.append(letter(token) if _is_symbol(token) else Words(f"\u00a0{token}\u00a0"))
        else:
            in_front = before is None or isinstance(before, Sign)
            made.append(_MINUS if token in "-−" and in_front else _sign(token))
    return Row(tuple(made))


def _is_symbol(token: str) -> bool:
    return len(token) == 1 or token[1:].isdigit() or token[1] == "_" or token.isupper()


def _sign(token: str) -> Sign:
    if token == ",":
        return Sign(token, "comma")
    if token in "=≈≠<>≤≥":
        return Sign(token, "relation")
    return Sign("−" if token == "-" else token, "binary" if token in "+-−×/" else "plain")
