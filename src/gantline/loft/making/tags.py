"""What can be done: with a part, by its tag; and by the words of *Make*. What cannot be done says why."""

from typing import Any

from msgspec import Struct

from .removing import why_no_sheave_less
from .sketch import Sketch
from .slip import Slip


class Verb(Struct, frozen=True):
    """One line of a tag. `do` is the edit that a click makes; or `field` names the given to write, or `start` the
    place where a rope begins, or `rename` the name to write anew. `why` stands where it cannot be done now."""

    words: str
    do: dict[str, Any] | None = None
    field: str = ""
    start: str = ""
    rename: str = ""
    why: str = ""


class Tag(Struct, frozen=True):
    of: str
    head: str
    verbs: tuple[Verb, ...]


def tag(text: str, of: str) -> Tag:
    """The verbs of a part, or of a word of *Make* (`make:add-block`, `make:add-sheave`, `make:hang-load`)."""
    sketch = Sketch(Slip(text).tree)
    if of.startswith("make:"):
        return Tag(of, *_making(sketch, of.removeprefix("make:")))
    block, _, index = of.rpartition(".")
    if of in sketch.ropes:
        return Tag(of, "a rope", tuple(_rope(sketch, of)))
    if ":" in of:
        return Tag(of, "a strand", tuple(_strand(sketch, of)))
    if of in sketch.parts:
        heads = {"fixed": "a block aloft", "moving": "a block that moves", "load": "a load"}
        verbs = _load(sketch, of) if sketch.kind(of) == "load" else _block(sketch, of)
        return Tag(of, heads[sketch.kind(of)], tuple(verbs))
    if block in sketch.parts and index.isdecimal():
        return Tag(of, f"a wheel of {block}", tuple(_wheel(sketch, of, block)))
    if of == "hand":
        return Tag(of, "the hand", (Verb("Take the hand away", {"do": "remove", "part": "hand"}),))
    beam = (Verb("Start a rope here", start="beam"), Verb("Add a block aloft", {"do": "add-block", "kind": "fixed"}))
    return Tag("beam", "the beam", beam)


def _making(sketch: Sketch, word: str) -> tuple[str, tuple[Verb, ...]]:
    if word == "add-sheave":
        blocks = sketch.of_kind("fixed", "moving")
        return "On which block?", tuple(Verb(f"On {name}", {"do": "add-sheave", "part": name}) for name in blocks)
    free = [name for name in sketch.of_kind("load") if sketch.bearer(name) is None]
    if word == "hang-load":
        on = [Verb(f"On {name}", {"do": "hang-load", "part": name}) for name in sketch.of_kind("moving")]
        return "Where does it hang?", (Verb("By itself", {"do": "hang-load"}), *on)
    found = [Verb("Aloft, on the beam", {"do": "add-block", "kind": "fixed"})]
    found += [Verb(f"Carrying {name}", {"do": "add-block", "kind": "moving", "carries": name}) for name in free]
    return "Where does it hang?", (*found, Verb("Free to move", {"do": "add-block", "kind": "moving"}))


def _block(sketch: Sketch, name: str) -> list[Verb]:
    moves = sketch.kind(name) == "moving"
    loads = [load for load in sketch.of_kind("load") if sketch.bearer(load) is None]
    carry = Verb("Carry a new load", {"do": "hang-load", "part": name}) if moves else Verb(
        "Carry a new load", why="A block aloft carries nothing away: hang the load on a block that moves.")  # fmt: skip
    return [
        Verb("Start a rope here", start=name),
        Verb("Add a sheave", {"do": "add-sheave", "part": name}),
        Verb("Take a sheave away", {"do": "take-sheave", "part": name}, why=why_no_sheave_less(sketch, name)),
        _heaviness(sketch, name),
        Verb("Let it lose something", field=f"{name}.efficiency", why=_no_wheel(sketch, name)),
        carry,
        *([Verb(f"Carry {load}", {"do": "hang", "part": load, "on": name}) for load in loads] if moves else []),
        Verb("Another name", rename=name),
        Verb("Take it away", {"do": "remove", "part": name}),
    ]


def _no_wheel(sketch: Sketch, name: str) -> str:
    return "" if sketch.sheaves(name) else "It has no wheel."


def _heaviness(sketch: Sketch, name: str) -> Verb:
    return Verb("Weight or mass", field=f"{name}.{'mass' if sketch.attribute(name, 'mass') else 'weight'}")


def _load(sketch: Sketch, name: str) -> list[Verb]:
    free = sketch.bearer(name) is None
    blocks = sketch.of_kind("moving") if free else []
    return [
        Verb("Start a rope here", start=name),
        _heaviness(sketch, name),
        Verb("Raise it by", field=f"raise {name}"),
        *[Verb(f"Hang it on {block}", {"do": "hang", "part": name, "on": block}) for block in blocks],
        *([Verb("Put it on a new block", {"do": "add-block", "kind": "moving", "carries": name})] if free else []),
        Verb("Another name", rename=name),
        Verb("Take it away", {"do": "remove", "part": name}),
    ]


def _wheel(sketch: Sketch, id: str, block: str) -> list[Verb]:
    return [
        Verb("Add a sheave", {"do": "add-sheave", "part": block}),
        Verb("Let it lose something", field=f"{block}.efficiency"),
        Verb("Take it away", {"do": "remove", "part": id}),
    ]


def _strand(sketch: Sketch, id: str) -> list[Verb]:
    rope = id.rpartition(":")[0]
    rove = sketch.ropes.get(rope)
    return [
        *([Verb("Lead it on", start=f"rope {rope}")] if rove and rove.going else []),
        Verb("Lead it elsewhere", {"do": "lead", "strand": id}),
        Verb("Take out from here", {"do": "out", "strand": id}),
        Verb("Another name for its rope", rename=rope),
        Verb("Take the rope away", {"do": "remove", "part": rope}),
    ]


def _rope(sketch: Sketch, name: str) -> list[Verb]:
    going = sketch.ropes[name].going
    on = Verb("Lead it on", start=f"rope {name}") if going else Verb("Lead it on", why="It has both its ends.")
    return [on, Verb("Another name", rename=name), Verb("Take it away", {"do": "remove", "part": name})]
