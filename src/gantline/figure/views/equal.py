"""One rope, one pull: the same letter at every strand of a rope."""

from ..plate import Plate
from ..words import plain
from .strands import strand_texts, write_on_strands


def draw(plate: Plate) -> None:
    plate.draw_rig(values=False)
    letters = dict(plate.answer.tension_symbols)
    own = {run.name: letters.get(run.rope, "T") for run in plate.layout.runs}
    write_on_strands(plate, strand_texts(plate, own), "red-text")
    plate.caption = plain("One rope over free wheels pulls alike everywhere")
