"""How much cord to cut for each rope: strands, wraps, the run to the hand, tails and knots."""

from collections.abc import Mapping
from fractions import Fraction
from math import ceil, pi

from msgspec import Struct

from gantline.rig import Contact, Rig, Rope, Strand
from gantline.sources import Constant

from .fitting import number
from .kit import Cord
from .room import Room, Size, bodies, owner

TAIL = Constant(Fraction(30, 100), "m", "common practice: to hold and to tie off")
KNOT_TURNS = Constant(Fraction(40), "diameters", "common practice: a bowline with its tail")
KNOT_LEAST = Constant(Fraction(10, 100), "m", "common practice: less cannot be tied")
LEVEL = Constant(Fraction(50, 100), "m", "assumed for each level run: measure yours")
STEP = Fraction(10, 100)  # cut to whole decimetres
_PI = Fraction(pi)


class Cut(Struct, frozen=True):
    """What a rope takes (m): `strands` straight runs, `wraps` on the sheaves, the `lead` to the hand, a `tail` there,
    `knots` at both ends; `cut` is their sum rounded up."""

    rope: str
    strands: Fraction
    wraps: Fraction
    lead: Fraction
    tail: Fraction
    knots: Fraction
    level: int = 0  # level runs, each with an assumed length

    @property
    def sum(self) -> Fraction:
        return self.strands + self.wraps + self.lead + self.tail + self.knots

    @property
    def cut(self) -> Fraction:
        return ceil(self.sum / STEP) * STEP


def cuts(rig: Rig, room: Room, size: Mapping[str, Size], diameter: Fraction) -> tuple[Cut, ...]:
    """One a rope, for a cord of that diameter (m), with everything at its start."""
    runs = {strand.name: _run(rig, strand, room) for strand in rig.strands}
    lead = _lead(rig, room, runs)
    return tuple(_cut(rope, runs, size, diameter, lead) for rope in rig.ropes)


def _cut(rope: Rope, runs: Mapping[str, Fraction], size: Mapping[str, Size], diameter: Fraction, lead: Fraction) -> Cut:
    level = [strand for strand in rope.strands if strand.course == "level"]
    to_hand = any(contact.part == "hand" for contact in rope.contacts)
    wraps = sum(
        (_quarters(contact, rope) * _PI / 2 * (size[owner(contact)].radius + diameter / 2)
         for contact in rope.contacts if contact.sheave),
        Fraction(0),
    )  # fmt: skip
    return Cut(
        rope.name, sum((runs[strand.name] for strand in rope.strands), Fraction(0)), wraps,
        lead if to_hand else Fraction(0), TAIL.value if to_hand else Fraction(0),
        2 * max(KNOT_TURNS.value * diameter, KNOT_LEAST.value), len(level),
    )  # fmt: skip


def _run(rig: Rig, strand: Strand, room: Room) -> Fraction:
    """The length of a straight run at the start; the run to the hand is counted apart."""
    if strand.course == "level":
        return LEVEL.value
    if "hand" in (strand.start.part, strand.end.part):
        return Fraction(0)
    body = bodies(rig)
    depths = dict(room.depths)
    ends = [depths.get(body[owner(end)], room.height) for end in (strand.start, strand.end)]
    return abs(ends[0] - ends[1])


def _lead(rig: Rig, room: Room, runs: Mapping[str, Fraction]) -> Fraction:
    """The run to the hand: as the file says, else as long as the longest other run, at the most down to the table."""
    if rig.lead and rig.lead.number:
        return number(rig.lead)
    return max(runs.values(), default=room.height)


def _quarters(contact: Contact, rope: Rope) -> int:
    """How many quarter turns a rope lies on a sheave: two between plumb runs, one less for each level run."""
    at = rope.contacts.index(contact)
    beside = [strand for n, strand in enumerate(rope.strands, 1) if n in (at, at + 1)]
    return max(2 - sum(strand.course == "level" for strand in beside), 1)


def reel(cords: tuple[Cord, ...], wanted: Mapping[str, Fraction]) -> Cord | None:
    """The first cord with enough on its reel, for each cord's own need (m)."""
    return next((c for c in cords if c.length is None or number(c.length) >= wanted[c.name]), None)
