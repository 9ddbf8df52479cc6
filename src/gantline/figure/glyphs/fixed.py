"""A fixed part: hung from the beam or standing on the floor, as a block or as single eyes."""

from ..layout import Body, Layout
from ..layout.sizes import EYE, OVERHANG
from ..sheet import UNIT, Sheet
from . import hardware
from .block import crosshead

HATCH_PITCH, HATCH_HEIGHT = 0.235 * UNIT, 0.42 * UNIT


def draw(sheet: Sheet, layout: Layout, body: Body) -> None:
    toward = 1 if body.side == "ceiling" else -1
    ground = 0.0 if toward > 0 else (layout.floor or 0.0)
    pencil = sheet.pencil(*body.parts)
    wheels = [wheel for wheel in layout.wheels if wheel.body == body.name]
    if wheels:
        x, y = sheet.at(body.x, ground)
        hardware.plate(sheet, body.name, x, y, toward, pencil)
        hardware.ring(sheet, body.name, x, y + toward * 0.42 * UNIT, pencil)
        _, line = sheet.at(0, body.y)
        collar = line - toward * (0.13 * UNIT + (3.0 if body.bar else 0.0))
        reach = abs(collar - y) - 1.02 * UNIT
        hardware.short_hook(sheet, body.name, x, collar, -toward, pencil, max(reach, 0.0))
        crosshead(sheet, layout, body, -toward)
        return
    for end in layout.ends:
        if end.body == body.name:
            own = sheet.pencil(*body.parts, end.strand, end.rope)
            x, y = sheet.at(end.x, ground)
            hardware.plate(sheet, body.name, x, y, toward, own)
            hardware.ring(sheet, body.name, x, y + toward * EYE * UNIT, own)


def draw_grounds(sheet: Sheet, layout: Layout) -> None:
    """Beam and floor, hatched, only as long as what they hold."""
    for side, ground in (("ceiling", 0.0), ("floor", layout.floor)):
        anchors = [x for body in layout.bodies if body.side == side for x in _anchors(layout, body)]
        if anchors and ground is not None:
            _ground(sheet, min(anchors) - OVERHANG, max(anchors) + OVERHANG, ground, side == "ceiling")


def _anchors(layout: Layout, body: Body) -> list[float]:
    if any(wheel.body == body.name for wheel in layout.wheels):
        return [body.x]
    return [end.x for end in layout.ends if end.body == body.name]


def _ground(sheet: Sheet, start: float, stop: float, ground: float, above: bool) -> None:
    (left, y), (right, _) = sheet.at(start, ground), sheet.at(stop, ground)
    pencil = sheet.pencil("beam")
    count = int((right - left) / HATCH_PITCH)
    foot = y if above else y + HATCH_HEIGHT
    slope = f"l{HATCH_HEIGHT:.1f} {-HATCH_HEIGHT:.1f}"
    strokes = []
    for number in range(count):
        x = left + number * HATCH_PITCH
        short = min(HATCH_HEIGHT, right - x)
        strokes.append(f"M{x:.1f} {foot:.1f}" + (slope if short == HATCH_HEIGHT else f"l{short:.1f} {-short:.1f}"))
    sheet.path("beam", "hair", "".join(strokes), 0, 0, pencil)
    sheet.line("beam", "shade", left, y, right, y, pencil)
