"""Panels beside the rig: work as two bars, a wrong answer with the right one, real wheels, what is worth keeping."""

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from gantline.account import measure
from gantline.figure import Primitive
from gantline.mechanics import Answer
from gantline.quantity import Shown
from gantline.quantity import plain as flat_text
from gantline.rig import Load

from .formats import Format
from .formula import Setting, lines, setting
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


def work(stage: Stage, answer: Answer, size: float) -> Panel | None:
    """Work put in (by the hand, and by what sinks), and under it what it became, to one scale; None where unknown."""
    done = answer.ideal.work
    if done is None or done.put_in is None or not done.put_in.number or done.put_in.number <= 0:
        return None
    format = stage.format
    left, top, right, bottom = format.words
    loads = {part.name for part in stage.act.rig.parts if isinstance(part, Load)}
    shares = sorted(done.shares, key=lambda one: one[0] not in loads)
    into = [("your work", "band", done.put_in.number)]
    into += [(stage.named(name), "metal", -share.number) for name, share in shares if share.number and share.number < 0]
    out = [(stage.named(name), "load" if name in loads else "dot", share.number)
           for name, share in shares if share.number and share.number > 0]  # fmt: skip
    scale = (right - left) / float(max(sum(one[2] for one in row) for row in (into, out)))
    tall = max(20.0, min(106.0, (bottom - top - 4.2 * size) / 2.6))
    y = max(top + 1.28 * size, (top + bottom) / 2 - 1.9 * tall)
    rows = [*_pieces(stage, into, y, tall, scale, size), *_pieces(stage, out, y + 2.2 * tall + size, tall, scale, size)]
    return Panel(tuple(rows), format.word_zone)


Row = tuple[str, tuple[Primitive, ...]]


def _pieces(
    stage: Stage, found: Sequence[tuple[str, str, Fraction]], y: float, tall: float, scale: float, size: float
) -> list[Row]:
    """A bar of several pieces: what each is stands over the first, under the next, and so on."""
    left, _, right, _ = stage.format.words
    rows: list[Row] = []
    x = left
    for number, (name, role, joules) in enumerate(found):
        long = float(joules) * scale
        said = wrapped(f"{name}: {measure(stage.act.rig, joules, 'J').near}", size, 500, right - left)
        at = left if not number else max(left, min(x, right - max(width(line, size, 500) for line in said)))
        rows.append(("grow", _bar(role, x, y, long, tall)))
        first = y - (0.28 + 1.1 * (len(said) - 1)) * size if number % 2 == 0 else y + tall + size
        rows.append(
            ("set", tuple(m for n, line in enumerate(said) for m in _words(at, first + 1.1 * n * size, line, size)))
        )
        x += long
    return rows


def _words(x: float, y: float, words: str, size: float, weight: int = 500) -> tuple[Primitive, ...]:
    pen = Pen()
    pen.text(plain(words), x, y, size, weight)
    return tuple(pen.marks)


def _bar(role: str, x: float, y: float, long: float, tall: float) -> tuple[Primitive, ...]:
    pen = Pen()
    pen.rect(role, x, y, long, tall)
    return tuple(pen.marks)


def wrong(stage: Stage, heading: str, answers: Sequence[Shown], size: float) -> Panel:
    """The wrong answer and the right one, each with its reckoning, at the same size."""
    format, pen = stage.format, Pen()
    left, top, right, bottom = format.words
    narrow = right - left < 400
    said = wrapped(heading, format.small if narrow else 84.0, 500, right - left)
    head = format.small if narrow else min(84.0, 84.0 * (right - left) / width(said[0], 84.0, 500))
    y = top + head if narrow or bottom - top < 500 else max(top, (top + bottom) / 2 - 250) + head
    for line in said:
        pen.text(plain(line), left, y, head, 500)
        y += 1.1 * head
    rows: list[tuple[str, tuple[Primitive, ...]]] = [("set", tuple(pen.marks))]
    pitch = min(340.0 if narrow else 230.0, (bottom - y + 0.6 * head) / len(answers))
    y -= 0.6 * head
    for number, shown in enumerate(answers):
        pen = Pen()
        made = _in_row(stage, shown, size, 0.92 * pitch)
        tall = sum(row.above + row.below for row in made)
        if number:
            pen.line("leader", left, y + pitch * number, right, y + pitch * number)
        _column(pen, made, left, y + pitch * (number + 0.5) - tall / 2 + made[0].above)
        rows.append(("set", tuple(pen.marks)))
    return Panel(tuple(rows), format.word_zone)


def _column(pen: Pen, made: Sequence[Setting], x: float, base: float) -> None:
    for row in made:
        row.draw(pen, x, base)
        base += row.below + row.above


def bars(stage: Stage, heading: str, found: Sequence[tuple[str, str, float]], size: float) -> Panel:
    """Bars to one scale, what each is over it and its number after it; in a flat room, all in one line. `found` are
    words, number as shown, and size."""
    left, top, right, bottom = stage.format.words
    narrow = right - left < 500
    pitch = min(220.0 if narrow else 170.0, (bottom - top - 1.3 * size) / len(found))
    flat = pitch < 2.1 * size
    first = left + (max(width(words, size, 500) for words, *_ in found) + 30 if flat else 0.0)
    last = right - (0.0 if narrow else max(width(shown, 1.2 * size, 600) for _, shown, _ in found) + 50)
    y = max(top + size, (top + bottom) / 2 - 0.5 * pitch * len(found))
    rows: list[Row] = [("set", _words(left, y, heading, size, 400))]
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
        high = 0.75 * size if flat else min(58.0, pitch - (2.5 if narrow else 1.35) * size)
        above = base - 0.7 * size if flat else base + (1.4 if narrow else 0.28) * size
        role = "hollow" if words == "perfect" else "band"
        rows.append(("grow", _bar(role, first, above, long, high)))
    return Panel(tuple(rows), stage.format.word_zone)


def keeping(stage: Stage, facts: Sequence[tuple[Shown, str]], size: float) -> Panel:
    """What is worth keeping: a formula a row, what it is under it, hair lines between; as many as there is room for."""
    format = stage.format
    left, top, right, bottom = format.words
    pitch = (bottom - top) / len(facts)
    rows: list[Row] = []
    for number, (shown, words) in enumerate(facts):
        pen, middle = Pen(), top + pitch * (number + 0.5)
        made = _in_row(stage, shown, size, 0.9 * pitch)
        tall = sum(row.above + row.below for row in made)
        fits = words and tall + 1.15 * format.text <= pitch and width(words, format.text) <= right - left
        under = 1.15 * format.text if fits else 0.0
        _column(pen, made, left, middle - (tall + under) / 2 + made[0].above)
        if under:
            pen.text(plain(words), left, middle + (tall + under) / 2 - 0.1 * format.text, format.text)
        if number:
            pen.line("leader", left, top + pitch * number, right, top + pitch * number)
        rows.append(("set", tuple(pen.marks)))
    return Panel(tuple(rows), format.word_zone)


def _in_row(stage: Stage, shown: Shown, size: float, tall: float) -> list[Setting]:
    """A formula no higher than its row, where it can be: smaller, or with its fractions on one line."""
    left, _, right, _ = stage.format.words
    made = lines(shown, size, stage.format.small, right - left, stage.kinds)
    while sum(row.above + row.below for row in made) > tall and size > stage.format.small:
        size = max(stage.format.small, 0.9 * size)
        made = lines(shown, size, stage.format.small, right - left, stage.kinds)
    if sum(row.above + row.below for row in made) > tall:
        made = lines(flat_text(shown).replace("*", ""), size, stage.format.small, right - left, stage.kinds)
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
