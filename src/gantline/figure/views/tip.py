"""The block at the tilt that real wheels give it, against a level line, the rest of the rig where it was."""

from gantline.mechanics import steady
from gantline.rig import stand_in

from ..labels import settle
from ..layout import NotDrawable
from ..plate import Plate
from ..pose import draw_posed, tipped
from .strands import part_marks
from .tried import LEAST, tilts_beside


def draw(plate: Plate, share: float = 1.0) -> None:
    """`share` of the tilt, for a figure on its way there."""
    start = plate.layout
    found = steady(stand_in(plate.rig).rig)
    if found.setup is None or found.raising is None:
        raise NotDrawable("How the block hangs with real wheels cannot be told for this rig.")
    at = tipped(start, found.setup, found.raising, share)
    if all(abs(tilt) < LEAST for tilt in found.raising.tilt.values()):
        raise NotDrawable("The block hangs level here, with real wheels too.")
    after = draw_posed(plate, at)
    angles = tilts_beside(plate, after, at)
    plate.sheet.layer = "label"
    settle(plate, [*angles, *part_marks(plate)])
    plate.layout = start
