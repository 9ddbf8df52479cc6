"""The givens of a rig as numbers: every symbol's own, or a stand-in where it has none."""

from fractions import Fraction
from typing import Any

from flint import fmpq
from msgspec import Struct

from gantline.rig import Fixed, Given, Load, Moving, Rig

# Stand-ins decide what a rig with bare symbols does (holds, slack ...) as for a load far heavier than its blocks.
_LOAD, _BLOCK, _STEP = Fraction(1009), Fraction(13), Fraction(101)
_OTHERS = {
    "acceleration": Fraction(981, 100), "ratio": Fraction(9, 10), "length": Fraction(1, 10), "inertia": Fraction(1, 50),
}  # fmt: skip

MOST_SHEAVES = 64  # past this, and past MOST_SYMBOLS, an answer has numbers and no formulas
MOST_SYMBOLS = 24


def exact(number: Any) -> Fraction:
    """A rational of the algebra library (or an int) as a Fraction."""
    return Fraction(int(number.p), int(number.q)) if isinstance(number, fmpq) else Fraction(number)


class Numbers(Struct, frozen=True):
    """`of` has a number for every symbol; `bare` are the symbols whose number is only a stand-in."""

    of: dict[str, fmpq]
    bare: frozenset[str]
    names: tuple[str, ...]

    @property
    def small(self) -> bool:
        return len(self.names) <= MOST_SYMBOLS


def givens(rig: Rig) -> list[Given]:
    """Every given of the rig, the loads' first, then the blocks', then what is said of sheaves, hand and motion."""
    found: list[Given | None] = []
    for kind in (Load, Moving, Fixed):
        for part in rig.parts:
            if isinstance(part, kind):
                found += [part.weight, part.mass]
    for sheave in rig.sheaves:
        found += [sheave.disc, sheave.inertia, sheave.radius, sheave.efficiency]
    found += [rig.gravity, rig.effort, rig.asked.distance if rig.asked else None]
    return list({given.symbol: given for given in found if given is not None}.values())


def numbers(rig: Rig) -> Numbers:
    """A number for every symbol of the rig."""
    of: dict[str, fmpq] = {}
    bare: set[str] = set()
    loads = {g.symbol for load in rig.loads for g in (load.weight, load.mass) if g}
    for n, given in enumerate(givens(rig)):
        number = given.number
        if number is None:
            bare.add(given.symbol)
            heavy = _LOAD if given.symbol in loads else _BLOCK
            number = _OTHERS.get(given.kind, heavy + n * _STEP if given.symbol in loads else heavy + n)
        of[given.symbol] = fmpq(number.numerator, number.denominator)
    return Numbers(of, frozenset(bare), tuple(of))


def asked_load(rig: Rig) -> str | None:
    """The one load whose weight is asked: where the pull is given, the only one without a number."""
    if rig.effort is None or rig.hand is None:
        return None
    of_loads = ((load.name, load.weight if load.weight is not None else load.mass) for load in rig.loads)
    bare = [name for name, given in of_loads if given is not None and given.number is None]
    return bare[0] if len(bare) == 1 else None
