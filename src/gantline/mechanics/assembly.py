"""From a rig to its system: every part brings its own law, the ropes bring elements and ties."""

from typing import Any

from gantline.rig import Hand, Part, Rig

from .laws import LAWS, elements, ties
from .ring import Ring
from .system import Coordinate, System


def bodies(rig: Rig) -> dict[str, str]:
    """Every moving part and the part it is one body with: a load goes with its block, blocks that share a load join."""
    root = {part.name: part.name for part in rig.movers}

    def find(name: str) -> str:
        while root[name] != name:
            name = root[name]
        return name

    for block in rig.moving:
        for load in block.carries:
            first, second = find(block.name), find(load)
            if first != second:
                # a load is named after the block that bears it, a second block after the first
                keep, give = (second, first) if second in {b.name for b in rig.moving} else (first, second)
                root[give] = keep
    return {name: find(name) for name in root}


def assemble(rig: Rig, ring: Ring) -> System:
    """The system of a rig over a ring. Each part kind brings its own law."""
    body = bodies(rig)
    coordinates: list[Coordinate] = []
    held: list[Coordinate] = []
    weights: dict[Coordinate, Any] = {}
    masses: dict[Coordinate, Any] = {}
    everyone: tuple[Part | Hand, ...] = (*rig.parts, rig.hand) if rig.hand else rig.parts
    for part in everyone:
        law = LAWS[type(part)]
        for freedom in law.freedoms(part):
            coordinate = Coordinate(body.get(part.name, part.name), freedom)
            group = held if law.HELD else coordinates
            if coordinate not in group:
                group.append(coordinate)
            weight, mass = law.weight(part, rig.gravity, ring)
            if freedom == "rise" and weight is not None:
                weights[coordinate] = weights[coordinate] + weight if coordinate in weights else weight
                masses[coordinate] = masses[coordinate] + mass if coordinate in masses else mass
    strands = elements(rig, body, ring)
    return System(
        tuple(coordinates), tuple(held), strands, ties(rig, strands), weights, masses, body, ring
    )  # fmt: skip
