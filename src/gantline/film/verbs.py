"""How each verb moves: easing, and what a mark looks like on the way."""

import re
from collections.abc import Callable, Sequence
from itertools import pairwise

from msgspec.structs import replace

from gantline.figure import Layout, Line, Path, Primitive, Rect, Strand, Wrap, arrow_part

Marks = tuple[Primitive, ...]


def ease(share: float) -> float:
    """cubic-bezier(.3, 0, .2, 1): how far a move has come when `share` of its time is over."""
    low, high = 0.0, 1.0
    for _ in range(24):  # time rises with the curve's parameter: halving finds it
        at = (low + high) / 2
        low, high = (at, high) if _bezier(at, 0.3, 0.2) < share else (low, at)
    return _bezier((low + high) / 2, 0.0, 1.0)


def _bezier(at: float, one: float, two: float) -> float:
    return 3 * at * (1 - at) ** 2 * one + 3 * at**2 * (1 - at) * two + at**3


def smooth(share: float) -> float:
    """Smoothstep: a haul begins and ends at rest, and never goes back."""
    return share * share * (3 - 2 * share)


def gathering(share: float) -> float:
    """From rest, gathering speed evenly: what runs by itself under steady pulls."""
    return share * share


def linear(share: float) -> float:
    return share


EASING: dict[str, Callable[[float], float]] = {
    "pencil": ease, "ink": ease, "draw": ease, "grow": ease, "set": linear, "haul": smooth,
    "run": gathering, "tip": ease,
}  # fmt: skip


def grown(marks: Marks, share: float) -> Marks:
    """Arrows from their tails and bars from their left ends, to scale all the way."""
    bar = next((mark for mark in marks if isinstance(mark, Rect)), None)
    return tuple(_grown(mark, share, bar) for mark in marks)


def _grown(mark: Primitive, share: float, bar: Rect | None) -> Primitive:
    if isinstance(mark, Path) and mark.role in ("force", "weight"):
        return replace(mark, d=arrow_part(mark.d, max(share, 0.002)))
    if isinstance(mark, Path) and mark.role == "hatch-red" and bar is not None:
        return replace(mark, d=_clipped(mark.d, bar.width * share))
    if isinstance(mark, Rect):
        return replace(mark, width=mark.width * share)
    return mark


_STROKE = re.compile(r"M(-?[\d.]+) (-?[\d.]+)L(-?[\d.]+) (-?[\d.]+)")


def _clipped(strokes: str, wide: float) -> str:
    """Strokes of a hatching as far to the right as the bar has grown."""
    made = []
    for x1, y1, x2, y2 in (map(float, found) for found in _STROKE.findall(strokes)):
        if x1 < wide:
            part = min(1.0, (wide - x1) / (x2 - x1)) if x2 > x1 else 1.0
            made.append(f"M{x1:.1f} {y1:.1f}L{x1 + (x2 - x1) * part:.1f} {y1 + (y2 - y1) * part:.1f}")
    return "".join(made)


_TICK = re.compile(r"M(-?[\d.]+) (-?[\d.]+)h([\d.]+)")


def tick_at(tick: Path) -> float:
    """The middle of a tick across a strand (px of the figure)."""
    x, _, across = (float(number) for number in _TICK.match(tick.d).groups())  # type: ignore[union-attr]
    return x + across / 2


def ticked(tick: Path, share: float) -> Path:
    """The two strokes of a tick, from the strand outward to both sides."""

    def shorter(stroke: re.Match[str]) -> str:
        x, y, across = (float(number) for number in stroke.groups())
        return f"M{x + across * (1 - share) / 2:.2f} {y:.2f}h{across * share:.2f}"

    return replace(tick, d=_TICK.sub(shorter, tick.d))


def drawn(marks: Marks, share: float) -> Marks:
    """Lines from the part outward; what stands at their end goes with it; the bag from under the load, both ways."""
    main = next((mark for mark in marks if isinstance(mark, Line) and mark.role in ("way", "leader")), None)
    return tuple(piece for mark in marks for piece in _drawn(mark, share, main))


def _drawn(mark: Primitive, share: float, main: Line | None) -> Marks:
    if isinstance(mark, Path) and mark.role == "cut":
        return tuple(replace(mark, d=half) for half in halves(mark.d, share))
    if isinstance(mark, Line) and mark is main:
        return (_shorter(mark, share),)
    if isinstance(mark, Path) and main is not None:  # the head of a dimension line
        return (
            replace(mark, x=mark.x + (main.x2 - main.x1) * (share - 1), y=mark.y + (main.y2 - main.y1) * (share - 1)),
        )
    return (mark,)


def _shorter(line: Line, share: float) -> Line:
    return replace(line, x2=line.x1 + (line.x2 - line.x1) * share, y2=line.y1 + (line.y2 - line.y1) * share)


def halves(outline: str, share: float) -> tuple[str, str]:
    """A closed outline, drawn from the middle of its foot up both sides, so far that they meet at a share of 1."""
    points = _points(outline)
    low = max(y for _, y in points)
    middle = sum(x for x, y in points if y == low) / sum(1 for _, y in points if y == low)
    at = next(n for n, (a, b) in enumerate(pairwise(points)) if a[1] == b[1] == low)
    round = [(middle, low), *points[at + 1 :], *points[1 : at + 1], (middle, low)]
    half = sum(_apart(a, b) for a, b in pairwise(round)) / 2
    return _first(round, half * share), _first(round[::-1], half * share)


Point = tuple[float, float]


