"""A moving block: one that travels, with the loads it carries."""

from msgspec import Struct

from gantline.problems import Place

from ..given import Given
from .sheave import Sheave


class Moving(Struct, frozen=True):
    """Without `weight` and `mass` it counts as weightless. `carries` names loads that move with it.

    `spacing` parts the centres of neighbouring sheaves, which stand in a row, 1 at the left, centred on the block;
    `hook` is how deep its pin hangs below the sheave line; `becket` how far to the right of the middle a rope's end is
    made fast on that line. All in m; None where the file does not say.
    """

    name: str
    place: Place
    sheaves: tuple[Sheave, ...] = ()
    weight: Given | None = None
    mass: Given | None = None
    carries: tuple[str, ...] = ()
    spacing: Given | None = None
    hook: Given | None = None
    becket: Given | None = None
