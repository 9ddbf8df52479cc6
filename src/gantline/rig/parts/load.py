"""A load: what is moved, or what moves the rest."""

from msgspec import Struct

from gantline.problems import Place

from ..given import Given


class Load(Struct, frozen=True):
    """Exactly one of `weight` and `mass`; a load that says neither has a weight with a symbol and no number."""

    name: str
    place: Place
    weight: Given | None = None
    mass: Given | None = None
