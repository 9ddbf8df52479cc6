"""A sheave: a wheel with five curved arms, so that its turning can be seen, and the strap that holds its axle."""

from functools import cache
from math import cos, pi, sin

from ..layout import Wheel
from ..sheet import UNIT, Sheet

HALF_ROPE = 3.1
RIM, HUB = 0.17 * UNIT, 0.24 * UNIT
SHADE_DOWN, SHADE_UP = (8.0, 112.0), (-62.0, -8.0)


def draw_wheel(sheet: Sheet, wheel: Wheel, turn: float = 0.0, index: bool = False) -> None:
    """The wheel itself, turned clockwise by `turn` degrees, with an index dot on its rim where asked."""
    x, y = sheet.at(wheel.x, wheel.y)
    radius = wheel.r * UNIT - HALF_ROPE
    pencil = sheet.pencil(wheel.sheave, wheel.block)
    part = wheel.block
    sheet.circle(part, "wheel", x, y, radius, pencil)
    sheet.circle(part, "fine", x, y, radius - RIM, pencil)
    sheet.path(part, "spokes", arms(round(radius - RIM, 2)), x, y, pencil, turn)
    sheet.circle(part, "wheel", x, y, HUB, pencil)
    if not pencil:
        start, end = SHADE_UP if wheel.up else SHADE_DOWN
        sheet.arc(part, "shade", x, y, radius, start, end)
    if index:
        reach, angle = radius - RIM / 2, turn * pi / 180
        sheet.circle(part, "index", x + reach * cos(angle), y + reach * sin(angle), 0.1 * UNIT)


@cache
def arms(reach: float) -> str:
    """Five arms from the hub to the inner rim, bent the same way, tapering outward."""
    parts = []
    for number in range(5):
        a = 2 * pi * number / 5 + 0.5
        edges = [_point(HUB - 0.6, a, 2.5), _point(reach * 0.62, a + 0.16, 2.5), _point(reach, a + 0.55, 1.5)]
        back = [_point(reach, a + 0.55, -1.5), _point(reach * 0.62, a + 0.16, -2.2), _point(HUB - 0.6, a, -2.5)]
        (x0, y0), (x1, y1), (x2, y2) = edges
        (x3, y3), (x4, y4), (x5, y5) = back
        parts.append(
            f"M{x0:.1f} {y0:.1f}Q{x1:.1f} {y1:.1f} {x2:.1f} {y2:.1f}"
            f"L{x3:.1f} {y3:.1f}Q{x4:.1f} {y4:.1f} {x5:.1f} {y5:.1f}"
        )
    return "".join(parts)


def _point(radius: float, angle: float, aside: float) -> tuple[float, float]:
    return radius * cos(angle) - aside * sin(angle), radius * sin(angle) + aside * cos(angle)


def draw_strap(sheet: Sheet, wheel: Wheel, bar: float) -> None:
    """The strap from the line of the bar (y in radii) to just past the axle, with the axle's pin."""
    x, y = sheet.at(wheel.x, wheel.y)
    pencil = sheet.pencil(wheel.sheave, wheel.block)
    toward = 1 if wheel.y > bar else -1
    half = 0.2 * UNIT * (0.65 + 0.35 * wheel.r)
    length, tip = abs(wheel.y - bar) * UNIT, 0.34 * UNIT
    near, wide = half * 0.86, half * 1.12
    d = (
        f"M{-near:.1f} {-toward * length:.1f}L{-near:.1f} {-toward * 6}L{-wide:.1f} {toward * 1}"
        f"Q{-wide:.1f} {toward * tip * 0.6:.1f} "
        f"0 {toward * tip:.1f}Q{wide:.1f} {toward * tip * 0.6:.1f} {wide:.1f} {toward * 1}"
        f"L{near:.1f} {-toward * 6}V{-toward * length:.1f}Z"
    )
    sheet.path(wheel.block, "metal", d, x, y, pencil)
    if not pencil:
        sheet.path(
            wheel.block, "edge", f"M{near:.1f} {-toward * length:.1f}V{-toward * 6}L{wide:.1f} {toward * 1}", x, y
        )
    sheet.circle(wheel.block, "metal", x, y, 0.12 * UNIT, pencil)
    sheet.circle(wheel.block, "dot", x, y, 1.1, pencil)
