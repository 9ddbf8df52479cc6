"""From a rig and its answer to an inert picture: layout, glyphs, views. Decides no magnitude."""

from .alt import describe
from .draw import Frame, draw, part_ids
from .kinematics import Kinematics, RopePath, StrandMotion, WheelMotion, kinematics
from .layout import Layout, NotDrawable, lay_out
from .scene import Arc, Circle, Line, Panel, Path, Primitive, Rect, Run, Scene, Strand, Text, Wrap
from .views import VIEWS

__all__ = [
    "VIEWS", "Arc", "Circle", "Frame", "Kinematics", "Layout", "Line", "NotDrawable", "Panel", "Path", "Primitive",
    "Rect", "RopePath", "Run", "Scene", "Strand", "StrandMotion", "Text", "WheelMotion", "Wrap", "describe", "draw",
    "kinematics", "lay_out", "part_ids",
]  # fmt: skip
