"""A chart: numbers against numbers, in the ink and type of the figures. It decides no magnitude, only where it stands.

Series differ by the shape of their points and the dashes of their lines, never by colour; their names stand above.
"""

from collections.abc import Sequence
from math import ceil, floor, log10

from msgspec import Struct

from .scene import Circle, Line, Path, Primitive, Rect, Scene, Text
from .words import plain, width

_SIZE = 15.0
_LEFT, _RIGHT, _TOP, _BOTTOM = 64.0, 18.0, 44.0, 56.0
_POINTS = {"disc": "dot", "ring": "disc", "square": "disc"}
_LINES = {"line": "edge", "dashes": "ghost", "thin": "hair"}


class Axis(Struct, frozen=True):
    """What runs along an edge: its words with the unit. `zero` keeps zero in view, `least` and `most` set the ends."""

    words: str
    zero: bool = True
    least: float | None = None
    most: float | None = None


class Series(Struct, frozen=True):
    """Points in the units of the axes. `look` is disc, ring or square (points), line, dashes or thin (joined).

    `reach` is how far the bar of each point goes up and down, () for none; `name` stands in the row above, "" for none.
    """

    name: str
    look: str
    points: tuple[tuple[float, float], ...]
    reach: tuple[float, ...] = ()


def chart(
    title: str,
    description: str,
    across: Axis,
    up: Axis,
    series: Sequence[Series],
    size: tuple[float, float] = (560, 360),
) -> Scene:
    """The chart as a scene. `size` is width and height in px. Raises ValueError where there is nothing to show."""
    points = [point for each in series for point in each.points]
    if not points:
        raise ValueError("a chart needs a point")
    wide, high = size
    ys = [y + way * reach for each in series for (_, y), reach in _reaches(each) for way in (1, -1)]
    place = _Place(_ticks([x for x, _ in points], across), _ticks(ys, up), wide, high)
    drawn = [mark for each in series for mark in _drawn(each, place)]
    marks = (*_grid(place, across, up), *drawn, *_key(series, place))
    return Scene("chart", 0.0, 0.0, wide, high, title, description, marks)


def _reaches(series: Series) -> list[tuple[tuple[float, float], float]]:
    return list(zip(series.points, series.reach or (0.0,) * len(series.points), strict=True))


class _Place:
    """From numbers to px."""

    def __init__(self, x_ticks: list[float], y_ticks: list[float], wide: float, high: float) -> None:
        self.x_ticks, self.y_ticks = x_ticks, y_ticks
        self.left, self.right, self.top, self.bottom = _LEFT, wide - _RIGHT, _TOP, high - _BOTTOM

    def x(self, number: float) -> float:
        first, last = self.x_ticks[0], self.x_ticks[-1]
        return self.left + (number - first) / (last - first) * (self.right - self.left)

    def y(self, number: float) -> float:
        first, last = self.y_ticks[0], self.y_ticks[-1]
        return self.bottom - (number - first) / (last - first) * (self.bottom - self.top)


def _ticks(numbers: Sequence[float], axis: Axis) -> list[float]:
    """Round numbers, 1, 2 or 5 apart, that hold all of these."""
    low, high = min(numbers), max(numbers)
    if axis.zero:
        low, high = min(low, 0.0), max(high, 0.0)
    low, high = (low if axis.least is None else axis.least), (high if axis.most is None else axis.most)
    if high <= low:
        low, high = low - 1.0, high + 1.0
    rough = (high - low) / 5
    power = 10.0 ** floor(log10(rough))
    step = next(times * power for times in (1, 2, 5, 10) if times * power >= rough * 0.999)
    return [n * step for n in range(floor(low / step + 1e-9), ceil(high / step - 1e-9) + 1)]


def _tick_words(number: float, ticks: Sequence[float]) -> str:
    places = max(0, -floor(log10(ticks[1] - ticks[0]) + 1e-9))
    words = f"{number:.{places}f}"
    return (words if float(words) else words.replace("-", "")).replace("-", "−")


def _grid(place: _Place, across: Axis, up: Axis) -> list[Primitive]:
    marks: list[Primitive] = []
    for number in place.y_ticks:
        y = place.y(number)
        role = "fine" if number == 0 or number == place.y_ticks[0] else "hair"
        marks.append(Line(part="grid", role=role, pencil=role == "hair", x1=place.left, y1=y, x2=place.right, y2=y))
        marks.append(_text(_tick_words(number, place.y_ticks), place.left - 8, y + 5, "end"))
    for number in place.x_ticks:
        x = place.x(number)
        marks.append(Line(part="grid", role="fine", x1=x, y1=place.bottom, x2=x, y2=place.bottom + 5))
        marks.append(_text(_tick_words(number, place.x_ticks), x, place.bottom + 22, "middle"))
    marks.append(_text(across.words, place.right, place.bottom + 44, "end"))
    marks.append(_text(up.words, 4.0, 18.0, "start"))
    return marks


def _drawn(series: Series, place: _Place) -> list[Primitive]:
    at = [(place.x(x), place.y(y)) for x, y in series.points]
    if series.look in _LINES:
        d = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in at)
        return [Path(part=series.name or "line", role=_LINES[series.look], d=d)]
    marks: list[Primitive] = []
    for (x, y), (value, reach) in zip(at, _reaches(series), strict=True):
        if reach:
            low, high = place.y(value[1] - reach), place.y(value[1] + reach)
            marks.append(Line(part=series.name, role="edge", x1=x, y1=low, x2=x, y2=high))
        marks.append(_point(series, x, y))
    return marks


def _point(series: Series, x: float, y: float) -> Primitive:
    role = _POINTS[series.look]
    if series.look == "square":
        return Rect(part=series.name, role=role, x=x - 4, y=y - 4, width=8, height=8)
    return Circle(part=series.name, role=role, x=x, y=y, r=4.2 if series.look == "disc" else 4.0)


def _key(series: Sequence[Series], place: _Place) -> list[Primitive]:
    """The names, each beside its look, in a row at the top right."""
    marks: list[Primitive] = []
    x = place.right
    for each in reversed([one for one in series if one.name]):
        marks.append(_text(each.name, x, 18.0, "end"))
        x -= width(plain(each.name), _SIZE) + 12
        if each.look in _LINES:
            marks.append(Path(part=each.name, role=_LINES[each.look], d=f"M{x - 22:.1f} 13L{x:.1f} 13"))
            x -= 22
        else:
            marks.append(_point(each, x - 4, 13.0))
            x -= 8
        x -= 18
    return marks


def _text(words: str, x: float, y: float, anchor: str) -> Text:
    runs = plain(words)
    return Text(part="words", role="ink-text", x=x, y=y, runs=runs, size=_SIZE, anchor=anchor, width=width(runs, _SIZE))
