"""What a file gives: a number with its symbol, in SI, and the place it comes from."""

from fractions import Fraction

from msgspec import Struct

from gantline.problems import Place


class Given(Struct, frozen=True):
    """A given quantity. `number` is exact and in SI, or None where only the symbol stands. `unit` is as written, `kind`
    what it measures (force, mass, length, acceleration, inertia, ratio)."""

    symbol: str
    number: Fraction | None
    kind: str
    unit: str
    place: Place
