"""Every body alone, with cut rope stubs, and the forces on it as arrows to one scale."""

from msgspec.structs import replace

from ..counting import crossings
from ..forces import Force, bar_length, pulls_on, weights_on
from ..glyphs import notes
from ..glyphs import rope as rope_glyph
from ..glyphs import sheave as sheave_glyph
from ..glyphs.load import ring_height
from ..labels import Wanted, around, settle
from ..layout import Body, Layout
from ..layout.sizes import load_depth
from ..plate import Plate
from ..scene import Panel
from ..sheet import UNIT
from ..words import plain, symbol, width

STUB, GUTTER, LONGEST, SHORTEST, CAPTION = 0.95, 56.0, 150.0, 14.0, 15.0
PULL_LEAST = 34.0


def draw(plate: Plate) -> None:
    whole = plate.layout
    bodies = [body for body in whole.bodies if crossings(whole, body)]
    forces = {body.name: _forces(plate, body) for body in bodies}
    before = {body.name: _forces(plate.earlier, body) if plate.earlier else [] for body in bodies}
    all_of_them = [one for found in (*forces.values(), *before.values()) for one in found]
    numbers = [float(abs(one.number)) for one in all_of_them if one.number]
    unknown = any(f.number is None for found in forces.values() for f in found)
    scale = None if unknown or not numbers else _scale(numbers)
    left, tall = 0.0, _tallest(whole, bodies, {name: [*found, *before[name]] for name, found in forces.items()}, scale)
    for body in bodies:
        left = _panel(plate, whole, body, forces[body.name], before[body.name], scale, left, tall)
    plate.layout = whole
    plate.sheet.origin = (0.0, 0.0)
    if scale:
        plate.scale = scale
        length, words = bar_length(plate, scale)
        plate.sheet.layer = "scale"
        notes.scale_bar(plate, 0.0, tall / 2 + 8, length, plain(words))


def _scale(numbers: list[float]) -> float:
    """The longest arrow has its full length; where that would make the shortest a dot, it may grow to twice that."""
    scale = LONGEST / max(numbers)
    return min(max(scale, SHORTEST / min(numbers)), 1.6 * scale)


def _forces(plate: Plate, body: Body) -> list[Force]:
    regime = plate.answer.regime("holding") or plate.answer.ideal
    pulls = pulls_on(plate, body, regime)
    weights = weights_on(plate, body) if body.side == "moving" else []
    if body.side == "moving":
        return [*pulls, *weights]
    support = next((s for s in regime.supports if s.name in body.parts), None)
    number = support.force.number if support and support.force else None
    letter = "R" if sum(one.side != "moving" for one in plate.layout.bodies) == 1 else f"R_{body.name[:1]}"
    up = body.side == "ceiling" if number is None else number >= 0
    return [*pulls, *weights_on(plate, body), Force(body.name, symbol(letter[:1]), number, up)]


def _size(force: Force, scale: float | None) -> float:
    return abs(float(force.number)) * scale if scale and force.number is not None else PULL_LEAST


def _tallest(whole: Layout, bodies: list[Body], forces: dict[str, list[Force]], scale: float | None) -> float:
    longest = 0.0
    for body in bodies:
        up = max((_size(f, scale) for f in forces[body.name] if f.up), default=0.0)
        down = max((_size(f, scale) for f in forces[body.name] if not f.up), default=0.0)
        longest = max(longest, up + down + (_low(whole, body) - _high(whole, body)) * UNIT)
    return longest + 60.0


def _high(layout: Layout, body: Body) -> float:
    tops = [w.y - (STUB if w.up else w.r) for w in layout.wheels if w.body == body.name]
    tops += [e.y - (1.9 if e.up else 0.4) for e in layout.ends if e.body == body.name]
    return min([*tops, body.y - 1.3 if body.side == "ceiling" else body.y - 0.3])


def _low(layout: Layout, body: Body) -> float:
    lows = [w.y + (w.r if w.up else STUB) for w in layout.wheels if w.body == body.name]
    lows += [e.y + (1.9 if not e.up else 0.4) for e in layout.ends if e.body == body.name]
    if body.loads:
        lows.append(ring_height(layout, body) + load_depth(len(body.loads), body.rider))
    return max([*lows, body.y + 1.3 if body.side == "floor" else body.y + 0.3])


