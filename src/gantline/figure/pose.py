"""A rig as it really stands at one hand travel: blocks at their true tilt, axles and loads at their true rise.

One scale serves the whole figure: so many px a metre that the wheels of the block stand apart as they really do.
"""

from itertools import pairwise
from math import cos, degrees, sin
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from gantline.mechanics import FIXED, Moment, Setup, Steady, Touch

from .glyphs.load import ring_height
from .layout import Body, Fast, Layout, NotDrawable, Wheel
from .plate import Plate
from .scene import Arc, Circle, Line, Path, Primitive, Text
from .sheet import UNIT


class Pose(Struct, frozen=True):
    """What moves on the page: rises (radii, upward) and tilts (rad, positive lifts the right of the page) by body of
    the layout, and the turn of each sheave as the room sees it (degrees, clockwise). `hand` is its travel (radii).

    `middles` has the true middle of each block across the page, `beckets` how far right of it a rope's end is fast, by
    strand and part (radii).
    """

    rises: dict[str, float]
    tilts: dict[str, float]
    turns: dict[str, float]
    hand: float
    middles: dict[str, float] = {}
    beckets: dict[tuple[str, str], float] = {}


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
        middles=_middles(layout, setup, scale, senses),
        beckets=_beckets(layout, setup, scale, senses),
    )


def tipped(layout: Layout, setup: Setup, state: Steady, share: float = 1.0) -> Pose:
    """The steady tilt alone, or a share of it, every block where the figure has it."""
    of = _bodies(layout, setup)
    senses = {body.name: _sense(layout, setup, body) for body in layout.bodies}
    scale = scale_of(layout, setup) / UNIT
    tilts = {of[name]: share * tilt * senses[of[name]] for name, tilt in state.tilt.items()}
    middles, beckets = _middles(layout, setup, scale, senses), _beckets(layout, setup, scale, senses)
    return Pose({}, tilts, {}, 0.0, middles, beckets)


def _middles(layout: Layout, setup: Setup, scale: float, senses: dict[str, int]) -> dict[str, float]:
    """The middle of each block across the page (radii), told from its wheels: a row may not be roved to its ends."""
    true = {wheel.name: wheel.x * scale for wheel in setup.wheels}
    found: dict[str, list[float]] = {}
    for wheel in layout.wheels:
        found.setdefault(wheel.body, []).append(wheel.x - true[wheel.sheave] * senses[wheel.body])
    return {body: sum(places) / len(places) for body, places in found.items()}


def _beckets(layout: Layout, setup: Setup, scale: float, senses: dict[str, int]) -> dict[tuple[str, str], float]:
    """Where the file says that rope ends are fast on blocks that tilt. On what stays the place bears on nothing; where
    the file says nothing the page keeps its own place, and `unplaced` says so."""
    return {
        (name, touch.part): touch.x * scale * senses[layout.body(touch.part).name]
        for name, touch in _fast(setup) if touch.part not in unplaced(setup)
    }  # fmt: skip


def unplaced(setup: Setup) -> tuple[str, ...]:
    """The blocks that tilt and have a rope's end whose place the file does not give."""
    assumed = {name for one in setup.assumed if one.what == "becket" for name in one.parts}
    return tuple(dict.fromkeys(touch.part for _, touch in _fast(setup) if touch.part in assumed))


def _fast(setup: Setup) -> list[tuple[str, Touch]]:
    """The ends of strands on the sheave line of blocks that tilt; an end at a hook or a pin hangs in the middle."""
    return [
        (span.name, touch) for span in setup.spans for touch in span.touches
        if touch.body != FIXED and setup.bodies[touch.body].tilts and not touch.side and not touch.z
    ]  # fmt: skip


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
    true = tuple(replace(end, x=_across(layout, at, end)) for end in layout.ends)
    ends = tuple(replace(end, y=end.y - rises[end.body] - _lift(layout, at, end.body, end.x)) for end in true)
    wheels = tuple(replace(wheel, y=wheel.y - lifts[wheel.sheave]) for wheel in layout.wheels)
    grip = layout.grip and replace(layout.grip, y=layout.grip.y - at.hand * (1 if layout.grip.up else -1))
    moved = {(end.strand, end.part): (end.x, end.y) for end in ends}

    def place(name: str, strand: str, x: float, y: float) -> tuple[float, float]:
        if name == "hand" and grip:
            return x, grip.y
        return (x, y - lifts[name]) if name in lifts else moved.get((strand, name), (x, y))

    runs = []
    for run in layout.runs:
        x1, y1 = place(run.ends[0], run.name, run.x1, run.y1)
        x2, y2 = place(run.ends[1], run.name, run.x2, run.y2)
        runs.append(replace(run, x1=x1, y1=y1, x2=x2, y2=y2))
    level = tuple(replace(body, y=body.y - rises[body.name]) for body in layout.bodies)
    bottom = max(layout.bottom, grip.y + 1.2) if grip else layout.bottom
    seen = replace(layout, bodies=level, wheels=wheels, runs=tuple(runs), ends=ends, grip=grip, bottom=bottom)
    still = tuple(replace(wheel, y=wheel.y - rises[wheel.body]) for wheel in layout.wheels)
    stays = tuple(replace(end, y=end.y - rises[end.body]) for end in true)
    return seen, replace(seen, wheels=still, ends=stays)


def _across(layout: Layout, at: Pose, end: Fast) -> float:
    """Where a rope's end is across the page (radii): at its true place on its block, else where the page has it."""
    true = at.beckets.get((end.strand, end.part))
    return end.x if true is None else at.middles[end.body] + true


def _lift(layout: Layout, at: Pose, body: str, x: float) -> float:
    """How much higher (radii) the tilt sets what stands at x on a body."""
    tilt = at.tilts.get(body, 0.0)
    return (x - at.middles[body]) * sin(tilt) if tilt else 0.0


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
            tip = _Tip(plate, seen, level, body, at)
            plate.sheet.marks[begun:] = [tip.tipped(mark) for mark in plate.sheet.marks[begun:]]
    plate.layout = seen
    plate.draw_hand()
    return seen


class _Tip:
    """Tips what was drawn of a level body: ironwork turns, the load hangs on below its pin, rope ends stay put."""

    def __init__(self, plate: Plate, seen: Layout, level: Layout, body: Body, pose: Pose) -> None:
        at = plate.sheet.at
        self.body, self.tilt = body, pose.tilts[body.name]
        self.x, self.y = at(pose.middles[body.name], pivot(level, body)[1])
        ends = [pair for pair in zip(level.ends, seen.ends, strict=True) if pair[0].body == body.name]
        self.stays = {_near(*at(was.x, was.y)): at(now.x, now.y) for was, now in _pairs(level, seen, body)}
        self.stays |= {_near(*at(was.x, was.y)): at(now.x, now.y) for was, now in ends}
        self.lifted = {end.rope: at(end.x, end.y)[1] - at(was.x, was.y)[1] for was, end in ends}
        pin = at(body.x, ring_height(level, body))
        turned = self.turned(*pin)
        self.hangs = turned[0] - pin[0], turned[1] - pin[1]

    def turned(self, x: float, y: float) -> tuple[float, float]:
        """Where a point of the ironwork comes to (px)."""
        if _near(x, y) in self.stays:
            return self.stays[_near(x, y)]
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
