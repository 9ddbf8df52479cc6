"""The question: a hollow dashed arrow at the hand. Its length says nothing."""

from ..glyphs import notes
from ..labels import Wanted, around
from ..plate import Plate
from ..scene import Run
from ..words import plain, symbol
from .strands import hand_line, rider_label, write_on_strands

LENGTH, SIZE = 64.0, 24.0


def draw(plate: Plate) -> None:
    plate.draw_rig(values=False)
    words = (*symbol(plate.rig.effort_symbol), Run(" = ?"))
    line = hand_line(plate)
    wanted = rider_label(plate, words) if line is None else []
    if line:
        x, y, sense = line
        plate.sheet.layer = "force"
        notes.hollow_arrow(plate, x, y, y + sense * LENGTH)
        box = (x - 10, min(y, y + sense * LENGTH), x + 10, max(y, y + sense * LENGTH))
        wanted = [Wanted("hand", "red-text", words, SIZE, 600, around(box, SIZE))]
    write_on_strands(plate, {}, extra=wanted)
    plate.caption = plain("How hard must you pull?" if plate.layout.grip else "What happens when it is let go?")
