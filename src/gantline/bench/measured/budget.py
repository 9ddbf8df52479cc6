"""The law of propagation of uncertainty, first order (JCGM 100:2008, 5.1 and G.4), and the budget of a fit."""

from collections.abc import Sequence
from math import inf
from typing import TYPE_CHECKING

from msgspec import Struct

from .fit import Fit
from .means import WAYS
from .model import UNKNOWNS

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

LEVEL = 0.95


class Part(Struct, frozen=True):
    """What one source adds to a result: `u` is its share of the standard uncertainty, in the result's unit."""

    source: str
    u: float
    freedom: float = inf


class Combined(Struct, frozen=True):
    """A result's standard uncertainty, its effective degrees of freedom, and the half-width of its interval."""

    u: float
    freedom: float
    half: float
    parts: tuple[Part, ...]


def combined(parts: Sequence[Part], level: float = LEVEL) -> Combined:
    """Independent parts together: root of the sum of squares, and the Welch-Satterthwaite formula."""
    variance = sum(part.u**2 for part in parts)
    spread = sum(part.u**4 / part.freedom for part in parts)
    freedom = variance**2 / spread if spread > 0 else inf
    return Combined(variance**0.5, freedom, coverage(freedom, level) * variance**0.5, tuple(parts))


def coverage(freedom: float, level: float = LEVEL) -> float:
    """The factor from a standard uncertainty to an interval: Student's t, for the whole degrees below `freedom`."""
    from scipy.special import ndtri, stdtrit

    half = (1 + level) / 2
    return float(ndtri(half) if freedom == inf else stdtrit(max(freedom // 1, 1), half))


def propagated(slopes: "Array", covariance: "Array") -> "Array":
    """The covariance of results that change by `slopes` (results by inputs). That of the inputs is a matrix, or for
    independent inputs the row of their variances."""
    return (slopes * covariance if covariance.ndim == 1 else slopes @ covariance) @ slopes.T


class Limits(Struct, frozen=True):
    """How far off the instruments may be, as shares: every mass by itself, and the scale's gain. None: not stated."""

    masses: float | None = None
    gain: float | None = None


class Carried(Struct, frozen=True):
    """What errors of the loads and of the gain come to in the unknowns. `by_load` has a column for each of `loads` (per
    N); a heavier load asks for more pull, so it counts against the reading. `gain` is for one that is off by all of it.
    """

    loads: "Array"
    by_load: "Array"
    gain: "Array"


def carried(found: Fit) -> Carried:
    """Errors of loads and gain, carried to the unknowns by the fit's own matrix."""
    import numpy as np

    model = found.model
    pulls = np.array([mean.what in WAYS for mean in model.means])
    loads, of_load = np.unique(model.loads[pulls], return_inverse=True)
    each = -found.pull[:, pulls] * model.by_load(found.at[0])[pulls]
    by_load = np.array([np.bincount(of_load, row, len(loads)) for row in each])
    read = np.array([mean.what != "block" for mean in model.means])
    return Carried(loads, by_load, found.pull @ np.where(read, model.values, 0.0))


def _own_freedom(found: Fit, what: str) -> float:
    """The degrees of freedom of the block or the zero: of its own repeats, where these are what counts."""
    freedoms = [
        mean.many - 1 for mean, scattered in zip(found.model.means, found.repeats, strict=True)
        if mean.what == what and scattered
    ]  # fmt: skip
    return freedoms[0] if freedoms else inf


def budget(found: Fit, limits: Limits) -> dict[str, Combined]:
    """For each unknown that the readings tell: what every source adds to it, and all of them together."""
    import numpy as np

    own = found.pull * found.deviations
    kinds = np.array([mean.what if mean.what in ("block", "zero") else "pull" for mean in found.model.means])
    extra = carried(found)
    result = {}
    for n, name in enumerate(UNKNOWNS):
        if not found.told[n]:
            continue
        groups = (
            ("repeats", found.repeats & (kinds == "pull"), found.freedom),
            ("division", ~found.repeats & (kinds == "pull"), inf),
            ("block", kinds == "block", _own_freedom(found, "block")),
            ("zero", kinds == "zero", _own_freedom(found, "zero")),
        )
        parts = [Part(source, float(np.sqrt((own[n, rows] ** 2).sum())), free) for source, rows, free in groups]
        if limits.masses is not None:
            each = extra.by_load[n] * extra.loads * limits.masses / 3**0.5
            parts.append(Part("masses", float(np.sqrt((each**2).sum()))))
        if limits.gain is not None:
            parts.append(Part("gain", abs(float(extra.gain[n])) * limits.gain / 3**0.5))
        most = max(part.u for part in parts)
        result[name] = combined([part for part in parts if part.u > 1e-6 * most])
    return result


def correlations(found: Fit, limits: Limits) -> tuple[tuple[str, str, float], ...]:
    """How the errors of every two results that are told hang together, -1 to 1."""
    import numpy as np

    extra = carried(found)
    slopes = np.hstack([found.pull, extra.by_load, extra.gain[:, None]])
    loads, gain = extra.loads * (limits.masses or 0.0) / 3**0.5, (limits.gain or 0.0) / 3**0.5
    covariance = propagated(slopes, np.concatenate([found.deviations, loads, [gain]]) ** 2)
    u = np.sqrt(np.diag(covariance))
    told = [n for n in range(4) if found.told[n] and u[n] > 0]
    return tuple(
        (UNKNOWNS[n], UNKNOWNS[m], float(covariance[n, m] / (u[n] * u[m]))) for n in told for m in told if n < m
    )
