"""A rig as it really stands at one hand travel: blocks at their true tilt, axles and loads at their true rise.

One scale serves the whole figure: so many px a metre that the wheels of the block stand apart as they really do.
"""

from itertools import pairwise
from math import cos, degrees, sin
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from gantline.mechanics import FIXED, Moment, Setup, Steady

from .glyphs.load import ring_height
from .layout import Body, Layout, NotDrawable, Wheel
from .plate import Plate
from .scene import Arc, Circle, Line, Path, Primitive, Text
from .sheet import UNIT


class Pose(Struct, frozen=True):
    """What moves on the page: rises (radii, upward) and tilts (rad, positive lifts the right of the page) by body of
    the layout, and the turn of each sheave as the room sees it (degrees, clockwise). `hand` is its travel (radii)."""

    rises: dict[str, float]
    tilts: dict[str, float]
    turns: dict[str, float]
    hand: float


def pose(layout: Layout, setup: Setup, moment: Moment) -> Pose:
    """The pose of a moment of a trial. NotDrawable where the figure lays a block's wheels in another order than the
    block has them: then a tilt on the page would be a false one."""
    senses = {body.name: _sense(layout, setup, body) for body in layout.bodies}
    of = _bodies(layout, setup)
    scale = scale_of(layout, setup) / UNIT
    sheaves = {wheel.sheave: senses[wheel.body] for wheel in layout.wheels}
    return Pose(
        rises={of[name]: rise * scale for name, rise in moment.rises.items()},
        tilts={of[name]: tilt * senses[of[name]] for name, tilt in moment.tilt.items()},
        turns={name: -degrees(turn) * sheaves[name] for name, turn in moment.turns.items() if name in sheaves},
        hand=moment.hand * scale,
    )


def tipped(layout: Layout, setup: Setup, state: Steady, share: float = 1.0) -> Pose:
    """The steady tilt alone, or a share of it, every block where the figure has it."""
    of = _bodies(layout, setup)
    tilts = {of[name]: share * tilt * _sense(layout, setup, layout.body(of[name])) for name, tilt in state.tilt.items()}
    return Pose({}, tilts, {}, 0.0)


def scale_of(layout: Layout, setup: Setup) -> float:
    """Px a metre: by the distance of the outermost wheels of the block asked about, by a radius where it has one."""
    moving = [wheel for wheel in setup.wheels if wheel.body == setup.aim]
    wheels = moving or [wheel for wheel in setup.wheels if wheel.body != FIXED] or list(setup.wheels)
    if not wheels:
        raise NotDrawable("Nothing in this rig turns, so real wheels would show nothing else.")
    far, near = max(wheels, key=lambda one: one.x), min(wheels, key=lambda one: one.x)
    places = {wheel.sheave: wheel for wheel in layout.wheels}
    apart = abs(places[far.name].x - places[near.name].x)
    return UNIT * (apart / (far.x - near.x) if far.x > near.x else places[near.name].r / near.radius)


def _bodies(layout: Layout, setup: Setup) -> dict[str, str]:
    """The body on the page for each body of a trial."""
    return {body.name: layout.body(body.name).name for body in setup.bodies}


def _sense(layout: Layout, setup: Setup, body: Body) -> int:
    """1 where the page has a block's right at its right, -1 where it shows it from behind."""
    places = {wheel.sheave: wheel for wheel in layout.wheels if wheel.body == body.name}
    own = sorted((wheel for wheel in setup.wheels if wheel.name in places), key=lambda one: one.x)
    across = [places[wheel.name].x for wheel in own]
    if len(across) == 1:
        return -own[0].side * places[own[0].name].sense
    steps = {(after > before) - (after < before) for before, after in pairwise(across)}
    if len(steps) > 1:
        raise NotDrawable(
            "The figure lays the wheels in the order in which the rope meets them, which is not their order on the "
            "block; the tilt is told in numbers.", body.parts,
        )  # fmt: skip
    return steps.pop() if steps else 1


def posed(layout: Layout, at: Pose) -> tuple[Layout, Layout]:
    """The layout with its wheels, strands and hand in the pose; and one with its bodies risen but still level."""
    rises = {body.name: at.rises.get(body.name, 0.0) for body in layout.bodies}
    lifts = {wheel.sheave: rises[wheel.body] + _lift(layout, at, wheel.body, wheel.x) for wheel in layout.wheels}
    ends = tuple(replace(end, y=end.y - rises[end.body] - _lift(layout, at, end.body, end.x)) for end in layout.ends)
    wheels = tuple(replace(wheel, y=wheel.y - lifts[wheel.sheave]) for wheel in layout.wheels)
    grip = layout.grip and replace(layout.grip, y=layout.grip.y - at.hand * (1 if layout.grip.up else -1))
    moved = {(end.strand, end.part): end.y for end in ends}

    def height(name: str, strand: str, y: float) -> float:
        if name == "hand" and grip:
            return grip.y
        return y - lifts[name] if name in lifts else moved.get((strand, name), y)

    runs = tuple(
        replace(run, y1=height(run.ends[0], run.name, run.y1), y2=height(run.ends[1], run.name, run.y2))
        for run in layout.runs
    )
    level = tuple(replace(body, y=body.y - rises[body.name]) for body in layout.bodies)
    bottom = max(layout.bottom, grip.y + 1.2) if grip else layout.bottom
    seen = replace(layout, bodies=level, wheels=wheels, runs=runs, ends=ends, grip=grip, bottom=bottom)
    still = tuple(replace(wheel, y=wheel.y - rises[wheel.body]) for wheel in layout.wheels)
    stays = tuple(replace(end, y=end.y - rises[end.body]) for end in layout.ends)
    return seen, replace(seen, wheels=still, ends=stays)


