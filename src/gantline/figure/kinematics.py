"""How the machine moves on the page: rates of every part, turns of every wheel, and how far it can go."""

from msgspec import Struct
from msgspec.structs import replace

from gantline.mechanics import Answer
from gantline.rig import Rig

from .layout import Body, Fast, Grip, Layout, Straight, Wheel
from .layout.sizes import HAND_HIGH, HAND_LEFT, HAND_RIGHT, load_depth
from .sheet import UNIT

CLEARANCE = 0.3  # radii left between things at the end of the travel
LONGEST = 60.0


class WheelMotion(Struct, frozen=True):
    """A wheel on the page: centre (px), radius (px), and its turn (degrees, clockwise) for each px of travel."""

    sheave: str
    body: str
    x: float
    y: float
    r: float
    turn: float


class StrandMotion(Struct, frozen=True):
    """A strand on the page (px) and how its two ends move down for each px of travel."""

    strand: str
    x1: float
    y1: float
    x2: float
    y2: float
    rate1: float
    rate2: float


class RopePath(Struct, frozen=True):
    """A rope from its first end: pieces in turn, `strand` names or wheels with the angles of the wrap (degrees)."""

    rope: str
    pieces: tuple[tuple[str, str, float, float], ...]  # kind (strand or wrap), name, start angle, end angle


class Kinematics(Struct, frozen=True):
    """What a page needs to haul the rig. One unit of travel is a px the hand moves (without a hand: the fastest part).

    `bodies` are (name, px down the page for each px of travel); `most` the largest travel (px) before anything meets;
    `hand` is the hand's own rate down the page, 0 where there is none.
    """

    bodies: tuple[tuple[str, float], ...]
    wheels: tuple[WheelMotion, ...]
    strands: tuple[StrandMotion, ...]
    ropes: tuple[RopePath, ...]
    hand: float
    most: float


def kinematics(rig: Rig, answer: Answer, layout: Layout) -> Kinematics | None:
    """How the rig moves, or None where the answer gives no motion."""
    rises = rates(rig, answer, layout)
    if rises is None:
        return None
    ends = {run.name: _end_rates(layout, run, rises) for run in layout.runs}
    turns = turn_rates(layout, ends)
    wheels = tuple(
        WheelMotion(w.sheave, w.body, w.x * UNIT, w.y * UNIT, w.r * UNIT, turns[number] / UNIT)
        for number, w in enumerate(layout.wheels)
    )
    strands = tuple(
        StrandMotion(r.name, r.x1 * UNIT, r.y1 * UNIT, r.x2 * UNIT, r.y2 * UNIT, *ends[r.name]) for r in layout.runs
    )
    bodies = tuple((body.name, -rises[body.name]) for body in layout.bodies)
    return Kinematics(
        bodies, wheels, strands, _paths(layout), -rises.get("hand", 0.0), reach(layout, rises, ends) * UNIT
    )


def rates(rig: Rig, answer: Answer, layout: Layout) -> dict[str, float] | None:
    """Rise of each body for one unit of travel, and of the hand. None where nothing is known to move."""
    if not answer.regimes:
        return None
    found: dict[str, float] = {body.name: 0.0 for body in layout.bodies}
    hauled = answer.freedoms == 1 and any(
        motion.per_hand is not None and motion.per_hand.number is not None for motion in answer.ideal.motions
    )
    for motion in answer.ideal.motions:
        value = motion.per_hand if hauled else motion.acceleration
        number = value.number if value is not None else None
        body = _body_of(layout, motion.name)
        if body is not None and number is not None:
            found[body] = float(number)
    largest = max((abs(rate) for rate in found.values()), default=0.0)
    if largest == 0.0:
        return None
    if not hauled:
        return {name: rate / largest for name, rate in found.items()}
    if layout.grip:
        found["hand"] = _hand_rate(layout, found)
    return found


def _body_of(layout: Layout, part: str) -> str | None:
    return next((body.name for body in layout.bodies if part in body.parts), None)


def _hand_rate(layout: Layout, rises: dict[str, float]) -> float:
    """The hand's rise on the page for one unit of rope taken up: a rider moves with the rope's other parts."""
    grip = layout.grip
    assert grip is not None
    if grip.body:
        return rises[grip.body]
    return 1.0 if grip.up else -1.0


def _end_rates(layout: Layout, run: Straight, rises: dict[str, float]) -> tuple[float, float]:
    """How fast a strand's start and end move down the page."""
    return tuple(-_point_rate(layout, name, rises) for name in run.ends)  # type: ignore[return-value]


def _point_rate(layout: Layout, name: str, rises: dict[str, float]) -> float:
    if name == "hand":
        return rises.get("hand", 0.0)
    wheel = next((w for w in layout.wheels if w.sheave == name), None)
    body = wheel.body if wheel else _body_of(layout, name)
    return rises[body] if body else 0.0


def turn_rates(layout: Layout, ends: dict[str, tuple[float, float]]) -> list[float]:
    """Degrees (clockwise on the page) each wheel turns for one radius of travel: the rope that has passed it / r."""
    grown: dict[str, float] = {}
    total: dict[str, float] = {}
    growth = {run.name: growth_of(run, ends[run.name]) for run in layout.runs}
    for run in layout.runs:
        total[run.rope] = total.get(run.rope, 0.0) + growth[run.name]
        grown[run.name] = total[run.rope]
    # A rider takes rope up past the hand: what the rope's length on the page loses has come through at that end.
    through = {w.rope: total[w.rope] if _hand_first(layout, w.rope) else 0.0 for w in layout.wheels}
    factor = 57.29577951308232
    return [-w.sense * (-1 if w.up else 1) * (grown[w.before] - through[w.rope]) / w.r * factor for w in layout.wheels]


