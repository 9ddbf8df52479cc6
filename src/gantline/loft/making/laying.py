"""Edits of ropes: a contact taken or taken back, a rope led elsewhere or taken out."""

import re
from collections.abc import Mapping
from typing import Any

from gantline.mechanics import solve
from gantline.notation import Contact, Statement, Word, parse
from gantline.rig import read

from ..givens import spoken
from .building import new_part, one_sheave_more
from .edited import Edited, Refused, edited, problems
from .naming import renaming
from .offering import new_name, shown
from .places import lawful
from .sketch import Sketch, wheel_of, written
from .slip import Change, Slip, changed
from .wishes import Place
from .words import counted, fastened, not_from_here

_GIVEN_BY_US = re.compile(r"(?:fall|lift)[0-9]*")


def take(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """The rope led on to a place: {"rope", "place", "rest"?}. A rope that is not there yet begins with it."""
    sketch = Sketch(slip.tree)
    rope = str(wish.get("rope") or new_name(sketch))
    place = _place(sketch, rope, str(wish.get("place", "")))
    changes = [*_needed(slip, sketch, place), *_laid(slip, sketch, rope, place)]
    text = changed(slip.text, changes)
    if sketch.ropes.get(rope) and place.contact.side is None:
        return _ended(slip, text, changes, rope)
    words = fastened(place.id)
    way = Sketch(Slip(text).tree).ropes[rope].going
    told = f"{words}. Rope goes {way}." if rope in sketch.ropes else f"Reeving {rope}. {words[:1].upper()}{words[1:]}."
    done = edited(slip, changes, told, words=words, rope=rope, focus=_id(place.contact))
    return _with_rest(slip, done, rope, tuple(map(str, wish.get("rest", ()))))


def _place(sketch: Sketch, rope: str, id: str) -> Place:
    rove = sketch.ropes.get(rope)
    if rove and rove.going is None:
        raise Refused(f"{rope} has both its ends. Lead it elsewhere from one of its strands.")
    found = next((place for place in lawful(sketch, rope) if place.id == id), None)
    if found is None:
        raise Refused(not_from_here(id or "Nothing", rove.going if rove else None))
    return found


def _needed(slip: Slip, sketch: Sketch, place: Place) -> list[Change]:
    """What the parts of the text gain so that a place is there."""
    name = place.contact.part.text if place.contact.part else ""
    if place.adds:
        return [new_part(slip, place.adds, name, int(place.sheave), place.carries)]
    return one_sheave_more(slip, sketch, name) if place.sheave else []


def _laid(slip: Slip, sketch: Sketch, rope: str, place: Place) -> list[Change]:
    statement = slip.rope(rope)
    if statement is not None:
        at = slip.after(slip.words(statement)[-1])
        return [Change(at, at, f", {place.id}")]
    others = slip.statements("rope") or slip.statements("fixed", "moving", "load")
    return [slip.added(slip.set_out("rope", f"{rope}:", place.id), others[-1] if others else None)]


def _ended(slip: Slip, text: str, changes: list[Change], rope: str) -> Edited:
    """A rope that has both ends now: named for what it does, and told with what it comes to."""
    after = Slip(text)
    name = _fitting(Sketch(after.tree), rope)
    if name != rope:
        text = changed(text, renaming(after, rope, name))
        changes = tight(slip.text, text)
    return edited(slip, changes, _told(text, name), focus=name, ended=True)


def tight(before: str, after: str) -> list[Change]:
    """One change from what differs first to what differs last."""
    both = zip(before, after, strict=False)
    start = next((n for n, (a, b) in enumerate(both) if a != b), min(len(before), len(after)))
    most = min(len(before), len(after)) - start
    same = next((n for n in range(most) if before[len(before) - 1 - n] != after[len(after) - 1 - n]), most)
    return [Change(start, len(before) - same, after[start : len(after) - same])]


def _fitting(sketch: Sketch, rope: str) -> str:
    """The name a rope deserves: a fall is hauled, a lift is not. Names given by people stay."""
    if not _GIVEN_BY_US.fullmatch(rope):
        return rope
    hauled = any(contact.part is None for contact in sketch.ropes[rope].contacts)
    wanted = "fall" if hauled else "lift"
    return rope if rope.startswith(wanted) else sketch.free_name(wanted)


def _told(text: str, rope: str) -> str:
    """A rope that is rove, and what it comes to."""
    slip = Slip(text)
    sketch = Sketch(slip.tree)
    count = len(sketch.ropes[rope].contacts) - 1
    rig = read(slip.tree)[0]
    if rig is None:
        found = problems(text)
        first = f" {found[0].says[:1].upper()}{found[0].says[1:]}." if found else ""
        return f"{rope} is rove: {counted(count, 'strand')}.{first}"
    aim = rig.aim or next((load.name for load in rig.loads), "")
    return f"{rope} is rove: {counted(count, 'strand')}{_bearing(sketch, rope, aim)}.{written_pull(text)}"


def written_pull(text: str) -> str:
    """Pull 120 newtons., or nothing where no pull is asked or none holds."""
    rig = read(parse(text)[0])[0]
    if rig is None or rig.hand is None or rig.effort is not None:
        return ""
    answer = solve(rig)
    effort = answer.ideal.effort if answer.regimes and answer.status == "holds" else None
    if effort is None:
        return " No pull can hold this rig." if answer.status == "impossible" else ""
    number, _, unit = shown(rig, effort).partition("\u00a0")
    return f" Pull {spoken(number, unit)}."


def _bearing(sketch: Sketch, rope: str, load: str) -> str:
    """How many strands of a rope reach the load, or the block that carries it."""
    bodies = {load, sketch.bearer(load)}
    contacts = sketch.ropes[rope].contacts
    on = sum(2 if contact.side else 1 for contact in contacts if contact.part and contact.part.text in bodies)
    return f", {on} on the {load}" if on else ""


def back(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """The last contact of a rope taken back: {"rope"}. With its first contact the rope is gone."""
    rope, statement = _rope(slip, wish)
    last = written(statement.contacts[-1])
    changes = _cut_to(slip, statement, len(statement.contacts) - 1)
    return edited(slip, changes, f"Taken back: {fastened(last)}.", rope=rope, focus=_held_by(statement, -2))


def lead(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """A rope led elsewhere from a strand on: {"strand": "fall:3"}. What came behind the next contact is the `rest`."""
    rope, statement, index = _strand(slip, wish)
    told = f"Leading {rope} elsewhere from {fastened(written(statement.contacts[index - 1]))}."
    rest = tuple(written(contact) for contact in statement.contacts[index + 1 :])
    focus = _held_by(statement, index - 1)
    return edited(slip, _cut_to(slip, statement, index), told, rope=rope, focus=focus, rest=rest)


def out(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """A rope taken out from a strand on: {"strand": "fall:3"}."""
    rope, statement, index = _strand(slip, wish)
    last = fastened(written(statement.contacts[index - 1]))
    return edited(
        slip, _cut_to(slip, statement, index), f"{rope} taken out as far as {last}.", rope=rope,
        focus=_held_by(statement, index - 1),
    )  # fmt: skip


def _rope(slip: Slip, wish: Mapping[str, Any]) -> tuple[str, Statement]:
    rope = str(wish.get("rope", ""))
    statement = slip.rope(rope)
    if statement is None:
        raise Refused(f"No rope is called {rope[:40] or 'nothing'}.")
    return rope, statement


def _strand(slip: Slip, wish: Mapping[str, Any]) -> tuple[str, Statement, int]:
    name, _, index = str(wish.get("strand", "")).rpartition(":")
    rope, statement = _rope(slip, {"rope": name})
    if not re.fullmatch("[0-9]{1,4}", index) or not 1 <= int(index) <= len(statement.contacts):
        raise Refused(f"{rope} has no strand {index[:12]}.")
    return rope, statement, int(index)


def _held_by(statement: Statement, n: int) -> str:
    contacts = statement.contacts
    return _id(contacts[n]) if -len(contacts) <= n < len(contacts) else ""


def _id(contact: Contact) -> str:
    """The part of the figure that a contact is at."""
    if contact.part is None:
        return "hand"
    return wheel_of(contact, contact.part) if contact.side else contact.part.text


def cut_from(slip: Slip, statement: Statement, keep: int) -> list[Word]:
    """The words of a rope behind its first `keep` contacts, the comma before them included."""
    words = slip.words(statement)
    last = slip.pieces(statement)[keep - 1][-1]
    return [word for word in words if slip.at(word.place) > slip.at(last.place)]


def _cut_to(slip: Slip, statement: Statement, keep: int) -> list[Change]:
    return slip.cut(slip.words(statement) if keep <= 0 else cut_from(slip, statement, keep))


def _with_rest(slip: Slip, done: Edited, rope: str, rest: tuple[str, ...]) -> Edited:
    """The edit with the rest of the rope's old way behind it, where all of it is still lawful."""
    text = done.text
    for id in rest:
        after = Slip(text)
        sketch = Sketch(after.tree)
        rove = sketch.ropes.get(rope)
        place = next((p for p in lawful(sketch, rope) if p.id == id), None) if rove and rove.going else None
        if place is None:
            return done
        text = changed(text, [*_needed(after, sketch, place), *_laid(after, sketch, rope, place)])
    if not rest:
        return done
    last = Sketch(Slip(text).tree).ropes[rope]
    told = _told(text, rope) if last.going is None else f"{rope} led on to {fastened(written(last.contacts[-1]))}."
    ended = last.going is None
    return edited(slip, tight(slip.text, text), told, focus=rope, rope="" if ended else rope, ended=ended)
