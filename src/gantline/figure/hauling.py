"""The rig on the way: after any travel, wheels turned, paint marks carried along; or on its way to the true tilt."""

from math import radians

from msgspec.structs import replace

from gantline.mechanics import Answer
from gantline.rig import Rig

from .alt import describe
from .draw import steps_box
from .kinematics import moved, rates
from .layout import Layout, Straight
from .plate import Plate
from .scene import Primitive, Scene, Strand, Wrap
from .sheet import UNIT
from .views.displacement import ghosts, shown_travel
from .views.motion import paint, painted
from .views.tip import draw as draw_tip

__all__ = ["hauled", "shown_travel", "tipping"]


def hauled(
    rig: Rig, answer: Answer, layout: Layout, travel: float, lit: tuple[str, ...] | None = None, large: float = 1.0
) -> Scene:
    """The rig after `travel` (radii of the fastest part, as `kinematics` counts), in the frame of a lesson's steps.

    Every wheel has an index dot and every rope three paint marks, and the lay runs with the rope, so that turning and
    running can be seen.
    """
    plate = Plate(rig, answer, layout, None if lit is None else frozenset(lit), large=large)
    box = steps_box(plate)
    plate.sheet.layer = "ghost"
    ghosts(plate, layout, rates(rig, answer, layout) or {})
    places = painted(layout)
    plate.layout, turns = moved(rig, answer, layout, travel)
    plate.draw_rig(values=False, turns=turns, index=True)
    runs = {run.name: _run(layout, plate.layout, run, turns) * UNIT for run in layout.runs}
    plate.sheet.marks = [_carried(mark, runs, turns) for mark in plate.sheet.marks]
    plate.sheet.layer = "paint"
    for rope, lengths in places.items():
        for length in lengths:
            paint(plate, plate.layout, rope, length)
    words = describe(rig, answer, "displacement")
    return Scene("displacement", box[0], box[1], box[2] - box[0], box[3] - box[1], rig.title, words,
                 tuple(plate.sheet.marks))  # fmt: skip


def tipping(
    rig: Rig, answer: Answer, layout: Layout, share: float, lit: tuple[str, ...] | None = None, large: float = 1.0
) -> Scene:
    """The rig on its way to the tilt that real wheels give it. Raises NotDrawable where it has none."""
    plate = Plate(rig, answer, layout, None if lit is None else frozenset(lit), large=large)
    box = steps_box(plate)
    draw_tip(plate, share)
    return Scene("tip", box[0], box[1], box[2] - box[0], box[3] - box[1], rig.title, describe(rig, answer, "tip"),
                 tuple(plate.sheet.marks))  # fmt: skip


def _carried(mark: Primitive, runs: dict[str, float], turns: dict[str, float]) -> Primitive:
    """A piece of rope with its lay as far as the rope has run."""
    if isinstance(mark, Strand) and mark.name in runs:
        return replace(mark, run=runs[mark.name])
    if isinstance(mark, Wrap):
        return replace(mark, run=turns.get(mark.sheave, 0.0))
    return mark


def _run(before: Layout, after: Layout, run: Straight, turns: dict[str, float]) -> float:
    """How far (radii) the rope of a strand has come down from the strand's upper end as it is now; of a level strand,
    how far along from its first end."""
    now = next(one for one in after.runs if one.name == run.name)
    at = next((n for n, wheel in enumerate(before.wheels) if run.name in (wheel.before, wheel.after)), None)
    if at is None:  # from one end to another: it goes with either
        return (now.y1 - run.y1) - (now.high - run.high) if run.plumb else 0.0
    wheel, there = before.wheels[at], after.wheels[at]
    round = radians(turns.get(wheel.sheave, 0.0)) * wheel.r
    if not run.plumb:
        return round * (1 if (wheel.up is False) == (run.x2 > run.x1) else -1)
    side = 1 if run.x1 > wheel.x else -1
    return (there.y - wheel.y) + side * round - (now.high - run.high)
