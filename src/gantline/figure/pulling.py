"""What pulls on the bodies in ink, where they hang: an arrow a force, all of one length, for no pull is known yet."""

from gantline.mechanics import Answer
from gantline.rig import Rig

from .alt import describe
from .draw import steps_box
from .forces import Force, pulls_on, weights_on
from .glyphs import notes
from .labels import Wanted, around, body_boxes, clear, obstacle_boxes, settle
from .layout import Body, Layout, NotDrawable
from .plate import Box, Plate
from .scene import Scene

LONG, OFF = 44.0, 4.0  # px: an arrow, and its tail from what it pulls on
ASIDE = 9.0  # px from a load to a weight that finds no room under it


def pulled(
    rig: Rig, answer: Answer, layout: Layout, lit: tuple[str, ...], large: float = 1.0, frame: Box | None = None
) -> Scene:
    """The rig with the forces on every moving body that is in ink; words stay inside `frame` (px). Raises NotDrawable
    where nothing that moves is in ink."""
    plate = Plate(rig, answer, layout, frozenset(lit), large=large)
    box = steps_box(plate)
    plate.frame = frame
    bodies = [body for body in layout.bodies if body.side == "moving" and set(body.parts) & set(lit)]
    if not bodies:
        raise NotDrawable("Nothing that moves is spoken of, so there is nothing that is pulled.")
    plate.draw_rig(values=False)
    plate.sheet.layer = "force"
    wanted = _once([label for body in bodies for label in _on(plate, body)])
    plate.sheet.layer = "label"
    settle(plate, wanted)
    return Scene("free-body", box[0], box[1], box[2] - box[0], box[3] - box[1], rig.title,
                 describe(rig, answer, "free-body"), tuple(plate.sheet.marks))  # fmt: skip


def _once(wanted: list[Wanted]) -> list[Wanted]:
    """A strand that pulls on both its ends has its letter once."""
    seen: set[str] = set()
    kept = []
    for label in wanted:
        if not label.on or label.on not in seen:
            kept.append(label)
        seen.add(label.on)
    return kept


def _on(plate: Plate, body: Body) -> list[Wanted]:
    """The arrows on a body, and the labels they want: pulls along their strands, weights under the load."""
    regime = plate.answer.regime("holding") or plate.answer.ideal
    wanted = [_pull(plate, force) for force in pulls_on(plate, body, regime)]
    weights = weights_on(plate, body)
    x, y, down = _foot(plate, body, len(weights))
    for force in weights:
        wanted.append(_arrow(plate, force, x, y, y + down, "weight"))
        y += down
    return wanted


def _pull(plate: Plate, force: Force) -> Wanted:
    """From the near end of the strand's clear stretch, away from the body; no longer than that stretch."""
    run = next(run for run in plate.layout.runs if run.name == force.strand)
    top, bottom = (plate.sheet.at(0, y)[1] for y in clear(plate.layout, run))
    x, _ = plate.sheet.at(run.x1, 0)
    long = min(LONG, max(bottom - top - 2 * OFF, 12.0))
    tail, tip = (bottom - OFF, bottom - OFF - long) if force.up else (top + OFF, top + OFF + long)
    return _arrow(plate, force, x, tail, tip, "force")


def _foot(plate: Plate, body: Body, count: int) -> tuple[float, float, float]:
    """Where weights begin, and how long each is: under what hangs lowest, or beside it where the frame ends there."""
    boxes = body_boxes(plate, body.name)
    wheels = [
        (*plate.sheet.at(w.x - w.r, w.y - w.r), *plate.sheet.at(w.x + w.r, w.y + w.r))
        for w in plate.layout.wheels
        if w.body == body.name
    ]
    left, top, right, bottom = max(boxes or wheels, key=lambda box: box[3])
    if plate.frame is None or bottom + count * LONG + OFF <= plate.frame[3]:
        return (left + right) / 2, bottom + OFF, LONG
    high = min(LONG, (bottom - top) / max(count, 1))
    taken = [box for box in obstacle_boxes(plate) if box[1] < bottom and box[3] > top]
    free = min((box[0] for box in taken if box[0] >= right), default=right + 10 * LONG) - right
    away = left - max((box[2] for box in taken if box[2] <= left), default=left - 10 * LONG)
    return (right + ASIDE if free >= away else left - ASIDE), top, high


def _arrow(plate: Plate, force: Force, x: float, tail: float, tip: float, role: str) -> Wanted:
    notes.arrow(plate, force.part, x, tail, tip, role, 4.4)
    box = (x - 7, min(tail, tip), x + 7, max(tail, tip))
    words = "red-text" if role == "force" else "ink-text"
    return Wanted(force.part, words, force.words, 17.0, 600, around(box, 17.0), force.strand)
