"""Where a rope may be led next, in the order in which the places are offered."""

from collections.abc import Iterator
from typing import Literal

from msgspec import Struct

from gantline.notation import Attribute, Contact, Tree, Word, Written
from gantline.rig import Rig, read

from .completing import complete, ending
from .sketch import HERE, Going, Rove, Sketch, fast, hand, over_or_under, part_statement, with_statement, written
from .words import LEVEL

Group = Literal["wheel", "sheave", "block", "hand", "fast", "more"]
BEAM = "beam"


class Place(Struct, frozen=True):
    """A lawful next contact. `id` is the words it adds to the text; `adds` the new part it needs, `carries` its load.

    `sheave` is True where a wheel comes into being for it. `tag` and `says` are its words, seen and spoken; `why` says
    what is particular about a place that stands under "more places".
    """

    id: str
    tag: str
    says: str
    group: Group
    contact: Contact
    sheave: bool = False
    adds: str = ""
    carries: str = ""
    why: str = ""


def lawful(sketch: Sketch, rope: str) -> list[Place]:
    """Every place that keeps the rig lawful, in order; those of the group `more` last. `rope` may be new."""
    rove = sketch.ropes.get(rope)
    found = {place.id: place for place in reversed(list(_wished(sketch, rove))) if is_lawful(sketch, rope, place)}
    places = list(reversed(found.values()))
    return [p for p in places if p.group != "more"] + [p for p in places if p.group == "more"]


def is_lawful(sketch: Sketch, rope: str, place: Place) -> bool:
    """Whether the rig, with this contact taken and all else led to some end, is a rig."""
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
    from fractions import Fraction

    return Attribute(Word("sheaves", HERE), value=Written(None, Fraction(count), Word(str(count), HERE), None, HERE))


# -- what one would wish for, lawful or not --------------------------------------------------------------------------


def _wished(sketch: Sketch, rove: Rove | None) -> Iterator[Place]:
    if rove is None:
        yield from _starts(sketch)
        return
    if rove.going is None:
        return
    here = rove.contacts[-1]
    on = here.part.text if here.part else ""
    yield from _onward(sketch, rove.going, on)
    yield from _more(sketch, rove, on)


def _starts(sketch: Sketch) -> Iterator[Place]:
    """Where a rope may be made fast first: aloft, the beam, the loads, a new block on a load, the blocks below."""
    aloft = [name for name in sketch.of_kind("fixed") if name != BEAM]
    yield from (_fast(name) for name in aloft)
    if not aloft:
        yield _new_fast(sketch, "fixed")
    yield _beam(sketch)
    for load in sketch.of_kind("load"):
        yield _fast(load)
    for load in sketch.of_kind("load"):
        if sketch.bearer(load) is None:
            yield _new_fast(sketch, "moving", load)
    yield from (_fast(name) for name in sketch.of_kind("moving"))
    if aloft:
        yield _new_fast(sketch, "fixed")


def _onward(sketch: Sketch, going: Going, on: str) -> Iterator[Place]:
    side = "over" if going == "up" else "under"
    blocks = _near(sketch, going, on)
    for block in blocks:
        yield from (_wheel(side, block, n) for n in sketch.free(block))
    yield from (_new_sheave(sketch, side, block) for block in blocks)
    yield from _new_blocks(sketch, going)
    if not sketch.hand:
        yield _hand(going)
    yield from _fasts(sketch, going, on)


def _near(sketch: Sketch, going: Going, on: str) -> list[str]:
    """The blocks a rope may turn at, the nearest first: of those that hang, the lowest when going up."""
    moving = [name for name in sketch.of_kind("moving") if name != on]
    deep = {name: _depth(sketch, name) for name in moving}
    if going == "down":
        floor = [name for name in sketch.of_kind("fixed") if sketch.at_floor(name)]
        return sorted((n for n in moving if _may_sink(sketch, n)), key=lambda n: deep[n]) + floor
    aloft = [name for name in sketch.of_kind("fixed") if name != BEAM and not sketch.at_floor(name)]
    hung = [name for name in moving if not sketch.carries(name)]
    return sorted(hung, key=lambda n: -deep[n]) + aloft


def _may_sink(sketch: Sketch, block: str) -> bool:
    """Whether a block is one that ropes pass under: it carries something, has had ropes under it, or none at all."""
    sides = sketch.sides(block)
    hung = any(c.part and c.part.text == block and not c.side for r in sketch.ropes.values() for c in r.contacts)
    return bool(sketch.carries(block)) or "under" in sides or not (sides or hung)


def _depth(sketch: Sketch, name: str) -> int:
    """How many ropes hang above a block, one under the other."""
    depth, above, seen = 0, {name}, {name}
    while above:
        holders = {
            c.part.text for r in sketch.ropes.values() for c in r.contacts
            if c.part and any(d.part and d.part.text in above for d in r.contacts) and c.part.text not in seen
            and c.side and c.side.text == "over"
        }  # fmt: skip
        seen |= holders
        above = holders
        depth += bool(holders)
    return depth


