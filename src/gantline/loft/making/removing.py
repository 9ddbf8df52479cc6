"""Taking away: a part, a wheel, a rope, a strand or the hand, with what cannot stay without it."""

from collections.abc import Mapping
from typing import Any

from gantline.notation import Statement, Word

from .building import wheel_attributes, without_attributes
from .edited import Edited, Refused, edited
from .laying import cut_from, out
from .sketch import Sketch
from .slip import Change, Slip
from .words import counted


def remove(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """What a part id names, taken away: {"part": "upper", "upper.1", "fall", "fall:3" or "hand"}."""
    id = str(wish.get("part", ""))
    sketch = Sketch(slip.tree)
    block, _, index = id.rpartition(".")
    if ":" in id:
        return out(slip, {"strand": id})
    if id == "hand":
        return _hand(slip, sketch)
    if id in sketch.ropes:
        return edited(slip, _lines(slip, [id]), f"{id} taken away.", focus=_neighbour(slip, id))
    if id in sketch.parts:
        return _part(slip, sketch, id)
    if block in sketch.parts and index.isdecimal() and 1 <= int(index) <= sketch.sheaves(block):
        return _wheel(slip, sketch, block, int(index))
    raise Refused("The beam belongs to the house." if id == "beam" else f"Nothing is called {id[:40] or 'so'}.")


def take_sheave(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """A free wheel of a block taken away: {"part"}."""
    sketch = Sketch(slip.tree)
    block = str(wish.get("part", ""))
    why = why_no_sheave_less(sketch, block)
    if why:
        raise Refused(why)
    return _wheel(slip, sketch, block, sketch.free(block)[-1])


def why_no_sheave_less(sketch: Sketch, block: str) -> str:
    """Why a block has no wheel to take away, empty where it has."""
    count = sketch.sheaves(block)
    if not count:
        return f"{block[:40]} has no wheel."
    if sketch.free(block):
        return ""
    ropes = list(dict.fromkeys(sketch.used[f"{block}.{n}"] for n in range(1, count + 1)))
    every = {1: "it", 2: "both"}.get(count, "all of them")
    verb = "runs" if len(ropes) == 1 else "run"
    return f"Rope {' and '.join(ropes)} {verb} in {every}. Take the rope out first."


def _hand(slip: Slip, sketch: Sketch) -> Edited:
    for rope in sketch.ropes.values():
        statement = slip.rope(rope.name)
        if statement and rope.contacts[-1].part is None and len(rope.contacts) > 1:
            words = cut_from(slip, statement, len(rope.contacts) - 1)
            return edited(slip, slip.cut(words), f"The hand lets go of {rope.name}.", focus=rope.name, rope=rope.name)
    if sketch.hand:
        raise Refused("This rope is written from the hand on. Take the rope away, or turn its line round in the slip.")
    raise Refused("No hand hauls here.")


def _part(slip: Slip, sketch: Sketch, name: str) -> Edited:
    """A part with its line; ropes end before it, and lines that speak of it go."""
    words, with_it = [], []
    gone = {name}
    for rope in sketch.ropes.values():
        keep = next((n for n, c in enumerate(rope.contacts) if name in (w.text for w in (c.part, c.at) if w)), None)
        statement = slip.rope(rope.name)
        if keep is None or statement is None:
            continue
        if keep == 0:
            gone.add(rope.name)
            with_it.append(f"rope {rope.name} went with it")
        else:
            words.append(cut_from(slip, statement, keep))
            with_it.append(f"rope {rope.name} ends before it")
    changes = [change for each in words for change in slip.cut(each)]
    changes += _lines(slip, sorted(gone)) + _uncarried(slip, sketch, name)
    told = f"{name} taken away{'; ' if with_it else ''}{', '.join(with_it)}."
    return edited(slip, changes, told, focus=_neighbour(slip, name))


def _lines(slip: Slip, names: list[str]) -> list[Change]:
    """Every statement about one of these names, taken away."""
    changes: list[Change] = []
    for item in slip.tree.items:
        if isinstance(item, Statement) and any(word and word.text in names for word in (item.name, item.second)):
            changes += slip.cut(slip.words(item))
    return changes


def _uncarried(slip: Slip, sketch: Sketch, load: str) -> list[Change]:
    """Every block that carries a load lets go of it."""
    changes: list[Change] = []
    for block in sketch.of_kind("moving"):
        names, statement = sketch.attribute(block, "carries"), slip.part(block)
        if names is None or statement is None or load not in sketch.carries(block):
            continue
        if len(names.names) == 1:
            changes += without_attributes(slip, statement, "carries")
            continue
        words = slip.words(statement)
        at = words.index(next(word for word in names.names if word.text == load))
        changes += slip.cut(words[at : at + 2] if names.names[0].text == load else words[at - 1 : at + 1])
    return changes


def _wheel(slip: Slip, sketch: Sketch, block: str, index: int) -> Edited:
    """A wheel: ropes end before it, later wheels move up a number."""
    statement = slip.part(block)
    assert statement is not None
    changes: list[Change] = []
    cut: list[Word] = []
    id = f"{block}.{index}"
    rope = sketch.used.get(id)
    told = ""
    if rope is not None and (line := slip.rope(rope)) is not None:
        keep = next(
            n for n, c in enumerate(line.contacts) if c.side and f"{c.part and c.part.text}.{c.sheave or 1}" == id
        )
        cut = slip.words(line) if keep == 0 else cut_from(slip, line, keep)
        changes += slip.cut(cut)
        told = f"; rope {rope} ends before it" if keep else f"; rope {rope} went with it"
    changes += _fewer(slip, sketch, statement, block)
    gone = {(word.place.line, word.place.column) for word in cut}
    changes += [change for place, change in _moved_up(slip, block, index) if place not in gone]
    left = sketch.sheaves(block) - 1
    return edited(slip, changes, f"{block} has {counted(left, 'wheel') if left else 'no wheel'}{told}.", focus=block)


def _fewer(slip: Slip, sketch: Sketch, statement: Statement, block: str) -> list[Change]:
    count = sketch.attribute(block, "sheaves")
    if count is None or count.value is None or count.value.numeral is None:
        return []
    if sketch.sheaves(block) > 1:
        word = count.value.numeral
        return [Change(slip.at(word.place), slip.after(word), str(sketch.sheaves(block) - 1))]
    return without_attributes(slip, statement, *wheel_attributes(statement))


def _moved_up(slip: Slip, block: str, index: int) -> list[tuple[tuple[int, int], Change]]:
    """The numbers of a block's later wheels, each one less, with the place of their word."""
    found = []
    for rope in slip.statements("rope"):
        for c in rope.contacts:
            if c.part and c.part.text == block and c.sheave is not None and c.sheave > index:
                start = slip.after(c.part) + 1
                end = start
                while end < len(slip.text) and slip.text[end].isdecimal():
                    end += 1
                place = (c.part.place.line, c.part.place.column)
                found.append((place, Change(start, end, str(c.sheave - 1))))
    return found


def _neighbour(slip: Slip, name: str) -> str:
    """The part to go on from: the one before it in the text, else the one behind."""
    names = [s.name.text for s in slip.statements("fixed", "moving", "load", "rope") if s.name]
    at = names.index(name)
    rest = [*names[:at][::-1], *names[at + 1 :]]
    return rest[0] if rest else ""
