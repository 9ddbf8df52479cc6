"""Which strands hold what, and in which order strands are numbered: from the standing end along the rope."""

from msgspec import Struct

from .layout import Body, Layout, NotDrawable, Straight
from .plate import Plate


class Crossing(Struct, frozen=True):
    """A strand that leaves a body: `up` where it pulls the body up."""

    run: Straight
    up: bool


def in_order(layout: Layout) -> list[Straight]:
    """All strands, each rope from its standing end; a rope read from the hand is turned round."""
    ropes: dict[str, list[Straight]] = {}
    for run in layout.runs:
        ropes.setdefault(run.rope, []).append(run)
    return [run for runs in ropes.values() for run in (runs[::-1] if runs[0].ends[0] == "hand" else runs)]


def held_body(plate: Plate) -> Body:
    """The body the question is about: the one that has the load asked about, else the first with a load."""
    layout, aim = plate.layout, plate.answer.aim or plate.rig.aim
    for body in layout.bodies:
        if aim in body.parts and body.side == "moving":
            return body
    for body in layout.bodies:
        if body.loads:
            return body
    raise NotDrawable("Nothing hangs in this rig, so there is nothing to cut free.")


def crossings(layout: Layout, body: Body) -> list[Crossing]:
    """The strands that leave a body, in numbering order. A strand with both ends on the body does not leave it."""
    found = []
    for run in in_order(layout):
        at = [n for n, name in enumerate(run.ends) if _holds(layout, body, name)]
        if len(at) == 1 and run.plumb:
            far = run.y2 if at[0] == 0 else run.y1
            near = run.y1 if at[0] == 0 else run.y2
            found.append(Crossing(run, far < near))
    return found


def _holds(layout: Layout, body: Body, name: str) -> bool:
    if name == "hand":
        return bool(layout.grip and layout.grip.body == body.name)
    return name in body.parts or any(w.sheave == name and w.body == body.name for w in layout.wheels)
