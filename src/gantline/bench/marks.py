"""Marks to tape on, and how far each moves: as perfect wheels and a rope that does not stretch would have it."""

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct

from gantline.rig import Contact, Rig, Rope, Strand

from .room import owner

_SIGN = {"up": 1, "down": -1, "level": 0}


class Mark(Struct, frozen=True):
    """A mark on a strand, a block or the load. `way` is how far it moves for each metre of the load's rise: up
    positive, on a level run to the far end of its path; `level` says that it moves sideways."""

    part: str
    way: Fraction
    level: bool = False


def marks(rig: Rig, rise: Mapping[str, Fraction]) -> tuple[Mark, ...]:
    """A mark on the load, on each moving block of its own, and on every strand, rope by rope."""
    load = rig.loads[0].name
    own = {load, rig.bearer(load)}
    blocks = tuple(Mark(block.name, rise[block.name]) for block in rig.moving if block.name not in own)
    return (Mark(load, rise[load]), *blocks, *(mark for rope in rig.ropes for mark in _along(rope, rise)))


def _along(rope: Rope, rise: Mapping[str, Fraction]) -> list[Mark]:
    """The marks of a rope's strands: what has passed one end of a sheave comes out at the other."""
    if rope.contacts[0].part == "hand":
        return _along(_turned(rope), rise)[::-1]
    first = rope.strands[0]
    speed = _SIGN[first.course] * _rate(first.start, rise)
    found = []
    for n, strand in enumerate(rope.strands):
        if n:
            over = _rate(strand.start, rise)
            speed += (_SIGN[strand.course] - _SIGN[rope.strands[n - 1].course]) * over
        level = strand.course == "level"
        found.append(Mark(strand.name, speed if level else _SIGN[strand.course] * speed, level))
    return found


def _turned(rope: Rope) -> Rope:
    """The same rope read from its other end; its strands keep their numbers."""
    from msgspec.structs import replace

    other = {"up": "down", "down": "up", "level": "level"}
    strands: list[Strand] = [
        replace(strand, start=strand.end, end=strand.start, course=other[strand.course])
        for strand in reversed(rope.strands)
    ]
    return replace(rope, contacts=rope.contacts[::-1], strands=tuple(strands))


def _rate(contact: Contact, rise: Mapping[str, Fraction]) -> Fraction:
    return rise.get(owner(contact), Fraction(0))
