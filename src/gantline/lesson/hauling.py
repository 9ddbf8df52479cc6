"""What the page needs to haul a rig before the reader's eyes, by the true ratios."""

from gantline.account import measure
from gantline.figure import Layout, draw, kinematics
from gantline.mechanics import Answer
from gantline.rig import Rig

from .lesson import Hauling


def hauling(rig: Rig, answer: Answer, layout: Layout) -> Hauling | None:
    """How the rig is hauled; None where nothing can be."""
    motion = kinematics(rig, answer, layout) if rig.hand is not None and answer.status == "holds" else None
    if motion is None or motion.most <= 0:
        return None
    scene = draw(rig, answer, "bare", layout=layout, caption=False, frame="steps")
    return Hauling(motion, scene, _ways(rig, answer))


def _ways(rig: Rig, answer: Answer) -> tuple[tuple[str, float, str], ...]:
    """The way of the hand and of every load, where the file asks for a motion."""
    found = []
    for name, way in answer.travel:
        if way.number is not None and (name == "hand" or name in {load.name for load in rig.loads}):
            shown = measure(rig, abs(way.number), "m")
            found.append(("rope to your hand" if name == "hand" else name, float(shown.number), shown.unit))
    return tuple(found)
