"""A fixed part: a beam, a ring, a hook, or a block that stays."""

from msgspec import Struct

from gantline.problems import Place

from ..given import Given
from .sheave import Sheave


class Fixed(Struct, frozen=True):
    """`weight` or `mass` (at most one) counts only in what its support carries. Measures as of a moving block."""

    name: str
    place: Place
    sheaves: tuple[Sheave, ...] = ()
    weight: Given | None = None
    mass: Given | None = None
    spacing: Given | None = None
    hook: Given | None = None
    becket: Given | None = None
