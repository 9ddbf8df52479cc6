"""A sheave ties the pulls of the two strands that meet at it.

Ideal: equal. Of efficiency e, running from a to b: t_a = e t_b. With inertia I and radius r: t_b - t_a = (I/r^2) times
the acceleration of the rope over it. With both, the friction is taken in proportion to the bearing's load t_a + t_b
(mu = (1 - e)/(1 + e), Coulomb friction on a small pin), so that e t_b - t_a = (1 + e)/2 (I/r^2) f''.
"""

from typing import Any, NamedTuple

from gantline.rig import Sheave

from ..ring import Ring


class Law(NamedTuple):
    """t_b = times * t_a + inertia * f'', f'' the acceleration of the rope from a to b (m/s2)."""

    times: Any
    inertia: Any | None


def law(sheave: Sheave, flow: int, ring: Ring) -> Law:
    """The tie for a rope that runs from a to b (`flow` 1), from b to a (-1) or, ideal or at rest, 0."""
    heavy = heaviness(sheave, ring)
    if sheave.efficiency is None or flow == 0:
        return Law(ring.one, heavy)
    e = ring.given(sheave.efficiency)
    half = (ring.one + e) / ring.constant(2)
    if flow > 0:
        return Law(ring.one / e, heavy * half / e if heavy is not None else None)
    return Law(e, heavy * half if heavy is not None else None)


def heaviness(sheave: Sheave, ring: Ring) -> Any | None:
    """I/r^2 in kg: half the mass of a uniform disc, whatever its radius."""
    if sheave.disc is not None:
        return ring.given(sheave.disc) / ring.constant(2)
    if sheave.inertia is not None and sheave.radius is not None:
        radius = ring.given(sheave.radius)
        return ring.given(sheave.inertia) / (radius * radius)
    return None
