"""The rig alone, with its loads' letters and weights: nothing that gives the answer away."""

from ..plate import Plate
from ..words import plain


def draw(plate: Plate) -> None:
    plate.draw_rig()
    plate.caption = plain(plate.rig.title)
