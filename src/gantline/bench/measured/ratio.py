"""The ratio law: raising over lowering depends on the wheels alone, whatever hangs there. A cross-check of the fit.

For a tackle of N strands at the block and S sheaves it is K to the power 2S - N + 1, K one over the efficiency; for any
rig it is what its own equations give. An error of the scale's gain cancels; drag and zero do not.
"""

from collections.abc import Iterable
from math import inf

from msgspec import Struct

from gantline.mechanics import Share, Shares

from .budget import coverage
from .fit import LEAST, MOST
from .means import Mean, Scatter
from .readings import Row


class Pair(Struct, frozen=True):
    """One load raised and lowered: `ratio`, the efficiency it means, and its standard uncertainty. `load` is in N, None
    for a row that does not say it."""

    load: float | None
    ratio: float
    efficiency: float
    u: float


class Ratio(Struct, frozen=True):
    """All pairs, and the mean efficiency they mean: `half` is the half-width of its 95 % interval. `power` is n where
    the law is K to the n. `chance` is how rarely pairs of one efficiency would scatter so."""

    pairs: tuple[Pair, ...]
    power: int | None
    efficiency: float
    u: float
    half: float
    chance: float


def ratio_law(
    means: Iterable[Mean], rows: Iterable[Row], shares: Shares, scatter: Scatter | None, division: float
) -> Ratio | str:
    """The law applied to every load read both ways, or why it says nothing here, in one sentence."""
    if shares.law is None:
        return "Not here: raising over lowering is free of what hangs only where that is the load and its block alone."
    if shares.law.power == 0:
        return "Not here: for this rig raising over lowering is 1 whatever the wheels."
    tried = (_pair(*both, shares.law, scatter, division) for both in _both(means, rows))
    pairs = [pair for pair in tried if pair is not None]
    if not pairs:
        return "Not here: no load was read both raising and lowering, with a ratio that wheels can give."
    weights = [pair.u**-2 for pair in pairs]
    mean = sum(w * pair.efficiency for w, pair in zip(weights, pairs, strict=True)) / sum(weights)
    u = sum(weights) ** -0.5
    chi2 = sum(((pair.efficiency - mean) / pair.u) ** 2 for pair in pairs)
    freedom = scatter.freedom if scatter else inf
    power = shares.law.power
    return Ratio(
        tuple(pairs), None if power is None else -power, mean, u, coverage(freedom) * u, _chance(chi2, len(pairs) - 1)
    )


def _chance(chi2: float, left: int) -> float:
    from scipy.special import chdtrc

    return float(chdtrc(left, chi2)) if left else 1.0


def _both(means: Iterable[Mean], rows: Iterable[Row]) -> list[tuple[float | None, float, int, float, int]]:
    """(load, raising, how many, lowering, how many): one for each load, one for each row that does not say its load."""
    by_way: dict[str, dict[float, Mean]] = {"raising": {}, "lowering": {}}
    for mean in means:
        if mean.what in by_way:
            by_way[mean.what][mean.load] = mean
    up, down = by_way["raising"], by_way["lowering"]
    found: list[tuple[float | None, float, int, float, int]] = [
        (load, up[load].value, up[load].many, down[load].value, down[load].many) for load in up if load in down
    ]
    for row in rows:
        if row.load is None and row.raising and row.lowering:
            n, m = len(row.raising), len(row.lowering)
            found.append((None, float(sum(row.raising)) / n, n, float(sum(row.lowering)) / m, m))
    return [one for one in found if one[1] > 0 and one[3] > 0]


def _pair(
    load: float | None, up: float, n: int, down: float, m: int, law: Share, scatter: Scatter | None, division: float
) -> Pair | None:
    own, rounding = (scatter.deviation if scatter else 0.0), division / 12**0.5
    u_up, u_down = (max(own / many**0.5, rounding) for many in (n, m))
    ratio = up / down
    u_ratio = ratio * ((u_up / up) ** 2 + (u_down / down) ** 2) ** 0.5
    e = _solved(law, ratio)
    if e is None:
        return None
    return Pair(load, ratio, e, u_ratio / abs(float(law.slope(e))))


def _solved(law: Share, ratio: float) -> float | None:
    """The efficiency at which the law gives this ratio, None where none does."""
    if law.power is not None:
        return float(ratio ** (1 / law.power))
    from scipy.optimize import brentq

    low, high = float(law.at(LEAST)) - ratio, float(law.at(MOST)) - ratio
    return float(brentq(lambda e: law.at(e) - ratio, LEAST, MOST)) if low * high < 0 else None
