"""A rope's way, told from its fast end to the hand."""

from collections.abc import Mapping

from gantline.rig import Contact, Rope, Strand

from .nouns import Noun
from .words import joined

_HAND = "hand"
_BETWEEN = "back and forth between"
LONG = 3  # sheaves from which on a way is told as a whole, not wheel by wheel


def route(rope: Rope, nouns: Mapping[str, Noun], alone: bool, first: bool) -> str:
    """One or two sentences that follow a rope. `alone`: there is no other rope; `first`: none was told before."""
    turned = rope.contacts[0].part == _HAND
    contacts = rope.contacts[::-1] if turned else rope.contacts
    strands = rope.strands[::-1] if turned else rope.strands
    start, *middle, end = contacts
    name = "one rope" if alone else rope_name(rope, nouns)
    where = _at(start, nouns)
    turns = _turns(middle, nouns)
    to = _arrival(end, strands[-1], turned, nouns)
    if not turns:
        return f"{name} starts at {where} and {to}."
    if alone and len(turns) > 2:
        return f"{name} joins it all. It starts at {where}, goes {joined(turns)}, and {to}."
    way = f"{turns[0]}, then {joined(turns[1:])}" if turns[0].startswith(_BETWEEN) and turns[1:] else joined(turns)
    return f"{name} starts at {where}, goes {way}, and {to}."


def rope_name(rope: Rope, nouns: Mapping[str, Noun]) -> str:
    found = nouns.get(f"rope {rope.name}")
    return found.the if found else "the rope"


def _at(contact: Contact, nouns: Mapping[str, Noun]) -> str:
    return nouns[contact.part].the


def _turns(contacts: list[Contact], nouns: Mapping[str, Noun]) -> list[str]:
    """Wheel by wheel; a long way between two blocks as one, with what comes after it wheel by wheel."""
    blocks = [_block(contact) for contact in contacts]
    if len(contacts) < LONG or len(set(blocks)) == len(blocks):
        return [f"{contact.side} {nouns[block].the}" for contact, block in zip(contacts, blocks, strict=True)]
    pair = list(dict.fromkeys(blocks))[:2]
    last = max(n for n, block in enumerate(blocks) if block in pair)
    rest = [f"{c.side} {nouns[b].the}" for c, b in zip(contacts[last + 1 :], blocks[last + 1 :], strict=True)]
    return [f"{_BETWEEN} {nouns[pair[0]].the} and {nouns[pair[1]].the}", *rest]


def _block(contact: Contact) -> str:
    return contact.sheave.block if contact.sheave else contact.part


def _arrival(end: Contact, strand: Strand, turned: bool, nouns: Mapping[str, Noun]) -> str:
    way = strand.course if not turned else {"up": "down", "down": "up", "level": "level"}[strand.course]
    which = {"up": "up ", "down": "down ", "level": "across "}[way]
    return f"comes {which}to your hand" if end.part == _HAND else f"ends at {nouns[end.part].the}"
