"""A load: a cast weight with a shouldered top and a ring; or a person on a plank."""

from ..layout import Body, Layout
from ..layout.sizes import BAR_TO_RING, LOAD_PITCH, LOAD_TOP
from ..scene import Run
from ..sheet import UNIT, Sheet
from ..words import width
from . import hardware

CASTING = "M-9.5 0C-10.5 5-15 7.6-22 8.2Q-30 9-30 15.5V52.5H30V15.5Q30 9 22 8.2C15 7.6 10.5 5 9.5 0Z"
CASTING_SHADE = "M30 14V52.5H-30"
ROOM = 50.0  # for letters on a casting, px
SYMBOL_SIZE, VALUE_SIZE, LEAST_SIZE = 17.0, 14.8, 10.8

Label = tuple[tuple[Run, ...], tuple[Run, ...]]  # symbol and value, either may be empty


def ring_height(layout: Layout, body: Body) -> float:
    """The height of the first load's ring, in radii."""
    hung = body.bar or any(wheel.body == body.name for wheel in layout.wheels)
    return body.y + (BAR_TO_RING if hung else 0.0)


def draw(sheet: Sheet, layout: Layout, body: Body, labels: dict[str, Label]) -> None:
    for number, name in enumerate(body.loads):
        x, y = sheet.at(body.x, ring_height(layout, body) + number * LOAD_PITCH)
        pencil = sheet.pencil(name)
        rider = body.rider and number == len(body.loads) - 1
        if number:
            sheet.line(name, "rod-case", x, y - 0.4 * UNIT, x, y - RING_REACH, pencil)
        hardware.ring(sheet, name, x, y, pencil)
        if rider:
            _person(sheet, layout, body, name, (x, y), pencil)
            _write(sheet, name, labels, x, y + 4.62 * UNIT, pencil, beside=True)
            continue
        top = y + LOAD_TOP * UNIT
        sheet.path(name, "load", CASTING, x, top, pencil)
        if not pencil:
            sheet.path(name, "shade", CASTING_SHADE, x, top)
        _write(sheet, name, labels, x, top, pencil)


RING_REACH = 0.2 * UNIT


def _write(
    sheet: Sheet, name: str, labels: dict[str, Label], x: float, top: float, pencil: bool, beside: bool = False
) -> None:
    symbol, number = labels.get(name, ((), ()))
    if beside:
        words = (*symbol, Run(" = "), *number) if symbol and number else symbol or number
        sheet.text(name, "ink-text", x, top + 13, words, VALUE_SIZE, 600, "middle", pencil)
        return
    if symbol:
        size = _fit(symbol, SYMBOL_SIZE)
        sheet.text(name, "ink-text", x, top + (27.0 if number else 36.5), symbol, size, 600, "middle", pencil)
    if number:
        size = _fit(number, VALUE_SIZE)
        sheet.text(name, "ink-text", x, top + (46.0 if symbol else 36.0), number, size, 500, "middle", pencil)


def _fit(runs: tuple[Run, ...], size: float) -> float:
    """The size at which the words fit on the casting, never below the least readable one."""
    across = width(runs, size, 600)
    return max(LEAST_SIZE, min(size, size * ROOM / across))


def _person(sheet: Sheet, layout: Layout, body: Body, name: str, at: tuple[float, float], pencil: bool) -> None:
    """Plank with bridle, head, trunk, and an arm to the rope that is hauled: plain, no face."""
    x, y = at
    sheet.path(name, "fine", f"M{x:.1f} {y + 6:.1f}l-27 86M{x:.1f} {y + 6:.1f}l27 86", 0, 0, pencil)
    sheet.path(name, "skin", "M-10 92V130h-6v5h13V95M10 92V130h6v5h-13V95", x, y, pencil)
    sheet.path(name, "load", "M-7 50H7C14 50 15 58 14 66L12 91H-12L-14 66C-15 58-14 50-7 50Z", x, y, pencil)
    sheet.circle(name, "skin", x, y + 38, 9.5, pencil)
    sheet.path(name, "metal", "M-30 90H30V97H-30Z", x, y, pencil)
    sheet.path(name, "arm-case", "M-12 56Q-22 68-15 78L-6 82", x, y, pencil)
    sheet.path(name, "arm", "M-12 56Q-22 68-15 78L-6 82", x, y, pencil)
    if layout.grip and layout.grip.body == body.name:
        gx, gy = sheet.at(layout.grip.x, layout.grip.y)
        bend = f"M{x + 12:.1f} {y + 56:.1f}Q{(x + gx) / 2 + 6:.1f} {y + 62:.1f} {gx - 3:.1f} {gy + 4:.1f}"
        sheet.path(name, "arm-case", bend, 0, 0, pencil)
        sheet.path(name, "arm", bend, 0, 0, pencil)
