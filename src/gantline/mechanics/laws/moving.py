"""A moving block rises and sinks."""

from typing import Any

from gantline.rig import Given, Moving

from ..ring import Ring
from .weight import weight_and_mass

HELD = False


def freedoms(part: Moving) -> tuple[str, ...]:
    return ("rise",)


def weight(part: Moving, gravity: Given, ring: Ring) -> tuple[Any, Any]:
    """(weight, mass), (None, None) where it has none."""
    return weight_and_mass(part, gravity, ring)
