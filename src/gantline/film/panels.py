"""Panels beside the rig: rows of words, formulas and bars. Here real wheels, what is worth keeping, a whole film."""

from collections.abc import Sequence

from msgspec import Struct

from gantline.figure import Primitive
from gantline.quantity import Equation, Shown

from .formats import Format
from .formula import Setting, flat, lines, setting
from .pen import Pen, plain, width, wrapped
from .picture import PEN, Layer, Zone
from .stage import Stage


class Panel(Struct, frozen=True):
    """Rows of a panel, in the order they come: `still` is set, `bars` grow (both as primitives at PEN px a unit)."""

    rows: tuple[tuple[str, tuple[Primitive, ...]], ...]  # verb ("set" or "grow"), marks
    zone: Zone

    def layer(self, upto: int) -> Layer:
        """The first rows of it."""
        return Layer("words", tuple(mark for _, marks in self.rows[:upto] for mark in marks), PEN, zone=self.zone)


Row = tuple[str, tuple[Primitive, ...]]


def written(x: float, y: float, words: str, size: float, weight: int = 500) -> tuple[Primitive, ...]:
    """A line of words on the baseline y."""
    pen = Pen()
    pen.text(plain(words), x, y, size, weight)
    return tuple(pen.marks)


def bar(role: str, x: float, y: float, long: float, tall: float) -> tuple[Primitive, ...]:
    """A bar from its upper left corner."""
    pen = Pen()
    pen.rect(role, x, y, long, tall)
    return tuple(pen.marks)


def stacked(pen: Pen, made: Sequence[Setting], x: float, base: float) -> None:
    """Lines of a formula under each other, the first on the baseline."""
    for row in made:
        row.draw(pen, x, base)
        base += row.below + row.above


def bars(stage: Stage, heading: str, found: Sequence[tuple[str, str, float]], size: float) -> Panel:
    """Bars to one scale, what each is over it and its number after it; in a flat room, all in one line. `found` are
    words, number as shown, and size."""
    left, top, right, bottom = stage.format.words
    narrow = right - left < 500
    pitch = min(220.0 if narrow else 170.0, (bottom - top - (2.5 if narrow else 1.3) * size) / len(found))
    flat = pitch < 2.1 * size
    first = left + (max(width(words, size, 500) for words, *_ in found) + 30 if flat else 0.0)
    said = wrapped(heading, size, 400, right - left)
    last = right - (0.0 if narrow else max(width(shown, 1.2 * size, 600) for _, shown, _ in found) + 50)
    y = max(top + size, (top + bottom) / 2 - 0.5 * pitch * len(found))
    lines_of = [written(left, y + 1.15 * n * size, line, size, 400) for n, line in enumerate(said)]
    rows: list[Row] = [("set", tuple(mark for line in lines_of for mark in line))]
    y += 1.15 * size * (len(said) - 1)
    for number, (words, shown, value) in enumerate(found):
        base = y + (1.3 if flat else 1.5) * size + pitch * number
        pen = Pen()
        pen.text(plain(words), left, base, size, 500)
        if narrow:
            pen.text(plain(shown), left, base + 1.1 * size, size, 600)
        if not narrow:
            pen.text(
                plain(shown), right, base + (0.0 if flat else 0.9 * size), (1.0 if flat else 1.2) * size, 600, "end"
            )
        rows.append(("set", tuple(pen.marks)))
        long = (last - first) * value / max(each for *_, each in found)
        high = 0.75 * size if flat else min(58.0, pitch - (2.5 if narrow else 1.43) * size)
        above = base - 0.7 * size if flat else base + (1.4 if narrow else 0.36) * size
        role = "hollow" if words == "perfect" else "band"
        rows.append(("grow", bar(role, first, above, long, high)))
    return Panel(tuple(rows), stage.format.word_zone)


def keeping(stage: Stage, facts: Sequence[tuple[Shown, str]], size: float) -> Panel:
    """What is worth keeping: a formula a row, what it is under it, hair lines between; as many as there is room for."""
    format = stage.format
    left, top, right, bottom = format.words
    pitch = (bottom - top) / len(facts)
    rows: list[Row] = []
    for number, (shown, words) in enumerate(facts):
        pen, middle = Pen(), top + pitch * (number + 0.5)
        made = in_row(stage, shown, size, 0.8 * pitch)
        tall = sum(row.above + row.below for row in made)
        fits = words and tall + 1.15 * format.text <= pitch and width(words, format.text) <= right - left
        under = 1.15 * format.text if fits else 0.0
        stacked(pen, made, left, middle - (tall + under) / 2 + made[0].above)
        if under:
            pen.text(plain(words), left, middle + (tall + under) / 2 - 0.1 * format.text, format.text)
        if number:
            pen.line("leader", left, top + pitch * number, right, top + pitch * number)
        rows.append(("set", tuple(pen.marks)))
    return Panel(tuple(rows), format.word_zone)


def in_row(stage: Stage, shown: Shown, size: float, tall: float) -> list[Setting]:
    """A formula no higher than its row: smaller, or with its fractions on one line, or what it comes to alone."""
    left, _, right, _ = stage.format.words
    made = lines(shown, size, stage.format.small, right - left, stage.kinds)
    while sum(row.above + row.below for row in made) > tall and size > stage.format.small:
        size = max(stage.format.small, 0.9 * size)
        made = lines(shown, size, stage.format.small, right - left, stage.kinds)
    if sum(row.above + row.below for row in made) > tall:
        made = flat(shown, size, right - left, stage.kinds)
    if isinstance(shown, Equation) and sum(row.above + row.below for row in made) > tall:
        made = lines(Equation(shown.sides[-1:]), size, stage.format.small, right - left, stage.kinds)
    return made


def together(format: Format, found: Sequence[tuple[str, Sequence[str]]]) -> Layer:
    """What all rigs of the film gave, one under the other, over the whole frame."""
    pen = Pen()
    left, right = format.rig[0], format.words[2]
    top, bottom = min(format.rig[1], format.words[1]) + 40, format.captions[1] - 40
    pitch = (bottom - top) / len(found)
    for number, (title, facts) in enumerate(found):
        y = top + pitch * number + 0.45 * pitch
        size = min(1.25 * format.text, 1.25 * format.text * (right - left) / width(title, 1.25 * format.text, 500))
        pen.text(plain(title), left, y, max(size, format.small), 500)
        x = left
        for fact in facts:
            one = setting(fact, format.text * 1.1, {})
            if x + one.wide <= right:
                one.draw(pen, x, y + 1.5 * format.text)
                x += one.wide + 90
        if number:
            pen.line("leader", left, top + pitch * number, right, top + pitch * number)
    return pen.layer("words")