def _panel(
    plate: Plate, whole: Layout, body: Body, forces: list[Force], before: list[Force], scale: float | None,
    left: float, tall: float,
) -> float:  # fmt: skip
    """One body, centred on its own height; returns where the next panel begins."""
    xs = [c.run.x1 for c in crossings(whole, body)]
    xs += [x for w in whole.wheels if w.body == body.name for x in (w.x - w.r, w.x + w.r)]
    first = min([*xs, body.left, body.x - (1.1 if body.loads else 0.3)])
    last = max([*xs, body.right, body.x + (1.1 if body.loads else 0.3)]) + (0.4 if body.rider else 0.0)
    words = plain(_named(body))
    room = max((last - first) * UNIT + 44.0, width(words, CAPTION) + 12.0)
    up = max((_size(f, scale) for f in (*forces, *before) if f.up), default=0.0)
    down = max((_size(f, scale) for f in (*forces, *before) if not f.up), default=0.0)
    high, low = _high(whole, body) * UNIT - up, _low(whole, body) * UNIT + down
    plate.sheet.origin = (left + room / 2 - (first + last) / 2 * UNIT, -(high + low) / 2)
    plate.room = list(plate.room)
    plate.layout = _alone(whole, body)
    _draw_alone(plate, body)
    labels = _arrows(plate, whole, body, forces, before, scale)
    plate.sheet.layer = "label"
    settle(plate, labels)
    plate.sheet.layer = "caption"
    plate.sheet.text("caption", "ink-text", left + room / 2, tall / 2 + 44, words, CAPTION, 400, "middle")
    plate.claim(left, -tall / 2, left + room, tall / 2 + 50)
    plate.room[-1:] = [(left, -tall / 2, left, -tall / 2), (left + room, tall / 2 + 50, left + room, tall / 2 + 50)]
    plate.panels.append(Panel(body.name, left, room, _named(body)))
    return left + room + GUTTER


def _named(body: Body) -> str:
    return " and ".join(dict.fromkeys((*body.loads, *(p for p in body.parts if p not in body.loads)))).capitalize()


def _alone(whole: Layout, body: Body) -> Layout:
    """The layout of one body: its wheels, its ends, and stubs of its strands."""
    wheels = tuple(w for w in whole.wheels if w.body == body.name)
    ends = tuple(e for e in whole.ends if e.body == body.name)
    stubs = []
    for crossing in crossings(whole, body):
        run = crossing.run
        near = 0 if _at_start(whole, body, run.ends[0]) else 1
        y = run.y1 if near == 0 else run.y2
        out = y + (-1 if crossing.up else 1) * (STUB if any(run.name in (w.before, w.after) for w in wheels) else 1.75)
        stubs.append(replace(run, y1=y, y2=out) if near == 0 else replace(run, y1=out, y2=y))
    grip = whole.grip if whole.grip and whole.grip.body == body.name else None
    return replace(whole, bodies=(body,), wheels=wheels, ends=ends, runs=tuple(stubs), grip=grip)


def _at_start(whole: Layout, body: Body, name: str) -> bool:
    if name == "hand":
        return bool(whole.grip and whole.grip.body == body.name)
    return name in body.parts or any(w.sheave == name and w.body == body.name for w in whole.wheels)


def _draw_alone(plate: Plate, body: Body) -> None:
    sheet, layout = plate.sheet, plate.layout
    sheet.layer = "wheel"
    for wheel in layout.wheels:
        sheet.sheave = wheel.sheave
        sheave_glyph.draw_wheel(sheet, wheel)
    sheet.sheave = ""
    sheet.layer = "rope"
    rope_glyph.draw(sheet, layout)
    sheet.layer = "body"
    plate.draw_body(body, plate.labels(True))
    plate.draw_hand()


def _arrows(
    plate: Plate, whole: Layout, body: Body, forces: list[Force], before: list[Force], scale: float | None
) -> list[Wanted]:
    """Tails on the body, away from it; a tick where an arrow ended before what is tried."""
    plate.sheet.layer = "force"
    was = {(one.part, one.strand, one.up): one for one in before}
    wanted = []
    high, low = _high(whole, body), _low(whole, body)
    beside = 0
    for force in forces:
        run = next((r for r in plate.layout.runs if r.name == force.strand), None)
        if run:
            x, y = plate.sheet.at(run.x1, run.high if force.up else run.low)
        else:
            x, y = plate.sheet.at(body.x, high if force.up else low)
            x += 16.0 * beside
            beside += 1
        sense = -1 if force.up else 1
        start = y + sense * 4
        tip = start + sense * _size(force, scale)
        role = "force" if run else "weight"
        earlier = was.get((force.part, force.strand, force.up))
        if scale and earlier and earlier.number != force.number:
            notes.tick(plate, force.part, x, start + sense * _size(earlier, scale))
        notes.arrow(plate, force.part, x, start, tip, role, 3.2)
        box = (x - 6, min(start, tip), x + 6, max(start, tip))
        wanted.append(Wanted(force.part, "red-text" if run else "ink-text", force.words, 17.0, 600, around(box, 17.0)))
    return wanted
