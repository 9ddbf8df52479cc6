"""Units of measure and formulas: what a number means, how it was reached, and how that is set."""

from typing import TYPE_CHECKING, Any

from .formula import Equation, Formula, Number, Power, Product, Quotient, Sum, Symbol, negative, symbols, text, value
from .shown import DIGITS, exactly, numeral, telling_digits, tenths, value_of
from .units import SI, UNITS, Unit

if TYPE_CHECKING:
    from .setting import Letter, Numeral, Raised, Row, Set, Shown, Sign, Stacked, Words, plain, set_out

_SETTING = {"Letter", "Numeral", "Raised", "Row", "Set", "Shown", "Sign", "Stacked", "Words", "plain", "set_out"}


def __getattr__(name: str) -> Any:
    """An answer on its own sets no formula: how one is set is loaded when it is asked for."""
    if name not in _SETTING:
        raise AttributeError(name)
    from . import setting

    found = globals()[name] = getattr(setting, name)
    return found


__all__ = [
    "DIGITS", "SI", "UNITS", "Equation", "Formula", "Letter", "Number", "Numeral", "Power", "Product", "Quotient",
    "Raised", "Row", "Set", "Shown", "Sign", "Stacked", "Sum", "Symbol", "Unit", "Words", "exactly", "negative",
    "numeral", "plain", "set_out", "symbols", "telling_digits", "tenths", "text", "value", "value_of",
]  # fmt: skip
