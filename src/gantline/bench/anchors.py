"""What each fixed part has to carry: at rest, hauling, letting down, and when blocks have met and somebody pulls on."""

from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from gantline.mechanics import Answer, Regime, solve
from gantline.rig import Asked, Given, Load, Rig
from gantline.sources import Constant

from .fitting import free, number
from .room import Link

HANGER_ON = Constant(
    Fraction(75),
    "kg",
    "assumed: a grown person, who cannot pull straight down with more than they weigh (The Ashley Book of Knots)",
)


class Anchor(Struct, frozen=True):
    """Forces on a fixed part (N, down positive), with the least efficient wheels. None where it is not known."""

    name: str
    rest: Fraction
    hauling: Fraction | None
    letting: Fraction | None
    two_blocked: Fraction | None
    sideways: bool = False

    @property
    def working(self) -> Fraction:
        """The largest, up or down, while nothing has met."""
        return max(abs(force) for force in (self.rest, self.hauling, self.letting) if force is not None)


def anchors(rig: Rig, worst: Answer, meets: Link | None, symbols: frozenset[str]) -> tuple[Anchor, ...]:
    """Every fixed part that carries or is pulled. `meets` is where parts meet first."""
    rest, hauling, letting = (_supports(worst.regime(way)) for way in ("ideal", "raising", "lowering"))
    jammed = two_blocked(rig, meets, HANGER_ON.value * number(rig.gravity), symbols) if meets else {}
    level = {support.name for support in worst.ideal.supports if support.sideways is not None}
    return tuple(
        Anchor(name, force, hauling.get(name), letting.get(name), jammed.get(name), name in level)
        for name, force in rest.items() if force
    )  # fmt: skip


def _supports(regime: Regime | None) -> dict[str, Fraction]:
    found = regime.supports if regime else ()
    return {s.name: s.force.number for s in found if s.force is not None and s.force.number is not None}


def two_blocked(rig: Rig, meets: Link, pull: Fraction, symbols: frozenset[str]) -> dict[str, Fraction]:
    """What each fixed part carries when the link's parts touch and the hand pulls on with `pull` (N).

    The part below is pressed up against the one above: that is as if so much more hung on it, taken off again where it
    presses. Empty where the part above moves itself, as then the ropes alone do not settle it.
    """
    if meets.above not in {part.name for part in rig.fixed}:
        return {}
    pressed = _pressed(rig, meets.below, symbols)
    effort = Given(rig.effort_symbol, pull, "force", "N", rig.gravity.place)
    answer = solve(replace(pressed, effort=effort))
    press = answer.ideal.load.number if answer.status == "holds" and answer.ideal.load else None
    if press is None:
        return {}
    if len(pressed.loads) == len(rig.loads):
        press -= number(rig.loads[0].weight or rig.loads[0].mass)  # type: ignore[arg-type]
    found = _supports(answer.ideal)
    return {**found, meets.above: found[meets.above] - press}


def _pressed(rig: Rig, body: str, symbols: frozenset[str]) -> Rig:
    """The rig with a load of unknown weight on the body that is pressed, and asked about."""
    load = rig.loads[0]
    symbol = free("C", symbols)
    if body == load.name:
        bare = replace(load, weight=Given(symbol, None, "force", "N", load.place), mass=None)
        return replace(rig, parts=tuple(bare if part is load else part for part in rig.parts))
    name = free("press", frozenset(part.name for part in rig.parts))
    press = Load(name, load.place, weight=Given(symbol, None, "force", "N", load.place))
    parts = tuple(
        replace(part, carries=(*part.carries, name)) if part.name == body else part  # type: ignore[union-attr]
        for part in rig.parts
    )
    asked = Asked(name, 1, Given(rig.rise_symbol, None, "length", "m", load.place), load.place)
    return replace(rig, parts=(*parts, press), asked=asked)
