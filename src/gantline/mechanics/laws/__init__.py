"""The law of each kind of part: which freedoms it has, what it weighs, what ties its ropes."""

from types import ModuleType

from gantline.rig import Fixed, Hand, Load, Moving

from . import fixed, hand, load, moving
from .rope import elements, ties
from .sheave import Law, law

LAWS: dict[type, ModuleType] = {Fixed: fixed, Moving: moving, Load: load, Hand: hand}

__all__ = ["LAWS", "Law", "elements", "law", "ties"]
