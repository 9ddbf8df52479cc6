"""The frozen nouns of a machine."""

from .given import Given
from .parts import Contact, Fixed, Hand, Load, Moving, Part, Rope, Sheave, Strand
from .rig import Asked, Rig, with_efficiency

__all__ = [
    "Asked", "Contact", "Fixed", "Given", "Hand", "Load", "Moving", "Part", "Rig", "Rope", "Sheave", "Strand",
    "with_efficiency",
]  # fmt: skip
