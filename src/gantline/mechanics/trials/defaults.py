"""What is taken where the file gives no measure. None of these is measured: they are sizes of a usual classroom rig."""

from fractions import Fraction

from gantline.sources import EXAMPLE_EFFICIENCY, HOOK, RADIUS, Constant

_OWN = "own choice, a usual classroom size: measure yours"

EFFICIENCY = EXAMPLE_EFFICIENCY
SPACING = Constant(Fraction(40, 1000), "m", _OWN)
STIFFNESS = Constant(Fraction(2000), "N", "own choice, a braided cord of 3 to 4 mm: measure yours")
APART = Constant(Fraction(8, 10), "m", "own choice, a stand on a table: measure yours")

__all__ = ["APART", "EFFICIENCY", "HOOK", "RADIUS", "SPACING", "STIFFNESS"]