def _apart(a: Point, b: Point) -> float:
    return float(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5)


def _first(points: Sequence[Point], length: float) -> str:
    """So much of a run of points, as a path."""
    d = f"M{points[0][0]:.1f} {points[0][1]:.1f}"
    for a, b in pairwise(points):
        whole = _apart(a, b)
        part = min(1.0, length / whole) if whole else 1.0
        d += f"L{a[0] + (b[0] - a[0]) * part:.1f} {a[1] + (b[1] - a[1]) * part:.1f}"
        length -= whole
        if length <= 0:
            break
    return d


def _points(outline: str) -> list[Point]:
    """A path of M, H, V, q and Z as points, each curve as eight chords."""
    points: list[Point] = []
    for letter, rest in re.findall(r"([MHVqZ])([^MHVqZ]*)", outline):
        numbers = [float(number) for number in re.findall(r"-?\d+(?:\.\d+)?", rest)]
        x, y = points[-1] if points else (0.0, 0.0)
        if letter == "M":
            points.append((numbers[0], numbers[1]))
        elif letter == "H":
            points.append((numbers[0], y))
        elif letter == "V":
            points.append((x, numbers[0]))
        elif letter == "q":
            points += [_curve(x, y, numbers, n / 8) for n in range(1, 9)]
    return [*points, points[0]]


def _curve(x: float, y: float, q: Sequence[float], at: float) -> Point:
    return tuple(p + 2 * at * (1 - at) * a + at * at * b for p, a, b in ((x, q[0], q[2]), (y, q[1], q[3])))  # type: ignore[return-value]


def running(marks: Marks, layout: Layout, strands: Sequence[str], share: float, back: bool = False) -> Marks:
    """Ink runs along the rope over these strands and the wheels between them, the rest of them in pencil.

    `back`: against the rope's course. Marks of all else stay as they are.
    """
    pieces = _along(marks, layout, strands)
    if back:
        pieces.reverse()
    left = share * sum(_length(mark) for mark in pieces)
    shown: dict[int, Marks] = {}
    for mark in pieces:
        whole = _length(mark)
        part = max(0.0, min(1.0, left / whole)) if whole else 1.0
        shown[id(mark)] = _partly(mark, part, back)
        left -= whole
    return tuple(piece for mark in marks for piece in shown.get(id(mark), (mark,)))


def within(marks: Marks, outline: str) -> Marks:
    """The marks with rope in ink inside a closed outline only, in pencil outside of it."""
    heights = [y for _, y in _points(outline)]
    sides = [x for x, _ in _points(outline)]
    box = min(sides), min(heights), max(sides), max(heights)
    return tuple(piece for mark in marks for piece in _within(mark, box))


def _within(mark: Primitive, box: tuple[float, float, float, float]) -> Marks:
    left, top, right, bottom = box
    if isinstance(mark, Wrap):
        inside = left < mark.x < right and top < mark.y < bottom
        return (mark if inside else replace(mark, pencil=True),)
    if not isinstance(mark, Strand) or mark.pencil:
        return (mark,)
    y1, y2 = (min(max(y, top), bottom) for y in (mark.y1, mark.y2))
    pencil = replace(mark, pencil=True)
    if not left < mark.x1 < right or y1 == y2:
        return (pencil,)
    inked = replace(mark, y1=y1, y2=y2)
    return pencil, replace(inked, run=mark.run + _upper(mark) - _upper(inked))


def _along(marks: Marks, layout: Layout, strands: Sequence[str]) -> list[Strand | Wrap]:
    """The strands and wraps of these strands, in the rope's course."""
    order = {run.name: n for n, run in enumerate(layout.runs)}
    before = {wheel.sheave: order[wheel.before] for wheel in layout.wheels}
    found = [mark for mark in marks if isinstance(mark, Strand | Wrap) and mark.name in strands]

    def place(mark: Strand | Wrap) -> tuple[int, int]:
        if isinstance(mark, Strand):
            return order[mark.name], 1
        return (before[mark.sheave], 2) if order[mark.name] == before[mark.sheave] else (order[mark.name], 0)

    return sorted(found, key=place)


def _length(mark: Strand | Wrap) -> float:
    if isinstance(mark, Wrap):
        return abs(mark.end - mark.start) * mark.r / 57.29578
    return abs(mark.x2 - mark.x1) + abs(mark.y2 - mark.y1)


def _partly(mark: Strand | Wrap, part: float, back: bool) -> Marks:
    """In pencil all along, and over it so much of it in ink."""
    pencil = replace(mark, pencil=True)
    if part >= 1.0:
        return (mark,)
    if part <= 0.0:
        return (pencil,)
    if isinstance(mark, Wrap):
        far = mark.start + (mark.end - mark.start) * (1 - part if back else part)
        return pencil, replace(mark, start=far) if back else replace(mark, end=far)
    if back:
        inked = replace(mark, x1=mark.x2 + (mark.x1 - mark.x2) * part, y1=mark.y2 + (mark.y1 - mark.y2) * part)
    else:
        inked = replace(mark, x2=mark.x1 + (mark.x2 - mark.x1) * part, y2=mark.y1 + (mark.y2 - mark.y1) * part)
    return pencil, replace(inked, run=mark.run + _upper(mark) - _upper(inked))


def _upper(mark: Strand) -> float:
    """Where the lay of a strand begins: its upper end, or the first one (px along it) where it is not plumb."""
    return min(mark.y1, mark.y2) if mark.x1 == mark.x2 else abs(mark.x1)
