"""From a rig and its answer to an inert picture: layout, glyphs, views. Decides no magnitude."""

from .alt import describe
from .draw import draw
from .layout import Layout, NotDrawable, lay_out
from .scene import Arc, Circle, Line, Panel, Path, Primitive, Rect, Run, Scene, Strand, Text, Wrap
from .views import VIEWS

__all__ = [
    "VIEWS", "Arc", "Circle", "Layout", "Line", "NotDrawable", "Panel", "Path", "Primitive", "Rect", "Run", "Scene",
    "Strand", "Text", "Wrap", "describe", "draw", "lay_out",
]  # fmt: skip
