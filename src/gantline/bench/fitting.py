"""The rig as the kit can build it: its blocks from the cupboard, its load and its losses to be set."""

from collections import Counter
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from gantline.problems import Place
from gantline.rig import Fixed, Given, Load, Moving, Rig, Sheave, with_efficiency, with_sheaves
from gantline.sources import EXAMPLE_EFFICIENCY, Constant

from .kit import Block, Kit
from .refusing import Declined

WORST, BEST = (
    Constant(value, "1", "a sheave loses 2 to 10 per cent, by block (Toss, The Complete Rigger's Apprentice, p. 56)")
    for value in (Fraction(90, 100), Fraction(98, 100))
)


class Taken(Struct, frozen=True):
    """A block of the kit standing for one of the rig."""

    part: str
    block: Block


def blocks(rig: Rig, kit: Kit) -> tuple[Taken, ...] | Declined:
    """Which block of the kit stands for each of the rig: the smallest that has its sheaves. Of a kit without, none."""
    if not kit.blocks:
        return ()
    left = Counter({block.name: block.count for block in kit.blocks})
    taken = []
    wanted = [part for part in rig.parts if not isinstance(part, Load) and part.sheaves]
    for part in sorted(wanted, key=lambda part: -len(part.sheaves)):
        fits = [block for block in kit.blocks if block.sheaves >= len(part.sheaves) and left[block.name]]
        if not fits:
            return _no_block(part, kit)
        block = min(fits, key=lambda block: block.sheaves)
        left[block.name] -= 1
        taken.append(Taken(part.name, block))
    return tuple(sorted(taken, key=lambda each: [part.name for part in wanted].index(each.part)))


def _no_block(part: Fixed | Moving, kit: Kit) -> Declined:
    has = ", ".join(f"{block.count} of {block.sheaves}" for block in kit.blocks)
    return Declined(
        "bench-no-block", f"the kit has no block left with {len(part.sheaves)} sheaves, for {part.name}",
        f"the rig needs one for each of its own; the kit has {has} sheaves", "add a block to the kit, or plan a smaller"
        " tackle.",
    )  # fmt: skip


def fit(rig: Rig, taken: tuple[Taken, ...], symbols: frozenset[str]) -> Rig:
    """The rig with the kit's blocks: their weight, and the efficiency that was measured on them, else the file's.

    `symbols` are those in use; new ones keep away from them.
    """
    of = {each.part: each.block for each in taken}
    parts = tuple(_built(rig, part, of[part.name], symbols) if part.name in of else part for part in rig.parts)

    def sheave(each: Sheave) -> Sheave:
        block = of.get(each.block)
        if block is None:
            return replace(each, efficiency=known(each.efficiency))
        measured = block.efficiency and replace(block.efficiency, symbol=free(f"e_{each.block}", symbols))
        return replace(
            each, efficiency=measured or known(each.efficiency), radius=block.radius, disc=None, inertia=None
        )  # fmt: skip

    return with_sheaves(replace(rig, parts=parts, effort=None), sheave)


def _built(rig: Rig, part: Fixed | Moving | Load, block: Block, symbols: frozenset[str]) -> Fixed | Moving | Load:
    assert not isinstance(part, Load)
    given = part.weight or part.mass
    symbol = given.symbol if given else free(f"w_{part.name}", symbols)
    return replace(part, weight=force(symbol, number(block.mass) * number(rig.gravity), part.place), mass=None)


def known(given: Given | None) -> Given | None:
    """The given if it has a number: a bare letter says no more than silence does."""
    return given if given and given.number is not None else None


def free(letter: str, symbols: frozenset[str]) -> str:
    """The letter, or a longer form of it that nothing else uses."""
    return letter if letter not in symbols else free(f"{letter}_", symbols)


def number(given: Given) -> Fraction:
    """The number of a given that has one."""
    assert given.number is not None
    return given.number


def force(symbol: str, size: Fraction, place: Place) -> Given:
    """A force of the plan, in newtons."""
    return Given(symbol, size, "force", "N", place)


def loaded(rig: Rig, weight: Fraction) -> Rig:
    """The rig with that weight (N) for its one load."""
    load = rig.loads[0]
    given = load.weight or load.mass
    assert given is not None
    new = replace(load, weight=force(given.symbol, weight, load.place), mass=None)
    return replace(rig, parts=tuple(new if part is load else part for part in rig.parts))


def rubbing(rig: Rig, efficiency: Fraction, symbols: frozenset[str]) -> Rig:
    """The rig with that efficiency for every sheave."""
    given = Given(free("e", symbols), efficiency, "ratio", "%", rig.gravity.place)
    return with_sheaves(rig, lambda sheave: replace(sheave, efficiency=given))


def expected(rig: Rig, symbols: frozenset[str]) -> Rig:
    """The rig with an assumed efficiency where neither kit nor file gives one."""
    return with_efficiency(rig, EXAMPLE_EFFICIENCY.value, free("e", symbols))


def spread(rig: Rig) -> tuple[Fraction, Fraction]:
    """The lowest and the highest efficiency to be ready for: a published range, widened to hold the file's own."""
    own = [sheave.efficiency.number for sheave in rig.sheaves if sheave.efficiency and sheave.efficiency.number]
    return min([WORST.value, *own]), max([BEST.value, *own])
