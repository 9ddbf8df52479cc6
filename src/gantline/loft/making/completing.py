"""A rig in the making made whole, unseen: its free rope ends led somewhere, what hangs on nothing held by something.

The whole rig is solved and laid out like any other, and then drawn without what was added.
"""

from fractions import Fraction

from msgspec import Struct

from gantline.notation import Attribute, Contact, Tree, Word, Written
from gantline.rig import Rig, read

from .sketch import HERE, Going, Sketch, fast, over_or_under, part_statement, rope_statement, with_statement

ALOFT = "·aloft"  # no name of a text has such a dot
MOST_TRIED = 40  # free wheels tried for the way on


class Completed(Struct, frozen=True):
    """A whole rig. `laid` says how many contacts of each rope of the text are really laid."""

    rig: Rig
    laid: dict[str, int]


def complete(tree: Tree) -> Completed | None:
    """The rig of a text in the making, or None where something else is wrong with the text.

    A free end first tries the free wheels, so that the figure has them where they will be wanted.
    """
    sketch = Sketch(tree)
    if not tree.whole or not sketch.parts:
        return None
    for guess in (True, False):
        whole = _whole(sketch, guess)
        rig = read(whole)[0]
        if rig is not None:
            return Completed(rig, {name: len(rope.contacts) for name, rope in sketch.ropes.items()})
    return None


def _whole(sketch: Sketch, guess: bool) -> Tree:
    for rope in sketch.ropes.values():
        if rope.going is not None:
            way = _onward(sketch, rope.going) if guess else []
            last = rope.going if len(way) % 2 == 0 else _turned(rope.going)
            end = ALOFT if last == "up" else f"·end-{rope.name}"
            sketch = _with_hidden(sketch.with_rope(rope.name, (*rope.contacts, *way, fast(end))), end)
    for name in list(sketch.parts):
        if name not in sketch.touched and not sketch.bearer(name) and not name.startswith("·"):
            sketch = _held(sketch, name)
    return sketch.tree


def _onward(sketch: Sketch, going: Going) -> list[Contact]:
    """Free wheels that a rope could take one after the other."""
    below = [(block, n) for block in sketch.of_kind("moving") for n in sketch.free(block)]
    above = [(b, n) for b in sketch.of_kind("fixed") if not sketch.at_floor(b) for n in sketch.free(b)]
    way: list[Contact] = []
    while len(way) < MOST_TRIED and (below if going == "down" else above):
        block, n = (below if going == "down" else above).pop(0)
        way.append(over_or_under("under" if going == "down" else "over", block, n))
        going = _turned(going)
    return way


def _turned(going: Going) -> Going:
    return "up" if going == "down" else "down"


def _held(sketch: Sketch, name: str) -> Sketch:
    """A part that no rope touches, held where it will stand."""
    rope, free = f"·hold-{name}", sketch.free(name)
    one, two = f"·one-{name}", f"·two-{name}"
    path: tuple[Contact, ...]
    if sketch.kind(name) == "load":  # two ropes high, so that a block has room above it
        sketch = _with_hidden(sketch.with_rope(f"{rope}-above", (fast(ALOFT), fast(one))), ALOFT)
        return _with_hidden(sketch.with_rope(rope, (fast(one), fast(name))), one)
    if sketch.kind(name) != "fixed":
        path = (fast(ALOFT), over_or_under("under", name, free[0]), fast(ALOFT)) if free else (fast(ALOFT), fast(name))
        return _with_hidden(sketch.with_rope(rope, path), ALOFT)
    path = (fast(one), over_or_under("over", name, free[0]), fast(two)) if free else (fast(name), fast(one))
    return _with_hidden(_with_hidden(sketch.with_rope(rope, path), one), two if free else one)


def _with_hidden(sketch: Sketch, name: str) -> Sketch:
    """The sketch with an unseen part: something aloft, or a block that hangs on a rope's end."""
    one = Written(None, Fraction(1), Word("1", HERE), Word("N", HERE), HERE)
    weight = Attribute(Word("weight", HERE), value=one)
    statement = part_statement("fixed", name) if name == ALOFT else part_statement("moving", name, weight)
    return Sketch(with_statement(sketch.tree, statement))


def ending(sketch: Sketch, rope: str, contacts: tuple[Contact, ...]) -> Tree:
    """The tree with a rope laid so, as it would stand in the text."""
    return with_statement(sketch.tree, rope_statement(rope, contacts))
