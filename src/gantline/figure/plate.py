"""The plate a view is drawn on: one rig, its answer, its layout, what is in ink; and the rig itself, drawn in full."""

from fractions import Fraction

from gantline.mechanics import Answer, Value
from gantline.quantity import numeral
from gantline.rig import Given, Rig, shown_unit

from . import glyphs
from .glyphs.load import Label
from .layout import Body, Layout
from .scene import Panel, Run
from .sheet import Sheet
from .words import plain, symbol

Box = tuple[float, float, float, float]  # left, top, right, bottom, px


class Plate:
    """What a view draws on. `room` are the boxes of what it has added: they bound the frame and keep labels off."""

    def __init__(
        self,
        rig: Rig,
        answer: Answer,
        layout: Layout,
        lit: frozenset[str] | None = None,
        marks: tuple[tuple[str, str], ...] = (),
        struck: tuple[str, ...] = (),
        large: float = 1.0,
    ) -> None:
        self.rig, self.answer, self.layout = rig, answer, layout
        self.marks, self.struck, self.large = marks, struck, large
        self.sheet = Sheet(0.0, 0.0, lit)
        self.room: list[Box] = []
        self.frame: Box | None = None  # where the frame is given beforehand: words stay inside
        self.panels: list[Panel] = []
        self.scale: float | None = None
        self.earlier: Plate | None = None  # the same rig before what is only tried: its forces stay as ticks
        self.caption: tuple[Run, ...] = ()

    def claim(self, left: float, top: float, right: float, bottom: float) -> None:
        """Notes that something stands here."""
        self.room.append((min(left, right), min(top, bottom), max(left, right), max(top, bottom)))

    def rig_box(self) -> Box:
        at, one = self.sheet.at, self.layout
        return (*at(one.left, one.top), *at(one.right, one.bottom))

    def labels(self, values: bool) -> dict[str, Label]:
        """Each load's letter, and its value where it has one, `values` asks for it, and letters are of common size."""
        found: dict[str, Label] = {}
        for part in self.rig.loads:
            given = part.weight or part.mass
            if given:
                shown = values and self.large == 1 and given.number is not None
                number = plain(self.given(given)) if shown else ()
                found[part.name] = (symbol(given.symbol), number)
        return found

    def given(self, given: Given) -> str:
        return self.amount(given.number or Fraction(0), "kg" if given.kind == "mass" else "N")

    def amount(self, number: Fraction, unit: str) -> str:
        """A number of this SI unit as the reader's unit has it: 90 N, 16 lbf."""
        shown = shown_unit(self.rig, unit)
        name = shown.name if shown else unit
        return f"{numeral(number / shown.factor if shown else number)}\u00a0{name}"

    def value(self, value: Value | None) -> str:
        """A computed value with its unit; empty where it is unknown."""
        return "" if value is None or value.number is None else self.amount(value.number, value.unit)

    def draw_rig(
        self,
        values: bool = True,
        skip: frozenset[str] = frozenset(),
        turns: dict[str, float] | None = None,
        index: bool = False,
    ) -> None:
        """Everything of the rig: grounds, wheels, ropes, bodies, ends, hand. `turns` are the wheels' angles."""
        self.draw_ropes(turns, skip, index)
        self.sheet.layer = "body"
        labels = self.labels(values)
        for body in self.layout.bodies:
            self.draw_body(body, labels)
        self.draw_hand()

    def draw_ropes(
        self, turns: dict[str, float] | None = None, skip: frozenset[str] = frozenset(), index: bool = False
    ) -> None:
        """What the bodies stand before: grounds, wheels, ropes."""
        sheet, layout = self.sheet, self.layout
        sheet.layer = "ground"
        glyphs.fixed.draw_grounds(sheet, layout)
        sheet.layer = "wheel"
        for wheel in layout.wheels:
            sheet.body, sheet.sheave = wheel.body, wheel.sheave
            glyphs.sheave.draw_wheel(sheet, wheel, (turns or {}).get(wheel.sheave, 0.0), index)
        sheet.body = sheet.sheave = ""
        sheet.layer = "rope"
        glyphs.rope.draw(sheet, layout, skip)

    def draw_body(self, body: Body, labels: dict[str, Label]) -> None:
        """One body: ironwork, loads, and the rope ends made fast to it."""
        sheet, layout = self.sheet, self.layout
        sheet.body = body.name
        if body.side == "moving":
            glyphs.moving.draw(sheet, layout, body)
            glyphs.load.draw(sheet, layout, body, labels)
        else:
            glyphs.fixed.draw(sheet, layout, body)
        look = glyphs.rope.lays(layout)
        for end in layout.ends:
            if end.body == body.name:
                glyphs.rope.draw_end(sheet, end, look[end.rope], body.parts)
        sheet.body = ""

    def draw_hand(self) -> None:
        sheet, grip = self.sheet, self.layout.grip
        if grip is None:
            return
        sheet.layer = "hand"
        sheet.body = grip.body or "hand"
        glyphs.rope.draw_tail(sheet, grip, glyphs.rope.lays(self.layout)[grip.rope])
        glyphs.hand.draw(sheet, grip)
        sheet.body = ""
