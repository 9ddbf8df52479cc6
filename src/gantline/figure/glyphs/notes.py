"""What is written on a plate: force arrows, dimensions, discs, bands, scale bars. Each claims the room it takes."""

import re

from ..plate import Plate
from ..scene import Run
from ..words import plain, width

SHAFT, HEAD, HALF_HEAD, NOTCH = 3.1, 4.2, 1.45, 0.18
DISC, DISC_TEXT = 9.2, 13.5
LABEL = 15.0
_ARROW = re.compile(r"M-([\d.]+) 0V(-?[\d.]+)L-([\d.]+) (-?[\d.]+)L0 (-?[\d.]+)L")
SCALE_TEXT, TICK = 13.5, 12.0


def arrow(
    plate: Plate, part: str, x: float, tail: float, tip: float, role: str = "force", shaft: float = SHAFT
) -> None:
    """A filled arrow up or down the page, from `tail` to `tip` (px)."""
    plate.sheet.path(part, role, arrow_outline(tip - tail, shaft), x, tail)
    half = HALF_HEAD * shaft
    plate.claim(x - half, tail, x + half, tip)


def arrow_outline(length: float, shaft: float) -> str:
    """The outline of an arrow from the origin down the page (up, where `length` is negative)."""
    s = 1 if length > 0 else -1
    head = min(HEAD * shaft, 0.75 * abs(length))
    half = shaft / 2 if head == HEAD * shaft else shaft / 2 * 0.8
    wide = HALF_HEAD * shaft * head / (HEAD * shaft)
    neck = length - s * head * (1 - NOTCH)
    back = length - s * head
    left = f"M{-half:.2f} 0V{neck:.2f}L{-wide:.2f} {back:.2f}L0 {length:.2f}"
    return f"{left}L{wide:.2f} {back:.2f}L{half:.2f} {neck:.2f}V0Z"


def arrow_part(outline: str, share: float) -> str:
    """An arrow's outline on its way from the tail: `share` of its length, its head as large as there is room for."""
    half, neck, wide, back, tip = (float(number) for number in _ARROW.match(outline).groups())  # type: ignore[union-attr]
    s, length = (1 if tip > 0 else -1), abs(tip) * share
    fall = min(1.0, length / max(abs(tip - back), 1e-9))  # of the head
    back_now, neck_now = length - abs(tip - back) * fall, max(0.0, length - abs(tip - neck) * fall)
    left = f"M{-half:.2f} 0V{s * neck_now:.2f}L{-wide * fall:.2f} {s * back_now:.2f}L0 {s * length:.2f}"
    return f"{left}L{wide * fall:.2f} {s * back_now:.2f}L{half:.2f} {s * neck_now:.2f}V0Z"


def tick(plate: Plate, part: str, x: float, y: float) -> None:
    """A level tick across an arrow, where it ended before."""
    plate.sheet.line(part, "before", x - TICK, y, x + TICK, y)
    plate.claim(x - TICK, y - 1, x + TICK, y + 1)


def hollow_arrow(plate: Plate, x: float, tail: float, tip: float) -> None:
    """The pull that is asked for: dashed, hollow, its length says nothing."""
    s = 1 if tip > tail else -1
    back = tip - s * 19
    d = f"M{x - 3.6:.1f} {tail:.1f}V{back:.1f}H{x - 10:.1f}L{x:.1f} {tip:.1f}"
    d += f"L{x + 10:.1f} {back:.1f}H{x + 3.6:.1f}V{tail:.1f}Z"
    plate.sheet.path("hand", "hollow", d)
    plate.claim(x - 10, tail, x + 10, tip)


def disc(plate: Plate, part: str, x: float, y: float, text: str, out: bool = False) -> None:
    """A number in a ring; `out` where it does not count."""
    runs = plain(text)
    large = plate.large
    size = DISC_TEXT if large == 1 else LABEL  # seen from afar no smaller than other words
    radius = large * max(DISC, width(runs, size, 600) / 2 + 3.4)
    plate.sheet.circle(part, "disc-out" if out else "disc", x, y, radius)
    role = "mid-text" if out else "ink-text"
    plate.sheet.text(part, role, x, y + 0.34 * size * large, runs, size * large, 600, "middle")
    plate.claim(x - radius, y - radius, x + radius, y + radius)


def strike(plate: Plate, part: str, x: float, y: float) -> None:
    """One stroke through what does not count."""
    across, up = 13 * plate.large, 8 * plate.large
    plate.sheet.line(part, "strike", x - across, y + up, x + across, y - up)
    plate.claim(x - across, y - up, x + across, y + up)


def dimension(plate: Plate, part: str, x: float, start: float, end: float, edge: float) -> None:
    """The way of a part: a dot at the start, a slim arrow at the end, hair lines out to `edge` (px)."""
    sheet = plate.sheet
    s = 1 if end > start else -1
    out = x - 5 if edge > x else x + 5
    for y in (start, end):
        sheet.line(part, "way-hair", edge, y, out, y)
    head = min(10.0, abs(end - start) * 0.6)
    sheet.line(part, "way", x, start, x, end - s * head * 0.8)
    sheet.circle(part, "way-fill", x, start, 2.3)
    sheet.path(part, "way-fill", f"M{x:.1f} {end:.2f}l{-2.7} {-s * head:.1f}h5.4Z")
    plate.claim(min(edge, x - 6), min(start, end), max(edge, x + 6), max(start, end))


def scale_text(plate: Plate) -> float:
    """The size of the words at a scale bar; seen from afar no smaller than any other."""
    return SCALE_TEXT if plate.large == 1 else LABEL * plate.large


def scale_bar(plate: Plate, x: float, y: float, length: float, runs: tuple[Run, ...]) -> None:
    """A bar of a stated force."""
    sheet = plate.sheet
    sheet.path("scale", "scale", f"M{x:.2f} {y - 4:.1f}v8M{x:.2f} {y:.1f}h{length:.2f}M{x + length:.2f} {y - 4:.1f}v8")
    size = scale_text(plate)
    sheet.text("scale", "ink-text", x + length + 6, y + size / 3, runs, size)
    plate.claim(x, y - 8, x + length + 6 + width(runs, size), y + 8)
