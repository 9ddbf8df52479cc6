"""Numbers as a reader sees them: decimals, exact where that is short, else rounded."""

from decimal import ROUND_HALF_UP, Context
from fractions import Fraction


def numeral(number: Fraction, digits: int = 4) -> str:
    """`number` in decimals: exact if `digits` + 2 figures can say it, else `digits` significant ones; minus as −."""
    exact = _decimals(number, digits + 2)
    shown = exact if exact is not None else _rounded(number, digits)
    return shown.replace("-", "−") if "e" not in shown else shown


def _decimals(number: Fraction, figures: int) -> str | None:
    """The number in at most `figures` figures, or None where that would round it."""
    scaled = number * 10**figures
    if scaled.denominator != 1 or abs(number) >= 10**figures:
        return None
    whole, part = divmod(abs(scaled.numerator), 10**figures)
    tail = f"{part:0{figures}d}".rstrip("0")
    if len((str(whole) + tail).lstrip("0")) > figures:
        return None
    return f"{'-' if number < 0 else ''}{whole}{'.' + tail if tail else ''}"


def _rounded(number: Fraction, digits: int) -> str:
    rounding = Context(prec=digits, rounding=ROUND_HALF_UP)
    shown = rounding.divide(rounding.create_decimal(0) + number.numerator, number.denominator)
    if not -5 < shown.adjusted() < digits + 2:
        return f"{shown:e}"
    return f"{shown:f}".rstrip("0").rstrip(".") if "." in f"{shown:f}" else f"{shown:f}"
