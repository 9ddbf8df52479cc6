"""The straight runs of a rope, and which way each goes."""

from collections.abc import Mapping

from .parts import Contact, Fixed, Load, Moving, Part, Rope, Strand
from .parts.rope import Course


def strands(rope: Rope, parts: Mapping[str, Part]) -> tuple[Strand, ...]:
    """One strand between each two contacts."""
    pairs = zip(rope.contacts, rope.contacts[1:], strict=False)
    return tuple(Strand(rope.name, n, a, b, course(a, b, parts)) for n, (a, b) in enumerate(pairs, 1))


def course(start: Contact, end: Contact, parts: Mapping[str, Part]) -> Course:
    """The way from one contact to the next.

    Over a sheave both strands go down from it, under it both go up; between two `over` or two `under` the run is level.
    Between made-fast ends a fixed part is above, a load below; else the first named is above. A hand that holds a part
    directly is above it.
    """
    if start.side and end.side:
        return "level" if start.side == end.side else "down" if start.side == "over" else "up"
    if start.side or end.side:
        return "down" if start.side == "over" or end.side == "under" else "up"
    if "hand" in (start.part, end.part):
        return "down" if start.part == "hand" else "up"
    first, second = parts[start.part], parts[end.part]
    up = (isinstance(second, Fixed) and not isinstance(first, Fixed)) or (
        isinstance(first, Load) and isinstance(second, Moving)
    )
    return "up" if up else "down"