def growth_of(run: Straight, rate: tuple[float, float]) -> float:
    """How fast a strand grows longer on the page, its ends moving down at these rates."""
    if not run.plumb:
        return 0.0
    return (rate[1] - rate[0]) if run.y2 > run.y1 else (rate[0] - rate[1])


def _hand_first(layout: Layout, rope: str) -> bool:
    first = next(run for run in layout.runs if run.rope == rope)
    return first.ends[0] == "hand"


def _paths(layout: Layout) -> tuple[RopePath, ...]:
    from .glyphs.rope import angles

    found: dict[str, list[tuple[str, str, float, float]]] = {}
    wheels = {wheel.before: wheel for wheel in layout.wheels}
    for run in layout.runs:
        pieces = found.setdefault(run.rope, [])
        pieces.append(("strand", run.name, 0.0, 0.0))
        wheel = wheels.get(run.name)
        if wheel:
            first, _, last = angles(wheel)
            pieces.append(("wrap", wheel.sheave, first, last))
    return tuple(RopePath(rope, tuple(pieces)) for rope, pieces in found.items())


Moving = tuple[
    str, float, float, float, float, float, float
]  # owner, left, top, right, bottom, rates of top and bottom


def reach(layout: Layout, rises: dict[str, float], ends: dict[str, tuple[float, float]]) -> float:
    """The travel (radii) before two things would meet, or a strand would be used up."""
    from .labels import clear

    least = LONGEST
    for run in layout.runs:
        shrink = -growth_of(run, ends[run.name])
        top, bottom = clear(layout, run)
        if shrink > 1e-9 and run.plumb:
            least = min(least, max(bottom - top - CLEARANCE, 0.0) / shrink)
    boxes = _boxes(layout, rises, ends)
    for number, one in enumerate(boxes):
        for other in boxes[number + 1 :]:
            least = min(least, _meeting(one, other))
    return max(least, 0.0)


def _boxes(layout: Layout, rises: dict[str, float], ends: dict[str, tuple[float, float]]) -> list[Moving]:
    boxes: list[Moving] = []
    for body in layout.bodies:
        rate = -rises[body.name]
        if body.bar:
            boxes.append((body.name, body.left, body.y - 0.3, body.right, body.y + 0.3, rate, rate))
        if body.loads:
            bottom = body.y + 1.35 + load_depth(len(body.loads), body.rider)
            boxes.append((body.name, body.x - 1.1, body.y, body.x + 1.1, bottom, rate, rate))
    if layout.grip and not layout.grip.body:
        x, y, rate = layout.grip.x, layout.grip.y, -rises.get("hand", 0.0)
        boxes.append((layout.grip.strand, x - HAND_LEFT, y - HAND_HIGH, x + HAND_RIGHT, y + HAND_HIGH, rate, rate))
    for run in layout.runs:
        if run.plumb:
            first, last = ends[run.name]
            top, bottom = (first, last) if run.y1 < run.y2 else (last, first)
            boxes.append((run.name, run.x1 - 0.2, run.high, run.x1 + 0.2, run.low, top, bottom))
    return boxes


def _meeting(one: Moving, other: Moving) -> float:
    """The travel after which the two boxes touch; for those that never do, the longest."""
    if one[0] == other[0] or one[1] >= other[3] or other[1] >= one[3]:
        return LONGEST
    above, below = (one, other) if one[2] < other[2] else (other, one)
    gap, closing = below[2] - above[4], above[6] - below[5]
    if gap < 0 or closing <= 1e-9:
        return LONGEST
    return max(gap - 0.1, 0.0) / closing


def reach_of(rig: Rig, answer: Answer, layout: Layout) -> float:
    """The travel (radii) the rig can make on the page, 0 where nothing is known to move."""
    rises = rates(rig, answer, layout)
    if rises is None:
        return 0.0
    return reach(layout, rises, {run.name: _end_rates(layout, run, rises) for run in layout.runs})


def moved(rig: Rig, answer: Answer, layout: Layout, travel: float) -> tuple[Layout, dict[str, float]]:
    """The layout after the travel (radii), and how far each wheel has turned (degrees)."""
    rises = rates(rig, answer, layout) or {}
    ends = {run.name: _end_rates(layout, run, rises) for run in layout.runs} if rises else {}
    if not rises:
        return layout, {}

    def fall(name: str) -> float:
        return -rises[name] * travel

    turns = turn_rates(layout, ends)
    bodies: tuple[Body, ...] = tuple(replace(b, y=b.y + fall(b.name)) for b in layout.bodies)
    wheels: tuple[Wheel, ...] = tuple(replace(w, y=w.y + fall(w.body)) for w in layout.wheels)
    fasts: tuple[Fast, ...] = tuple(replace(e, y=e.y + fall(e.body)) for e in layout.ends)
    runs = tuple(
        replace(r, y1=r.y1 + ends[r.name][0] * travel, y2=r.y2 + ends[r.name][1] * travel) for r in layout.runs
    )
    grip: Grip | None = layout.grip
    if grip:
        grip = replace(grip, y=grip.y - rises.get("hand", 0.0) * travel)
    low = max(
        [layout.bottom, *(layout.bottom + fall(b.name) for b in layout.bodies), *([grip.y + 1.2] if grip else [])]
    )
    after = replace(layout, bodies=bodies, wheels=wheels, ends=fasts, runs=runs, grip=grip, bottom=low)
    return after, {w.sheave: turns[n] * travel for n, w in enumerate(layout.wheels)}
