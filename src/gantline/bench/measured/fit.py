"""The weighted fit of both branches, and which of the unknowns these readings can tell apart at all.

Ordinary weighted least squares: each mean counts with one over its variance, by the method of Levenberg and Marquardt
(scipy.optimize). What the loads' masses and the scale's gain add is carried through afterwards, in the budget.
"""

from collections.abc import Mapping
from math import inf
from typing import TYPE_CHECKING

from msgspec import Struct

from .means import WAYS, Scatter, scatter
from .model import UNKNOWNS, Model

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

_STARTS = (0.99, 0.95, 0.9, 0.8, 0.65, 0.5, 0.3)
_ORDER = (0, 3, 1, 2)  # where some must be held, the zero and the block's weight are freed before the drag
SAME = 1e-7  # singular values below this share of the largest count as nothing
LEAST, MOST = 0.02, 2.0  # efficiencies that are looked for; past 1 too, so that errors are not cut off on one side
START = 0.9  # an efficiency to look from; nothing hangs on it
FEW = 5  # degrees of freedom below which repeats do not say how much pulls scatter
LIMIT = 0.01  # a scatter about the model rarer than this by chance is called a lack of fit


class NoFit(Exception):
    """No efficiency between LEAST and MOST comes near the readings."""


class Fit(Struct, frozen=True):
    """`at` are the four unknowns, `told` which of them the readings can tell; `held` those taken as they stand.

    `pull` is the matrix that carries errors of the means to the unknowns (rows of what was not fitted are zero);
    `deviations` (N) belong to the means; `repeats` are those of them that come from `scatter`, the others from the
    division. `chi2` over `left` says how well the model fits, `birge` by how much all scatter was widened for it (1:
    not at all). `ties` are the directions no reading can tell.
    """

    model: Model
    at: "Array"
    told: tuple[bool, ...]
    held: tuple[str, ...]
    pull: "Array"
    deviations: "Array"
    repeats: "npt.NDArray[np.bool_]"
    scatter: Scatter | None
    chi2: float
    left: int
    chance: float
    birge: float
    ties: "Array"

    @property
    def freedom(self) -> float:
        """The degrees of freedom of the scatter."""
        return float(self.scatter.freedom) if self.scatter else inf


def fit(model: Model, division: float, weighed: float, taken: Mapping[str, float], start: Mapping[str, float]) -> Fit:
    """Fits what the readings can tell. `division` (N) is the scale's, `weighed` the block's; `taken` are unknowns that
    are not to be fitted, `start` the values of those that cannot be told. Raises NoFit."""
    import numpy as np

    steps = np.array([weighed if mean.what == "block" else division for mean in model.means]) / 12**0.5
    first = np.array([taken.get(name, start.get(name, 0.0)) for name in UNKNOWNS])
    wanted = [n for n in _ORDER if UNKNOWNS[n] not in taken]
    spread = _spread(model, first, steps, wanted)
    deviations, repeats = _deviations(model, spread, steps)
    at, free = _best(model, first, deviations, wanted)
    residuals = (model.values - model.expected(at)) / deviations
    chi2, left = float(residuals @ residuals), len(residuals) - len(free)
    chance, birge = _goodness(chi2, left) if spread and spread.repeated else (1.0, 1.0)
    deviations = np.where(_pulls(model), deviations * birge, deviations)
    told, ties = _told(model, at, deviations, wanted)
    pull = np.zeros((4, len(deviations)))
    pull[free] = np.linalg.pinv(model.slopes(at)[:, free] / deviations[:, None]) / deviations
    return Fit(
        model, at, told, tuple(taken), pull, deviations, repeats, spread, chi2, left, chance, birge, ties
    )  # fmt: skip


def _best(model: Model, at: "Array", deviations: "Array", wanted: list[int]) -> tuple["Array", list[int]]:
    """The unknowns that fit best, and which of them were fitted."""
    free = _independent(model, at, deviations, wanted)
    return _solved(model, at, deviations, free), free


def _goodness(chi2: float, left: int) -> tuple[float, float]:
    """How rarely chance alone scatters so far about the model, and the factor that makes up for it."""
    from scipy.special import chdtrc

    chance = float(chdtrc(left, chi2)) if left else 1.0
    return chance, (chi2 / left) ** 0.5 if chance < LIMIT else 1.0


def _pulls(model: Model) -> "npt.NDArray[np.bool_]":
    import numpy as np

    return np.array([mean.what in WAYS for mean in model.means])


