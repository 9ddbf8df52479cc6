"""What every block is made of: straps or a crosshead that hold its wheels, and posts and lugs for rope ends."""

from ..layout import Body, Fast, Layout
from ..sheet import UNIT, Sheet
from . import hardware
from .sheave import draw_strap


def crosshead(sheet: Sheet, layout: Layout, body: Body, belly: int) -> None:
    """Posts, lugs, straps and the bar of a body. `belly` is the side its hook is on: 1 below, -1 above."""
    pencil = sheet.pencil(*body.parts)
    wheels = [wheel for wheel in layout.wheels if wheel.body == body.name]
    for end in layout.ends:
        if end.body == body.name:
            _seat(sheet, body, end, pencil)
    for wheel in wheels:
        draw_strap(sheet, wheel, body.y + (0.13 if wheel.y < body.y else -0.13) * (not body.bar))
    if body.bar:
        hardware.bar(sheet, body.name, (body.left, body.right), body.x, body.y, belly, pencil)


def _seat(sheet: Sheet, body: Body, end: Fast, pencil: bool) -> None:
    x, y = sheet.at(end.x, end.y)
    _, foot = sheet.at(0, body.y)
    if end.post:
        hardware.post(sheet, end.part, x, foot, y, pencil)
        return
    hardware.lug(sheet, end.part, x, y, foot + (0.05 * UNIT if y < foot else -0.05 * UNIT), pencil)
