"""Numbers of the world, each with where it comes from: a constant without a source cannot be written."""

from fractions import Fraction

from msgspec import Struct


class Constant(Struct, frozen=True):
    """A number that the file does not give. `source` has no default on purpose."""

    value: Fraction
    unit: str
    source: str


GRAVITY = Constant(
    Fraction(981, 100), "m/s2", "school value: the standard acceleration of free fall, 9.80665 m/s2, to three figures"
)
EXAMPLE_EFFICIENCY = Constant(
    Fraction(95, 100), "1",
    "common practice: a sheave loses 2 to 10 per cent, by block (Toss, The Complete Rigger's Apprentice, p. 56)",
)  # fmt: skip
_OWN = "own choice, a usual classroom size: measure yours"
RADIUS = Constant(Fraction(15, 1000), "m", _OWN)  # of a sheave
HOOK = Constant(Fraction(40, 1000), "m", _OWN)  # from a block's sheave line to where its hook bears
