"""Numbers of a plan as its page shows them, and the sentences round them, in English."""

from collections.abc import Iterable
from fractions import Fraction

from gantline.quantity import UNITS, numeral
from gantline.rig import Given

WAYS = {"raising": "Raising", "ideal": "Wheels perfect", "lowering": "Letting down"}
HELD = {
    "up": "upright: hook on the rope, lift the ring. It shows the pull as it is",
    "tared": "set to zero as you hold it. It shows the pull as it is",
    "case": "upside down: hook on the rope, pull its case down. It shows {less} less than the pull, twice what hook "
    "and rod weigh",
    "ring": "upside down: ring on the rope, pull its hook down. It shows {less} less than the pull, its own weight",
}
GENERAL = (
    "General cautions, not a rating and no risk assessment. The rules of your school, the makers' ratings and a "
    "competent person come first."
)
PRACTICE = "common practice"
OWN = "follows from the mechanics; worked out for this rig"
SNAP = "A taut cord that parts flies back: stand out of its line, and protect your eyes."
ASSUMED_LOSS = "The losses are typical, not measured for the set in use."


def in_unit(number: Fraction, unit: str) -> str:
    """A number in SI, in that unit, with its name after a space that does not break."""
    return f"{numeral(number / UNITS[unit].factor)}\u00a0{unit}"


def newtons(number: Fraction) -> str:
    return in_unit(number, "N")


def fixed(number: Fraction) -> str:
    """Three significant digits, zeros at the end as well: in a table, as a scale is read; a minus as −."""
    shown = f"{float(number):#.3g}".rstrip(".")
    if "e" in shown:
        shown = f"{float(number):.0f}"
    return shown.replace("-", "−")


def metres(number: Fraction) -> str:
    """A length: millimetres below 2 cm, centimetres below a metre, else metres with two decimals."""
    if 0 < abs(number) < Fraction(2, 100):
        return f"{float(number * 1000):.2g}\u00a0mm"
    if abs(number) < 1:
        return f"{float(number * 100):.3g}\u00a0cm"
    return f"{float(number):.2f}\u00a0m"


def kilograms(number: Fraction) -> str:
    """A mass: grams below a kilogram."""
    return in_unit(number, "g") if number < 1 else in_unit(number, "kg")


def given(value: Given) -> str:
    """A given as its file writes it."""
    assert value.number is not None
    return in_unit(value.number, value.unit)


def percent(number: Fraction) -> str:
    return f"{numeral(number * 100)}\u00a0%"


def sentence(says: str) -> str:
    """With a capital letter."""
    return says[:1].upper() + says[1:]


def listed(words: Iterable[str]) -> str:
    """a, b and c."""
    found = list(words)
    return found[0] if len(found) == 1 else f"{', '.join(found[:-1])} and {found[-1]}"
