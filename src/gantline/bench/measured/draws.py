"""The budget by a Monte Carlo (JCGM 101:2008): inputs drawn from their own distributions, the unknowns solved anew.

The estimator is the fit's own: the matrix that carries errors of the means to the unknowns leaves nothing over. Between
draws only six numbers of each branch change, so a draw costs little more than making it, however many readings.
"""

from typing import TYPE_CHECKING

from msgspec import Struct

from .budget import LEVEL, Limits
from .fit import LEAST, MOST, Fit
from .means import WAYS
from .model import UNKNOWNS

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

DRAWS = 1_000_000
SEED = 20  # any will do; one that stays gives the same file the same bytes
AT_ONCE, _TOGETHER = 16_384, 4_000_000  # draws made together at most, and numbers held at a time
_MOST = 40_000_000  # numbers drawn in all, past which there are fewer draws
MOST_MEANS = 2_000  # past which nothing is drawn: propagation has nothing to fear from so many
_LOST = 0.01
_TURNS, _STILL = 30, 1e-4  # steps at most, and the share of a standard uncertainty below which nothing moves


class Spread(Struct, frozen=True):
    """What the draws of one unknown say: mean, standard uncertainty, and the interval between equal tails."""

    mean: float
    u: float
    low: float
    high: float


def monte_carlo(found: Fit, limits: Limits, draws: int = DRAWS, seed: int = SEED) -> tuple[dict[str, Spread], int]:
    """The spread of each unknown that the readings tell, and how many draws it comes from.

    Draws that no efficiency between LEAST and MOST gives are left out. Where they are more than one in a hundred, there
    are too few readings for this way, and no spread; past MOST_MEANS there is none either.
    """
    import numpy as np

    model = found.model
    if len(model.means) > MOST_MEANS:
        return {}, 0
    draws = max(10_000, min(draws, _MOST // (len(model.means) + len(model.loads) + 2)))
    random = np.random.default_rng(seed)
    told = [n for n in range(4) if found.told[n]]
    kept = np.empty((len(told), draws))
    solver, many = Drawing(found, limits), 0
    at_once = min(AT_ONCE, _TOGETHER // len(model.means))
    for start in range(0, draws, at_once):
        solved = solver.solved(random, min(at_once, draws - start))[told]
        kept[:, many : many + solved.shape[1]] = solved
        many += solved.shape[1]
    if many < draws * (1 - _LOST):
        return {}, many
    return {UNKNOWNS[n]: _spread(row[:many]) for row, n in zip(kept, told, strict=True)}, many


def _spread(values: "Array") -> Spread:
    import numpy as np

    mean, u, tail = float(values.mean()), float(values.std()), (1 - LEVEL) / 2
    low, high = np.quantile(values, (tail, 1 - tail), overwrite_input=True)
    return Spread(mean, u, float(low), float(high))


class Drawing:
    """Draws the inputs and solves for the unknowns, many at once."""

    def __init__(self, found: Fit, limits: Limits) -> None:
        import numpy as np

        self.found, self.limits, self.model = found, limits, found.model
        pulls = np.array([mean.what in WAYS for mean in self.model.means])
        self.loads = np.unique(self.model.loads[pulls])
        self.normal = np.flatnonzero(found.repeats)
        self.flat = np.flatnonzero(~found.repeats)
        self.students = self._students()
        self.read = np.array([mean.what != "block" for mean in self.model.means])
        self.still = _STILL * np.sqrt(((found.pull * found.deviations) ** 2).sum(axis=1))[:, None]
        self.of_load = [np.searchsorted(self.loads, self.model.loads[rows]) for _, rows in self.model.branches]

    def _students(self) -> list[tuple["npt.NDArray[np.intp]", float]]:
        """The means whose scatter is known from so many degrees of freedom: the pulls', the block's and the zero's."""
        import numpy as np

        what = np.array([mean.what for mean in self.model.means])
        pulls = np.flatnonzero(self.found.repeats & ~np.isin(what, ("block", "zero")))
        found: list[tuple[npt.NDArray[np.intp], float]] = []
        if len(pulls) and 0 < self.found.freedom < np.inf:
            found.append((pulls, self.found.freedom))
        own = np.flatnonzero(self.found.repeats & np.isin(what, ("block", "zero")))
        return found + [(own[n : n + 1], float(self.model.means[row].many - 1)) for n, row in enumerate(own)]

    def drawn(self, random: "np.random.Generator", many: int) -> tuple["Array", "Array", "Array"]:
        """Means (one a row), loads (one a row), and the gain, as one of the million worlds might have them."""
        import numpy as np

        means = np.empty((len(self.model.means), many))
        means[self.normal] = random.standard_normal((len(self.normal), many))
        for rows, freedom in self.students:  # one unknown scatter makes one factor for all that share it
            means[rows] *= np.sqrt(freedom / random.chisquare(freedom, many))
        means[self.flat] = (2 * 3**0.5) * random.random((len(self.flat), many)) - 3**0.5
        means *= self.found.deviations[:, None]
        means += self.model.values[:, None]
        loads = np.repeat(self.loads[:, None], many, axis=1)
        if self.limits.masses:
            loads *= 1 + self.limits.masses * (2 * random.random(loads.shape) - 1)
        gain = np.ones(many)
        if self.limits.gain:
            gain += self.limits.gain * (2 * random.random(many) - 1)
        return means, loads, gain

    def solved(self, random: "np.random.Generator", many: int) -> "Array":
        """The four unknowns of each draw, by steps along the fit's own matrix; draws that never settle are left out."""
        import numpy as np

        means, loads, gain = self.drawn(random, many)
        if self.limits.gain:
            means[self.read] /= gain
        carry = self.found.pull
        wanted = carry @ means
        pairs = zip(self.model.branches, self.of_load, strict=True)
        by_load = [carry[:, rows] @ loads[index] for (_, rows), index in pairs]
        alike = [carry[:, rows].sum(axis=1)[:, None] for _, rows in self.model.branches]
        own = {what: carry[:, self.model.rows[what]].sum(axis=1)[:, None] for what in ("block", "zero")}
        at = np.repeat(self.found.at[:, None], many, axis=1)
        for _ in range(_TURNS):
            e, block, drag, zero = at
            step = wanted - own["block"] * block - own["zero"] * zero
            for (branch, _), weighed, all_rows in zip(self.model.branches, by_load, alike, strict=True):
                of_load, of_block, of_drag, rest = branch.at(e)
                step -= of_load * weighed + (of_block * block + of_drag * drag + rest + zero) * all_rows
            at += step
            at[0] = np.clip(at[0], LEAST, MOST)
            if (np.abs(step) <= self.still).all():
                return at
        still: Array = at[:, (np.abs(step) <= self.still).all(axis=0)]
        return still
