"""The numbers: the pull of each strand, and of the hand."""

from ..plate import Plate
from ..words import mathematics, plain
from .labelled import pulls
from .strands import hand_arrow, strand_texts, write_on_strands


def draw(plate: Plate) -> None:
    plate.draw_rig()
    regime = plate.answer.ideal
    own = {p.name: plate.value(p.tension) for p in regime.strands if p.tension}
    if not all(own.values()):
        own, _ = pulls(plate)
    effort = plate.value(regime.effort)
    words = mathematics(f"{plate.rig.effort_symbol} = {effort}") if effort else None
    marked = any(part == "hand" for part, _ in plate.marks)
    label = hand_arrow(plate, words=words)
    write_on_strands(plate, strand_texts(plate, own), extra=[] if marked else label)
    plate.caption = plain("The pull of every strand")
