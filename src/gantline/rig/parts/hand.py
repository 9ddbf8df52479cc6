"""The hand: where a rope is hauled."""

from msgspec import Struct

from gantline.problems import Place


class Hand(Struct, frozen=True):
    """`rides` is the load or block the person sits on; None where the person stands on firm ground."""

    place: Place
    rides: str | None = None

    @property
    def name(self) -> str:
        return "hand"
