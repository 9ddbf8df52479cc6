"""What lies ready for a demonstration: masses, cords, blocks, scales, a stand. All in SI."""

from fractions import Fraction

from msgspec import Struct

from gantline.rig import Given
from gantline.sources import Constant

DEMONSTRATION = Constant(
    Fraction(5), "kg", "common practice: a classroom tackle is for grams to a few kilograms; the limit is ours"
)


class Stand(Struct, frozen=True):
    """What the rig hangs from. `height` from the table to the hook (m); `rated` (N) is what `rated_by` rates it for.

    `limit` (kg) is the most that may hang from an anchor that nobody has rated.
    """

    height: Given
    anchor: str = "the stand's hook"
    rated: Given | None = None
    rated_by: str = ""
    limit: Given | None = None

    @property
    def heaviest(self) -> Fraction:
        """The most that may hang on an anchor without a rating (kg)."""
        return self.limit.number if self.limit and self.limit.number else DEMONSTRATION.value


class Mass(Struct, frozen=True):
    """`count` masses alike, each `mass` (kg) and `height` (m) from eye to eye, hung one below the other."""

    name: str
    mass: Given
    count: int = 1
    height: Given | None = None


class Cord(Struct, frozen=True):
    """A reel: `length` (m) is what is left on it, `stiffness` is EA (N)."""

    name: str
    diameter: Given
    length: Given | None = None
    stiffness: Given | None = None


class Block(Struct, frozen=True):
    """`count` blocks alike. `reach` (m) is from the sheave line to the end of the shell on the rope's side, `hook` from
    the sheave line to where the hook bears, `spacing` between sheave centres side by side; `efficiency` is each
    sheave's, as measured."""

    name: str
    sheaves: int
    radius: Given
    mass: Given
    count: int = 1
    efficiency: Given | None = None
    reach: Given | None = None
    hook: Given | None = None
    spacing: Given | None = None


class Scale(Struct, frozen=True):
    """A scale that is pulled. `weight` (N) is its own, `moving` (N) that of hook and rod, which hang on the spring;
    `zero` (N) is what it shows with nothing on it, hook down. `tared`: it is set to zero as it is held."""

    name: str
    span: Given
    division: Given
    weight: Given
    zero: Given | None = None
    moving: Given | None = None
    tared: bool = False


class Kit(Struct, frozen=True):
    """A kit as read. `title` is how the plan names it."""

    title: str
    stand: Stand
    masses: tuple[Mass, ...]
    scales: tuple[Scale, ...]
    cords: tuple[Cord, ...]
    blocks: tuple[Block, ...] = ()
    invented: bool = False  # the sample that stands in where no kit is named
