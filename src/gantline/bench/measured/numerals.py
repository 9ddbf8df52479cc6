"""Numbers as spreadsheets write them. How decimals are parted is decided once for a whole table, from its own cells."""

import re
from collections.abc import Iterable
from fractions import Fraction

from msgspec import Struct

MOST_CHARACTERS = 30
NO_VALUE = frozenset(
    ("", "-", "–", "—", "?", "x", "n/a", "na", "nan", "none", "null", "absent", "missing", "#n/a", "#na", "#div/0!",
     "#value!", "#ref!", "#name?", "#num!", "#null!", "...", "…")
)  # fmt: skip
_CELL = re.compile(
    r"(?P<sign>[+\-−]?)(?P<number>[0-9][0-9.,'’ \u00a0\u202f]*|[.,][0-9]+)(?P<power>[eE][+-]?[0-9]{1,2})?(?P<unit>.*)",
    re.ASCII | re.DOTALL,
)
_SPACED = re.compile(r"[0-9]{1,3}(?:(['’ \u00a0\u202f])[0-9]{3}(?:\1[0-9]{3})*)?(?:[.,][0-9]*)?")
_GROUPS = {",": re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+"), ".": re.compile(r"[1-9][0-9]{0,2}(?:\.[0-9]{3})+")}
_OTHER = {",": ".", ".": ","}


class Odd(Exception):
    """A cell that is no number in this table; the argument is the code of the reason."""


class TwoWays(Exception):
    """A number that could be read with decimals or with thousands: its two readings, the smaller first."""

    def __init__(self, number: str, mark: str) -> None:
        super().__init__(number)
        self.readings = number.replace(mark, "."), number.replace(mark, "")


class Numeral(Struct, frozen=True):
    """A number read, and the unit glued to it ("" for none)."""

    number: Fraction
    unit: str


def _parts(cell: str) -> re.Match[str]:
    """The pieces of a cell that begins like a number. Raises Odd."""
    match = _CELL.fullmatch(cell.strip())
    if match is None:
        raise Odd("formula" if cell.strip().startswith(("=", "@", "+", "-")) else "no-number")
    if len(match["number"]) > MOST_CHARACTERS:
        raise Odd("no-number")
    return match


def votes(cell: str) -> str:
    """What a cell says of the decimal mark: "." or ",", "?" where it could be read both ways, "" for nothing."""
    try:
        number = _parts(cell)["number"].strip()
    except Odd:
        return ""
    points, commas = number.count("."), number.count(",")
    if points and commas:
        return "." if number.rindex(".") > number.rindex(",") else ","
    if not points and not commas:
        return ""
    mark = "." if points else ","
    if points + commas > 1:
        return _OTHER[mark]
    return "?" if _GROUPS[mark].fullmatch(number) else mark


def decimal_mark(cells: Iterable[str], delimiter: str) -> str:
    """The one decimal mark of a table: what most of its cells show. "?" where every number with a mark could be read
    both ways, save that cells parted by commas or tabs are not taken to part thousands by points."""
    said = [(vote, cell) for cell in cells if (vote := votes(cell))]
    points, commas = (sum(vote == mark for vote, _ in said) for mark in ".,")
    if points or commas:
        return "." if points >= commas else ","
    return "?" if any(delimiter == ";" or "," in cell for _, cell in said) else "."


def numeral(cell: str, mark: str, told: bool = False) -> Numeral | None:
    """A cell as a number, None where it says that there is no value. Raises Odd.

    Raises TwoWays where nothing settles how it parts its decimals; `told` says that the reader has been told the mark.
    """
    if cell.strip().casefold() in NO_VALUE:
        return None
    match = _parts(cell)
    number, unit = match["number"].strip(), match["unit"].strip()
    sign = "-" if match["sign"] in ("-", "−") and match["sign"] else ""
    if any(space in number for space in "'’ \u00a0\u202f"):
        if not _SPACED.fullmatch(number):
            raise Odd("no-number")
        number = re.sub("['’ \u00a0\u202f]", "", number)
    digits = _joined(number, mark, told)
    return Numeral(Fraction(f"{sign}{digits}{match['power'] or ''}"), unit)


def _joined(number: str, mark: str, told: bool) -> str:
    """The digits with a point before the decimals and nothing between thousands.

    1.000 in a table of decimal commas is a thousand on paper, and one where somebody read a balance: it is asked.
    """
    if "." not in number and "," not in number:
        return number
    if mark == "?":
        raise TwoWays(number, "." if "." in number else ",")
    if mark == "," and not told and number.count(".") == 1 and _GROUPS["."].fullmatch(number):
        raise TwoWays(number, ".")
    whole, _, tail = number.partition(mark)
    other = _OTHER[mark]
    if mark in tail or other in tail:
        raise Odd("other-mark")
    if other in whole:
        if not _GROUPS[other].fullmatch(whole):
            raise Odd("other-mark")
        whole = whole.replace(other, "")
    return f"{whole or '0'}.{tail or '0'}"
