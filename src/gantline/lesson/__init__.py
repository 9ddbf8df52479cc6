"""A lesson as an inert page: what to say, which plates, which numbers. Draws nothing itself."""

from .beats import plate as step_plate
from .compose import Solved, compose, part_key
from .hauling import hauling
from .lesson import (
    Beat,
    Check,
    Hauling,
    Lesson,
    Line,
    Part,
    Question,
    Reading,
    Recap,
    Reply,
    Ruler,
    Shown,
    Sight,
    Trial,
    Way,
    Worked,
)

__all__ = [
    "Beat", "Check", "Hauling", "Lesson", "Line", "Part", "Question", "Reading", "Recap", "Reply", "Ruler", "Shown",
    "Sight", "Solved", "Trial", "Way", "Worked", "compose", "hauling", "part_key",
    "step_plate",
]  # fmt: skip