def _lift(layout: Layout, at: Pose, body: str, x: float) -> float:
    """How much higher (radii) the tilt sets what stands at x on a body."""
    tilt = at.tilts.get(body, 0.0)
    return (x - pivot(layout, layout.body(body))[0]) * sin(tilt) if tilt else 0.0


def pivot(layout: Layout, body: Body) -> tuple[float, float]:
    """The middle of a block's sheave line (radii): it rises, the rest tilts about it."""
    wheels = [wheel for wheel in layout.wheels if wheel.body == body.name]
    if not wheels:
        return body.x, body.y
    return (min(w.x for w in wheels) + max(w.x for w in wheels)) / 2, sum(w.y for w in wheels) / len(wheels)


def draw_posed(plate: Plate, at: Pose) -> Layout:
    """The whole rig in a pose. Returns the layout in which wheels and strands stand as drawn."""
    seen, level = posed(plate.layout, at)
    plate.layout = seen
    plate.draw_ropes(at.turns)
    plate.layout = level
    labels = plate.labels(False)
    plate.sheet.layer = "body"
    for body in level.bodies:
        begun = len(plate.sheet.marks)
        plate.draw_body(body, labels)
        if at.tilts.get(body.name):
            tip = _Tip(plate, seen, level, body, at.tilts[body.name])
            plate.sheet.marks[begun:] = [tip.tipped(mark) for mark in plate.sheet.marks[begun:]]
    plate.layout = seen
    plate.draw_hand()
    return seen


class _Tip:
    """Tips what was drawn of a level body: ironwork turns, the load hangs on below its pin, rope ends stay put."""

    def __init__(self, plate: Plate, seen: Layout, level: Layout, body: Body, tilt: float) -> None:
        at = plate.sheet.at
        self.body, self.tilt = body, tilt
        self.x, self.y = at(*pivot(level, body))
        self.axles = {_near(*at(w.x, w.y)): at(v.x, v.y) for w, v in _pairs(level, seen, body)}
        self.lifted = {end.rope: at(end.x, end.y)[1] - at(was.x, was.y)[1]
                       for was, end in zip(level.ends, seen.ends, strict=True) if end.body == body.name}  # fmt: skip
        pin = at(body.x, ring_height(level, body))
        turned = self.turned(*pin)
        self.hangs = turned[0] - pin[0], turned[1] - pin[1]

    def turned(self, x: float, y: float) -> tuple[float, float]:
        """Where a point of the ironwork comes to (px)."""
        if _near(x, y) in self.axles:
            return self.axles[_near(x, y)]
        c, s, across, down = cos(self.tilt), sin(self.tilt), x - self.x, y - self.y
        return self.x + c * across + s * down, self.y - s * across + c * down

    def tipped(self, mark: Primitive) -> Primitive:
        if mark.part in self.body.loads:
            return _shifted(mark, *self.hangs)
        if mark.part in self.lifted and mark.part not in self.body.parts:
            return _shifted(mark, 0.0, self.lifted[mark.part])
        changes: dict[str, Any] = {}
        if isinstance(mark, Line):
            changes["x1"], changes["y1"] = self.turned(mark.x1, mark.y1)
            changes["x2"], changes["y2"] = self.turned(mark.x2, mark.y2)
        elif isinstance(mark, Path | Circle | Arc | Text):
            changes["x"], changes["y"] = self.turned(mark.x, mark.y)
        if isinstance(mark, Path):
            changes["turn"] = mark.turn - degrees(self.tilt)
        return replace(mark, **changes)


def _pairs(level: Layout, seen: Layout, body: Body) -> list[tuple[Wheel, Wheel]]:
    return [pair for pair in zip(level.wheels, seen.wheels, strict=True) if pair[0].body == body.name]


def _near(x: float, y: float) -> tuple[float, float]:
    return round(x, 3), round(y, 3)


def _shifted(mark: Primitive, across: float, down: float) -> Primitive:
    if isinstance(mark, Line):
        return replace(mark, x1=mark.x1 + across, x2=mark.x2 + across, y1=mark.y1 + down, y2=mark.y2 + down)
    if isinstance(mark, Path | Circle | Arc | Text):
        return replace(mark, x=mark.x + across, y=mark.y + down)
    return mark
