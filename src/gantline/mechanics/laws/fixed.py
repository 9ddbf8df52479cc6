"""A fixed part stays: the forces on its coordinates are what its support carries."""

from typing import Any

from gantline.rig import Fixed, Given

from ..ring import Ring
from .weight import weight_and_mass

HELD = True


def freedoms(part: Fixed) -> tuple[str, ...]:
    return ("rise", "across")


def weight(part: Fixed, gravity: Given, ring: Ring) -> tuple[Any, Any]:
    """(weight, mass), (None, None) where it has none."""
    return weight_and_mass(part, gravity, ring)
