"""The parts a rig is made of: frozen nouns, no solved number, no coordinate. One kind, one file."""

from .fixed import Fixed
from .hand import Hand
from .load import Load
from .moving import Moving
from .rope import Contact, Rope, Strand
from .sheave import Sheave

Part = Fixed | Moving | Load

__all__ = ["Contact", "Fixed", "Hand", "Load", "Moving", "Part", "Rope", "Sheave", "Strand"]
