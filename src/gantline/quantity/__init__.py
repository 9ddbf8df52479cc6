"""Units of measure and formulas: what a number means, how it was reached, and how that is set."""

from typing import TYPE_CHECKING, Any

from .formula import Equation, Formula, Number, Power, Product, Quotient, Sum, Symbol, negative, symbols, text, value
from .shown import numeral
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
    "SI", "UNITS", "Equation", "Formula", "Letter", "Number", "Numeral", "Power", "Product", "Quotient", "Raised",
    "Row", "Set", "Shown", "Sign", "Stacked", "Sum", "Symbol", "Unit", "Words", "negative", "numeral", "plain",
    "set_out", "symbols", "text", "value",
]  # fmt: skip
