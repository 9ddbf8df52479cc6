"""Edits of parts: blocks, sheaves and loads added, named, hung and taken away."""

from collections.abc import Mapping
from typing import Any

from gantline.notation import Statement, Word

from .edited import Edited, Refused, edited, without_new_problems
from .sketch import Sketch
from .slip import Change, Slip
from .words import counted

_OF_WHEELS = ("sheaves", "radius", "disc", "inertia", "efficiency", "spacing")
_FOLLOWS = {"fixed": ("fixed",), "moving": ("moving", "fixed"), "load": ("load", "moving", "fixed")}


def new_part(
    slip: Slip, kind: str, name: str, sheaves: int = 0, carries: str = "", more: tuple[str, ...] = ()
) -> Change:
    """The line of a new part, behind the others of its kind; `more` are attributes as they are written."""
    said = [f"sheaves {sheaves}"] if sheaves else []
    said += [f"carries {carries}"] if carries else []
    said += more
    line = slip.set_out(kind, name, ", ".join(said))
    before = next((found for key in _FOLLOWS[kind] if (found := slip.statements(key))), None)
    head = slip.statements("title", "gravity")
    return slip.added(line, before[-1] if before else head[-1] if head else None)


def one_sheave_more(slip: Slip, sketch: Sketch, block: str) -> list[Change]:
    """A block's wheels counted up by one; where it had one, its contacts get their number."""
    statement = slip.part(block)
    assert statement is not None
    count = sketch.sheaves(block)
    said = next((a for a in statement.attributes if a.keyword.text == "sheaves"), None)
    if said is not None and said.value is not None and said.value.numeral is not None:
        word = said.value.numeral
        return [Change(slip.at(word.place), slip.after(word), str(count + 1)), *_numbers(slip, block)]
    return [first_attribute(slip, statement, "sheaves 1")]


def _numbers(slip: Slip, block: str) -> list[Change]:
    """`.1` behind every contact that names the block's wheel without a number."""
    return [
        Change(slip.after(c.part), slip.after(c.part), ".1")
        for rope in slip.statements("rope") for c in rope.contacts
        if c.part and c.part.text == block and c.side and c.sheave is None
    ]  # fmt: skip


def first_attribute(slip: Slip, statement: Statement, said: str) -> Change:
    """An attribute before all others of a part."""
    pieces = slip.pieces(statement)
    if pieces:
        at = slip.at(pieces[0][0].place)
        return Change(at, at, f"{said}, ")
    return last_attribute(slip, statement, said)


def last_attribute(slip: Slip, statement: Statement, said: str) -> Change:
    """An attribute behind all others of a part."""
    at = slip.after(slip.words(statement)[-1])
    if slip.pieces(statement):
        return Change(at, at, f", {said}")
    assert statement.name is not None
    room = len(slip.set_out(statement.keyword.text, statement.name.text, "x")) - 1
    gap = max(room - (statement.name.place.column - 1 + len(statement.name.text)), 1)
    return Change(at, at, f"{' ' * gap}{said}")


def without_attributes(slip: Slip, statement: Statement, *keys: str) -> list[Change]:
    """Attributes taken away; of the commas about them one stays where it is needed, so that lines still go on."""
    words = slip.words(statement)
    gone: list[Word] = []
    gap: list[Word] = []  # the commas since the last piece that stays
    named = True  # whether only the name stands before the gap
    for piece in slip.pieces(statement):
        at = words.index(piece[0])
        gap += [words[at - 1]] if words[at - 1].text == "," else []
        if piece[0].text in keys:
            gone += piece
            continue
        gone += _needless(words, gap, named)
        gap, named = [], False
    return slip.cut(sorted([*gone, *gap], key=lambda word: (word.place.line, word.place.column)))


def _needless(words: list[Word], gap: list[Word], named: bool) -> list[Word]:
    """The commas of a gap that must not stay: all but the one that ends a line, else the first."""
    ends = [comma for comma in gap if words[words.index(comma) + 1].place.line > comma.place.line]
    kept = ends[:1] or ([] if named else gap[:1])
    return [comma for comma in gap if comma not in kept]


# -- adding ---------------------------------------------------------------------------------------------------------


def add_block(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """A block: {"kind": "fixed" or "moving", "carries"?: a load}."""
    sketch = Sketch(slip.tree)
    kind, load = str(wish.get("kind", "fixed")), str(wish.get("carries", ""))
    if kind not in ("fixed", "moving"):
        raise Refused("A block stays aloft or moves.")
    if load and (sketch.kind(load) != "load" or sketch.bearer(load)):
        raise Refused(why_not_hung(sketch, load))
    wished = ("upper", "top") if kind == "fixed" else ("lower", "runner") if load else ("mid",)
    name = sketch.free_name(*wished)
    where = "aloft" if kind == "fixed" else f"that carries {load}" if load else "that moves"
    return edited(slip, [new_part(slip, kind, name, 1, load)], f"{name}, a block {where}, 1 wheel.", focus=name)


def add_sheave(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """One more wheel: {"part"}."""
    sketch = Sketch(slip.tree)
    name = _block(sketch, wish)
    count = sketch.sheaves(name) + 1
    return edited(
        slip, one_sheave_more(slip, sketch, name), f"{name} has {counted(count, 'wheel')}.", focus=f"{name}.{count}"
    )


def hang_load(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """A new load, on a block or for itself: {"part"?: the block}."""
    sketch = Sketch(slip.tree)
    block = str(wish.get("part", ""))
    name = sketch.free_name("sack", "basket", "crate")
    changes = [*(carried(slip, sketch, block, name) if block else []), new_part(slip, "load", name)]
    where = f" on {block}" if block else ""
    return edited(slip, changes, f"{name}, a load{where}. Its weight is a letter.", focus=name)


def hang(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """A load that is there, hung on a block: {"part": the load, "on": the block}."""
    sketch = Sketch(slip.tree)
    load, block = str(wish.get("part", "")), str(wish.get("on", ""))
    if sketch.kind(load) != "load" or sketch.bearer(load):
        raise Refused(why_not_hung(sketch, load))
    done = edited(slip, carried(slip, sketch, block, load), f"{block} carries {load}.", focus=load)
    return without_new_problems(slip, done)


def why_not_hung(sketch: Sketch, load: str) -> str:
    block = sketch.bearer(load)
    return f"{load} hangs on {block} already." if block else f"{load[:40] or 'Nothing'} is no load."


def carried(slip: Slip, sketch: Sketch, block: str, load: str) -> list[Change]:
    """A load among those a block carries."""
    statement = slip.part(block)
    if statement is None or sketch.kind(block) != "moving":
        raise Refused(f"{block[:40]} is no block that moves: only such a block carries loads.")
    names = sketch.attribute(block, "carries")
    if names is not None:
        at = slip.after(names.names[-1])
        return [Change(at, at, f" and {load}")]
    return [last_attribute(slip, statement, f"carries {load}")]


def _block(sketch: Sketch, wish: Mapping[str, Any]) -> str:
    name = str(wish.get("part", ""))
    if sketch.kind(name) not in ("fixed", "moving"):
        raise Refused(f"{name[:40] or 'Nothing'} is no block.")
    return name


def wheel_attributes(statement: Statement) -> list[str]:
    """The attributes that only a block with wheels has."""
    return [a.keyword.text for a in statement.attributes if a.keyword.text in _OF_WHEELS]
