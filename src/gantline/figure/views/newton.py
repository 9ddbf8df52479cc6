"""Which way everything speeds up: an open arrow beside each body, its length in proportion to the acceleration."""

from fractions import Fraction

from ..labels import Spot, Wanted, around, body_boxes, obstacle_boxes, settle
from ..layout import Body
from ..plate import Box, Plate
from ..words import plain, width

LONGEST, SHORTEST = 58.0, 12.0


def draw(plate: Plate) -> None:
    plate.draw_rig()
    rates = {m.name: m.acceleration for m in plate.answer.ideal.motions if m.acceleration}
    numbers = {name: value.number for name, value in rates.items() if value.number}
    most = max((abs(number) for number in numbers.values()), default=None)
    wanted = []
    plate.sheet.layer = "force"
    for body in plate.layout.bodies:
        name = next((part for part in body.parts if part in rates), None)
        if name is None or body.side != "moving":
            continue
        number = numbers.get(name)
        words = plain(_value(plate, body, plate.value(rates[name]))) if number is not None else plain("at rest")
        box = _arrow(plate, body, number, most) if number is not None and most else _largest(plate, body)
        left, top, right, bottom = _largest(plate, body)
        aside = Spot(left - 7, (top + bottom) / 2 + 4, "end", 0.45)
        spots = [*around(box, 15.0), aside, Spot((left + right) / 2, bottom + 16, "middle", 0.5)]
        wanted.append(Wanted(name, "ink-text", words, 15.0, 500, spots))
    plate.sheet.layer = "label"
    settle(plate, wanted)
    plate.caption = plain("Which way each part speeds up" if numbers else "Nothing speeds up")


def _value(plate: Plate, body: Body, shown: str) -> str:
    """The value; without its unit where words are large and neither side of the body has room for it."""
    wide = width(plain(shown), 15.0 * plate.large, 500) + 16
    left, top, right, bottom = _largest(plate, body)
    things = [box for box in obstacle_boxes(plate) if box[1] < bottom and box[3] > top]
    frame = plate.frame or (left - 2 * wide, top, right + 2 * wide, bottom)
    before = left - max([frame[0], *(box[2] for box in things if box[2] <= left)])
    after = min([frame[2], *(box[0] for box in things if box[0] >= right)]) - right - 12
    return shown if plate.large == 1 or max(before, after) >= wide else shown.split("\u00a0")[0]


def _largest(plate: Plate, body: Body) -> Box:
    """The largest box of a body: what hangs from it, its bar, or its wheel."""
    at = plate.sheet.at
    wheels = [
        (*at(wheel.x - wheel.r, wheel.y - wheel.r), *at(wheel.x + wheel.r, wheel.y + wheel.r))
        for wheel in plate.layout.wheels
        if wheel.body == body.name
    ]
    return max(body_boxes(plate, body.name) or wheels, key=lambda box: (box[2] - box[0]) * (box[3] - box[1]))


def _arrow(plate: Plate, body: Body, number: Fraction, most: Fraction) -> Box:
    """An open-headed arrow at the right of the body's load or bar."""
    _, top, right, bottom = _largest(plate, body)
    x, length = right + 8, max(LONGEST * float(abs(number) / most), SHORTEST)
    middle = (top + bottom) / 2
    sense = -1 if number > 0 else 1
    tail, tip = middle - sense * length / 2, middle + sense * length / 2
    d = f"M{x:.1f} {tail:.1f}V{tip:.1f}"
    d += f"M{x - 4.5:.1f} {tip - sense * 9:.1f}L{x:.1f} {tip:.1f}L{x + 4.5:.1f} {tip - sense * 9:.1f}"
    plate.sheet.path(body.name, "speed", d)
    plate.claim(x - 5, tail, x + 5, tip)
    return x - 5, min(tail, tip), x + 5, max(tail, tip)
