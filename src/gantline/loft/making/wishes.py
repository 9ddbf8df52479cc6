"""Where one would wish to lead a rope next, lawful or not, in the order in which places are offered."""

from collections.abc import Iterator
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from gantline.notation import Contact

from .sketch import Going, Rove, Sketch, fast, hand, over_or_under, written
from .words import LEVEL, RIDER

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


def wished(sketch: Sketch, rove: Rove | None) -> Iterator[Place]:
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
    """Whether a block is one that ropes pass under: it carries something, or no rope goes over it."""
    return bool(sketch.carries(block)) or sketch.sides(block) != {"over"}


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
            yield _new_aloft(sketch)
        return
    for load in sketch.of_kind("load"):
        if sketch.bearer(load) is None:
            contact = over_or_under("under", sketch.free_name("lower", "runner"), 1)
            tag, says = f"under a new block on {load}", f"under a new block that carries {load}"
            yield Place(written(contact), tag, says, "block", contact, sheave=True, adds="moving", carries=load)


def _new_aloft(sketch: Sketch) -> Place:
    contact, words = over_or_under("over", sketch.free_name("upper", "top"), 1), "over a new block aloft"
    return Place(written(contact), words, words, "block", contact, sheave=True, adds="fixed")


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
    last = rove.contacts[-1]
    side = last.side.text if last.side else ""
    if side:
        yield from _levels(sketch, side)
    if not sketch.hand:
        yield from _riders(sketch)
    if rove.going == "down" or not side:
        yield from _floors(sketch)
    elif any(name != BEAM for name in sketch.of_kind("fixed")):
        yield _more_place(_new_aloft(sketch), "A second block on the beam.")
    if not side:  # made fast: the rope may also leave the other way
        other: Going = "down" if rove.going == "up" else "up"
        for place in _onward(sketch, other, on):
            if place.group in ("wheel", "sheave", "fast"):
                yield _more_place(place, f"The rope would leave {on} {other}ward.")


def _levels(sketch: Sketch, side: str) -> Iterator[Place]:
    for block in sketch.of_kind("fixed"):
        for n in sketch.free(block):
            yield _more_place(_wheel(side, block, n), f"{block}.{n} needs {LEVEL}.")


def _riders(sketch: Sketch) -> Iterator[Place]:
    for name in sketch.of_kind("load", "moving"):
        words = f"hand at {name}"
        yield Place(words, words, f"{words}, ends the rope", "more", hand(name), why=RIDER)


def _floors(sketch: Sketch) -> Iterator[Place]:
    """Blocks that would stand below, for a rope that is led up again."""
    for block in sketch.of_kind("fixed"):
        if block != BEAM and not sketch.at_floor(block):
            for n in sketch.free(block):
                yield _more_place(_wheel("under", block, n), f"{block} would stand on the floor.")
    contact = over_or_under("under", sketch.free_name("floor", "lead"), 1)
    words, why = "under a new block at the floor", "It leads the rope up again and lifts nothing."
    yield Place(written(contact), words, words, "more", contact, sheave=True, adds="fixed", why=why)


def _more_place(place: Place, why: str) -> Place:
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
