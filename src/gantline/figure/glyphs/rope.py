"""A rope: its strands, its wraps on wheels, its ends. One rope is plain hemp; several differ in colour and lay."""

from ..layout import Fast, Grip, Layout, Wheel
from ..sheet import UNIT, Sheet

EYE_LOOP = "M0 {0}C-10.5 {1}-9.4 {2} 0 {2}C9.4 {2} 10.5 {1} 0 {0}Z"
LONG = 0.62 * UNIT
TURNS, PITCH = 4, 0.085 * UNIT
TAIL = 0.95 * UNIT


def lays(layout: Layout) -> dict[str, int]:
    """Each rope's look: 0 for a rope on its own, else 1 to 4 in order."""
    ropes = list(dict.fromkeys(run.rope for run in layout.runs))
    return {rope: 0 if len(ropes) == 1 else 1 + number % 4 for number, rope in enumerate(ropes)}


def draw(sheet: Sheet, layout: Layout, skip: frozenset[str] = frozenset()) -> None:
    """All strands and wraps, the strands named in `skip` left out."""
    look = lays(layout)
    for wheel in layout.wheels:
        _wrap(sheet, wheel, look[wheel.rope])
    for run in layout.runs:
        if run.name not in skip:
            ends = (*sheet.at(run.x1, run.y1), *sheet.at(run.x2, run.y2))
            sheet.strand(run.rope, run.name, ends, look[run.rope], sheet.pencil(run.rope, run.name))


def _wrap(sheet: Sheet, wheel: Wheel, lay: int) -> None:
    x, y = sheet.at(wheel.x, wheel.y)
    first, middle, last = angles(wheel)
    halves = [(first, middle, wheel.before), (middle, last, wheel.after)]
    pencils = [sheet.pencil(wheel.rope, strand) for _, _, strand in halves]
    sheet.sheave = wheel.sheave
    if pencils[0] == pencils[1]:
        halves = [(first, last, wheel.before)]
    for (start, end, strand), pencil in zip(halves, pencils, strict=False):
        if start != end:
            sheet.wrap(wheel.rope, strand, x, y, wheel.r * UNIT, (start, end), lay, pencil)
    sheet.sheave = ""


def angles(wheel: Wheel) -> tuple[float, float, float]:
    """Where the rope comes on to the wheel, is half round it, and leaves it: degrees, clockwise from the right."""
    middle = 90.0 if wheel.up else 270.0
    first = 180.0 if wheel.sense > 0 else (0.0 if wheel.up else 360.0)
    last = 180.0 if wheel.sense < 0 else (0.0 if wheel.up else 360.0)
    return (middle if wheel.level[0] else first), middle, (middle if wheel.level[1] else last)


def draw_end(sheet: Sheet, end: Fast, lay: int, parts: tuple[str, ...]) -> None:
    """An eye round its pin, and the seizing."""
    x, y = sheet.at(end.x, end.y)
    s = -1 if end.up else 1
    pencil = sheet.pencil(end.rope, end.strand)
    loop = EYE_LOOP.format(f"{s * LONG:.1f}", f"{s * LONG * 0.28:.1f}", f"{s * -7.6:.1f}")
    sheet.path(end.rope, f"eye{lay}-case", loop, x, y, pencil)
    sheet.path(end.rope, f"eye{lay}", loop, x, y, pencil)
    sheet.circle(end.part, "metal", x, y, 0.085 * UNIT, sheet.pencil(*parts, end.strand, end.rope))
    _turns(sheet, end.rope, x, y + s * LONG, s, TURNS, pencil)


def draw_tail(sheet: Sheet, grip: Grip, lay: int) -> None:
    """What hangs out of the hand: a tail with three whipping turns."""
    x, y = sheet.at(grip.x, grip.y)
    s = -1 if grip.up else 1
    pencil = sheet.pencil(grip.rope, grip.strand, "hand")
    for role in (f"rope{lay}-case", f"rope{lay}"):
        sheet.line(grip.rope, role, x, y, x, y + s * TAIL, pencil)
    _turns(sheet, grip.rope, x, y + s * (TAIL - 2.2 * PITCH), s, 3, pencil)


def _turns(sheet: Sheet, rope: str, x: float, y: float, s: int, count: int, pencil: bool) -> None:
    strokes = "".join(f"M-4.6 {s * PITCH * n + 0.5:.1f}l9.2-1" for n in range(count))
    sheet.path(rope, "turns", strokes, x, y, pencil)
