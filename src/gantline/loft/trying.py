"""The view *Tried*: what is really seen when the rig, or a light stand-in, is hauled; how far, and why."""

from functools import lru_cache
from typing import Any

from gantline.account import assumed_says, ending_says, seen
from gantline.figure import Layout, NotDrawable, Scene, draw, hand_room
from gantline.mechanics import trial
from gantline.rig import Rig, stand_in

from .reading import Reading

ROUND = (0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001)  # m, of which the farthest that fits is shown first
LEAST = 0.001  # m of rope


def tried(reading: Reading, layout: Layout, hand: float | None) -> tuple[Scene, dict[str, Any]]:
    """The figure for so much rope (m), and what goes with it. Raises NotDrawable, with the reason."""
    reason = why_not(reading.rig)
    if reason:
        raise NotDrawable(reason)
    most = hand_room(reading.rig, reading.answer, layout)
    shown = min(hand, most) if hand is not None else next((each for each in ROUND if each <= most), most)
    shown = max(shown, min(LEAST, most))
    scene = draw(reading.rig, reading.answer, "tried", layout=layout, hand=shown)
    return scene, {"hand": shown, "most": most, **_said(reading.rig)}


def why_not(rig: Rig) -> str:
    """Why nothing can be told of what is seen, in a sentence; empty where it can."""
    found = trial(stand_in(rig).rig, ())
    if found.setup is not None or not found.endings:
        return ""
    said = ending_says(found.endings[0]).partition(": ")[2]
    return f"{said[:1].upper()}{said[1:]}"


@lru_cache(maxsize=4)
def _said(rig: Rig) -> dict[str, Any]:
    """What a learner sees in order, the reason, and what was taken for what the file does not say."""
    found = seen(rig)
    if found is None:
        return {"sees": [], "why": "", "assumed": list(assumed_says(trial(stand_in(rig).rig, ())))}
    return {"sees": list(found.sees), "why": found.why, "assumed": list(found.assumed)}
