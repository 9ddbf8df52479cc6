"""Where a rope may be led next: of what one would wish, what keeps the rig lawful, and the rig that comes of it."""

from fractions import Fraction
from itertools import islice

from gantline.notation import Attribute, Tree, Word, Written
from gantline.rig import Rig, read

from .completing import complete, ending
from .sketch import HERE, Sketch, hand, over_or_under, part_statement, with_statement
from .wishes import Place, wished

MOST_WISHED = 60  # places that are tried


def lawful(sketch: Sketch, rope: str) -> list[Place]:
    """Every place that keeps the rig lawful, in order; those of the group `more` last. `rope` may be new."""
    rove = sketch.ropes.get(rope)
    first = {place.id: place for place in reversed(list(islice(wished(sketch, rove), MOST_WISHED)))}
    places = [place for place in reversed(first.values()) if is_lawful(sketch, rope, place)]
    return [p for p in places if p.group != "more"] + [p for p in places if p.group == "more"]


def is_lawful(sketch: Sketch, rope: str, place: Place) -> bool:
    """Whether the rig, with this contact taken and all else led to some end, is a rig."""
    rove = sketch.ropes.get(rope)
    here, there = rove.contacts[-1].part if rove else None, place.contact.part or place.contact.at
    if here and there and sketch.body(here.text) == sketch.body(place.carries or there.text):
        return False  # a strand within one body holds nothing
    return complete(taken(sketch, rope, place)) is not None


def taken(sketch: Sketch, rope: str, place: Place) -> Tree:
    """The tree with a place taken: the contact at the rope's end, and the parts it needs."""
    rove = sketch.ropes.get(rope)
    tree = with_parts(sketch, place)
    return ending(Sketch(tree), rope, (*(rove.contacts if rove else ()), place.contact))


def hauled(sketch: Sketch, rope: str, place: Place) -> Rig | None:
    """The rig as it would be if the rope ended here: by this contact itself, or hauled behind it."""
    tree = taken(sketch, rope, place)
    if place.contact.side is not None:
        later = Sketch(tree)
        if later.hand:
            return None
        tree = ending(later, rope, (*later.ropes[rope].contacts, hand()))
    return read(tree)[0]


def with_parts(sketch: Sketch, place: Place) -> Tree:
    """The tree with the parts that a place needs."""
    tree = sketch.tree
    contact = place.contact
    if place.adds and contact.part is not None:
        count = [_sheaves(1)] if place.sheave else []
        loads = [Attribute(Word("carries", HERE), names=(Word(place.carries, HERE),))] if place.carries else []
        return with_statement(tree, part_statement(place.adds, contact.part.text, *count, *loads))
    if place.sheave and contact.part is not None:
        old = sketch.parts[contact.part.text]
        kept = [one for one in old.attributes if one.keyword.text != "sheaves"]
        count_now = _sheaves(sketch.sheaves(contact.part.text) + 1)
        tree = _numbered(tree, sketch, contact.part.text)
        return with_statement(tree, part_statement(old.keyword.text, contact.part.text, count_now, *kept))
    return tree


def _numbered(tree: Tree, sketch: Sketch, block: str) -> Tree:
    """The tree with the contacts of a block's one wheel numbered, for it will have two."""
    for rope in sketch.ropes.values():
        if any(c.part and c.part.text == block and c.side and c.sheave is None for c in rope.contacts):
            contacts = tuple(
                over_or_under(c.side.text, block, 1) if c.part and c.part.text == block and c.side else c
                for c in rope.contacts
            )  # fmt: skip
            tree = ending(Sketch(tree), rope.name, contacts)
    return tree


def _sheaves(count: int) -> Attribute:
    return Attribute(Word("sheaves", HERE), value=Written(None, Fraction(count), Word(str(count), HERE), None, HERE))
