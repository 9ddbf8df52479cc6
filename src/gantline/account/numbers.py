"""Numbers as an account says them: written by the rule of the house, with how far off the true one that is.

Language plays no part here; how a numeral is spoken is for `phrases`.
"""

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from gantline.quantity import DIGITS, value_of
from gantline.quantity import numeral as shown


class Numeral(NamedTuple):
    """A number as written. `off` is the written number less the true one, as a share of the true one."""

    text: str
    off: Fraction

    @property
    def exact(self) -> bool:
        return self.off == 0


def numeral(number: Fraction, digits: int = DIGITS) -> Numeral:
    """A number as it is written."""
    text = shown(number, digits)
    off = (value_of(text) - number) / abs(number) if number else Fraction(0)
    return Numeral(text, off)


def adds_up(terms: Iterable[Fraction], total: Fraction) -> bool:
    """Whether a hearer who adds the terms as they are written finds the total as it is written."""
    return sum((_as_said(term) for term in terms), Fraction(0)) == _as_said(total)


def _as_said(number: Fraction) -> Fraction:
    return value_of(shown(number))
