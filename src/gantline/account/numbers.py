"""Numbers as a reader meets them: three digits, exact where that is no longer, and sums that add up as said.

Language plays no part here; how a numeral is spoken is for `phrases`.
"""

from collections.abc import Iterable, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

DIGITS = 3
MOST_PLACES = 6  # decimals beyond which a sum is not made to add up any more


class Numeral(NamedTuple):
    """A number as written. `off` is the written number less the true one, as a share of the true one."""

    text: str
    off: Fraction

    @property
    def exact(self) -> bool:
        return self.off == 0


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


def _exponent(number: Fraction) -> int:
    size, exponent = abs(number), 0
    while size >= 10:
        size, exponent = size / 10, exponent + 1
    while size < 1:
        size, exponent = size * 10, exponent - 1
    return exponent


def decimals(number: Fraction) -> int | None:
    """How many decimals write a number exactly, None where it never ends."""
    under, twos, fives = number.denominator, 0, 0
    while under % 2 == 0:
        under, twos = under // 2, twos + 1
    while under % 5 == 0:
        under, fives = under // 5, fives + 1
    return max(twos, fives) if under == 1 else None


def written(number: Fraction, places: int) -> str:
    """A number with exactly so many decimals (none where places is negative), five digits and more with commas."""
    rounded = round_half_up(number, places)
    shown = Decimal(rounded.numerator) / Decimal(rounded.denominator)
    text = f"{shown:.{max(places, 0)}f}"
    return f"{shown:,.{max(places, 0)}f}" if abs(rounded) >= 10000 else text


def numeral(number: Fraction, places: int | None = None) -> Numeral:
    """A number as it is written: with the decimals asked, else exact where that is no longer than three digits."""
    end = decimals(number)
    if places is None:
        places = places_for(number)
        if end is not None and len(written(number, end)) <= len(written(number, places)):
            places = end
    elif end is not None and end < places:
        places = end
    off = (round_half_up(number, places) - number) / abs(number) if number else Fraction(0)
    return Numeral(written(number, places), off)


def as_said(number: Fraction, places: int | None) -> Fraction:
    """The number that a hearer would reckon with."""
    return Fraction(numeral(number, places).text.replace(",", ""))


def common_places(terms: Sequence[Fraction], total: Fraction) -> int | None:
    """The fewest decimals with which the terms, as said, add up to the total, as said; None where no sum will."""
    least = max(0, min(places_for(number) for number in (*terms, total) if number) if any((*terms, total)) else 0)
    for places in range(least, MOST_PLACES + 1):
        if sum((as_said(term, places) for term in terms), Fraction(0)) == as_said(total, places):
            return places
    return None


def telling_places(numbers: Iterable[Fraction]) -> int:
    """The fewest decimals, from two significant digits on, at which different numbers are still said differently."""
    different = set(numbers)
    least = max(0, min(places_for(number, 2) for number in different if number) if any(different) else 0)
    for places in range(least, MOST_PLACES):
        if len({written(number, places) for number in different}) == len(different):
            return places
    return MOST_PLACES
