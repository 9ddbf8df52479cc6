"""Changes of the build that a rig without an answer may need: each is one edit of the text."""

from collections.abc import Callable, Mapping
from typing import Any

from gantline.notation import Word

from .building import new_part, wheel_attributes
from .edited import Edited, Refused, edited, without_new_problems
from .laying import tight, written_pull
from .removing import remove, take_sheave
from .setting import set_value
from .sketch import Sketch
from .slip import Change, Slip, changed


def mend(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """A change of the build: {"how": one of MENDS, "part": what it is about}."""
    how, part = str(wish.get("how", "")), str(wish.get("part", ""))
    if how not in MENDS:
        raise Refused(f"Nothing is mended by {how[:40] or 'no word'}.")
    text, says, focus = MENDS[how](slip, Sketch(slip.tree), part)
    done = edited(slip, tight(slip.text, text), f"{says}{written_pull(text)}", focus=focus)
    return without_new_problems(slip, done)


def _fixed(slip: Slip, sketch: Sketch, name: str) -> tuple[str, str, str]:
    """A block that moves is made fast aloft; a rope that went from it over a block aloft is made fast to that one."""
    statement = slip.part(name)
    if statement is None or sketch.kind(name) != "moving" or sketch.carries(name):
        raise Refused(f"{name[:40] or 'Nothing'} is no block that moves for itself.")
    start, end = slip.at(statement.keyword.place), slip.after(statement.keyword)
    room = " " if slip.text[end : end + 2].isspace() and len(slip.text[end : end + 2]) == 2 else ""
    changes, holders = [Change(start, end, f"fixed{room}")], []
    for rope in slip.statements("rope"):
        pieces = slip.pieces(rope)
        for tied, next_ in ((pieces[0], pieces[1]), (pieces[-1], pieces[-2])) if len(pieces) > 2 else ():
            if [word.text for word in tied] == [name] and (holder := _fixed_wheel(sketch, next_)):
                first, last = sorted((tied, next_), key=lambda piece: slip.at(piece[0].place))
                changes.append(Change(slip.at(first[0].place), slip.after(last[-1]), holder))
                holders.append(holder)
    text = changed(slip.text, changes)
    for holder in holders:  # its wheel led nowhere any more
        text = take_sheave(Slip(text), {"part": holder}).text
    end_too = f", and so is its rope's end, to {' and '.join(holders)}" if holders else ""
    return text, f"{name} is fast aloft{end_too}.", name


def _fixed_wheel(sketch: Sketch, piece: list[Word]) -> str:
    """The block aloft over whose wheel a rope goes here; empty where it does not."""
    name = piece[1].text.partition(".")[0] if len(piece) > 1 and piece[0].text == "over" else ""
    return name if sketch.kind(name) == "fixed" else ""


def _wheel_aloft(slip: Slip, sketch: Sketch, name: str) -> tuple[str, str, str]:
    """The wheels of a block that a rope goes over stand on a new block aloft instead."""
    statement = slip.part(name)
    over = [piece for rope in slip.statements("rope") for piece in slip.pieces(rope) if _passes(piece, "over", name)]
    if statement is None or sketch.kind(name) != "moving" or not over:
        raise Refused(f"No rope goes over a wheel of {name[:40] or 'nothing'}.")
    new = sketch.free_name("upper", "top")
    kept = [key for key in wheel_attributes(statement) if key != "sheaves"]
    said = tuple(_said(slip, piece) for piece in slip.pieces(statement) if piece[0].text in kept)
    changes = [new_part(slip, "fixed", new, len(over), more=said)]
    for n, piece in enumerate(over, 1):
        wheel = f"over {new}.{n}" if len(over) > 1 else f"over {new}"
        changes.append(Change(slip.at(piece[0].place), slip.after(piece[-1]), wheel))
    text = changed(slip.text, changes)
    for _ in over:
        text = take_sheave(Slip(text), {"part": name}).text
    return text, f"The wheel of {name} hangs from the beam.", new


def _from_floor(slip: Slip, sketch: Sketch, name: str) -> tuple[str, str, str]:
    """The hand that rode on a part stands on the floor."""
    for rope in slip.statements("rope"):
        for piece in slip.pieces(rope):
            if [word.text for word in piece] == ["hand", "at", name]:
                gone = Change(slip.after(piece[0]), slip.after(piece[-1]), "")
                return changed(slip.text, [gone]), "The hand hauls from the floor.", "hand"
    raise Refused(f"No hand rides on {name[:40] or 'nothing'}.")


def _without(slip: Slip, sketch: Sketch, rope: str) -> tuple[str, str, str]:
    """A rope taken away, and every block that only this rope held."""
    if rope not in sketch.ropes:
        raise Refused(f"No rope is called {rope[:40] or 'nothing'}.")
    text, gone = remove(slip, {"part": rope}).text, [rope]
    left = Sketch(Slip(text).tree)
    for block in sketch.of_kind("moving"):
        if block in sketch.touched and block not in left.touched:
            text = remove(Slip(text), {"part": block}).text
            gone.append(block)
    return text, f"{' and '.join(gone)} taken away.", next(iter(left.parts), "")


def _asked_pull(slip: Slip, sketch: Sketch, _: str) -> tuple[str, str, str]:
    """The pull is no more given, so that it is asked."""
    return set_value(slip, {"target": "effort", "value": ""}).text, "The pull is asked.", "hand"


def _told_weight(slip: Slip, sketch: Sketch, name: str) -> tuple[str, str, str]:
    """A part that weighs nothing is given a weight."""
    if sketch.kind(name) not in ("moving", "load"):
        raise Refused(f"{name[:40] or 'Nothing'} moves nowhere.")
    return set_value(slip, {"target": f"{name}.weight", "value": GIVEN}).text, f"{name} weighs {GIVEN}.", name


def _passes(piece: list[Word], side: str, name: str) -> bool:
    return len(piece) > 1 and piece[0].text == side and piece[1].text.partition(".")[0] == name


def _said(slip: Slip, piece: list[Word]) -> str:
    return slip.text[slip.at(piece[0].place) : slip.after(piece[-1])]


GIVEN = "10 N"  # an example, as good as any other that is not nought
MENDS: dict[str, Callable[[Slip, Sketch, str], tuple[str, str, str]]] = {
    "fixed": _fixed, "wheel-aloft": _wheel_aloft, "from-floor": _from_floor, "without": _without,
    "asked-pull": _asked_pull, "told-weight": _told_weight,
}  # fmt: skip
