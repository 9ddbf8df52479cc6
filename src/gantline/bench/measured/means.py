"""Readings gathered: one mean for each load and way, with what its repeats say of the scatter."""

from collections.abc import Iterable
from fractions import Fraction

from msgspec import Struct

from .readings import Row

WAYS = ("raising", "lowering")
WHATS = (*WAYS, "block", "zero")


class Mean(Struct, frozen=True):
    """The mean (N) of `many` readings of one thing: `what` is raising or lowering at `load` (N), block or zero.

    `squares` is the sum of squared deviations from the mean (N²).
    """

    what: str
    load: float
    value: float
    many: int
    squares: float


class Scatter(Struct, frozen=True):
    """One standard deviation of a single pull (N) with its degrees of freedom; `repeated` where it comes from readings
    of the same thing, else from what lies between the readings and the model."""

    deviation: float
    freedom: int
    repeated: bool = True


def means(rows: Iterable[Row]) -> tuple[Mean, ...]:
    """Every mean, raising and lowering by load, then the weighed block and the scale's zero."""
    gathered: dict[tuple[str, Fraction], list[Fraction]] = {}
    for row in rows:
        for what, values in (("raising", row.raising), ("lowering", row.lowering)):
            if row.load is not None and values:
                gathered.setdefault((what, row.load), []).extend(values)
        for what, values in (("block", row.block), ("zero", row.zero)):
            if values:
                gathered.setdefault((what, Fraction(0)), []).extend(values)
    order = sorted(gathered, key=lambda key: (WHATS.index(key[0]), key[1]))
    return tuple(_mean(*key, gathered[key]) for key in order)


def _mean(what: str, load: Fraction, values: list[Fraction]) -> Mean:
    """Exact sums, rounded once: the order of the rows changes no digit."""
    if len(values) == 1:
        return Mean(what, float(load), float(values[0]), 1, 0.0)
    total, squares = sum(values), sum(value * value for value in values)
    mean = Fraction(total) / len(values)
    return Mean(what, float(load), float(mean), len(values), float(squares - mean * total))


def scatter(found: Iterable[Mean]) -> Scatter | None:
    """The scatter of the pulls, None where nothing was read twice."""
    pulls = [mean for mean in found if mean.what in WAYS]
    freedom = sum(mean.many - 1 for mean in pulls)
    if freedom == 0:
        return None
    return Scatter((sum(mean.squares for mean in pulls) / freedom) ** 0.5, freedom)
