"""A whole machine, as read: parts, ropes, and what is asked. No solved number, no coordinate."""

from collections.abc import Callable
from fractions import Fraction

from msgspec import Struct

from gantline.problems import Place

from .cord import Apart, Cord
from .given import Given
from .parts import Fixed, Hand, Load, Moving, Part, Rope, Sheave, Strand


class Asked(Struct, frozen=True):
    """The motion asked about: `distance` (m, positive) up with `sense` 1, down with -1."""

    part: str
    sense: int
    distance: Given
    place: Place


class Rig(Struct, frozen=True):
    """A machine. `parts` and `ropes` stand in the order of the file; `effort` is a pull that is given."""

    title: str
    gravity: Given
    parts: tuple[Part, ...]
    ropes: tuple[Rope, ...]
    hand: Hand | None = None
    asked: Asked | None = None
    effort: Given | None = None
    effort_symbol: str = "F"
    rise_symbol: str = "h"  # stands for the rise wherever no motion is asked
    haul_symbol: str = "s"  # the rope taken up by the hand
    cords: tuple[Cord, ...] = ()
    aparts: tuple[Apart, ...] = ()
    lead: Given | None = None  # how long the hauled run is at the start

    @property
    def fixed(self) -> tuple[Fixed, ...]:
        return tuple(part for part in self.parts if isinstance(part, Fixed))

    @property
    def moving(self) -> tuple[Moving, ...]:
        return tuple(part for part in self.parts if isinstance(part, Moving))

    @property
    def loads(self) -> tuple[Load, ...]:
        return tuple(part for part in self.parts if isinstance(part, Load))

    @property
    def movers(self) -> tuple[Moving | Load, ...]:
        """Blocks and loads that travel, in the order of the file."""
        return tuple(part for part in self.parts if not isinstance(part, Fixed))

    @property
    def strands(self) -> tuple[Strand, ...]:
        return tuple(strand for rope in self.ropes for strand in rope.strands)

    @property
    def sheaves(self) -> tuple[Sheave, ...]:
        """Every sheave a rope runs over, each once, in the order the ropes meet them."""
        met = (contact.sheave for rope in self.ropes for contact in rope.contacts if contact.sheave)
        return tuple(dict.fromkeys(met))

    def part(self, name: str) -> Part:
        """The part of that name. Raises KeyError."""
        for part in self.parts:
            if part.name == name:
                return part
        raise KeyError(name)

    def cord(self, rope: str) -> Cord | None:
        """What the file says of a rope's cord, None where it says nothing."""
        return next((cord for cord in self.cords if cord.rope == rope), None)

    def bearer(self, name: str) -> str:
        """The moving block that carries a load, or the part itself."""
        for block in self.moving:
            if name in block.carries:
                return block.name
        return name

    @property
    def aim(self) -> str | None:
        """The part the question is about: the load asked to move (or the one load of the block asked to), else the only
        load, else none."""
        if self.asked is None:
            return self.loads[0].name if len(self.loads) == 1 else None
        part = self.part(self.asked.part)
        return part.carries[0] if isinstance(part, Moving) and len(part.carries) == 1 else part.name


def with_sheaves(rig: Rig, change: Callable[[Sheave], Sheave]) -> Rig:
    """The same rig with every sheave changed, in its block and wherever a rope meets it."""
    from msgspec.structs import replace

    parts = tuple(
        part if isinstance(part, Load) else replace(part, sheaves=tuple(change(s) for s in part.sheaves))
        for part in rig.parts
    )
    ropes = tuple(
        replace(
            rope,
            contacts=(contacts := tuple(replace(c, sheave=change(c.sheave)) if c.sheave else c for c in rope.contacts)),
            strands=tuple(
                replace(s, start=contacts[n], end=contacts[n + 1]) for n, s in enumerate(rope.strands)
            ),
        )
        for rope in rig.ropes
    )  # fmt: skip
    return replace(rig, parts=parts, ropes=ropes)


def with_efficiency(rig: Rig, efficiency: Fraction, symbol: str = "e", every: bool = False) -> Rig:
    """The same rig with every sheave that gives no efficiency (`every`: whatever it gives) given this one, 0 to 1."""
    from msgspec.structs import replace

    given = Given(symbol, efficiency, "ratio", "%", rig.gravity.place)
    return with_sheaves(rig, lambda sheave: sheave if sheave.efficiency else replace(sheave, efficiency=given))
