"""Work put in and what it became: two bars of one length to one scale, hatched, tinted and solid."""

from collections.abc import Sequence
from fractions import Fraction
from math import floor, log10

from msgspec import Struct

from gantline.account import measure
from gantline.figure import Primitive
from gantline.mechanics import Work
from gantline.quantity import Equation, Formula, Number, Product, Symbol, negative
from gantline.rig import Load

from .formula import Setting, setting
from .panels import Panel, Row
from .pen import Pen, plain, width
from .picture import PEN
from .stage import Stage

PITCH = 9.0  # units of a pen: between the strokes of a hatching
NEAR = 0.32  # of the size: words over their bar
TICK = 9.0
LINE, BETWEEN, FOOT = 1.1, 0.6, 1.3  # of the size: from line to line, between the bars, for the scale bar
THIN, THICK = 18.0, 106.0  # px: a bar's height


Words = tuple[tuple[str, Setting], ...]  # lines of a piece: a name, and what follows it


class Share(Struct, frozen=True):
    """A piece of a bar: whose work it is, how it is drawn, its joules, and the formula that gives them."""

    name: str
    role: str
    joules: Fraction
    shown: Equation


def work(stage: Stage, done: Work | None, size: float) -> Panel | None:
    """Work put in, by the hand and by what sinks, and under it what it became; None where it is unknown."""
    if done is None or done.put_in is None or not done.put_in.number:
        return None
    bars = _shares(stage, done)
    left, top, right, bottom = stage.format.words
    scale = (right - left) / float(max(sum(one.joules for one in row) for row in bars))
    said = [_said(stage, row, size) for row in bars]
    tall, foot = _room(stage, said, size), FOOT * size
    if tall < THIN:  # in a flat room: blocks together, and no scale bar
        said, foot = [_said(stage, row, size, short=True) for row in bars], 0.0
        tall = _room(stage, said, size, foot=0.0)
    tall = max(THIN, min(THICK, tall))
    y = max(top, (top + bottom - _high(said, size) - foot - 2 * tall - BETWEEN * size) / 2)
    made: list[Row] = []
    ends: list[float] = []
    for row, words in zip(bars, said, strict=True):
        y += _high([words], size)
        made += _bar(row, words, left, y, tall, scale, size)
        ends.append(y + tall)
        y += tall + BETWEEN * size
    made.append(("set", _guides(left, right, ends[0], ends[1] - tall)))
    made.append(("set", _scale_bar(stage, scale, ends[1] + 0.8 * size, size) if foot else ()))
    return Panel(tuple(made), stage.format.word_zone)


def _high(said: Sequence[Sequence[Words]], size: float) -> float:
    """The height (px) of all lines over bars."""
    return LINE * size * sum(len(words) for row in said for words in row)


def _room(stage: Stage, said: Sequence[Sequence[Words]], size: float, foot: float | None = None) -> float:
    """The height (px) that is left for a bar."""
    _, top, _, bottom = stage.format.words
    foot = FOOT * size if foot is None else foot
    return (bottom - top - _high(said, size) - foot - BETWEEN * size) / 2


def _shares(stage: Stage, done: Work) -> tuple[list[Share], list[Share]]:
    """What gives, the hand first, and what takes, the loads first."""
    rig = stage.act.rig
    loads = {part.name for part in rig.parts if isinstance(part, Load)}
    into: list[Share] = []
    out: list[Share] = []
    for name, value in sorted(done.shares, key=lambda one: one[0] not in loads):
        if value.number:
            role = "load" if name in loads else "metal" if value.number < 0 else "dot"
            shown = _equation(stage, value.formula, value.number)
            (out if value.number > 0 else into).append(
                Share(stage.names[name].removeprefix("the "), role, abs(value.number), shown)
            )
    assert done.put_in is not None
    hand = Share("", "work-in", abs(done.put_in.number or Fraction(0)), _by_hand(stage, done))
    return ([hand, *into], out) if (done.put_in.number or 0) > 0 else (into, [*out, hand])


def _equation(stage: Stage, formula: Formula | None, joules: Fraction) -> Equation:
    """W h = 174 J, without a sign: where it stands says who gives and who takes."""
    number = Number(abs(joules), measure(stage.act.rig, abs(joules), "J").near)
    if formula is None:
        return Equation((number,))
    return Equation((negative(formula) or formula, number))


