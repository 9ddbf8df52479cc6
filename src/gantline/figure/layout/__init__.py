"""From a rig to places on the page: heights by longest path, places across by closed form or a small search."""

from .places import lay_out
from .plan import Body, Fast, Grip, Layout, NotDrawable, Straight, Wheel

__all__ = ["Body", "Fast", "Grip", "Layout", "NotDrawable", "Straight", "Wheel", "lay_out"]
