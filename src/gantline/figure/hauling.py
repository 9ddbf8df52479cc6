"""The rig on the way: after any travel, wheels turned, paint marks carried along; or on its way to the true tilt."""

from gantline.mechanics import Answer
from gantline.rig import Rig

from .alt import describe
from .draw import steps_box
from .kinematics import moved, rates
from .layout import Layout
from .plate import Plate
from .scene import Scene
from .views.displacement import ghosts, shown_travel
from .views.motion import paint, painted
from .views.tip import draw as draw_tip

__all__ = ["hauled", "shown_travel", "tipping"]


def hauled(
    rig: Rig, answer: Answer, layout: Layout, travel: float, lit: tuple[str, ...] | None = None, large: float = 1.0
) -> Scene:
    """The rig after `travel` (radii of the fastest part, as `kinematics` counts), in the frame of a lesson's steps.

    Every wheel has an index dot and every rope three paint marks, so that turning and running can be seen.
    """
    plate = Plate(rig, answer, layout, None if lit is None else frozenset(lit), large=large)
    box = steps_box(plate)
    plate.sheet.layer = "ghost"
    ghosts(plate, layout, rates(rig, answer, layout) or {})
    places = painted(layout)
    plate.layout, turns = moved(rig, answer, layout, travel)
    plate.draw_rig(values=False, turns=turns, index=True)
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
