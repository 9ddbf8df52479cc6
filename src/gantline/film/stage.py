"""A rig in a frame: where it stands, how large, and what a figure of it is made of."""

from functools import cached_property

from msgspec.structs import replace

from gantline.account import called
from gantline.figure import (
    Layout,
    NotDrawable,
    Primitive,
    Scene,
    Text,
    draw,
    hauled,
    lay_out,
    moved,
    pulled,
    shown_travel,
    tipping,
)
from gantline.mechanics import Answer, way_symbols

from .column import around, fitted
from .formats import Box, Format
from .formula import Kinds
from .picture import Layer
from .storyboard import Act

UNIT = 30.0  # px of a figure a sheave radius
LABEL = 15.0  # px of a figure: the smallest words on strands
UNDER = ("bag", "band", "ghost")
RIG = ("ground", "wheel", "rope", "body", "hand")
COLUMN = "column"
CLOSE = 2.35  # times the common size: larger words do not fit between strands
BELOW = 0.2  # radii kept free under the lowest thing
HAND, ARROW = 1.3, 3.4  # radii from the hand to the end of its rope, and to the tip of the arrow that pulls there
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


class Stage:
    """One act in one format: in its first layout, unless another has much more room for this rig."""

    def __init__(self, act: Act, formats: tuple[Format, ...]) -> None:
        self.act = act
        self.layout = lay_out(act.rig, act.answer)
        self.travel = shown_travel(act.rig, act.answer, self.layout)
        self.above, self.below = self._extent()
        units = [self._unit(format) for format in formats]
        best = max(units) / ROOMIER
        self.format, self.unit = next((f, u) for f, u in zip(formats, units, strict=True) if u >= best)
        self.format = self.format.lowered(self.format.rig[3] - self._foot())
        left, top, right, _ = self.format.rig
        self.scale = self.unit / UNIT
        self.x = (left + right) / 2 - (self.layout.left + self.layout.right) / 2 * self.unit
        self.y = max(self.format.beam, top + self.above * self.unit)
        small, tight = (size / (LABEL * self.scale) for size in (self.format.small, self.format.tight))
        self.large = max(1.01, tight, min(small, CLOSE))

    def _foot(self) -> float:
        """The lowest the rig comes in its frame (px)."""
        beam = max(self.format.beam, self.format.rig[1] + self.above * self.unit)
        return beam + self.below * self.unit

    def _unit(self, format: Format) -> float:
        """The px of a sheave radius at which the rig fits, hauled and not, with the arrow at its hand."""
        left, top, right, bottom = format.rig
        high = min((bottom - format.beam) / self.below, (bottom - top) / (self.above + self.below))
        return min(format.most, (right - left) / (self.layout.right - self.layout.left), high)

    def _extent(self) -> tuple[float, float]:
        """How far the rig reaches above its beam line and below it, wherever hand and loads go (radii)."""
        grip = self.layout.grip
        falls = (self.after.body(body.name).y - body.y for body in self.layout.bodies if body.loads)
        above, below = -self.layout.top, self.layout.bottom + max([0.0, *falls])
        if grip is None or grip.body:
            return above, below + BELOW
        goes = max(self.travel + HAND, ARROW)
        return (max(above, goes - grip.y), below + BELOW) if grip.up else (above, max(below, grip.y + goes) + BELOW)

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
        answer: Answer | None = None, way: str | None = None, gone: bool = False,
    ) -> Parts:  # fmt: skip
        """A view of the rig, where it stands or (`gone`) after its travel; the bare rig where this rig has nothing of
        what the view would show."""
        layout = self.after if gone else self.layout
        try:
            scene = draw(
                self.act.rig, answer or self.act.answer, view, layout=layout, lit=lit, marks=marks,
                struck=struck, caption=False, frame=self.room, way=way, large=self.large,
            )  # fmt: skip
        except NotDrawable:
            scene = draw(self.act.rig, self.act.answer, "bare", layout=self.layout, lit=lit, caption=False,
                         frame=self.room, large=self.large)  # fmt: skip
        return self._lettered(Parts(scene))

    def pulled(self, lit: Lit) -> Parts:
        """The rig with what pulls on the bodies in ink; bare where none of them moves."""
        try:
            scene = pulled(self.act.rig, self.act.answer, self.layout, lit or (), self.large, self.room)
        except NotDrawable:
            return self.parts("bare", lit)
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

    def beside(self, parts: Parts) -> Layer:
        """An empty layer in which a figure's column stands in the frame's: no larger than the rig, and inside it. The
        column itself is made to be read there."""
        if not parts.column:
            return Layer("column", (), self.scale, self.x, self.y)
        left, top, right, bottom = self.format.column
        parts.column, scale = fitted(parts.column, self.format.column, self.scale, self.format.small)
        x1, y1, x2, y2 = around(parts.column)
        x, y = (left + right - (x1 + x2) * scale) / 2, (top + bottom - (y1 + y2) * scale) / 2
        return Layer("column", (), scale, x, y, self.format.word_zone)

    def at(self, x: float, y: float) -> tuple[float, float]:
        """A place of the layout (radii) in px of the frame."""
        return self.x + x * self.unit, self.y + y * self.unit

    @staticmethod
    def texts(parts: Parts, part: str) -> list[Box]:
        """The boxes of all words of a part over the rig (px of the figure)."""
        return [mark.box for mark in parts.over if isinstance(mark, Text) and mark.part == part]

    @cached_property
    def after(self) -> Layout:
        """The layout as it is after the travel."""
        return moved(self.act.rig, self.act.answer, self.layout, self.travel)[0]

    @cached_property
    def names(self) -> dict[str, str]:
        """What each part is called, by its name in the file: the planter, the flying block."""
        return called(self.act.rig, self.act.answer)

    @cached_property
    def kinds(self) -> Kinds:
        """The role each letter is written in: pulls red, ways ochre."""
        rig, answer = self.act.rig, self.act.answer
        pulls = {rig.effort_symbol, *dict(answer.tension_symbols).values()}
        ways = set(way_symbols(rig).values())
        return dict.fromkeys(pulls, "red-text") | dict.fromkeys(ways, "ochre-text")
