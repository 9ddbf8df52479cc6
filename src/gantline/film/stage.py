"""A rig in a frame: where it stands, how large, and what a figure of it is made of."""

from functools import cached_property

from msgspec.structs import replace

from gantline.figure import (
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
COLUMN = 40.0  # px of a figure from the rig's right edge to where the column begins
BELOW = 0.4  # radii kept free under the lowest thing
ROOMIER = 1.25  # how much larger the rig must be for another layout to be taken

Lit = tuple[str, ...] | None


class Parts:
    """A scene taken apart: what lies under the rig, the rig, what lies over it, and the column beside it."""

    def __init__(self, scene: Scene, edge: float) -> None:
        beside = [mark for mark in scene.marks if mark.layer not in (*RIG, *UNDER) and _left(mark) > edge]
        away = set(map(id, beside))
        own = [mark for mark in scene.marks if id(mark) not in away]
        self.under = tuple(mark for mark in own if mark.layer in UNDER)
        self.rig = tuple(mark for mark in own if mark.layer in RIG)
        self.over = tuple(mark for mark in own if mark.layer not in (*RIG, *UNDER))
        self.column = tuple(beside)
        self.says = scene.description


def _left(mark: Primitive) -> float:
    if isinstance(mark, Text):
        return mark.box[0]
    if isinstance(mark, Path) and not mark.x:  # drawn where it stands: its first point says where
        return float(mark.d[1:].split(" ")[0])
    return min((getattr(mark, name) for name in ("x", "x1", "x2") if hasattr(mark, name)), default=0.0)


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

    @property
    def edge(self) -> float:
        """Where the column of a figure begins (px of the figure)."""
        return self.layout.right * UNIT + COLUMN

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
        return self._lettered(Parts(scene, self.edge))

    def hauled(self, share: float, lit: Lit = None) -> Parts:
        """The rig after a share of its travel."""
        scene = hauled(self.act.rig, self.act.answer, self.layout, share * self.travel, lit, self.large)
        return self._lettered(Parts(scene, self.edge))

    def tipped(self, share: float, lit: Lit = None) -> Parts:
        """The rig with a share of the tilt that real wheels give it. Raises NotDrawable where it has none."""
        scene = tipping(self.act.rig, self.act.answer, self.layout, share, lit, self.large)
        return self._lettered(Parts(scene, self.edge))

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

    def beside(self, name: str, marks: tuple[Primitive, ...]) -> Layer:
        """Marks of the figure's column, moved to the frame's; none where the frame has no column."""
        if self.format.column is None:
            return Layer(name, ())
        left, top, right, bottom = self.format.column
        middle = self.layout.right * UNIT + 132.0
        scale = min(self.scale, (right - left) / 150.0)
        height = (self.layout.top + self.layout.bottom) / 2 * UNIT
        return Layer(
            name,
            marks,
            scale,
            (left + right) / 2 - middle * scale,
            (top + bottom) / 2 - height * scale - 20,
            self.format.word_zone,
        )

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
