"""What will be seen with the kit's cord and blocks: how far blocks tip, and how much rope goes into stretching."""

from fractions import Fraction
from math import degrees

from msgspec import Struct
from msgspec.structs import replace

from gantline.mechanics import steady
from gantline.problems import Place
from gantline.rig import Apart, Fixed, Given, Load, Moving, Rig
from gantline.rig import Cord as RigCord

from .fitting import Taken, known
from .kit import Cord
from .room import Room, bodies, owner

_SIZES = ("stiffness", "spacing", "hook", "radius")  # what tilt and stretch depend on, besides loss and weights


class Tilt(Struct, frozen=True):
    """How far a block tips in the steady state (degrees), the right-hand side up positive; None where it does not
    run."""

    block: str
    raising: float | None
    lowering: float | None


class Seen(Struct, frozen=True):
    """The tilt of each block that tips, and the rope (m) that comes in without raising anything. `assumed` names what
    neither kit nor file measures: stiffness, spacing, hook, radius."""

    tilts: tuple[Tilt, ...]
    stretch: float
    assumed: tuple[str, ...] = ()


def seen(rig: Rig, taken: tuple[Taken, ...], cord: Cord, space: Room) -> Seen | None:
    """What the trial says of the rig as built; None where it is outside the model of the trial."""
    tried = steady(as_built(rig, taken, cord, space))
    if tried.raising is None or tried.setup is None:
        return None
    found = tuple(dict.fromkeys(one.what for one in tried.setup.assumed if one.what in _SIZES))
    down = tried.lowering.tilt if tried.lowering else {}
    tilts = tuple(
        Tilt(block, degrees(tilt), degrees(down[block]) if block in down else None)
        for block, tilt in tried.raising.tilt.items() if abs(tilt) > 1e-6
    )  # fmt: skip
    return Seen(tilts, tried.raising.stretch, found)


def as_built(rig: Rig, taken: tuple[Taken, ...], cord: Cord, space: Room) -> Rig:
    """The rig with the measures of the kit's blocks and cord, and its parts as far apart as the plan has them."""
    of = {each.part: each.block for each in taken}

    def measured(part: Fixed | Moving | Load) -> Fixed | Moving | Load:
        block = of.get(part.name)
        if block is None or isinstance(part, Load):
            return part
        return replace(part, spacing=block.spacing or known(part.spacing), hook=block.hook or known(part.hook))

    cords = tuple(
        replace(rig.cord(rope.name) or RigCord(rope.name, rope.place), stiffness=cord.stiffness, diameter=cord.diameter)
        for rope in rig.ropes
    )  # fmt: skip
    return replace(rig, parts=tuple(map(measured, rig.parts)), cords=cords, aparts=_aparts(rig, space))


def _aparts(rig: Rig, space: Room) -> tuple[Apart, ...]:
    """Each two parts that a strand joins, as far from each other as they start."""
    body, depths = bodies(rig), dict(space.depths)
    found: dict[frozenset[str], Apart] = {}
    for strand in rig.strands:
        first, second = owner(strand.start), owner(strand.end)
        if "hand" in (first, second) or strand.course == "level":
            continue
        gap = abs(depths.get(body[first], space.height) - depths.get(body[second], space.height))
        found[frozenset((first, second))] = _apart(first, second, gap, rig.gravity.place)
    return tuple(found.values())


def _apart(first: str, second: str, gap: Fraction, place: Place) -> Apart:
    return Apart(first, second, place, Given("", gap, "length", "m", place))
