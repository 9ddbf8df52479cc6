"""A rope, its contacts and its strands."""

from typing import Literal

from msgspec import Struct

from gantline.problems import Place

from .sheave import Sheave

Side = Literal["over", "under"]
Course = Literal["down", "up", "level"]


class Contact(Struct, frozen=True):
    """Where a rope touches. With a `sheave` it passes `over` or `under` it; without one it is made fast to `part`.

    At the hauled end `part` is "hand". `place` is where the file says so.
    """

    part: str
    place: Place
    sheave: Sheave | None = None
    side: Side | None = None

    @property
    def name(self) -> str:
        return self.sheave.name if self.sheave else self.part


class Strand(Struct, frozen=True):
    """One straight run. `index` counts from 1 along the path; `course` is the way from `start` to `end`."""

    rope: str
    index: int
    start: Contact
    end: Contact
    course: Course

    @property
    def name(self) -> str:
        return f"{self.rope}:{self.index}"


class Rope(Struct, frozen=True):
    """One line end to end, read along its path."""

    name: str
    place: Place
    contacts: tuple[Contact, ...]
    strands: tuple[Strand, ...]
