"""A moving block: one that travels, with the loads it carries."""

from msgspec import Struct

from gantline.problems import Place

from ..given import Given
from .sheave import Sheave


class Moving(Struct, frozen=True):
    """Without `weight` and `mass` it counts as weightless. `carries` names loads that move with it."""

    name: str
    place: Place
    sheaves: tuple[Sheave, ...] = ()
    weight: Given | None = None
    mass: Given | None = None
    carries: tuple[str, ...] = ()
    spacing: Given | None = None
