"""Units of measure and formulas: what a number means and how it was reached."""

from .formula import Equation, Formula, Number, Power, Product, Quotient, Sum, Symbol, negative, symbols, text, value
from .shown import numeral
from .units import SI, UNITS, Unit

__all__ = [
    "SI", "UNITS", "Equation", "Formula", "Number", "Power", "Product", "Quotient", "Sum", "Symbol", "Unit",
    "negative", "numeral", "symbols", "text", "value",
]  # fmt: skip
