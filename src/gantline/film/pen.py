"""Writes and draws beside the rig: places are px of the frame, what is made is primitives at PEN px a unit."""

from typing import Any

from gantline.figure import Circle, Line, Path, Primitive, Rect, Run, Strand, Text, text_width

from .picture import PEN, Layer, Zone


class Pen:
    """Collects marks in px of the frame."""

    def __init__(self) -> None:
        self.marks: list[Primitive] = []

    def layer(self, name: str, zone: Zone | None = None) -> Layer:
        return Layer(name, tuple(self.marks), PEN, zone=zone)

    def text(
        self, runs: tuple[Run, ...], x: float, y: float, size: float, weight: int = 400, anchor: str = "start",
        role: str = "ink-text",
    ) -> None:  # fmt: skip
        """A line of words on the baseline y."""
        across = text_width(runs, size / PEN, weight)
        self._add(Text, role, x=x / PEN, y=y / PEN, runs=runs, size=size / PEN, weight=weight, anchor=anchor,
                  width=across)  # fmt: skip

    def line(self, role: str, x1: float, y1: float, x2: float, y2: float) -> None:
        self._add(Line, role, x1=x1 / PEN, y1=y1 / PEN, x2=x2 / PEN, y2=y2 / PEN)

    def rect(self, role: str, left: float, top: float, width: float, height: float) -> None:
        self._add(Rect, role, x=left / PEN, y=top / PEN, width=width / PEN, height=height / PEN)

    def circle(self, role: str, x: float, y: float, r: float) -> None:
        self._add(Circle, role, x=x / PEN, y=y / PEN, r=r / PEN)

    def path(self, role: str, d: str, x: float = 0.0, y: float = 0.0) -> None:
        """`d` is in units of PEN px about (x, y)."""
        self._add(Path, role, d=d, x=x / PEN, y=y / PEN)

    def rope(self, x1: float, y1: float, x2: float, y2: float, lay: int = 0) -> None:
        """A length of rope."""
        ends = {"x1": x1 / PEN, "y1": y1 / PEN, "x2": x2 / PEN, "y2": y2 / PEN}
        self._add(Strand, "rope", name="rule:1", lay=lay, **ends)

    def _add(self, kind: type[Any], role: str, **more: Any) -> None:
        self.marks.append(kind(part="words", role=role, layer="words", **more))


def width(words: str | tuple[Run, ...], size: float, weight: int = 400) -> float:
    """How wide a line is at this size (px)."""
    return text_width(plain(words) if isinstance(words, str) else words, size, weight)


def plain(words: str) -> tuple[Run, ...]:
    return (Run(words),)


def wrapped(words: str, size: float, weight: int, room: float) -> list[str]:
    """The words in lines no wider than `room` px; lines of much the same length where there are two or more."""
    lines = _greedy(words.split(), size, weight, room)
    if len(lines) < 2:
        return lines
    narrow = room
    while len(tighter := _greedy(words.split(), size, weight, narrow * 0.96)) == len(lines) and narrow > room / 2:
        lines, narrow = tighter, narrow * 0.96
    return lines


def _greedy(words: list[str], size: float, weight: int, room: float) -> list[str]:
    lines: list[str] = []
    for word in words:
        if lines and width(f"{lines[-1]} {word}", size, weight) <= room:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines
