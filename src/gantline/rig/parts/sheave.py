"""A sheave: the grooved wheel the rope turns over."""

from msgspec import Struct

from ..given import Given


class Sheave(Struct, frozen=True):
    """A wheel of a block. `efficiency` is pull on the slack side / pull on the tight side while it runs, None: 1.

    `disc` is the mass of a uniform disc (kg), `inertia` its moment of inertia (kg m2); at most one is given. `radius`
    is in m. The mass of the disc is a share of its block's, never added to it.
    """

    block: str
    index: int
    efficiency: Given | None = None
    radius: Given | None = None
    disc: Given | None = None
    inertia: Given | None = None

    @property
    def name(self) -> str:
        return f"{self.block}.{self.index}"
