"""A moving block: wheels on a strap or crosshead, a hook for its loads. A load on several ropes has the same bar."""

from ..layout import Body, Layout
from ..layout.sizes import BAR_TO_RING
from ..sheet import UNIT, Sheet
from . import hardware
from .block import crosshead


def draw(sheet: Sheet, layout: Layout, body: Body) -> None:
    hung = body.bar or any(wheel.body == body.name for wheel in layout.wheels)
    if not hung:
        return
    pencil = sheet.pencil(*body.parts)
    if body.loads:
        x, y = sheet.at(body.x, body.y)
        drop = 0.13 * UNIT + (0.02 * (body.right - body.left) * UNIT if body.bar else 0.0)
        collar = y + min(drop, 0.32 * UNIT)
        slack = (BAR_TO_RING * UNIT) - (collar - y) - 1.05 * UNIT
        hardware.hook(sheet, body.name, x, collar, pencil, max(slack, 0.0))
    crosshead(sheet, layout, body, 1 if body.loads else 0)
