"""A rig in a frame: where it stands, how large, and what a figure of it is made of."""

import re
from functools import cached_property

from msgspec.structs import replace

from gantline.figure import (
    Line,
    NotDrawable,
    Path,
    Primitive,
    Scene,
    Text,
    draw,
    hauled,
    lay_out,
    shown_travel,
    tipping,
)
from gantline.mechanics import Answer, way_symbols
from gantline.rig import Moving

from .formats import Box, Format
from .formula import Kinds
from .picture import Layer
from .storyboard import Act

UNIT = 30.0  # px of a figure a sheave radius
LABEL = 15.0  # px of a figure: the smallest words on strands
UNDER = ("bag", "band", "ghost")
RIG = ("ground", "wheel", "rope", "body", "hand")
COLUMN = "column"
BELOW = 0.4  # radii kept free under the lowest thing
ROOMIER = 1.25  # how much larger the rig must be for another layout to be taken

Lit = tuple[str, ...] | None


class Parts:
    """A scene taken apart: what lies under the rig, the rig, what lies over it, and the column beside it."""

    def __init__(self, scene: Scene) -> None:
        self.under = tuple(mark for mark in scene.marks if mark.layer in UNDER)
        self.rig = tuple(mark for mark in scene.marks if mark.layer in RIG)
        self.column = tuple(mark for mark in scene.marks if mark.layer == COLUMN)
        self.over = tuple(mark for mark in scene.marks if mark.layer not in (*RIG, *UNDER, COLUMN))
        self.says = scene.description


def extent(mark: Primitive) -> Box:
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


class Stage:
    """One act in one format: in its first layout, unless another has much more room for this rig."""

    def __init__(self, act: Act, formats: tuple[Format, ...]) -> None:
        self.act = act
        self.layout = lay_out(act.rig, act.answer)
        self.travel = shown_travel(act.rig, act.answer, self.layout)
        units = [self._unit(format) for format in formats]
        best = max(units) / ROOMIER
        self.format, self.unit = next((f, u) for f, u in zip(formats, units, strict=True) if u >= best)
        left, top, right, _ = self.format.rig
        self.scale = self.unit / UNIT
        self.x = (left + right) / 2 - (self.layout.left + self.layout.right) / 2 * self.unit
        self.y = max(self.format.beam, top - self.layout.top * self.unit)
        self.large = max(1.01, self.format.small / (LABEL * self.scale))

    def _unit(self, format: Format) -> float:
        """The px of a sheave radius at which the rig fits, hand down."""
        left, _, right, bottom = format.rig
        high = self._lowest() + max(0.0, -self.layout.top - 0.7)
        return min(format.most, (right - left) / (self.layout.right - self.layout.left), (bottom - format.beam) / high)

    def _lowest(self) -> float:
        """The lowest the rig comes, with its hand down (radii under the beam)."""
        grip, low = self.layout.grip, self.layout.bottom
        hauls = grip is not None and not grip.up and not grip.body
        return max(low, (grip.y + max(self.travel, 2.6) + 1.4) if grip and hauls else low) + BELOW

    @property
    def room(self) -> Box:
        """Where words on the rig may stand (px of the figure): clear of the words beside it."""
        left, top, right, bottom = self.format.labels
        return (
            (left - self.x) / self.scale, (top - self.y) / self.scale,
            (right - self.x) / self.scale, (bottom - self.y) / self.scale,
        )  # fmt: skip

    def parts(
        self, view: str, lit: Lit = None, marks: tuple[tuple[str, str], ...] = (), struck: tuple[str, ...] = (),
        answer: Answer | None = None, way: str | None = None,
    ) -> Parts:  # fmt: skip
        """A view of the rig; the bare rig where this rig has nothing of what the view would show."""
        try:
            scene = draw(
                self.act.rig, answer or self.act.answer, view, layout=self.layout, lit=lit, marks=marks,
                struck=struck, caption=False, frame=self.room, way=way, large=self.large,
            )  # fmt: skip
        except NotDrawable:
            scene = draw(self.act.rig, self.act.answer, "bare", layout=self.layout, lit=lit, caption=False,
                         frame=self.room, large=self.large)  # fmt: skip
        return self._lettered(Parts(scene))

    def hauled(self, share: float, lit: Lit = None) -> Parts:
        """The rig after a share of its travel."""
        scene = hauled(self.act.rig, self.act.answer, self.layout, share * self.travel, lit, self.large)
        return self._lettered(Parts(scene))

    def tipped(self, share: float, lit: Lit = None) -> Parts:
        """The rig with a share of the tilt that real wheels give it. Raises NotDrawable where it has none."""
        scene = tipping(self.act.rig, self.act.answer, self.layout, share, lit, self.large)
        return self._lettered(Parts(scene))

    def _lettered(self, parts: Parts) -> Parts:
        """Letters on loads grow with the others, as far as the casting has room."""
        grown = min(self.large, 1.55)
        parts.rig = tuple(
            replace(mark, size=mark.size * grown, width=mark.width * grown, y=mark.y + 0.24 * mark.size * (grown - 1))
            if isinstance(mark, Text)
            else mark
            for mark in parts.rig
        )
        return parts

    def layer(self, name: str, marks: tuple[Primitive, ...]) -> Layer:
        """Marks of a figure where the rig stands."""
        return Layer(name, marks, self.scale, self.x, self.y, self.format.rig_zone)

    def beside(self, name: str, column: tuple[Primitive, ...]) -> Layer:
        """An empty layer in which a figure's column stands in the frame's: no larger than the rig, and inside it."""
        if self.format.column is None or not column:
            return Layer(name, (), self.scale, self.x, self.y)
        left, top, right, bottom = self.format.column
        boxes = [extent(mark) for mark in column]
        x1, y1 = min(box[0] for box in boxes), min(box[1] for box in boxes)
        x2, y2 = max(box[2] for box in boxes), max(box[3] for box in boxes)
        scale = min(self.scale, (right - left) / (x2 - x1), (bottom - top) / (y2 - y1))
        x, y = (left + right - (x1 + x2) * scale) / 2, (top + bottom - (y1 + y2) * scale) / 2
        return Layer(name, (), scale, x, y, self.format.word_zone)

    def at(self, x: float, y: float) -> tuple[float, float]:
        """A place of the layout (radii) in px of the frame."""
        return self.x + x * self.unit, self.y + y * self.unit

    def named(self, part: str) -> str:
        """What a part is called beside the rig: a load by its name, the only block that moves "block"."""
        moving = [each.name for each in self.act.rig.parts if isinstance(each, Moving)]
        return "block" if moving == [part] else part

    @cached_property
    def kinds(self) -> Kinds:
        """The role each letter is written in: pulls red, ways ochre."""
        rig, answer = self.act.rig, self.act.answer
        pulls = {rig.effort_symbol, *dict(answer.tension_symbols).values()}
        ways = set(way_symbols(rig).values())
        return dict.fromkeys(pulls, "red-text") | dict.fromkeys(ways, "ochre-text")
