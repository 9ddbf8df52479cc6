"""What a rope is made of, and how long its runs are: what only a real rig shows."""

from msgspec import Struct

from gantline.problems import Place

from .given import Given


class Cord(Struct, frozen=True):
    """The cord of one rope. `stiffness` is EA (N): the pull that would stretch it to double length, did it go on so.

    `diameter` in m, `weight` in N/m; `drag` is the constant part of what each sheave takes of the pull (N). None where
    the file says nothing.
    """

    rope: str
    place: Place
    stiffness: Given | None = None
    diameter: Given | None = None
    weight: Given | None = None
    drag: Given | None = None


class Apart(Struct, frozen=True):
    """How far two parts stand from each other at the start, sheave line to sheave line (m)."""

    first: str
    second: str
    place: Place
    distance: Given