def _new_blocks(sketch: Sketch, going: Going) -> Iterator[Place]:
    """A block that comes into being: aloft where there is none, on every load that no block carries."""
    if going == "up":
        if not [name for name in sketch.of_kind("fixed") if name != BEAM]:
            name = sketch.free_name("upper", "top")
            words = f"over {name}.1"
            yield Place(words, "over a new block", "over a new block aloft", "block", over_or_under("over", name, 1),
                        sheave=True, adds="fixed")  # fmt: skip
        return
    for load in sketch.of_kind("load"):
        if sketch.bearer(load) is None:
            name = sketch.free_name("lower", "runner")
            yield Place(f"under {name}.1", f"under a new block on {load}", f"under a new block that carries {load}",
                        "block", over_or_under("under", name, 1), sheave=True, adds="moving", carries=load)  # fmt: skip


def _fasts(sketch: Sketch, going: Going, on: str) -> Iterator[Place]:
    if going == "up":
        hung = [name for name in sketch.of_kind("moving") if name != on and not sketch.carries(name)]
        yield from (_fast(name, True) for name in hung)
        yield from (_fast(name, True) for name in sketch.of_kind("fixed") if name != BEAM)
        yield _beam(sketch, True)
        return
    yield from (_fast(name, True) for name in sketch.of_kind("load", "moving") if name != on)
    yield _new_fast(sketch, "moving")


def _more(sketch: Sketch, rove: Rove, on: str) -> Iterator[Place]:
    """Lawful places that are seldom wanted, each with the sentence that says why."""
    going = rove.going or "down"
    other: Going = "down" if going == "up" else "up"
    last = rove.contacts[-1]
    level = last.side.text if last.side else ""
    for block in sketch.of_kind("fixed") if level else []:
        for n in sketch.free(block):
            yield _more_place(_wheel(level, block, n), f"{block}.{n} needs {LEVEL}.")
    if not sketch.hand:
        for name in sketch.of_kind("load", "moving"):
            place = Place(f"hand at {name}", f"hand at {name}", f"hand at {name}, ends the rope", "more", hand(name))
            yield _more_place(place, "Someone who rides on it: a thought example only. Never try it with a person.")
    if going == "down":
        for block in sketch.of_kind("fixed"):
            if block != BEAM and not sketch.at_floor(block):
                yield from (_more_place(_wheel("under", block, n), f"{block} would stand on the floor.")
                            for n in sketch.free(block))  # fmt: skip
        name = sketch.free_name("floor", "lead")
        words = "under a new block at the floor"
        yield Place(f"under {name}.1", words, words, "more", over_or_under("under", name, 1), sheave=True, adds="fixed",
                    why="It leads the rope up again and lifts nothing.")  # fmt: skip
    elif any(name != BEAM for name in sketch.of_kind("fixed")):
        name, words = sketch.free_name("upper", "top"), "over a new block aloft"
        yield Place(f"over {name}.1", words, words, "more", over_or_under("over", name, 1), sheave=True, adds="fixed",
                    why="A second block on the beam.")  # fmt: skip
    if not level:  # made fast: the rope may also leave the other way
        for place in _onward(sketch, other, on):
            if place.group in ("wheel", "sheave", "fast"):
                yield _more_place(place, f"The rope would leave {on} {other}ward.")


def _more_place(place: Place, why: str) -> Place:
    from msgspec.structs import replace

    return replace(place, group="more", why=why)


def _wheel(side: str, block: str, n: int) -> Place:
    turn = "turns down again" if side == "over" else "turns up again"
    contact = over_or_under(side, block, n)
    words = written(contact)
    return Place(words, words, f"{words}, free wheel of {block}, {turn}", "wheel", contact)


def _new_sheave(sketch: Sketch, side: str, block: str) -> Place:
    contact = over_or_under(side, block, sketch.sheaves(block) + 1)
    words = f"{side} a new sheave of {block}"
    return Place(written(contact), words, words, "sheave", contact, sheave=True)


def _hand(going: Going) -> Place:
    words = f"hand, hauling {going}"
    return Place("hand", words, f"{words}, ends the rope", "hand", hand())


def _fast(name: str, ends: bool = False) -> Place:
    words = f"make fast to {name}"
    return Place(name, words, f"{words}, ends the rope" if ends else words, "fast", fast(name))


def _beam(sketch: Sketch, ends: bool = False) -> Place:
    """The bare beam; its line is written when a rope is first made fast there."""
    adds = "" if sketch.kind(BEAM) else "fixed"
    name = BEAM if sketch.kind(BEAM) == "fixed" or BEAM not in sketch.names else sketch.free_name("beam")
    words = "make fast to the beam"
    return Place(name, words, f"{words}, ends the rope" if ends else words, "fast", fast(name), adds=adds)


def _new_fast(sketch: Sketch, kind: str, load: str = "") -> Place:
    """A rope's end on a block that comes into being with it."""
    if kind == "fixed":
        name, words = sketch.free_name("upper", "top"), "make fast to a new block aloft"
    elif load:
        name, words = sketch.free_name("lower", "runner"), f"make fast to a new block on {load}"
    else:
        name, words = sketch.free_name("mid"), "make fast to a new block"
    ends = ", ends the rope" if kind == "moving" and not load else ""
    return Place(name, words, f"{words}{ends}", "fast", fast(name), adds=kind, carries=load)
