"""Numbers as a reader sees them, everywhere the same: exact where that is short, else three digits.

This is the one rule of the house. A number is written out where four figures say it exactly; else with three
significant digits, needless zeros left out, and no digit before the point made up. More digits than that stand only
where they are the point, and say so there: exact numbers beside their rounded ones in a worked solution, pulls that
would else look alike, and what was measured, which goes as far as its uncertainty.
"""

from collections.abc import Iterable
from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction
from math import floor, log10

DIGITS = 3
MOST_DIGITS = 9  # past it two numbers count as alike
_SOON = 6  # decimals: past it an exact number is plainer as a fraction
_PLAIN = (Fraction(1, 10**4), 10**9)  # from here to there no power of ten is written


def numeral(number: Fraction | float, digits: int = DIGITS) -> str:
    """`number` in decimals: exact where `digits` + 1 figures say it, else `digits` significant ones.

    Whole numbers stay whole; five figures and more before the point are grouped by commas; minus as −.
    """
    if isinstance(number, float):
        number = Fraction(number).limit_denominator(10**9)
    if number and not _PLAIN[0] <= abs(number) < _PLAIN[1]:
        return _power_of_ten(number, digits)
    end, near = decimals(number), max(places_for(number, digits), 0)
    if end is not None and (end <= near or abs(number) * 10**end < 10 ** (digits + 1)):
        return written(number, end)
    shown = written(number, near)
    return shown.rstrip("0").rstrip(".") if "." in shown else shown


def exactly(number: Fraction) -> str:
    """A number that loses nothing: as it is shown where that is exact, else its decimals where they end soon, else a
    fraction in lowest terms."""
    shown, end = numeral(number), decimals(number)
    if value_of(shown) == number:
        return shown
    return written(number, end) if end is not None and end <= _SOON else str(number).replace("-", "−")


def value_of(shown: str) -> Fraction:
    """The number that a numeral says: 1,234.5 and −2/3 too."""
    return Fraction(shown.replace("−", "-").replace(",", ""))


def tenths(number: float) -> str:
    """To one decimal: millimetres as a ruler tells them, degrees as a protractor does. No sign before nought."""
    return f"{round(number, 1) + 0.0:.1f}".replace("-", "−")


def written(number: Fraction, places: int) -> str:
    """A number with exactly so many decimals, five figures and more before the point with commas; minus as −."""
    rounded = round_half_up(number, places)
    shown = Decimal(rounded.numerator) / Decimal(rounded.denominator)
    grouped = "," if abs(rounded) >= 10000 else ""
    return f"{shown:{grouped}.{max(places, 0)}f}".replace("-", "−")


def telling_digits(numbers: Iterable[Fraction]) -> int:
    """The fewest significant digits, from the usual ones on, at which different numbers look different."""
    different = set(numbers)
    enough = (n for n in range(DIGITS, MOST_DIGITS) if len({numeral(one, n) for one in different}) == len(different))
    return next(enough, MOST_DIGITS)


def round_half_up(number: Fraction, places: int) -> Fraction:
    """To so many decimals (negative: tens, hundreds), halves away from zero."""
    scale = Fraction(10) ** places
    whole = int(abs(number) * scale + Fraction(1, 2))
    return (whole if number >= 0 else -whole) / scale


def places_for(number: Fraction, digits: int = DIGITS) -> int:
    """The decimals that give so many significant digits, after rounding: 9.995 rounds to 10.0, one decimal."""
    if number == 0:
        return 0
    exponent = _exponent(number)
    places = digits - 1 - exponent
    return places - 1 if _exponent(round_half_up(number, places)) > exponent else places


def decimals(number: Fraction) -> int | None:
    """How many decimals write a number exactly, None where it never ends."""
    under, twos, fives = number.denominator, 0, 0
    while under % 2 == 0:
        under, twos = under // 2, twos + 1
    while under % 5 == 0:
        under, fives = under // 5, fives + 1
    return max(twos, fives) if under == 1 else None


def _exponent(number: Fraction) -> int:
    """The power of ten of its first figure."""
    size = abs(number)
    exponent = floor((size.numerator.bit_length() - size.denominator.bit_length()) * log10(2)) - 1
    while size >= Fraction(10) ** (exponent + 1):
        exponent += 1
    return exponent


def _power_of_ten(number: Fraction, digits: int) -> str:
    rounding = Context(prec=digits, rounding=ROUND_HALF_UP)
    shown = rounding.divide(rounding.create_decimal(0) + number.numerator, number.denominator)
    return f"{shown.normalize(rounding):e}".replace("-", "−", 1) if number < 0 else f"{shown.normalize(rounding):e}"
