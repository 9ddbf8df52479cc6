"""Makes the sample readings of the shelf: the planter's tackle shown small, simulated by the rig's own equations.

    python tools/readings.py

Two rows hold mistakes that a class makes; the same seed gives the same file.
"""

from pathlib import Path

import numpy as np

from gantline.mechanics import shares
from gantline.notation import parse
from gantline.rig import read

SHELF = Path(__file__).parents[1] / "src" / "gantline" / "shelf"
SEED, DIVISION, NOISE = 27, 0.02, 0.02  # N
TRUTH = {"efficiency": 0.93, "block": 0.49, "drag": 0.015, "zero": 0.04}
MASSES = (200, 400, 600, 800, 1000, 1200)  # g
TITLE = "Simulated, no real lesson: the planter's tackle shown small in an old harbour granary that became a school"
HEAD = (
    "load (g)",
    "raise (N)",
    "lower (N)",
    "hand travel (cm)",
    "load travel (cm)",
    "block (g)",
    "zero (N)",
    "remarks",
)


def table() -> bytes:
    """The file, as a spreadsheet with decimal commas saves it."""
    rig, _ = read(parse((SHELF / "planter.rig").read_text("utf-8"))[0])
    assert rig is not None
    of, random = shares(rig), np.random.default_rng(SEED)
    rows = [["", "", "", "", "", "50", "0,04", "weighed and read before we began"]]
    for time in range(3):
        for mass in MASSES:
            load = mass / 1000 * 9.81
            pulls = [_pull(branch, load) + random.normal(0, NOISE) for branch in (of.raising, of.lowering)]
            travel = [_tenths(40 + random.normal(0, 0.1)), "10"] if mass == 800 else ["", ""]
            rows.append([str(mass), *map(_hundredths, pulls), *travel, "", "", ""])
        rows.append([""] * len(HEAD))
        if time == 0:
            rows.append(["600", "1,36", "1,94", "", "", "", "", "columns mixed up"])
        if time == 1:
            rows.append(["1000", "3,28", "2,20", "30,2", "10", "", "", "mark counted on another strand"])
    lines = [TITLE, "", ";".join(HEAD), *(";".join(row) for row in rows)]
    return b"\xef\xbb\xbf" + ("\r\n".join(lines) + "\r\n").encode()


def _pull(branch: object, load: float) -> float:
    by_load, by_block, by_drag, rest = branch.at(TRUTH["efficiency"])  # type: ignore[attr-defined]
    return float(by_load * load + by_block * TRUTH["block"] + by_drag * TRUTH["drag"] + rest + TRUTH["zero"])


def _hundredths(pull: float) -> str:
    return f"{round(pull / DIVISION) * DIVISION:.2f}".replace(".", ",")


def _tenths(length: float) -> str:
    return f"{length:.1f}".replace(".", ",")


if __name__ == "__main__":
    (SHELF / "readings.csv").write_bytes(table())
