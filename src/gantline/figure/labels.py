"""Where words go: candidates for each label, the fewest free ones first, then a few rounds of improvement."""

from msgspec import Struct

from .glyphs.load import ring_height
from .layout import Layout, Straight
from .layout.sizes import HAND_HIGH, HAND_LEFT, HAND_RIGHT, load_depth
from .plate import Box, Plate
from .scene import Run
from .words import width

HIT_THING, HIT_LABEL, OUTSIDE = 10.0, 20.0, 45.0
PAD = 2.0
SHIFTS = (-18.0, 18.0, -34.0, 34.0, -52.0, 52.0, -72.0, 72.0)


class Spot(Struct):
    """A place for a label: baseline point, anchor, and what it costs to use it."""

    x: float
    y: float
    anchor: str
    cost: float


class Wanted(Struct):
    """A label and the places it may have. Where one is centred on the strand `on`, the words break that strand.

    `beside`: it belongs to the column beside the rig, and no frame holds it.
    """

    part: str
    role: str
    runs: tuple[Run, ...]
    size: float
    weight: int
    spots: list[Spot]
    on: str = ""
    beside: bool = False


def clear(layout: Layout, run: Straight) -> tuple[float, float]:
    """The stretch of a strand's height (radii) that is free of its own wheels, ends and hand."""
    top, bottom = run.high, run.low
    for wheel in layout.wheels:
        if run.name in (wheel.before, wheel.after):
            if wheel.up:
                bottom = min(bottom, wheel.y - wheel.r)
            else:
                top = max(top, wheel.y + wheel.r)
    for end in layout.ends:
        if end.strand == run.name:
            if end.up:
                bottom = min(bottom, end.y - 1.0)
            else:
                top = max(top, end.y + 1.0)
    if layout.grip and layout.grip.strand == run.name:
        if layout.grip.up:
            top = max(top, layout.grip.y + 0.7)
        else:
            bottom = min(bottom, layout.grip.y - 0.7)
    return (top, bottom) if top < bottom else ((top + bottom) / 2, (top + bottom) / 2)


def strand_spots(plate: Plate, run: Straight, size: float) -> list[Spot]:
    """Beside a strand: right and left of it, from the middle of its clear stretch outward."""
    if not run.plumb:
        (x1, y), (x2, _) = plate.sheet.at(run.x1, run.y1), plate.sheet.at(run.x2, run.y2)
        middle = (x1 + x2) / 2
        return [Spot(middle, y - 8, "middle", 0.0), Spot(middle, y + 8 + 0.7 * size, "middle", 0.1)]
    top, bottom = clear(plate.layout, run)
    spots = []
    for step, share in enumerate((0.5, 0.35, 0.65, 0.25, 0.75, 0.12, 0.88)):
        x, y = plate.sheet.at(run.x1, top + share * (bottom - top))
        spots.append(Spot(x + 8, y + 0.25 * size, "start", 0.15 * step))
        spots.append(Spot(x - 8, y + 0.25 * size, "end", 0.15 * step + 0.1))
    return spots


def breaking_spots(plate: Plate, run: Straight, y: float) -> list[Spot]:
    """On a plumb strand itself: at the height `y` (px) it shares with its neighbours, then over its clear stretch."""
    top, bottom = (plate.sheet.at(0, one)[1] for one in clear(plate.layout, run))
    x = plate.sheet.at(run.x1, 0)[0]
    shares = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)
    heights = [y, *(top + share * (bottom - top) for share in shares)]
    return [Spot(x, height, "middle", 0.02 * step - 1.0) for step, height in enumerate(heights)]


def around(box: Box, size: float) -> list[Spot]:
    """Round a box: right, left, below, above."""
    left, top, right, bottom = box
    x, y = (left + right) / 2, (top + bottom) / 2 + 0.25 * size
    beside = [Spot(right + 7, y, "start", 0.0), Spot(left - 7, y, "end", 0.1)]
    shifted = [Spot(right + 7, y + d, "start", 0.3) for d in SHIFTS]
    shifted += [Spot(left - 7, y + d, "end", 0.4) for d in SHIFTS]
    return [*beside, Spot(x, bottom + size, "middle", 0.2), Spot(x, top - 7, "middle", 0.25), *shifted]


def settle(plate: Plate, wanted: list[Wanted]) -> None:
    """Places all labels and writes them: least overlap first, then least cost."""
    wanted = [_enlarged(one, plate.large) for one in wanted] if plate.large != 1 else wanted
    things, own = obstacle_boxes(plate), {run.name: n for n, run in enumerate(plate.layout.runs)}
    boxes = [[_box(one, spot) for spot in one.spots] for one in wanted]
    costs = []
    for one, ours in zip(wanted, boxes, strict=True):
        free = [box for n, box in enumerate(things) if n != own.get(one.on)]
        on, off = [*free, *plate.room], [*things, *plate.room]
        frame = None if one.beside else plate.frame
        costs.append([
            _cost(spot, box, on if spot.anchor == "middle" else off, frame)
            for spot, box in zip(one.spots, ours, strict=True)
        ])  # fmt: skip
    chosen: dict[int, int] = {}
    cheapest = [sorted(range(len(own_costs)), key=own_costs.__getitem__) for own_costs in costs]
    order = sorted(range(len(wanted)), key=lambda n: (sum(cost < HIT_THING for cost in costs[n]), n))
    for sweep in range(4):
        before = dict(chosen)
        for number in order:
            chosen[number] = _best(boxes, costs[number], cheapest[number], chosen, number)
        if sweep and chosen == before:
            break
    layer = plate.sheet.layer
    for number, one in enumerate(wanted):
        spot = one.spots[chosen[number]]
        box = boxes[number][chosen[number]]
        plate.claim(box[0] + PAD, box[1] + PAD, box[2] - PAD, box[3] - PAD)
        if one.on and spot.anchor == "middle":
            plate.sheet.rect(one.part, "halo", box[0], box[1], box[2] - box[0], box[3] - box[1])
        plate.sheet.layer = "column" if one.beside else layer
        plate.sheet.text(one.part, one.role, spot.x, spot.y, one.runs, one.size, one.weight, spot.anchor)
    plate.sheet.layer = layer


