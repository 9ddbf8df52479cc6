"""The sheet a figure is drawn on: it collects primitives, and knows scale, place, and what is in ink."""

from typing import Any

from .scene import Arc, Circle, Line, Mark, Path, Primitive, Rect, Run, Strand, Text, Wrap
from .words import width

UNIT = 30.0  # px a sheave radius


class Sheet:
    """`lit` are the part ids in ink (None: all). Glyphs draw in px about a point given in sheave radii."""

    def __init__(self, x: float, y: float, lit: frozenset[str] | None = None) -> None:
        self.marks: list[Primitive] = []
        self.lit = lit
        self.origin = (x, y)
        self.body = ""
        self.sheave = ""
        self.layer = "rig"

    def at(self, x: float, y: float) -> tuple[float, float]:
        """A place of the layout in px."""
        return self.origin[0] + UNIT * x, self.origin[1] + UNIT * y

    def pencil(self, *ids: str) -> bool:
        """Whether something with these ids is only in pencil."""
        return self.lit is not None and not any(one in self.lit for one in ids)

    def add(self, kind: type[Mark], part: str, role: str, pencil: bool = False, **more: Any) -> None:
        mark = kind(part=part, role=role, pencil=pencil, layer=self.layer, body=self.body, sheave=self.sheave, **more)
        self.marks.append(mark)  # type: ignore[arg-type]

    def line(self, part: str, role: str, x1: float, y1: float, x2: float, y2: float, pencil: bool = False) -> None:
        self.add(Line, part, role, pencil, x1=x1, y1=y1, x2=x2, y2=y2)

    def path(
        self, part: str, role: str, d: str, x: float = 0.0, y: float = 0.0, pencil: bool = False, turn: float = 0.0,
        flip: bool = False,
    ) -> None:  # fmt: skip
        self.add(Path, part, role, pencil, d=d, x=x, y=y, turn=turn, flip=flip)

    def circle(self, part: str, role: str, x: float, y: float, r: float, pencil: bool = False) -> None:
        self.add(Circle, part, role, pencil, x=x, y=y, r=r)

    def arc(
        self, part: str, role: str, x: float, y: float, r: float, start: float, end: float, pencil: bool = False
    ) -> None:
        self.add(Arc, part, role, pencil, x=x, y=y, r=r, start=start, end=end)

    def rect(
        self, part: str, role: str, x: float, y: float, w: float, h: float, pencil: bool = False, round: float = 0.0
    ) -> None:
        self.add(Rect, part, role, pencil, x=x, y=y, width=w, height=h, round=round)

    def strand(
        self, rope: str, name: str, ends: tuple[float, float, float, float], lay: int, pencil: bool = False
    ) -> None:
        x1, y1, x2, y2 = ends
        self.add(Strand, rope, "rope", pencil, name=name, x1=x1, y1=y1, x2=x2, y2=y2, lay=lay)

    def wrap(self, rope: str, name: str, x: float, y: float, r: float, turn: tuple[float, float], lay: int,
             pencil: bool = False) -> None:  # fmt: skip
        self.add(Wrap, rope, "rope", pencil, name=name, x=x, y=y, r=r, start=turn[0], end=turn[1], lay=lay)

    def text(
        self, part: str, role: str, x: float, y: float, runs: tuple[Run, ...], size: float, weight: int = 400,
        anchor: str = "start", pencil: bool = False,
    ) -> None:  # fmt: skip
        across = width(runs, size, weight)
        self.add(Text, part, role, pencil, x=x, y=y, runs=runs, size=size, weight=weight, anchor=anchor, width=across)
