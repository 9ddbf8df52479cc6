"""Every strand with its number, from the standing end along the rope."""

from ..counting import in_order
from ..plate import Plate
from ..words import plain
from .strands import discs, hand_arrow, write_on_strands


def draw(plate: Plate) -> None:
    plate.draw_rig()
    discs(plate, {run.name: str(n) for n, run in enumerate(in_order(plate.layout), 1)})
    write_on_strands(plate, {}, extra=hand_arrow(plate))
    plate.caption = plain("Strands numbered from the standing end")
