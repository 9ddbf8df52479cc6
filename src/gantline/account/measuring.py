"""A number with its unit as the page shows it: exact where that is short, else rounded and said so."""

from fractions import Fraction

from msgspec import Struct

from gantline.mechanics import Value
from gantline.quantity import DIGITS, Equation, Formula, Number, Sum, exactly, numeral
from gantline.rig import Rig, shown_unit

LONG = 16  # characters of an exact number with its unit past which only the rounded one is shown
_ASCII = {"m/s²": "m/s2"}


class Measure(Struct, frozen=True):
    """`near` is the number as it is shown everywhere; `exact` loses nothing: the same where that is short, else in
    full or in lowest terms, for where a solution gives the exact number first. Both with the unit."""

    exact: str
    near: str
    number: Fraction
    unit: str

    @property
    def whole(self) -> bool:
        """Whether the short form is the exact one."""
        return self.exact == self.near


def measure(rig: Rig, number: Fraction, unit: str, digits: int = DIGITS) -> Measure:
    """A number in SI, in the unit the file's reader sees. `unit` is an SI unit, "1" for a bare number.

    `digits` are the significant ones of the short form where it has to be rounded.
    """
    shown = shown_unit(rig, _ASCII.get(unit, unit))
    inside = number / shown.factor if shown else number
    name = "" if unit == "1" else f"\u00a0{shown.name if shown else unit}"
    name = name.replace("m/s2", "m/s²")
    return Measure(exactly(inside) + name, numeral(inside, digits) + name, inside, name.strip())


def near(rig: Rig, value: Value | None) -> str:
    """A value in short, or a dash where it has no number."""
    if value is None or value.number is None:
        return "–"
    return measure(rig, value.number, value.unit).near


def said(rig: Rig, holds: Equation, unit: str) -> tuple[Equation, str]:
    """An equation with units on its numbers, and what follows it where its last number had to be rounded."""
    sides = tuple(_with_unit(rig, side, unit) for side in holds.sides)
    last = holds.sides[-1]
    if not isinstance(last, Number) or last.value == 0:
        return Equation(sides), ""
    found = measure(rig, last.value, unit)
    if len(found.exact) > LONG:
        return Equation(sides[:-1]), f"≈ {found.near}"
    return Equation(sides), "" if found.whole else f"≈ {found.near}"


def _with_unit(rig: Rig, side: Formula, unit: str) -> Formula:
    match side:
        case Number(value) if value == 0:
            return side
        case Number(value):
            return Number(value, measure(rig, value, unit).exact.replace("\u00a0", " "))
        case Sum(terms) if all(isinstance(term, Number) for term in terms):
            return Sum(tuple(_with_unit(rig, term, unit) for term in terms))
        case _:
            return side
