"""What a scale shows for a pull: it depends on which way up it is held, since it carries itself or a part of itself."""

from fractions import Fraction

from msgspec import Struct

from gantline.quantity import UNITS
from gantline.rig import Rig

from .fitting import number
from .kit import Scale

LOW, HIGH = Fraction(30, 100), Fraction(80, 100)  # of the span: below, reading is coarse; above, a jerk goes past it


class Held(Struct, frozen=True):
    """A scale as it is held: it shows the pull less `less` plus `zero` (N). `way` names how: up, case, ring, tared."""

    scale: Scale
    way: str
    less: Fraction
    zero: Fraction

    def shows(self, pull: Fraction) -> Fraction:
        return pull - self.less + self.zero

    @property
    def unit(self) -> str:
        """The unit the scale is marked in."""
        return self.scale.span.unit

    def marked(self, force: Fraction) -> Fraction:
        """A force (N) in the unit of the scale."""
        return force / UNITS[self.unit].factor

    @property
    def span(self) -> Fraction:
        return number(self.scale.span)

    @property
    def band(self) -> tuple[Fraction, Fraction]:
        """The readings (N) between which it is read well."""
        return LOW * self.span, HIGH * self.span


def held(scale: Scale, down: bool) -> Held:
    """The scale as it is best held for a pull down or up.

    Follows from the forces on its parts. Upright, or set to zero as it is held, it shows the pull. Upside down with the
    hook on the rope, the spring holds up hook and rod, which it was set to zero with hanging: twice their weight is
    missing. Upside down with the ring on the rope, the whole scale is missing.
    """
    zero = number(scale.zero) if scale.zero else Fraction(0)
    if scale.tared:
        return Held(scale, "tared", Fraction(0), Fraction(0))
    if not down:
        return Held(scale, "up", Fraction(0), zero)
    if scale.moving:
        return Held(scale, "case", 2 * number(scale.moving), zero)
    return Held(scale, "ring", number(scale.weight), zero)


def pulls_down(rig: Rig) -> bool:
    """Whether the hand stands below what it pulls on."""
    strand = next(strand for strand in rig.strands if "hand" in (strand.start.part, strand.end.part))
    return strand.course == ("down" if strand.end.part == "hand" else "up")
