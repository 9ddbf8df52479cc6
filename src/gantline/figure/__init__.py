"""From a rig and its answer to an inert picture: layout, glyphs, views. Decides no magnitude."""

from .alt import describe
from .draw import Frame, draw, part_ids
from .hauling import hauled, shown_travel
from .kinematics import Kinematics, RopePath, StrandMotion, WheelMotion, kinematics
from .layout import Body, Layout, NotDrawable, Wheel, lay_out
from .scene import Arc, Circle, Line, Panel, Path, Primitive, Rect, Run, Scene, Strand, Text, Wrap
from .views import VIEWS
from .words import width as text_width

__all__ = [
    "VIEWS", "Arc", "Body", "Circle", "Frame", "Kinematics", "Layout", "Line", "NotDrawable", "Panel", "Path",
    "Primitive", "Rect", "RopePath", "Run", "Scene", "Strand", "StrandMotion", "Text", "Wheel", "WheelMotion", "Wrap",
    "describe", "draw", "hauled", "kinematics", "lay_out", "part_ids", "shown_travel", "text_width",
]  # fmt: skip
