"""The way of the hand as so many lengths of rope end to end, each as long as the load rises, to the rig's scale."""

from msgspec import Struct

from gantline.figure import Line, Strand

from .formats import Box
from .pen import Pen, plain, width
from .picture import Layer, Zone
from .stage import UNIT, Stage

GAP, TICK, AWAY = 26.0, 15.0, 56.0  # px: before numbers, half a tick, between the rope and a formula
NARROW = 280.0  # px: a formula that had less room stands over or under the rope


class Strip(Struct, frozen=True):
    """`lengths` are where each begins, from `start` on, along the page's height (`upright`) or across it; `at` is
    where the rope lies on the other axis; `numbered` are those with their number beside them. All in px."""

    lengths: tuple[float, ...]
    each: float
    at: float
    upright: bool
    numbered: tuple[int, ...]
    size: float
    lay: int
    words: Box
    zone: Zone
    guided: float = 0.0  # where level lines from the way of the hand begin (0: there are none)

    def layer(self, upto: float) -> Layer:
        """So many of them, the last one on its way."""
        pen, done = Pen(), int(upto)
        start = self.lengths[0]
        end = start + upto * self.each
        if self.guided:
            for y in (start, start + len(self.lengths) * self.each):
                pen.line("level", self.guided, y, self.at - TICK - 4, y)
        pen.rope(*self._place(start), *self._place(end), lay=self.lay)
        for number in range(done + 1):
            self._tick(pen, start + number * self.each)
        for number in (number for number in self.numbered if number <= done):
            self._number(pen, number)
        return pen.layer("column", self.zone)

    def _place(self, along: float) -> tuple[float, float]:
        return (self.at, along) if self.upright else (along, self.at)

    def _tick(self, pen: Pen, along: float) -> None:
        x, y = self._place(along)
        if self.upright:
            pen.line("edge", x - TICK, y, x + TICK, y)
        else:
            pen.line("edge", x, y - TICK, x, y + TICK)

    def _number(self, pen: Pen, number: int) -> None:
        middle = self.lengths[number - 1] + self.each / 2
        if self.upright:
            pen.text(plain(str(number)), self.at - GAP, middle + 0.34 * self.size, self.size, 600, "end")
        else:
            pen.text(plain(str(number)), middle, self.at - GAP, self.size, 600, "middle")

    def room(self, top: float) -> Box:
        """The room for a formula: at the right of the rope, else over it or under it."""
        left, _, right, bottom = self.words
        first, last = sorted((self.lengths[0], self.lengths[-1] + self.each))
        if not self.upright:
            return left, top, right, self.at - GAP - self.size - 10
        if right - self.at - AWAY >= NARROW:
            return self.at + AWAY, top, right, bottom
        over, under = (left, top, right, first - AWAY), (left, last + AWAY, right, bottom)
        return over if first - top >= bottom - last else under


def strip(stage: Stage) -> Strip | None:
    """The lengths for a rig whose hand goes a whole number of times the rise; None for any other."""
    ratio, grip = stage.act.answer.velocity_ratio, stage.layout.grip
    if grip is None or grip.body or ratio is None or ratio.number is None or stage.travel <= 0:
        return None
    count = abs(ratio.number)
    if count.denominator != 1 or count < 2:
        return None
    return _upright(stage, int(count)) or _across(stage, int(count))


def _upright(stage: Stage, count: int) -> Strip | None:
    """Beside the way of the hand, level with it; None where the frame has no room there."""
    format, grip = stage.format, stage.layout.grip
    assert grip is not None
    if format.words[0] < format.rig[2]:
        return None
    wide, edge = width(str(count), format.small, 600), _edge(stage)
    at = edge + 2 * GAP + wide
    if at + TICK > format.words[2]:
        return None
    each = stage.travel * stage.unit / count * (-1 if grip.up else 1)
    start = stage.at(0.0, grip.y)[1]
    numbered = _numbered(count, abs(each), 1.1 * format.small)
    return _made(stage, tuple(start + n * each for n in range(count)), each, at, True, numbered, edge + 14)


def _edge(stage: Stage) -> float:
    """The right edge (px) of the way of the hand and its letter."""
    parts = stage.parts("displacement")
    edges = [mark.x1 for mark in parts.over if isinstance(mark, Line) and mark.part == "hand" and mark.role == "way"]
    edges += [box[2] for box in stage.texts(parts, "hand")]
    return stage.x + max(edges, default=stage.layout.right * UNIT) * stage.scale


def _across(stage: Stage, count: int) -> Strip:
    """Level, under the words."""
    format = stage.format
    left, _, right, bottom = format.words
    each = min(stage.travel * stage.unit, right - left) / count
    wide = width(str(count), format.small, 600) + 14
    start = (left + right) / 2 - each * count / 2
    lengths = tuple(start + n * each for n in range(count))
    return _made(stage, lengths, each, bottom - 2 * TICK, False, _numbered(count, each, wide))


def _numbered(count: int, each: float, least: float) -> tuple[int, ...]:
    """Every number where they have room, else every second and so on, as far as these come out even."""
    step = next(step for step in range(1, count + 1) if count % step == 0 and (step * each >= least or step == count))
    return tuple(range(step, count + 1, step))


def _made(
    stage: Stage, lengths: tuple[float, ...], each: float, at: float, upright: bool, numbered: tuple[int, ...],
    guided: float = 0.0,
) -> Strip:  # fmt: skip
    grip, format = stage.layout.grip, stage.format
    marks = stage.parts("bare").rig
    lay = next((m.lay for m in marks if isinstance(m, Strand) and grip and m.name == grip.strand), 0)
    zone = (min(format.word_zone[0], at - 120), *format.word_zone[1:])
    return Strip(lengths, each, at, upright, numbered, format.small, lay, format.words, zone, guided)