def _spread(model: Model, at: "Array", steps: "Array", wanted: list[int]) -> Scatter | None:
    """The scatter of one pull: that of the repeats; where these are too few, that about the model, if more is left."""
    import numpy as np

    repeated = scatter(model.means)
    if repeated is not None and repeated.freedom >= FEW:
        return repeated
    best, free = _best(model, at, steps, wanted)
    left, pulls = len(steps) - len(free), _pulls(model)
    if left <= (repeated.freedom if repeated else 0):
        return repeated
    many = np.array([mean.many for mean in model.means])
    squares = many * (model.values - model.expected(best)) ** 2
    return Scatter(float(squares[pulls].sum() / left) ** 0.5, left, repeated=False)


def _deviations(model: Model, spread: Scatter | None, steps: "Array") -> tuple["Array", "npt.NDArray[np.bool_]"]:
    """The standard deviation of every mean: that of its repeats, or of the division where this is larger.

    Rounding to a division shows in the scatter where repeats differ by more than one; where they do not, it is the same
    each time and no number of repeats helps.
    """
    import numpy as np

    many = np.array([mean.many for mean in model.means])
    squares = np.array([mean.squares for mean in model.means])
    own = np.sqrt(squares / np.maximum(many - 1, 1))  # of the block and the zero, each by itself
    single = np.where(_pulls(model), spread.deviation if spread else 0.0, own)
    scattered = single / np.sqrt(many)
    return np.maximum(scattered, steps), scattered > steps


def _scaled(model: Model, at: "Array", deviations: "Array", columns: list[int]) -> "Array":
    """The slopes by some unknowns, each mean over its deviation, each column at length 1."""
    import numpy as np

    found = model.slopes(at)[:, columns] / deviations[:, None]
    sizes = np.sqrt((found * found).sum(axis=0))
    scaled: Array = found / np.where(sizes > 0, sizes, 1.0)
    return scaled


def _independent(model: Model, at: "Array", deviations: "Array", wanted: list[int]) -> list[int]:
    """As many of the wanted unknowns as the readings tell apart, in their order."""
    import numpy as np

    free: list[int] = []
    trial = at.copy()
    trial[0] = START if 0 in wanted else at[0]
    for n in wanted:
        columns = _scaled(model, trial, deviations, [*free, n])
        if columns.shape[0] >= len(free) + 1 and np.linalg.svd(columns, compute_uv=False)[-1] > SAME:
            free.append(n)
    return sorted(free)


def _told(model: Model, at: "Array", deviations: "Array", wanted: list[int]) -> tuple[tuple[bool, ...], "Array"]:
    """Which unknowns every reading-preserving change leaves alone, and a basis of those changes."""
    import numpy as np

    columns = np.linalg.qr(_scaled(model, at, deviations, wanted), mode="r")
    _, sizes, directions = np.linalg.svd(columns, full_matrices=True)
    loose = directions[int((sizes > SAME).sum()) :]
    ties = np.zeros((len(loose), 4))
    ties[:, wanted] = np.where(np.abs(loose) > 1e-6, loose, 0.0)
    return tuple(n in wanted and not ties[:, n].any() for n in range(4)), ties


def _solved(model: Model, at: "Array", deviations: "Array", free: list[int]) -> "Array":
    import numpy as np
    from scipy.optimize import least_squares

    if not free:
        return at
    start = _start(model, at, deviations, free)

    def whole(x: "Array") -> "Array":
        full = start.copy()
        full[free] = x
        return full

    def miss(x: "Array") -> "Array":
        found: Array = (model.expected(whole(x)) - model.values) / deviations
        return found

    def slope(x: "Array") -> "Array":
        found: Array = model.slopes(whole(x))[:, free] / deviations[:, None]
        return found

    with np.errstate(all="ignore"):  # steps may try efficiencies that no sheave has
        found = least_squares(miss, start[free], slope, method="lm", xtol=1e-13, ftol=1e-13, gtol=1e-13)
    at = whole(found.x)
    if not np.isfinite(at).all() or not LEAST <= at[0] <= MOST:
        raise NoFit
    return at


def _start(model: Model, at: "Array", deviations: "Array", free: list[int]) -> "Array":
    """The best of some efficiencies, the rest solved for it: at a fixed efficiency everything else is linear."""
    import numpy as np

    best: tuple[float, Array] = (float("inf"), at)
    linear = [n for n in free if n != 0]
    for e in _STARTS if 0 in free else (at[0],):
        trial = at.copy()
        trial[0] = e
        trial[linear] = 0.0
        miss = (model.values - model.expected(trial)) / deviations
        slopes = model.slopes(trial)[:, linear] / deviations[:, None]
        trial[linear] = np.linalg.lstsq(slopes, miss, rcond=None)[0] if linear else trial[linear]
        left = miss - slopes @ trial[linear]
        if left @ left < best[0]:
            best = (float(left @ left), trial)
    return best[1]
