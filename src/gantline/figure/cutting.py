"""The bag: a closed dashed line round one body, wide round its block and narrow round its load."""

from .counting import Crossing, crossings
from .glyphs.load import ring_height
from .layout import Body, NotDrawable
from .layout.sizes import load_depth
from .plate import Plate

CORNER = 15.0
ROUND_BAR, ROUND_WHEEL, ROUND_LOAD, OVER, UNDER = 0.27, 0.46, 0.4, 0.55, 0.5


class Bag:
    """The outline in px: `wide` box, and `narrow` box below it (None where one box holds all)."""

    def __init__(self, plate: Plate, body: Body) -> None:
        self.plate, self.body = plate, body
        self.crossings = crossings(plate.layout, body)
        at = plate.sheet.at
        left, top, right, bottom = _extent(plate, body, self.crossings)
        self.left, self.top = at(left, top)
        self.right, self.bottom = at(right, bottom)
        self.narrow: tuple[float, float, float] | None = None
        if body.loads:
            ring = ring_height(plate.layout, body)
            low = ring + load_depth(len(body.loads), body.rider) + ROUND_LOAD
            half = 1.0 + ROUND_LOAD
            (x1, y), (x2, _) = at(body.x - half, low), at(body.x + half, low)
            if y > self.bottom + CORNER and x1 > self.left + CORNER and x2 < self.right - CORNER:
                self.narrow = (x1, x2, y)
            else:
                self.left, self.right, self.bottom = min(self.left, x1), max(self.right, x2), max(self.bottom, y)
        self._check()

    def _check(self) -> None:
        """Only strands of the body may cross, each once."""
        own = {crossing.run.name for crossing in self.crossings}
        for run in self.plate.layout.runs:
            (x1, y1), (x2, y2) = self.plate.sheet.at(run.x1, run.high), self.plate.sheet.at(run.x2, run.low)
            inside = self.left < max(x1, x2) and min(x1, x2) < self.right and y1 < self.bottom and y2 > self.top
            held = any(
                wheel.body == self.body.name
                for wheel in self.plate.layout.wheels
                if run.name in (wheel.before, wheel.after)
            )
            if inside and run.name not in own and not held:
                raise NotDrawable(
                    f"A line round {self.body.name} would also cut {run.name}, which does not hold it.",
                    (self.body.name,),
                )

    def tint(self) -> None:
        self.plate.sheet.path(self.body.name, "bag", self.outline())

    def draw(self) -> None:
        """The dashed line, and a double tick on every strand that crosses it."""
        sheet = self.plate.sheet
        sheet.layer = "cut"
        sheet.path(self.body.name, "cut", self.outline())
        for crossing in self.crossings:
            x, y = sheet.at(crossing.run.x1, 0)[0], self.top if crossing.up else self.bottom
            sheet.path(crossing.run.rope, "tick", f"M{x - 8:.1f} {y - 4:.1f}h16M{x - 8:.1f} {y + 4:.1f}h16")
            self.plate.claim(x - 8, y - 5, x + 8, y + 5)
        self.plate.claim(self.left, self.top - 1, self.right, self.top + 1)
        self.plate.claim(self.left - 1, self.top, self.left + 1, self.bottom)
        self.plate.claim(self.right - 1, self.top, self.right + 1, self.bottom)
        low = self.narrow[2] if self.narrow else self.bottom
        self.plate.claim(self.left, low - 1, self.right, low + 1)

    def outline(self) -> str:
        c, left, top, right, bottom = CORNER, self.left, self.top, self.right, self.bottom
        start = f"M{left:.1f} {bottom - c:.1f}V{top + c:.1f}q0-{c} {c}-{c}H{right - c:.1f}"
        start += f"q{c} 0 {c} {c}V{bottom - c:.1f}q0 {c}-{c} {c}"
        if self.narrow is None:
            return f"{start}H{left + c:.1f}q-{c} 0-{c}-{c}Z"
        x1, x2, low = self.narrow
        inner = min(c, (right - x2) / 2, (x1 - left) / 2, (low - bottom) / 2)
        return (
            f"{start}H{x2 + inner:.1f}q{-inner:.1f} 0 {-inner:.1f} {inner:.1f}V{low - c:.1f}q0 {c}-{c} {c}H{x1 + c:.1f}"
            f"q-{c} 0-{c}-{c}V{bottom + inner:.1f}"
            f"q0 {-inner:.1f} {-inner:.1f} {-inner:.1f}H{left + c:.1f}q-{c} 0-{c}-{c}Z"
        )


def _extent(plate: Plate, body: Body, found: list[Crossing]) -> tuple[float, float, float, float]:
    layout = plate.layout
    wheels = [wheel for wheel in layout.wheels if wheel.body == body.name]
    ends = [end for end in layout.ends if end.body == body.name]
    lefts = [w.x - w.r - ROUND_WHEEL for w in wheels] + [e.x - 0.7 for e in ends]
    rights = [w.x + w.r + ROUND_WHEEL for w in wheels] + [e.x + 0.7 for e in ends]
    tops = [w.y - w.r - OVER for w in wheels] + [(e.y - 1.0 - OVER if e.up else e.y - 0.6) for e in ends]
    lows = [w.y + w.r + UNDER for w in wheels] + [(e.y + 1.0 + UNDER if not e.up else e.y + 0.6) for e in ends]
    if body.bar:
        lefts, rights = [*lefts, body.left - ROUND_BAR], [*rights, body.right + ROUND_BAR]
    tops.append(body.y - 0.6)
    lows.append(body.y + (1.1 if wheels or body.bar else 0.6))
    if layout.grip and layout.grip.body == body.name:
        tops.append(layout.grip.y - 1.0)
        lefts.append(layout.grip.x - 0.8)
        rights.append(layout.grip.x + 0.8)
    return min(lefts), min(tops), max(rights), max(lows)
