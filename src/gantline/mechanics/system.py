"""A rig as one linear system: coordinates, elements, ties and weights. Nothing here is special to a machine."""

from typing import Any, NamedTuple

from msgspec import Struct

from gantline.rig import Sheave, Strand


class Coordinate(NamedTuple):
    """One freedom of one part: its rise, the rope the hand takes up, a fixed part's place across."""

    part: str
    freedom: str


class Element(Struct, frozen=True):
    """Something that carries one force: a strand. `growth` says how fast it lengthens as each coordinate runs."""

    name: str
    growth: tuple[tuple[Coordinate, Any], ...]
    strand: Strand


class Tie(Struct, frozen=True):
    """What joins the forces of two elements that follow each other on a rope, by their place in `elements`."""

    before: int
    after: int
    sheave: Sheave


class System(Struct, frozen=True):
    """`coordinates` are free to move, `held` are not (their forces are the supports'). `weights` and `masses` belong to
    free coordinates; `held_weights` to held ones. `body` maps a part to the part whose coordinate it moves with."""

    coordinates: tuple[Coordinate, ...]
    held: tuple[Coordinate, ...]
    elements: tuple[Element, ...]
    ties: tuple[Tie, ...]
    weights: dict[Coordinate, Any]
    masses: dict[Coordinate, Any]
    body: dict[str, str]
    ring: Any


HAND = Coordinate("hand", "take")
