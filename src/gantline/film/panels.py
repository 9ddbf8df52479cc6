"""Panels beside the rig: work as two bars, a wrong answer beside the right one, real wheels, and what is worth keeping."""

from collections.abc import Sequence

from msgspec import Struct

from gantline.account import measure
from gantline.figure import Primitive
from gantline.mechanics import Answer, Value
from gantline.quantity import Shown
from gantline.rig import Load

from .formats import Format
from .formula import Setting, lines, setting
from .pen import Pen, plain, width
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
    """Work put in, and under it what it became, piece by piece, to one scale; None where no work is known."""
    done = answer.ideal.work
    if done is None or done.put_in is None or not done.put_in.number or done.put_in.number <= 0:
        return None
    format, rig = stage.format, stage.act.rig
    left, top, right, bottom = format.words
    loads = {part.name for part in rig.parts if isinstance(part, Load)}
    gains = [(name, share) for name, share in done.shares if share.number is not None and share.number > 0]
    gains.sort(key=lambda one: one[0] not in loads)
    whole = max(float(done.put_in.number), sum(float(share.number or 0) for _, share in gains))
    scale = (right - left) / whole
    tall = min(106.0, 0.2 * (bottom - top))
    y = (top + bottom) / 2 - 1.9 * tall
    rows: list[tuple[str, tuple[Primitive, ...]]] = []
    given = float(done.put_in.number) * scale
    rows.append(("set", _words(format, left, y - 0.28 * size, f"your work: {_shown(stage, done.put_in)}", size)))
    rows.append(("grow", _bar("band", left, y, given, tall)))
    y += 2.2 * tall + size
    x = left
    for number, (name, share) in enumerate(gains):
        long = float(share.number or 0) * scale
        above = number % 2 == 0
        words = f"{name}: {_shown(stage, share)}"
        at = min(x, right - width(words, size, 500)) if above or long > 300 else right - width(words, size, 500)
        rows.append(("grow", _bar("load" if name in loads else "dot", x, y, long, tall)))
        rows.append(("set", _words(format, at, y - 0.28 * size if above else y + tall + 1.0 * size, words, size)))
        x += long
    return Panel(tuple(rows), format.word_zone)


def _shown(stage: Stage, value: Value) -> str:
    return measure(stage.act.rig, value.number, value.unit).near if value.number is not None else ""


def _words(format: Format, x: float, y: float, words: str, size: float, weight: int = 500) -> tuple[Primitive, ...]:
    pen = Pen()
    pen.text(plain(words), x, y, size, weight)
    return tuple(pen.marks)


def _bar(role: str, x: float, y: float, long: float, tall: float) -> tuple[Primitive, ...]:
    pen = Pen()
    pen.rect(role, x, y, long, tall)
    return tuple(pen.marks)


def wrong(stage: Stage, heading: str, answers: Sequence[tuple[Shown, str]], size: float) -> Panel:
    """The wrong answer and the right one, each with its reckoning, at the same size."""
    format, pen = stage.format, Pen()
    left, top, right, bottom = format.words
    narrow = right - left < 400
    head = min(84.0, 84.0 * (right - left) / max(1.0, width(heading, 84.0, 500)))
    y = top + head if narrow else max(top, (top + bottom) / 2 - 250) + head
    pen.text(plain(heading), left, y, max(head, format.small), 500)
    rows: list[tuple[str, tuple[Primitive, ...]]] = [("set", tuple(pen.marks))]
    pitch = (bottom - y) / (len(answers) + 0.4) if narrow else min(215.0, (bottom - y) / len(answers))
    for number, (shown, result) in enumerate(answers):
        pen = Pen()
        room = right - left if narrow else right - left - width(result, size, 600) - 80
        made = lines(shown, size, format.small, room, stage.kinds)
        base = y + pitch * (number + 0.62)
        if number:
            pen.line("leader", left, base - 0.52 * pitch, right, base - 0.52 * pitch)
        _column(pen, made, left, base)
        drop = made[-1].below + size if narrow else 0.0
        pen.text(plain(result), right, base + drop, size, 600 if number else 500, "end")
        rows.append(("set", tuple(pen.marks)))
    return Panel(tuple(rows), format.word_zone)


def _column(pen: Pen, made: Sequence[Setting], x: float, base: float) -> None:
    for row in made:
        row.draw(pen, x, base)
        base += row.below + row.above


def bars(stage: Stage, heading: str, found: Sequence[tuple[str, str, float]], size: float) -> Panel:
    """Bars to one scale: words over each, its number after it; `found` are words, number as shown, size."""
    format = stage.format
    left, top, right, bottom = format.words
    most = max(value for *_, value in found)
    room = right - left - max(width(shown, 1.2 * size, 600) for _, shown, _ in found) - 70
    pitch = min(170.0, (bottom - top - 1.6 * size) / len(found))
    stacked = room < 240  # numbers over the bars where there is no room beside them
    y = top + size if stacked else max(top, (top + bottom) / 2 - 0.5 * pitch * len(found) - 0.8 * size) + 0.8 * size
    rows: list[tuple[str, tuple[Primitive, ...]]] = [("set", _words(format, left, y, heading, size, 400))]
    for number, (words, shown, value) in enumerate(found):
        base = y + 1.5 * size + pitch * number
        long = (right - left if stacked else room) * value / most
        pen = Pen()
        pen.text(plain(words), left, base, size, 500)
        if not stacked:
            pen.text(plain(shown), right, base + 0.9 * size, 1.25 * size, 600, "end")
        rows.append(("set", tuple(pen.marks)))
        role = "hollow" if words == "perfect" else "band"
        rows.append(("grow", _bar(role, left, base + 0.28 * size, long, min(58.0, pitch - 1.35 * size))))
    return Panel(tuple(rows), format.word_zone)


def keeping(stage: Stage, facts: Sequence[tuple[Shown, str]], size: float) -> Panel:
    """What is worth keeping: a formula a row, what it is under it, hair lines between."""
    format = stage.format
    left, top, right, bottom = format.words
    pitch = (bottom - top) / len(facts)
    rows: list[tuple[str, tuple[Primitive, ...]]] = []
    for number, (shown, words) in enumerate(facts):
        pen, middle = Pen(), top + pitch * (number + 0.5)
        made = lines(shown, size, format.small, right - left, stage.kinds)
        tall = sum(row.above + row.below for row in made)
        under = 1.15 * format.text if words else 0.0
        base = middle - (tall + under) / 2 + made[0].above
        _column(pen, made, left, base)
        if words:
            pen.text(plain(words), left, middle + (tall + under) / 2 - 0.1 * format.text, format.text)
        if number:
            pen.line("leader", left, top + pitch * number, right, top + pitch * number)
        rows.append(("set", tuple(pen.marks)))
    return Panel(tuple(rows), format.word_zone)


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
