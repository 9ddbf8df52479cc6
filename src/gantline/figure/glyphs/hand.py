"""The hand on the hauled end, in outline: four fingers round the rope, thumb, wrist and cuff."""

from ..layout import Grip
from ..sheet import Sheet

PALM = "M2-15C12-18 20-13 27-7L39 2L29 17C22 12 14 17 6 17Z"
CUFF = "M36-3.5L51 7.2L40 23.6L25 12.9Z"
CUFF_SHADE = "M51 7.2L40 23.6"
FINGERS = (
    "M-9.2-13.8h17a3.9 3.9 0 0 1 0 7.8h-17a3.9 3.9 0 0 1 0-7.8Z"
    "M-9.8-6h18a3.9 3.9 0 0 1 0 7.8h-18a3.9 3.9 0 0 1 0-7.8Z"
    "M-9 1.8h17a3.9 3.9 0 0 1 0 7.8h-17a3.9 3.9 0 0 1 0-7.8Z"
    "M-7 9.6h13a3.6 3.6 0 0 1 0 7.2h-13a3.6 3.6 0 0 1 0-7.2Z"
)
THUMB = (
    "M-5-14.6C-5-19.4 3-19.6 8-17.6C13.5-15.4 17-11 18.6-7C19.6-3.4 15.4-2 13-4.6"
    "C9.6-8.4 5-11-1-10.8C-3.8-10.9-5-12.4-5-14.6Z"
)
GHOST = "M-13-16H10C20-16 34-6 40 4L28 20C22 13 14 17 8 17H-13Z"


def draw(sheet: Sheet, grip: Grip) -> None:
    """A whole hand; of a rider only the fist, for the arm is the load's."""
    x, y = sheet.at(grip.x, grip.y)
    pencil = sheet.pencil("hand")
    up = grip.up and not grip.body
    if not grip.body:
        sheet.path("hand", "skin", PALM, x, y, pencil, flip=up)
        sheet.path("hand", "metal", CUFF, x, y, pencil, flip=up)
        if not pencil:
            sheet.path("hand", "bold", CUFF_SHADE, x, y, flip=up)
    sheet.path("hand", "skin", FINGERS, x, y, pencil, flip=up)
    sheet.path("hand", "skin", THUMB, x, y, pencil, flip=up)
