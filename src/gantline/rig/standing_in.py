"""A machine at a size that can be shown on a table."""

from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from gantline.sources import Constant

from .given import Given
from .parts import Load, Part
from .rig import Rig

HEAVY = Constant(Fraction(25), "N", "own choice: about what a classroom tackle is for")
SHOWN = Constant(Fraction(10), "N", "own choice: about 1 kg, what a demonstration hangs up")


class StandIn(Struct, frozen=True):
    """A rig and what it stands for: `share` is its weights over those of the file, 1 where it is the file's own."""

    rig: Rig
    share: Fraction


def stand_in(rig: Rig) -> StandIn:
    """The rig with every weight and mass times one factor, so that its heaviest load weighs 10 N.

    The rig itself where no load is heavier than 25 N, where the file says what its rope is made of, or where a number
    is missing. Pulls shrink by the same factor; tilt and velocity ratio stay.
    """
    heaviest = max((found for part in rig.loads if (found := _weight(rig, part)) is not None), default=Fraction(0))
    if heaviest <= HEAVY.value or any(cord.stiffness for cord in rig.cords):
        return StandIn(rig, Fraction(1))
    share = SHOWN.value / heaviest
    return StandIn(replace(rig, parts=tuple(_lighter(part, share) for part in rig.parts), effort=None), share)


def _weight(rig: Rig, load: Load) -> Fraction | None:
    if load.weight is not None:
        return load.weight.number
    known = load.mass is not None and load.mass.number is not None and rig.gravity.number is not None
    return load.mass.number * rig.gravity.number if known else None  # type: ignore[union-attr,operator]


def _lighter(part: Part, share: Fraction) -> Part:
    return replace(part, weight=_times(part.weight, share), mass=_times(part.mass, share))


def _times(given: Given | None, share: Fraction) -> Given | None:
    return replace(given, number=given.number * share) if given is not None and given.number is not None else given
