"""Parts that are named with what is given of them: a leader from the part to its letter, number and name."""

from collections.abc import Sequence

from msgspec import Struct

from gantline.figure import Body

from .formats import Box, Format
from .formula import Kinds, Setting, setting
from .pen import Pen, plain, width, wrapped
from .picture import Layer
from .stage import Stage

OFF, LANE = 12.0, 14.0  # px: from a part to its leader, and between leaders that pass under other parts
APART = 1.8  # of the letters' size: between two rows


class Given(Struct, frozen=True):
    """A part to be named: its box (px of the frame), the boxes of others that its leader keeps off, its formula and
    its name."""

    box: Box
    others: tuple[Box, ...]
    shown: str
    name: str

    @property
    def height(self) -> float:
        return (self.box[1] + self.box[3]) / 2

    @property
    def behind(self) -> tuple[Box, ...]:
        """The others that a level leader to the right would run through."""
        return tuple(b for b in self.others if b[2] > self.box[2] and b[1] - 6 < self.height < b[3] + 6)

    @property
    def row(self) -> float:
        """Where its words stand best: level with it, or under what is in the way."""
        return max(box[3] for box in (self.box, *self.behind)) + LANE if self.behind else self.height


def givens(stage: Stage, rows: Sequence[tuple[str, str]]) -> list[Given]:
    """The parts whose letters are given numbers, from the top down; none where a letter belongs to no part."""
    letters = {}
    for part in stage.act.rig.parts:
        given = getattr(part, "weight", None) or getattr(part, "mass", None)
        if given:
            letters[given.symbol] = part.name
    if not all(letter in letters for letter, _ in rows):
        return []
    loads = {body.name: _load(stage, body) for body in stage.layout.bodies if body.loads}
    found = []
    for letter, number in rows:
        name = letters[letter]
        body = stage.layout.body(name)
        box = loads[body.name] if name in body.loads else _block(stage, body)
        others = (*(b for other, b in loads.items() if other != body.name), *_others(stage, body))
        found.append(Given(box, others, f"{letter} = {number}", stage.names[name]))
    return sorted(found, key=lambda one: (one.row, -one.box[0]))


def _load(stage: Stage, body: Body) -> Box:
    """What hangs from a body."""
    hung = body.bar or any(wheel.body == body.name for wheel in stage.layout.wheels)
    top = body.y + (1.35 if hung else 0.0) + 0.3
    return *stage.at(body.x - 1.0, top), *stage.at(body.x + 1.0, top + 1.75)


def _block(stage: Stage, body: Body) -> Box:
    return *stage.at(body.left, body.y - 0.1), *stage.at(body.right, body.y + 0.1)


def _others(stage: Stage, body: Body) -> list[Box]:
    """Wheels of other bodies, and the hand."""
    wheels = [w for w in stage.layout.wheels if w.body != body.name]
    boxes = [(*stage.at(w.x - w.r, w.y - w.r), *stage.at(w.x + w.r, w.y + w.r)) for w in wheels]
    grip = stage.layout.grip
    return [*boxes, *([(*stage.at(grip.x - 0.6, grip.y - 0.7), *stage.at(grip.x + 1.6, grip.y + 0.8))] if grip else [])]


def layers(format: Format, found: Sequence[Given], kinds: Kinds) -> tuple[Layer, ...]:
    """One layer a part, leader and words."""
    left, top, right, bottom = format.words
    size = format.formula * 0.73
    above = left < format.rig[2]  # words over the rig: each has a row, and no leader
    beside = [_one_line(given, size, format, kinds) for given in found]
    high = max(len(wrapped(given.name, format.text, 400, right - left)) for given in found)
    low = bottom - (0.4 * size if all(beside) else 0.25 * size + (0.2 + 1.1 * high) * format.text)
    pitch = APART * size if all(beside) else 1.35 * size + (0.15 + 1.1 * high) * format.text
    heights = _apart(found, pitch, low)
    if above:
        heights = [top + (n + 0.8) * (bottom - top) / len(found) for n in range(len(found))]
    made, lane = [], 0
    for given, y in zip(found, heights, strict=True):
        pen = Pen()
        if not above:
            _leader(pen, given, left - 14, y, lane)
            lane += bool(given.behind)
        first = _number(given, size, format, kinds)
        after = _one_line(given, size, format, kinds)
        first.draw(pen, left, y + 0.25 * size)
        x, base = (left + first.wide + 36, y + 0.25 * size) if after else (left, y + 0.25 * size + 1.2 * format.text)
        for line in [given.name] if after else wrapped(given.name, format.text, 400, right - left):
            pen.text(plain(line), x, base, format.text * min(1.0, (right - left) / width(line, format.text)))
            base += 1.1 * format.text
        made.append(pen.layer("words"))
    return tuple(made)


def _number(given: Given, size: float, format: Format, kinds: Kinds) -> Setting:
    """Letter and number on one line, as large as they fit."""
    left, _, right, _ = format.words
    made = setting(given.shown, size, kinds)
    return made if made.wide <= right - left else setting(given.shown, size * (right - left) / made.wide, kinds)


def _one_line(given: Given, size: float, format: Format, kinds: Kinds) -> bool:
    """Whether the name stands after the number; else it stands under it."""
    left, _, right, _ = format.words
    first = _number(given, size, format, kinds)
    return first.wide + width(given.name, format.text) + 36 <= right - left


def _leader(pen: Pen, given: Given, end: float, y: float, lane: int) -> None:
    """Level and straight where nothing is in the way, else down and under it."""
    behind = given.behind
    if not behind:
        pen.line("leader", given.box[2] + OFF, given.height, end, y)
        return
    flat = given.box[3] - given.box[1] < OFF * 2  # a bar: from its end, clear of what hangs under it
    x = given.box[2] - OFF if flat else (given.box[0] + given.box[2]) / 2
    low = max(y, given.row + LANE * lane)
    past = min(max(box[2] for box in behind) + OFF, end)
    pen.line("leader", x, given.box[3] + OFF / 2, x, low)
    pen.line("leader", x, low, past, low)
    pen.line("leader", past, low, end, y)


def _apart(found: Sequence[Given], least: float, low: float) -> list[float]:
    """The heights of the rows: those under what is in the way go down to stand apart, then all up as little as needed,
    none lower than `low`."""
    heights: list[float] = []
    for given in found:
        down = heights[-1] + least if heights and given.behind else given.row
        heights.append(max(given.row, down))
    for n in range(len(heights) - 1, -1, -1):
        heights[n] = min(heights[n], low)
        low = heights[n] - least
    return heights