def _enlarged(one: Wanted, large: float) -> Wanted:
    """The label in large: beside and on a strand about the same middle; below a thing, also that much lower."""
    grown = one.size * (large - 1)
    spots = [Spot(s.x, s.y + 0.24 * grown, s.anchor, s.cost) for s in one.spots]
    spots += [
        Spot(s.x, s.y + d * grown, s.anchor, s.cost) for s in one.spots if s.anchor == "middle" for d in (0, 0.72)
    ]
    return Wanted(one.part, one.role, one.runs, one.size * large, one.weight, spots, one.on, one.beside)


def _best(
    boxes: list[list[Box]], costs: list[float], cheapest: list[int], chosen: dict[int, int], number: int
) -> int:  # fmt: skip
    """The place that costs least with what it hides of other labels; the first of several. Places that cost more by
    themselves than one already found are not looked at."""
    others = [boxes[n][k] for n, k in chosen.items() if n != number]
    least, best = float("inf"), 0
    for spot in cheapest:
        if costs[spot] > least:
            break
        total = costs[spot] + HIT_LABEL * sum(meet(boxes[number][spot], other) for other in others)
        if (total, spot) < (least, best):
            least, best = total, spot
    return best


def _cost(spot: Spot, box: Box, obstacles: list[Box], frame: Box | None) -> float:
    hits = sum(meet(box, other) for other in obstacles)
    outside = frame is not None and not (
        frame[0] <= box[0] and frame[1] <= box[1] and box[2] <= frame[2] and box[3] <= frame[3]
    )
    return spot.cost + HIT_THING * hits + OUTSIDE * outside


def _box(one: Wanted, spot: Spot) -> Box:
    across = width(one.runs, one.size, one.weight)
    left = spot.x - {"start": 0.0, "middle": across / 2, "end": across}[spot.anchor]
    return left - PAD, spot.y - 0.72 * one.size - PAD, left + across + PAD, spot.y + 0.24 * one.size + PAD


def meet(a: Box, b: Box) -> bool:
    """Whether two boxes lie over each other."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def obstacle_boxes(plate: Plate) -> list[Box]:
    """Everything of the rig that words keep off, as boxes in px."""
    layout, at = plate.layout, plate.sheet.at
    boxes: list[Box] = []
    for run in layout.runs:
        (x1, y1), (x2, y2) = at(run.x1, run.high), at(run.x2, run.low)
        boxes.append((min(x1, x2) - 3.2, y1 - 3.2, max(x1, x2) + 3.2, y2 + 3.2))
    for wheel in layout.wheels:
        boxes.append(
            (
                *at(wheel.x - wheel.r - 0.1, wheel.y - wheel.r - 0.1),
                *at(wheel.x + wheel.r + 0.1, wheel.y + wheel.r + 0.1),
            )
        )
    for end in layout.ends:
        boxes.append(
            (*at(end.x - 0.3, end.y - (1.0 if end.up else 0.4)), *at(end.x + 0.3, end.y + (0.4 if end.up else 1.0)))
        )
    for body in layout.bodies:
        boxes.extend(body_boxes(plate, body.name))
    if layout.grip:
        x, y = layout.grip.x, layout.grip.y
        boxes.append((*at(x - HAND_LEFT, y - HAND_HIGH), *at(x + HAND_RIGHT, y + HAND_HIGH)))
    return boxes


def body_boxes(plate: Plate, name: str) -> list[Box]:
    """A body's bar, its hook or strap, and what hangs from it."""
    layout, at = plate.layout, plate.sheet.at
    body = layout.body(name)
    boxes: list[Box] = []
    if body.bar:
        boxes.append((*at(body.left, body.y - 0.2), *at(body.right, body.y + 0.25)))
    if body.side == "ceiling":
        boxes.append((*at(body.x - 0.35, -0.45), *at(body.x + 0.35, body.y)))
    if body.side == "floor" and layout.floor is not None:
        boxes.append((*at(body.x - 0.35, body.y), *at(body.x + 0.35, layout.floor + 0.45)))
    if body.loads:
        ring = ring_height(layout, body)
        fall = load_depth(len(body.loads), body.rider)
        boxes.append((*at(body.x - 0.3, min(body.y, ring - 0.3)), *at(body.x + 0.3, ring)))
        boxes.append((*at(body.x - 1.0, ring + 0.2), *at(body.x + 1.0, ring + fall)))
    return boxes
