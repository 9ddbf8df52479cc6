"""A rope keeps its length: how each of its strands grows as the parts move, and which strands follow each other."""

from typing import Any

from gantline.rig import Contact, Rig, Rope, Strand

from ..ring import Ring
from ..system import HAND, Coordinate, Element, Tie

_TOWARD = {"down": (0, -1), "up": (0, 1)}


def direction(strand: Strand, rope: Rope) -> tuple[int, int]:
    """Unit vector from the strand's start to its end, x right and y up. A level run goes right, toward the hand."""
    if strand.course != "level":
        return _TOWARD[strand.course]
    return (-1, 0) if rope.contacts[0].part == "hand" else (1, 0)


def elements(rig: Rig, body: dict[str, str], ring: Ring) -> tuple[Element, ...]:
    """One element a strand, rope by rope in path order."""
    return tuple(
        Element(strand.name, _growth(strand, direction(strand, rope), rig, body, ring), strand)
        for rope in rig.ropes
        for strand in rope.strands
    )


def ties(rig: Rig, strands: tuple[Element, ...]) -> tuple[Tie, ...]:
    """One tie a sheave, in the order of `strands`."""
    return tuple(
        Tie(n, n + 1, element.strand.end.sheave)
        for n, element in enumerate(strands)
        if element.strand.end.sheave is not None
    )


def _growth(
    strand: Strand, toward: tuple[int, int], rig: Rig, body: dict[str, str], ring: Ring
) -> tuple[tuple[Coordinate, Any], ...]:
    """The row of a strand: it grows by its direction times what its end moves, less what its start moves."""
    row: dict[Coordinate, Any] = {}
    for contact, sign in ((strand.start, -1), (strand.end, 1)):
        for coordinate, share in _at(contact, sign, toward, rig, body):
            row[coordinate] = row.get(coordinate, 0) + share
    return tuple((coordinate, ring.constant(share)) for coordinate, share in row.items() if share)


def _at(
    contact: Contact, sign: int, toward: tuple[int, int], rig: Rig, body: dict[str, str]
) -> list[tuple[Coordinate, int]]:
    across, rise = toward
    if contact.part != "hand":
        part = body.get(contact.part, contact.part)
        return [(Coordinate(part, "rise"), sign * rise), (Coordinate(part, "across"), sign * across)]
    rides = rig.hand.rides if rig.hand else None
    # what the hand takes up lies behind its grip and still belongs to the rope
    taken = [(HAND, 1)]
    return [*taken, (Coordinate(body[rides], "rise"), sign * rise)] if rides else taken
