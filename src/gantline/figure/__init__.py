"""From a rig and its answer to an inert picture: layout, glyphs, views. Decides no magnitude."""

from .alt import SHOWS, describe
from .chart import Axis, Series, chart
from .draw import Frame, draw, part_ids
from .glyphs.notes import arrow_part
from .hauling import hauled, shown_travel, tipping
from .kinematics import Kinematics, RopePath, StrandMotion, WheelMotion, kinematics, moved
from .layout import Body, Layout, NotDrawable, Wheel, lay_out
from .pulling import pulled
from .scene import Arc, Circle, Line, Panel, Path, Primitive, Rect, Run, Scene, Strand, Text, Wrap
from .views import VIEWS
from .views.tried import hand_room
from .words import width as text_width

__all__ = [
    "SHOWS", "VIEWS", "Arc", "Axis", "Body", "Circle", "Frame", "Kinematics", "Layout", "Line", "NotDrawable",
    "Panel", "Path", "Primitive", "Rect", "RopePath", "Run", "Scene", "Series", "Strand", "StrandMotion",
    "Text", "Wheel", "WheelMotion", "Wrap", "arrow_part", "chart", "describe", "draw", "hand_room", "hauled",
    "kinematics", "lay_out", "moved", "part_ids", "pulled", "shown_travel", "text_width", "tipping",
]  # fmt: skip