def _by_hand(stage: Stage, done: Work) -> Equation:
    """F s = 90 N × 2 m = 180 J."""
    act = stage.act
    pull, way = act.answer.ideal.effort, dict(act.answer.travel).get("hand")
    letters = Product((Symbol(act.rig.effort_symbol), Symbol(act.rig.haul_symbol)))
    joules = abs((done.put_in.number if done.put_in else None) or Fraction(0))
    sides: list[Formula] = [letters]
    if pull is not None and pull.number and way is not None and way.number:
        factors = [(abs(value.number or Fraction(0)), value.unit) for value in (pull, way)]
        sides.append(Product(tuple(Number(n, measure(act.rig, n, unit).near) for n, unit in factors)))
    return Equation((*sides, Number(joules, measure(act.rig, joules, "J").near)))


def _said(stage: Stage, row: Sequence[Share], size: float, short: bool = False) -> list[Words]:
    """What is written over a bar, piece by piece: name and formula; name and number where that is too wide, one under
    the other where that is. `short`: all after the first together, without formulas."""
    if short and len(row) > 2:
        rest = sum((one.joules for one in row[1:]), Fraction(0))
        joined = Share("blocks", "", rest, _equation(stage, None, rest))
        return [_of_one(stage, row[0], size), *[()] * (len(row) - 2), _of_one(stage, joined, size)]
    return [_of_one(stage, share, size) for share in row]


def _of_one(stage: Stage, share: Share, size: float) -> Words:
    left, _, right, _ = stage.format.words
    name = f"{share.name}  " if share.name else ""
    whole, number = setting(share.shown, size, stage.kinds), setting(Equation(share.shown.sides[-1:]), size, {})
    if width(name, size) + whole.wide <= right - left:
        return ((name, whole),)
    if width(name or "you  ", size) + number.wide <= right - left:
        return ((name or "you  ", number),)
    return (name.strip(), setting("", size, {})), ("", number)


def _bar(
    row: Sequence[Share], said: Sequence[Words], left: float, y: float, tall: float, scale: float, size: float
) -> list[Row]:  # fmt: skip
    """The pieces of a bar one after the other, each with its words over the bar: those of the first lowest, for they
    need no leader."""
    x, made, done = left, [], 0
    right = left + sum(float(share.joules) for share in row) * scale
    for number, (share, words) in enumerate(zip(row, said, strict=True)):
        long = float(share.joules) * scale
        pen = Pen()
        for n, (name, shown) in enumerate(words):
            base = y - NEAR * size - LINE * size * (done + len(words) - 1 - n)
            wide = width(name, size)
            at = max(left, min(x, right - wide - shown.wide)) if number else x
            pen.text(plain(name), at, base, size * min(1.0, (right - left) / max(wide, 1.0)))
            shown.draw(pen, at + wide, base)
        if number and words:
            pen.line("leader", x + long / 2, y - NEAR * size - LINE * size * done + 0.22 * size, x + long / 2, y)
        done += len(words)
        made.append(("grow", _piece(share.role, x, y, long, tall)))
        made.append(("set", tuple(pen.marks)))
        x += long
    return made


def _piece(role: str, x: float, y: float, long: float, tall: float) -> tuple[Primitive, ...]:
    pen = Pen()
    pen.rect(role, x, y, long, tall)
    if role == "work-in":
        pen.path("hatch-red", _hatching(long / PEN, tall / PEN), x, y)
    return tuple(pen.marks)


def _hatching(wide: float, high: float) -> str:
    """Strokes from the lower left to the upper right, inside a box from the origin (units of a pen)."""
    strokes = []
    for n in range(1, int((wide + high) / PITCH) + 1):
        reach = n * PITCH
        x1, y1 = (0.0, reach) if reach <= high else (reach - high, high)
        x2, y2 = (reach, 0.0) if reach <= wide else (wide, reach - wide)
        strokes.append(f"M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}")
    return "".join(strokes)


def _guides(left: float, right: float, top: float, bottom: float) -> tuple[Primitive, ...]:
    """The two bars are of one length: their ends stand under each other."""
    pen = Pen()
    for x in (left, right):
        pen.line("level", x, top, x, bottom)
    return tuple(pen.marks)


def _scale_bar(stage: Stage, scale: float, y: float, size: float) -> tuple[Primitive, ...]:
    """A round number of joules, about a sixth of the bars long."""
    left, _, right, _ = stage.format.words
    target = (right - left) / 6 / scale
    power = 10.0 ** floor(log10(target))
    joules = next(step * power for step in (5, 2, 1) if step * power <= target)
    pen, long = Pen(), joules * scale
    pen.line("scale", left, y, left + long, y)
    for x in (left, left + long):
        pen.line("scale", x, y - TICK, x, y + TICK)
    words = measure(stage.act.rig, Fraction(joules).limit_denominator(10**6), "J").near
    pen.text(plain(words), left + long + 18, y + 0.33 * size, size)
    return tuple(pen.marks)
