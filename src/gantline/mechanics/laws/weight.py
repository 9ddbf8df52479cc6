"""Weight and mass from each other: W = m g, near the ground."""

from typing import Any

from gantline.rig import Fixed, Given, Load, Moving

from ..ring import Ring


def weight_and_mass(part: Fixed | Moving | Load, gravity: Given, ring: Ring) -> tuple[Any, Any]:
    """(weight in N, mass in kg) over the ring, or (None, None) for a part that counts as weightless."""
    if part.weight is not None:
        weight = ring.given(part.weight)
        return weight, weight / ring.given(gravity)
    if part.mass is not None:
        mass = ring.given(part.mass)
        return mass * ring.given(gravity), mass
    return None, None
