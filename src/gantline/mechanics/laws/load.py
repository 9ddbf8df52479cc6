"""A load rises and sinks."""

from typing import Any

from gantline.rig import Given, Load

from ..ring import Ring
from .weight import weight_and_mass

HELD = False


def freedoms(part: Load) -> tuple[str, ...]:
    return ("rise",)


def weight(part: Load, gravity: Given, ring: Ring) -> tuple[Any, Any]:
    """(weight, mass), (None, None) where it has none."""
    return weight_and_mass(part, gravity, ring)
