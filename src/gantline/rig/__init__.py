"""The frozen nouns of a machine."""

from .amounts import KINDS, amount
from .cord import Apart, Cord
from .given import Given
from .parts import Contact, Fixed, Hand, Load, Moving, Part, Rope, Sheave, Strand
from .reading import read
from .rig import Asked, Rig, with_efficiency, with_sheaves
from .shown import shown_unit
from .standing_in import StandIn, stand_in
from .turning import turned_over

__all__ = [
    "KINDS", "Apart", "Asked", "Contact", "Cord", "Fixed", "Given", "Hand", "Load", "Moving", "Part", "Rig", "Rope",
    "Sheave", "StandIn", "Strand", "amount", "read", "shown_unit", "stand_in", "turned_over", "with_efficiency",
    "with_sheaves",
]  # fmt: skip
