"""The rigs that figures are tested on: the whole shelf, and odd ones."""

from functools import cache
from pathlib import Path

from gantline.figure import Layout, NotDrawable, lay_out
from gantline.mechanics import Answer, solve
from gantline.notation import parse
from gantline.rig import Rig, read

ROOT = Path(__file__).resolve().parents[2]
SHELF = sorted((ROOT / "src" / "gantline" / "shelf").glob("*.rig"))
ODD = sorted((ROOT / "tests" / "rigs").glob("*.rig"))
# Shelf rigs all have a figure. Of the odd ones these have none, each for a reason its message states.
NOT_DRAWABLE = {"own-wheel-jams", "rider-pulls-own-wheel"}


def rig_of(text: str) -> Rig:
    tree, problems = parse(text)
    rig, more = read(tree)
    assert rig is not None, [problem.says for problem in (*problems, *more)]
    return rig


@cache
def solved(path: Path) -> tuple[Rig, Answer] | None:
    """None where the odd rig is one that cannot be read."""
    tree, _ = parse(path.read_text(encoding="utf-8"))
    rig, _ = read(tree)
    return (rig, solve(rig)) if rig is not None else None


@cache
def laid_out(path: Path) -> tuple[Rig, Answer, Layout] | None:
    found = solved(path)
    if found is None or path.stem in NOT_DRAWABLE:
        return None
    return (*found, lay_out(*found))


def drawable() -> list[Path]:
    return [path for path in (*SHELF, *ODD) if laid_out(path) is not None]


__all__ = ["NOT_DRAWABLE", "ODD", "SHELF", "NotDrawable", "drawable", "laid_out", "rig_of", "solved"]
