"""The equation that takes the answer's place where no pull holds: the pulls are gone from it, and it is false."""

from collections.abc import Iterable
from fractions import Fraction
from math import gcd

from gantline.account import measure
from gantline.mechanics import Answer, Counted, contradiction
from gantline.quantity import Equation, Formula, Number, Product, Sum, Symbol
from gantline.rig import Rig


def false_equation(rig: Rig, answer: Answer) -> Equation | str:
    """The balances added up: 90 N = 60 N, or 0 × T = 240 N; in letters where a weight has no number."""
    counted = [one for one in contradiction(rig) if one.weight]
    if not counted:
        return ""
    common = gcd(*(one.times for one in counted))
    sides = [[Counted(one.part, way * one.times // common, one.weight) for one in counted if way * one.times > 0]
             for way in (1, -1)]  # fmt: skip
    if any(_number(rig, one.part) is None for one in counted):
        return Equation(tuple(_letters(rig, side) if side else Number(Fraction(0)) for side in sides))
    said = [_sum(rig, side) if side else f"0 × {_letter(answer)}" for side in sides]
    return " = ".join(said if sides[0] and sides[1] else sorted(said, key=lambda side: not side.startswith("0 ×")))


def no_pull(answer: Answer) -> str:
    """What was checked there: the pulls cancel exactly, so that no size of theirs can mend it."""
    one = len(answer.tension_symbols) == 1
    return f"Checked: no value of {_letter(answer)} satisfies it." if one else "Checked: no pulls satisfy it."


def _letter(answer: Answer) -> str:
    return answer.tension_symbols[0][1] if len(answer.tension_symbols) == 1 else "pull"


def _sum(rig: Rig, side: Iterable[Counted]) -> str:
    total = sum((one.times * one.weight for one in side), Fraction(0))
    return measure(rig, total, "N").near


def _letters(rig: Rig, side: list[Counted]) -> Formula:
    terms = [_times(one.times, _weight(rig, one.part)) for one in side]
    return terms[0] if len(terms) == 1 else Sum(tuple(terms))


def _times(n: int, what: Formula) -> Formula:
    return what if n == 1 else Product((Number(Fraction(n)), what))


def _weight(rig: Rig, name: str) -> Formula:
    part = rig.part(name)
    if part.weight is not None:
        return Symbol(part.weight.symbol)
    assert part.mass is not None  # it has a weight
    return Product((Symbol(part.mass.symbol), Symbol(rig.gravity.symbol)))


def _number(rig: Rig, name: str) -> Fraction | None:
    part = rig.part(name)
    given = part.weight or part.mass
    return given.number if given else Fraction(0)
