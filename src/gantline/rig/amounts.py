"""Written values as givens in SI, with what each must measure and how large it may be."""

from fractions import Fraction

from gantline.notation import Notes, Word, Written, did_you_mean
from gantline.quantity import UNITS

from .given import Given

KINDS = {
    "gravity": "acceleration", "weight": "force", "mass": "mass", "radius": "length", "disc": "mass",
    "inertia": "inertia", "efficiency": "ratio", "spacing": "length", "raise": "length", "lower": "length",
    "effort": "force", "hook": "length", "becket": "length", "stiffness": "force", "diameter": "length",
    "drag": "force", "apart": "length", "lead": "length",
}  # fmt: skip
_MAY_BE_ZERO = ("weight", "mass", "drag", "becket")  # so light, so free, so central that it does not count
_EITHER_WAY = ("becket", "zero")  # to the right or, with a minus sign, to the left; what a scale shows with nothing on


def amount(written: Written, key: str, symbol: str, notes: Notes, kind: str = "") -> Given | None:
    """The given for what is said of `key`, None where a problem was noted. `kind` where it is not the usual one."""
    kind = kind or KINDS[key]
    if written.number is None or written.numeral is None:
        return Given(symbol, None, kind, "", written.place)
    if written.unit is None:
        fit = _units(kind)
        notes.add(
            "unit-missing", written.numeral.place, f"`{key}` says a number without a unit",
            "a number alone does not say how large it is", f"write a unit behind it: {fit}.",
        )  # fmt: skip
        return None
    factor = _factor(written.unit, key, kind, notes)
    if factor is None:
        return None
    number = written.number * factor
    return Given(symbol, number, kind, written.unit.text, written.place) if _fits(number, written, key, notes) else None


def _units(kind: str) -> str:
    return ", ".join(unit.name for unit in UNITS.values() if unit.kind == kind)


def _factor(word: Word, key: str, kind: str, notes: Notes) -> Fraction | None:
    unit = UNITS.get(word.text)
    if unit is None:
        known = tuple(each.name for each in UNITS.values() if each.kind == kind)
        notes.add(
            "no-such-unit", word.place, f"`{word.text[:40]}` is no unit known here",
            f"`{key}` is measured in {', '.join(known)}",
            did_you_mean(word.text, known, f"use one of: {_units(kind)}."),
        )  # fmt: skip
        return None
    if unit.kind == kind:
        return unit.factor
    extra = ""
    if key == "weight" and unit.kind == "mass":
        extra = f" or say `mass` instead of `weight`: {word.text} measures mass;"
    if key == "mass" and unit.kind == "force":
        extra = f" or say `weight` instead of `mass`: {word.text} measures force;"
    notes.add(
        "unit-of-another-kind", word.place, f"`{word.text}` measures {unit.kind}, but `{key}` is {_article(kind)}",
        "quantities of different kinds cannot stand for each other",
        f"use one of: {_units(kind)};{extra}".rstrip(";") + ".",
    )  # fmt: skip
    return None


def _article(kind: str) -> str:
    return f"{'an' if kind[0] in 'aei' else 'a'} {kind}"


def _fits(number: Fraction, written: Written, key: str, notes: Notes) -> bool:
    """Whether a number is one that the thing can have."""
    assert written.numeral is not None
    place = written.numeral.place
    if key == "efficiency":
        if 0 < number <= 1:
            return True
        notes.add(
            "efficiency-out-of-range", place, "an efficiency stands outside 0 to 100 %",
            "a wheel passes on part of the pull: never all and more, never nothing", "write one such as 95 %.",
        )  # fmt: skip
        return False
    if number > 0 or key in _EITHER_WAY or (number == 0 and key in _MAY_BE_ZERO):
        return True
    notes.add(
        "not-positive", place, f"`{key}` is {'below zero' if number < 0 else 'zero'}",
        "which way it acts is said by the statement, not by a sign; what is not there is left out",
        "write a positive number.",
    )  # fmt: skip
    return False
