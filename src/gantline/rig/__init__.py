"""The frozen nouns of a machine."""

from .given import Given
from .parts import Contact, Fixed, Hand, Load, Moving, Part, Rope, Sheave, Strand
from .reading import read
from .rig import Asked, Rig, with_efficiency
from .shown import shown_unit

__all__ = [
    "Asked", "Contact", "Fixed", "Given", "Hand", "Load", "Moving", "Part", "Rig", "Rope", "Sheave", "Strand",
    "read", "shown_unit", "with_efficiency",
]  # fmt: skip
