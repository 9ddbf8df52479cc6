"""What would improve this most: the reading that tells apart what these cannot, then the source that weighs most."""

from itertools import combinations
from typing import TYPE_CHECKING

from msgspec import Struct

from gantline.mechanics import Branch, Shares

from .fit import SAME, Fit
from .model import UNKNOWNS

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    from .measuring import Estimate

    Array = npt.NDArray[np.float64]


class Advice(Struct, frozen=True):
    """One thing to do. `kind` is read (`what` are the readings that would tell `of` apart), or better: `what` is a
    source to halve, by four times the repeats or an instrument twice as good, and the uncertainty of `of` goes from
    `before` to `after`. `takes` are those of which one alone, taken as it stands, would let all others be told."""

    kind: str
    what: tuple[str, ...]
    of: tuple[str, ...]
    before: float = 0.0
    after: float = 0.0
    takes: tuple[str, ...] = ()


def advise(estimates: "tuple[Estimate, ...]", done: Fit | None, of: Shares) -> tuple[Advice, ...]:
    """The most useful first: what cannot be told at all, then the largest part of each uncertainty."""
    if done is None:
        return (Advice("read", ("loads",), tuple(one.name for one in estimates)),)
    untold = tuple(one.name for one in estimates if one.value is None)
    takes = tuple(name for name in untold if name != "efficiency" and _all_told(done, [], name))
    found = [Advice("read", _needed(done, of), untold, takes=takes)] if untold else []
    for one in estimates:
        if one.combined is not None and one.combined.parts:
            most = max(one.combined.parts, key=lambda part: part.u)
            after = (one.combined.u**2 - 0.75 * most.u**2) ** 0.5
            found.append(Advice("better", (most.source,), (one.name,), one.combined.u, after))
    return tuple(found)


def _needed(done: Fit, of: Shares) -> tuple[str, ...]:
    """The fewest further readings that would tell everything, of those a bench can take."""
    offers = _offers(done, of)
    for many in range(1, len(offers) + 1):
        for names in combinations(offers, many):
            if _all_told(done, [row for name in names for row in offers[name]]):
                return names
    return tuple(offers)


def _offers(done: Fit, of: Shares) -> dict[str, "list[Array]"]:
    """The slopes that each further reading would add."""
    import numpy as np

    model, at = done.model, done.at
    offers: dict[str, list[Array]] = {}
    if not len(model.rows["zero"]):
        offers["zero"] = [np.array([0.0, 0.0, 0.0, 1.0])]
    if not len(model.rows["block"]) and of.block is not None:
        offers["block"] = [np.array([0.0, 1.0, 0.0, 0.0])]
    loads = sorted({float(load) for load in model.loads[model.rows["raising"]]}) or [10.0]
    for way, branch in (("raising", of.raising), ("lowering", of.lowering)):
        if not len(model.rows[way]):
            offers[way] = [_reading(branch, load, at) for load in loads]
        if len(set(model.loads[model.rows[way]])) == 1:
            offers[f"{way} loads"] = [_reading(branch, 2 * loads[-1] + 1, at)]
    return offers


def _reading(branch: Branch, load: float, at: "Array") -> "Array":
    """The slopes of one more pull at a load (N)."""
    import numpy as np

    e, block, drag, _ = at
    by_load, by_block, by_drag, rest = branch.slope(e)
    _, of_block, of_drag, _ = branch.at(e)
    return np.array([by_load * load + by_block * block + by_drag * drag + rest, of_block, of_drag, 1.0])


def _all_told(done: Fit, extra: "list[Array]", taken: str = "") -> bool:
    """Whether everything can be told with these further readings, and with one of the unknowns taken as it stands."""
    import numpy as np

    columns = np.vstack([done.model.slopes(done.at) / done.deviations[:, None], *extra])
    wanted = [n for n, name in enumerate(UNKNOWNS) if name not in (*done.held, taken)]
    columns = columns[:, wanted]
    sizes = np.sqrt((columns * columns).sum(axis=0))
    if not sizes.all():
        return False
    return bool(np.linalg.svd(columns / sizes, compute_uv=False)[-1] > SAME and len(columns) >= len(wanted))
