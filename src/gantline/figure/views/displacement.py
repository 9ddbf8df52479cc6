"""Two states over each other: the earlier in dashes, the later in full, and the ways of load and hand to scale."""

from fractions import Fraction

from gantline.mechanics import Answer
from gantline.rig import Rig

from ..counting import held_body
from ..glyphs import hand as hand_glyph
from ..glyphs import notes
from ..glyphs.load import CASTING, ring_height
from ..kinematics import moved, rates, reach_of
from ..labels import Wanted, around, settle
from ..layout import Body, Layout, NotDrawable
from ..layout.sizes import LOAD_HEIGHT, LOAD_PITCH, LOAD_TOP
from ..plate import Plate
from ..scene import Run
from ..sheet import UNIT
from ..words import symbol
from .strands import part_marks

FAR, SHARE = 3.6, 0.92  # radii the fastest part goes at most, and the share of the free travel that is used


def draw(plate: Plate) -> None:
    before = plate.layout
    rises = rates(plate.rig, plate.answer, before)
    if rises is None:
        raise NotDrawable("Nothing is known to move in this rig, so there are no two states to show.")
    travel = shown_travel(plate.rig, plate.answer, before)
    sense = 1 if rises[held_body(plate).name] >= 0 else -1
    after, turns = moved(plate.rig, plate.answer, before, travel)
    plate.sheet.layer = "ghost"
    ghosts(plate, before, rises)
    plate.layout = after
    plate.draw_rig(values=False, turns=turns)
    wanted = _ways(plate, before, after, held_body(plate))
    plate.sheet.layer = "label"
    settle(plate, [*wanted, *part_marks(plate)])
    plate.layout = before
    low = plate.sheet.at(0, after.bottom)[1]
    plate.claim(plate.rig_box()[0], low, plate.rig_box()[0], low)
    if after.grip:
        plate.claim(
            *plate.sheet.at(after.grip.x, after.grip.y - 1.1), *plate.sheet.at(after.grip.x, after.grip.y + 1.1)
        )
    plate.caption = _caption(plate, sense)


def shown_travel(rig: Rig, answer: Answer, layout: Layout) -> float:
    """How far (radii) the fastest part goes where two states are shown."""
    return min(SHARE * reach_of(rig, answer, layout), FAR)


def _caption(plate: Plate, sense: int) -> tuple[Run, ...]:
    ratio = plate.answer.velocity_ratio.number if plate.answer.velocity_ratio else None
    rise = symbol(_rise(plate))
    way = "up" if sense > 0 else "down"
    if ratio is None or plate.layout.grip is None:
        return (Run("The earlier place in dashes, to scale"),)
    factor = (Run(_times(abs(ratio))), *rise)
    return (Run(f"Load {way} "), *rise, Run(", rope through the hand "), *factor, Run(", to scale"))


def _times(ratio: Fraction) -> str:
    return "" if ratio == 1 else f"{ratio}\u2009" if ratio.denominator == 1 else f"({ratio})\u2009"


def _rise(plate: Plate) -> str:
    return plate.rig.asked.distance.symbol if plate.rig.asked else plate.rig.rise_symbol


def ghosts(plate: Plate, before: Layout, rises: dict[str, float]) -> None:
    sheet = plate.sheet
    for wheel in before.wheels:
        if rises[wheel.body]:
            x, y = sheet.at(wheel.x, wheel.y)
            sheet.circle(wheel.block, "ghost", x, y, wheel.r * UNIT - 3.1)
    for body in before.bodies:
        if rises[body.name]:
            for number, name in enumerate(body.loads):
                x, y = sheet.at(body.x, ring_height(before, body) + number * LOAD_PITCH + LOAD_TOP)
                sheet.path(name, "ghost", CASTING, x, y)
    if before.grip and rises.get("hand"):
        x, y = sheet.at(before.grip.x, before.grip.y)
        sheet.path("hand", "ghost", hand_glyph.GHOST, x, y, flip=before.grip.up and not before.grip.body)


def _ways(plate: Plate, before: Layout, after: Layout, body: Body) -> list[Wanted]:
    """Dimension lines of the load and of the hand, with their letters."""
    at = plate.sheet.at
    start, end = before.body(body.name), after.body(body.name)
    plate.sheet.layer = "way"
    foot = ring_height(before, start) - start.y + LOAD_TOP + LOAD_HEIGHT
    (x, y1), (_, y2) = at(start.x - 1.0, start.y + foot), at(end.x, end.y + foot)
    left = _free_left(plate, before, x, y1, y2)
    wanted = [_dimension(plate, body.loads[0] if body.loads else body.name, left, y1, y2, x - 3, symbol(_rise(plate)))]
    if before.grip and after.grip and before.grip.y != after.grip.y and not before.grip.body:
        (x, y1), (_, y2) = at(before.grip.x + 1.5, before.grip.y), at(0, after.grip.y)
        edge, right = x, max(x + 16, at(before.right, 0)[0] + 10)
        wanted.append(_dimension(plate, "hand", right, y1, y2, edge, symbol(plate.rig.haul_symbol)))
    return wanted


def _free_left(plate: Plate, before: Layout, x: float, y1: float, y2: float) -> float:
    """Left of the load, clear of strands and wheels that pass at that height."""
    left = x - 22
    for box in _neighbours(plate, before, min(y1, y2), max(y1, y2)):
        if box[0] < x and box[1] > left - 12 and box[0] - 22 < left:
            left = box[0] - 22
    return left


def _neighbours(plate: Plate, before: Layout, top: float, bottom: float) -> list[tuple[float, float]]:
    """Extents across the page of what passes at these heights, nearest the load first."""
    at = plate.sheet.at
    found = [
        (at(r.x1, 0)[0] - 4, at(r.x1, 0)[0] + 4)
        for r in before.runs
        if r.plumb and _passes(plate, r.high, r.low, top, bottom)
    ]
    found += [(*_across(plate, w.x, w.r),) for w in before.wheels if _passes(plate, w.y - w.r, w.y + w.r, top, bottom)]
    found += [
        _across(plate, b.x, 1.0) for b in before.bodies if b.loads and _passes(plate, b.y, b.y + 3.4, top, bottom)
    ]
    return sorted(found, reverse=True)


def _passes(plate: Plate, high: float, low: float, top: float, bottom: float) -> bool:
    return plate.sheet.at(0, high)[1] < bottom + 6 and plate.sheet.at(0, low)[1] > top - 6


def _across(plate: Plate, x: float, half: float) -> tuple[float, float]:
    return plate.sheet.at(x - half, 0)[0], plate.sheet.at(x + half, 0)[0]


def _dimension(
    plate: Plate, part: str, x: float, start: float, end: float, edge: float, words: tuple[Run, ...]
) -> Wanted:
    notes.dimension(plate, part, x, start, end, edge)
    box = (x - 4, min(start, end), x + 4, max(start, end))
    return Wanted(part, "ochre-text", words, 17.0, 600, around(box, 17.0))
