"""What a mean should read: the rig's own pull at that load, plus the zero of the scale. Unknown are e, w, c and z."""

from typing import TYPE_CHECKING, Any

from gantline.mechanics import Branch, Shares

from .means import Mean

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

# The efficiency of every sheave, the block's weight (N), the drag in every sheave (N), the zero of the scale (N).
UNKNOWNS = ("efficiency", "block", "drag", "zero")


class Model:
    """The readings expected of `means` for values of the unknowns, and how they change with each."""

    def __init__(self, shares: Shares, means: tuple[Mean, ...]) -> None:
        import numpy as np

        self.means = means
        self.values = np.array([mean.value for mean in means])
        self.loads = np.array([mean.load for mean in means])
        self.rows = {what: np.array([n for n, mean in enumerate(means) if mean.what == what], dtype=np.intp)
                     for what in ("raising", "lowering", "block", "zero")}  # fmt: skip
        branches = {"raising": shares.raising, "lowering": shares.lowering}
        self.branches: list[tuple[Branch, Any]] = [
            (branch, self.rows[way]) for way, branch in branches.items() if len(self.rows[way])
        ]

    def expected(self, at: Any) -> "Array":
        """The means (N) for values of the four unknowns."""
        import numpy as np

        e, block, drag, zero = at
        found = np.empty(len(self.means))
        for branch, rows in self.branches:
            by_load, by_block, by_drag, rest = branch.at(e)
            found[rows] = by_load * self.loads[rows] + (by_block * block + by_drag * drag + rest + zero)
        found[self.rows["block"]], found[self.rows["zero"]] = block, zero
        return found

    def slopes(self, at: Any) -> "Array":
        """The derivative of every mean by every unknown, one column each."""
        import numpy as np

        e, block, drag, _ = at
        found = np.zeros((len(self.means), 4))
        for branch, rows in self.branches:
            by_load, by_block, by_drag, rest = branch.slope(e)
            found[rows, 0] = by_load * self.loads[rows] + (by_block * block + by_drag * drag + rest)
            _, found[rows, 1], found[rows, 2], _ = branch.at(e)
            found[rows, 3] = 1.0
        found[self.rows["block"], 1] = 1.0
        found[self.rows["zero"], 3] = 1.0
        return found

    def by_load(self, e: float) -> "Array":
        """The derivative of every mean by its own load."""
        import numpy as np

        found = np.zeros(len(self.means))
        for branch, rows in self.branches:
            found[rows] = branch.load.at(e)
        return found
