"""What a column holds, from its heading: a name, a unit, and perhaps the number of a repeat."""

import re
import unicodedata
from fractions import Fraction

from msgspec import Struct

from gantline.quantity import UNITS

# The heading that the documents name comes first; behind it, others met in class.
NAMES: dict[str, tuple[str, ...]] = {
    "load": ("load", "load mass", "load weight", "hanging mass", "hanging weight", "mass", "weight", "hung", "last",
             "masse", "gewicht"),
    "raising": ("raise", "raising", "up", "pull up", "pull raising", "pull when raising", "raise reading", "effort up",
                "force up", "reading up", "going up", "hauling", "pull", "effort", "force", "reading", "heben",
                "kraft", "kraft heben"),
    "lowering": ("lower", "lowering", "down", "pull down", "pull lowering", "pull when lowering", "lower reading",
                 "effort down", "force down", "reading down", "going down", "senken", "kraft senken"),
    "hand": ("hand travel", "hand", "rope", "rope pulled", "rope travel", "haul", "hand moved"),
    "rise": ("load travel", "rise", "lift", "load moved", "load rise", "height"),
    "block": ("block", "block weight", "block mass", "moving block"),
    "zero": ("zero", "scale zero", "zero reading", "empty scale", "nothing hung"),
}  # fmt: skip
REPEATED = ("raising", "lowering", "zero", "block")  # may stand in several columns, one for each time it was read
KINDS = {
    "load": "weight", "block": "weight", "raising": "pull", "lowering": "pull", "zero": "pull", "hand": "length",
    "rise": "length",
}  # fmt: skip

_CALLED = {name: what for what, names in NAMES.items() for name in names}
_UNIT = re.compile(r"^(?P<name>.*?)\s*(?:[(\[]\s*(?P<a>[^()\[\]]*?)\s*[)\]]|/\s*(?P<b>\S+)|,?\s+in\s+(?P<c>\S+))$")
_REPEAT = re.compile(r"[\s#.:]*(?:\(\d{1,2}\)|\d{1,2})$", re.ASCII)
_SPELT = {
    "newton": "N", "newtons": "N", "kilogram": "kg", "kilograms": "kg", "gram": "g", "grams": "g", "gramme": "g",
    "grammes": "g", "metre": "m", "metres": "m", "meter": "m", "meters": "m", "kp": "kgf", "kg-f": "kgf",
}  # fmt: skip
_MORE = {"mn": ("force", Fraction(1, 1000)), "gf": ("force", UNITS["kgf"].factor / 1000)}
_BY_NAME = {name.casefold(): (unit.kind, unit.factor) for name, unit in UNITS.items()} | _MORE


class Column(Struct, frozen=True):
    """A column that is used: its place from 0, what it holds, and what turns its numbers into SI (None: not said)."""

    place: int
    what: str
    factor: Fraction | None


class WrongUnit(Exception):
    """A unit that cannot measure what stands there; the argument names it where it is a unit at all."""


def plain(cell: str) -> str:
    """A heading as it is compared: one case, one kind of space, no underscores."""
    return " ".join(unicodedata.normalize("NFKC", cell).replace("_", " ").casefold().split())


def heading(cell: str) -> tuple[str, str | None] | None:
    """(what, unit as written or None) of a heading, None for one that is not known."""
    words, unit = _REPEAT.sub("", plain(cell)), None
    match = _UNIT.match(words)
    if match:
        words, unit = _REPEAT.sub("", match["name"]), match["a"] or match["b"] or match["c"]
    what = _CALLED.get(words.strip(" :"))
    return (what, unit or None) if what else None


def factor(unit: str, what: str, gravity: Fraction) -> Fraction:
    """What turns a number in this unit into newtons or metres. Raises WrongUnit.

    A scale marked in grams shows the pull of so many grams under standard gravity; a load of so many grams weighs what
    it does here.
    """
    name = plain(unit)
    kind, size = _BY_NAME.get(_SPELT.get(name, name).casefold(), ("", Fraction(0)))
    if kind == "mass" and KINDS[what] != "length":
        return size * (gravity if KINDS[what] == "weight" else UNITS["kgf"].factor)
    if kind == {"weight": "force", "pull": "force"}.get(KINDS[what], KINDS[what]):
        return size
    raise WrongUnit(_SPELT.get(name, name) if kind else "")
