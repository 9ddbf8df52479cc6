"""A tackle turned over: what hung from the beam hangs from the load, and the other way round."""

from msgspec.structs import replace

from .parts import Contact, Fixed, Moving, Rope, Sheave
from .rig import Rig
from .strands import strands


def turned_over(rig: Rig) -> Rig | None:
    """The same rig with its one fixed and its one moving block exchanged along its one rope; None where it has not just
    these, or someone rides on it. Weights and names stay where they were."""
    if len(rig.fixed) != 1 or len(rig.moving) != 1 or len(rig.ropes) != 1 or (rig.hand and rig.hand.rides):
        return None
    fixed, moving = rig.fixed[0], rig.moving[0]
    other = {fixed.name: moving.name, moving.name: fixed.name}
    wheels = {block.name: tuple(_of(wheel, other) for wheel in block.sheaves) for block in (fixed, moving)}
    changed: dict[str, Fixed | Moving] = {
        fixed.name: replace(fixed, sheaves=wheels[moving.name]),
        moving.name: replace(moving, sheaves=wheels[fixed.name]),
    }
    parts = tuple(changed.get(part.name, part) for part in rig.parts)
    rope = rig.ropes[0]
    if any(contact.part not in (*other, "hand") for contact in rope.contacts):
        return None
    contacts = tuple(_met(contact, other) for contact in rope.contacts)
    bare = Rope(rope.name, rope.place, contacts, ())
    whole = replace(bare, strands=strands(bare, {part.name: part for part in parts}))
    return replace(rig, parts=parts, ropes=(whole,))


def _of(wheel: Sheave, other: dict[str, str]) -> Sheave:
    return replace(wheel, block=other[wheel.block])


def _met(contact: Contact, other: dict[str, str]) -> Contact:
    """The contact with the other block, from the other side."""
    if contact.sheave is None:
        return replace(contact, part=other.get(contact.part, contact.part))
    side = "under" if contact.side == "over" else "over"
    return replace(contact, part=other[contact.part], sheave=_of(contact.sheave, other), side=side)
