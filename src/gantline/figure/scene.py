"""The inert picture: a few primitives in paint order, each with the part it shows and the role it plays.

Lengths are in px at 30 px a sheave radius; y runs downward; angles are in degrees, clockwise from the right.
"""

from typing import Union

from msgspec import Struct


class Run(Struct, frozen=True):
    """A stretch of text in one cut: `italic` for letters that stand for quantities, `low` for an index."""

    text: str
    italic: bool = False
    low: bool = False


class Mark(Struct, frozen=True, kw_only=True):
    """What every primitive has: the part it shows, its role in the style, pencil or ink, and its layer.

    `body` names what it moves with, `sheave` the wheel it belongs to; both may be empty.
    """

    part: str
    role: str
    pencil: bool = False
    layer: str = "rig"
    body: str = ""
    sheave: str = ""


class Line(Mark, frozen=True, tag=True):
    x1: float
    y1: float
    x2: float
    y2: float


class Path(Mark, frozen=True, tag=True):
    """`d` is an SVG path in its own frame, which is mirrored top to bottom (`flip`), turned, and moved to (x, y)."""

    d: str
    x: float = 0.0
    y: float = 0.0
    turn: float = 0.0
    flip: bool = False


class Circle(Mark, frozen=True, tag=True):
    x: float
    y: float
    r: float


class Arc(Mark, frozen=True, tag=True):
    """Part of a circle from angle `start` to angle `end`, clockwise on the page where `end` is the larger."""

    x: float
    y: float
    r: float
    start: float
    end: float


class Rect(Mark, frozen=True, tag=True):
    x: float
    y: float
    width: float
    height: float
    round: float = 0.0


class Strand(Mark, frozen=True, tag=True):
    """A straight run of rope between two points. `name` is rope:index, `lay` its look, 0 to 4.

    `run` is how far (px) its lay has come down from the upper end, or along from the first one where it is not plumb.
    """

    name: str
    x1: float
    y1: float
    x2: float
    y2: float
    lay: int = 0
    run: float = 0.0


class Wrap(Mark, frozen=True, tag=True):
    """Rope on a wheel: an arc of radius r about (x, y) between two angles, along the rope's path.

    `run` is how far (degrees, clockwise) its lay has gone round.
    """

    name: str
    x: float
    y: float
    r: float
    start: float
    end: float
    lay: int = 0
    run: float = 0.0


class Text(Mark, frozen=True, tag=True):
    """One line of text; (x, y) is on its baseline. `anchor` is start, middle or end, `width` its exact width."""

    x: float
    y: float
    runs: tuple[Run, ...]
    size: float
    weight: int = 400
    anchor: str = "start"
    width: float = 0.0

    @property
    def words(self) -> str:
        return "".join(run.text for run in self.runs)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of the letters."""
        left = self.x - {"start": 0.0, "middle": self.width / 2, "end": self.width}[self.anchor]
        return left, self.y - 0.72 * self.size, left + self.width, self.y + 0.24 * self.size


Primitive = Union[Line, Path, Circle, Arc, Rect, Strand, Wrap, Text]  # noqa: UP007 - one name for all of them


class Panel(Struct, frozen=True):
    """A state or a part drawn for itself, side by side with others: its left edge, its width and its caption."""

    name: str
    x: float
    width: float
    caption: str = ""


class Scene(Struct, frozen=True):
    """A whole figure, its frame from (left, top). `title` and `description` are its alternative text."""

    view: str
    left: float
    top: float
    width: float
    height: float
    title: str
    description: str
    marks: tuple[Primitive, ...]
    panels: tuple[Panel, ...] = ()
    scale: float | None = None  # px a newton, where arrows have a length
