"""The column of arrows in a frame: its marks fitted into a box, its letters large enough to be read there."""

import re
from collections.abc import Sequence

from msgspec.structs import replace

from gantline.figure import Line, Path, Primitive, Text

from .formats import Box

LEAST = 0.72  # of the smallest words: letters that stand at an arrow of the column
ROUNDS = 6


def fitted(marks: Sequence[Primitive], box: Box, most: float, small: float) -> tuple[tuple[Primitive, ...], float]:
    """The marks, and the scale (px a px of the figure, at most `most`) at which they fill the box. Where pulls are
    shorter than their letter is high, or words would be smaller than they may be, each is written once, and larger."""
    made = _larger(marks, 1.0) if _crowded(marks) else tuple(marks)
    for _ in range(ROUNDS):
        scale = _scale(made, box, most)
        size = min((mark.size for mark in made if isinstance(mark, Text)), default=small) * scale
        if size >= LEAST * small * 0.999:
            return made, scale
        made = _larger(made, LEAST * small / size)
    return made, _scale(made, box, most)


def _crowded(marks: Sequence[Primitive]) -> bool:
    sizes = [mark.size for mark in marks if isinstance(mark, Text)]
    pulls = [box[3] - box[1] for mark in marks if isinstance(mark, Path) and mark.role == "force"
             for box in [_extent(mark)]]  # fmt: skip
    return bool(sizes) and len(pulls) > 1 and min(pulls) < 0.9 * max(sizes)


def _scale(marks: Sequence[Primitive], box: Box, most: float) -> float:
    left, top, right, bottom = box
    x1, y1, x2, y2 = around(marks)
    return min(most, (right - left) / (x2 - x1), (bottom - top) / (y2 - y1))


def around(marks: Sequence[Primitive]) -> Box:
    """The box round all marks (px of the figure)."""
    boxes = [_extent(mark) for mark in marks]
    return (
        min(box[0] for box in boxes), min(box[1] for box in boxes),
        max(box[2] for box in boxes), max(box[3] for box in boxes),
    )  # fmt: skip


def _larger(marks: Sequence[Primitive], times: float) -> tuple[Primitive, ...]:
    """Each word once, at the middle one of the places it has, about the same middle."""
    places: dict[str, list[Text]] = {}
    for mark in marks:
        if isinstance(mark, Text):
            places.setdefault(mark.words, []).append(mark)
    kept = {id(found[len(found) // 2]) for found in places.values()}
    return tuple(
        _grown(mark, times) if isinstance(mark, Text) else mark
        for mark in marks
        if not isinstance(mark, Text) or id(mark) in kept
    )


def _grown(mark: Text, times: float) -> Text:
    return replace(mark, size=mark.size * times, width=mark.width * times, y=mark.y + 0.24 * mark.size * (times - 1))


def _extent(mark: Primitive) -> Box:
    """A box round a mark of the column: lines, texts, arrows and the scale bar."""
    match mark:
        case Text():
            return mark.box
        case Line():
            return min(mark.x1, mark.x2), min(mark.y1, mark.y2), max(mark.x1, mark.x2), max(mark.y1, mark.y2)
        case Path() if mark.x:  # an arrow, about its tail
            tip = float(re.search(r"L0 (-?[\d.]+)", mark.d)[1])  # type: ignore[index]
            return mark.x - 7, min(mark.y, mark.y + tip), mark.x + 7, max(mark.y, mark.y + tip)
        case Path():  # the scale bar, drawn where it stands; its words reach further
            x, y = (float(number) for number in re.findall(r"-?[\d.]+", mark.d)[:2])
            return x, y, x, y + 8
        case _:
            raise ValueError(f"no column has a {type(mark).__name__}")
