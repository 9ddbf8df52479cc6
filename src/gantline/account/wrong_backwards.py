"""The laws of wrong ideas read backwards: a pull is given, and the load that it would hold is what is mistaken."""

from msgspec.structs import replace

from gantline.mechanics import solve
from gantline.quantity import Formula, Product, Quotient, Sum, Symbol, negative, symbols
from gantline.rig import Load

from .facts import Facts
from .wrong_terms import WrongRule, whole


def backwards(facts: Facts, rule: WrongRule) -> Formula | None:
    """The load that a given pull would hold by the law of a pull; None where the law does not speak of the load."""
    forwards, letter = _asked_for_its_pull(facts), _letter(facts)
    law = rule.law(forwards) if forwards is not None else None
    if law is None or letter is None:
        return None
    return inverse(law, letter, Symbol(facts.rig.effort_symbol))


def inverse(law: Formula, letter: str, result: Formula) -> Formula | None:
    """A law that has a letter once, turned round: what the letter is where the law gives `result`. None where the
    letter is not in it, or more than once."""
    match law:
        case Symbol(name):
            return result if name == letter else None
        case Quotient(over, under) if letter not in symbols(under):
            return inverse(over, letter, _multiplied(under, result))
        case Sum(terms) if (parts := _apart(terms, letter)) is not None:
            inner, others = parts
            return inverse(inner, letter, Sum((result, *map(_taken_off, others))))
        case Product(factors) if (parts := _apart(factors, letter)) is not None:
            inner, others = parts
            return inverse(inner, letter, Quotient(result, others[0] if len(others) == 1 else Product(tuple(others))))
        case _:
            return None


def _taken_off(term: Formula) -> Formula:
    return negative(term) or Product((whole(-1), term))


def _multiplied(by: Formula, what: Formula) -> Formula:
    return Product((by, *what.factors)) if isinstance(what, Product) else Product((by, what))


def _apart(parts: tuple[Formula, ...], letter: str) -> tuple[Formula, list[Formula]] | None:
    """The one part that has a letter, and the others."""
    having = [part for part in parts if letter in symbols(part)]
    return (having[0], [part for part in parts if part is not having[0]]) if len(having) == 1 else None


def _asked_for_its_pull(facts: Facts) -> Facts | None:
    """The same rig with the load that was found and the pull left open."""
    found, part = facts.ideal.load, facts.rig.part(facts.load)
    if found is None or found.number is None or not isinstance(part, Load) or part.weight is None:
        return None
    known = replace(part, weight=replace(part.weight, number=found.number))
    parts = tuple(known if one is part else one for one in facts.rig.parts)
    rig = replace(facts.rig, parts=parts, effort=None)
    return Facts(rig, solve(rig))


def _letter(facts: Facts) -> str | None:
    part = facts.rig.part(facts.load)
    return part.weight.symbol if part.weight is not None else None
