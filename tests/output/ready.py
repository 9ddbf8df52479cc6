"""What the tests of pages and print share: ready rigs, solved."""

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page

from gantline.mechanics import Answer, solve
from gantline.notation import parse
from gantline.rig import Rig, read

ROOT = Path(__file__).resolve().parents[2]
SHELF = ROOT / "src" / "gantline" / "shelf"
Open = Callable[..., Page]


def solved(text: str) -> tuple[Rig, Answer]:
    tree, problems = parse(text)
    rig, more = read(tree)
    assert rig is not None, (*problems, *more)
    return rig, solve(rig)


def shelf(name: str) -> tuple[Rig, Answer]:
    return solved((SHELF / f"{name}.rig").read_text(encoding="utf-8"))
