"""What is really seen, beside what perfect wheels would show: the same pull on the rope, to one scale, at true tilt."""

from math import degrees

from gantline.mechanics import FIXED, Answer, Ending, Moment, Trial, trial
from gantline.quantity import numeral, tenths
from gantline.rig import Rig, stand_in

from ..kinematics import moved, reach_of
from ..labels import Spot, Wanted, around, settle
from ..layout import Body, Layout, NotDrawable
from ..plate import Plate
from ..pose import Pose, draw_posed, pivot, pose, scale_of, unplaced
from ..scene import Panel, Run
from ..sheet import UNIT
from ..words import plain, width

HANDS = (0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001)  # m; the farthest that the page has room for is shown
SHARE, GUTTER, SIZE, CAPTION = 0.92, 60.0, 15.0, 15.0
LEAST = 0.0009  # rad, 0.05 degrees: a tilt below that is called level


def draw(plate: Plate, hand: float | None = None) -> None:
    start = plate.layout
    seen, moment = _tried(plate, hand)
    assert seen.setup
    real = pose(start, seen.setup, moment)
    perfect, turns = moved(plate.rig, plate.answer, start, real.hand)
    wide = max((start.right - start.left) * UNIT, width(_perfect(moment), CAPTION)) + GUTTER
    low = max(perfect.bottom, start.bottom)
    high = min([start.top, *([perfect.grip.y - 2.2] if perfect.grip and perfect.grip.up else [])])
    for number, words in enumerate((_perfect(moment), _real(moment))):
        left = number * wide
        plate.sheet.origin = (left - start.left * UNIT, 0.0)
        plate.layout = start
        if number:
            after = draw_posed(plate, real)
            tilts = tilts_beside(plate, after, real)
            plate.sheet.layer = "label"
            settle(plate, [*tilts, *_rises(plate, after, moment)])
        else:
            plate.layout = perfect
            plate.draw_rig(values=False, turns=turns)
            plate.sheet.layer = "label"
            settle(plate, _ideal_rise(plate, perfect, seen, moment))
        plate.sheet.layer = "caption"
        room = wide - GUTTER
        plate.sheet.text("caption", "ink-text", left + room / 2, low * UNIT + 34, plain(words[0].text), CAPTION, 400,
                         "middle")  # fmt: skip
        plate.panels.append(Panel(("perfect", "real")[number], left, room, words[0].text))
        plate.claim(left, high * UNIT, left + room, low * UNIT + 40)
    plate.layout, plate.sheet.origin = start, (0.0, 0.0)


def hand_room(rig: Rig, answer: Answer, layout: Layout) -> float:
    """The rope (m) that can be hauled before the page has no more room. Raises NotDrawable where nothing is known of
    what is seen."""
    first = trial(stand_in(rig).rig, ())
    if first.setup is None:
        raise NotDrawable(f"What would be seen cannot be told for this rig ({_why(first.endings)}).")
    return SHARE * reach_of(rig, answer, layout) * UNIT / scale_of(layout, first.setup)


def _tried(plate: Plate, hand: float | None) -> tuple[Trial, Moment]:
    """The trial, and its moment at the hand travel asked for, else at the farthest one that fits the page."""
    standing = stand_in(plate.rig)
    room = hand_room(plate.rig, plate.answer, plate.layout)
    hands = (hand,) if hand is not None else tuple(each for each in HANDS if each <= room)[:1]
    if not hands or hands[0] > room:
        raise NotDrawable("On the page the rig has no room for so much rope; ask for less.")
    found = trial(standing.rig, hands)
    if not found.history:
        raise NotDrawable(f"What is seen there cannot be told ({_why(found.endings)}).")
    assert found.setup
    said = ["The load is a stand-in that weighs 10\u00a0N, its block in proportion."] if standing.share != 1 else []
    said += [f"Becket of {name}: reckoned in its middle, drawn clear of the wheels." for name in unplaced(found.setup)]
    plate.caption = plain(" ".join(said)) if said else ()
    return found, found.history[-1]


def _why(endings: tuple[Ending, ...]) -> str:
    return endings[0].kind if endings else "not determined"


def _perfect(moment: Moment) -> tuple[Run, ...]:
    return plain(f"perfect wheels: {_length(moment.hand)} of rope, axles up by mm")


def _real(moment: Moment) -> tuple[Run, ...]:
    return plain(f"really: {_length(moment.hand)} of rope, axles up by mm")


def _length(metres: float) -> str:
    return f"{numeral(metres * 1000)}\u00a0mm"


def _rises(plate: Plate, layout: Layout, moment: Moment) -> list[Wanted]:
    """How far each axle, or a load on no wheel, has risen: beside it, in mm."""
    wanted = []
    for wheel in layout.wheels:
        if wheel.sheave in moment.axles:
            x, y = plate.sheet.at(wheel.x, wheel.y)
            r = wheel.r * UNIT
            spots = around((x - r, y - r, x + r, y + r), SIZE)
            words = plain(tenths(1000 * moment.axles[wheel.sheave]))
            wanted.append(Wanted(wheel.block, "ochre-text", words, SIZE, 600, spots))
    return wanted


def _ideal_rise(plate: Plate, layout: Layout, seen: Trial, moment: Moment) -> list[Wanted]:
    """The one rise of all axles of a block under perfect wheels, beside its first wheel."""
    assert seen.setup
    rates = seen.raising.rise_per_hand if seen.raising else {}
    wanted = []
    for wheel in layout.wheels:
        body = next((w.body for w in seen.setup.wheels if w.name == wheel.sheave), FIXED)
        name = "" if body == FIXED else seen.setup.bodies[body].name
        if name in rates:
            x, y = plate.sheet.at(wheel.x, wheel.y)
            r = wheel.r * UNIT
            spots = around((x - r, y - r, x + r, y + r), SIZE)
            words = plain(tenths(1000 * rates[name] * moment.hand))
            wanted.append(Wanted(wheel.block, "ochre-text", words, SIZE, 600, spots))
    return wanted


def tilts_beside(plate: Plate, layout: Layout, at: Pose) -> list[Wanted]:
    """A level line through the bar of each tilted block; its angle wants to stand at an end of the line."""
    plate.sheet.layer = "level"
    tilts = {body: at.tilts.get(body.name, 0.0) for body in layout.bodies}
    return [_level(plate, layout, body, tilt) for body, tilt in tilts.items() if abs(tilt) >= LEAST]


def _level(plate: Plate, layout: Layout, body: Body, tilt: float) -> Wanted:
    middle = pivot(layout, body)
    reach = (max(body.right - body.left, 2.0) / 2 + 0.7) * UNIT
    x, y = plate.sheet.at(middle[0], body.y)
    plate.sheet.line(body.name, "ghost", x - reach, y, x + reach, y)
    spots = [
        Spot(x + way * (reach + far), y + 5 + drop, "start" if way > 0 else "end", abs(drop) / 50 + far / 200)
        for far in (5, -14) for drop in (0, 16, -10, 30) for way in (1, -1)
    ]  # fmt: skip
    return Wanted(body.name, "ink-text", plain(f"{tenths(abs(degrees(tilt)))}°"), SIZE, 600, spots)
