"""The pull carried along the ropes: how many times the hand's pull each strand has."""

from gantline.mechanics import carry
from gantline.quantity import text

from ..plate import Plate
from ..words import plain
from .strands import strand_texts, write_on_strands


def draw(plate: Plate) -> None:
    plate.draw_rig(values=False)
    own = {one.strand: _written(text(one.formula)) for one in carry(plate.rig)}
    write_on_strands(plate, strand_texts(plate, own), "red-text")
    plate.caption = plain("The hand’s pull, carried along the ropes")


def _written(formula: str) -> str:
    return formula.replace("*", "").replace("-", "−")
