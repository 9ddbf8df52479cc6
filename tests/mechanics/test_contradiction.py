"""Why no pull holds: the balances are counted so that every pull cancels, and the weights that are left differ."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from gantline.mechanics import contradiction, solve
from gantline.rig import Rig

HERE = Path(__file__).resolve()
ALL = sorted([*HERE.parents[1].glob("rigs/*.rig"), *HERE.parents[2].glob("src/gantline/shelf/*.rig")])


def bodies(rig: Rig) -> dict[str, str]:
    """What each part moves with, found anew: blocks that share a load are one."""
    root = {part.name: part.name for part in rig.movers}
    for block in rig.moving:
        for load in block.carries:
            root = {name: root[block.name] if own == root[load] else own for name, own in root.items()}
    return root


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_every_pull_cancels_and_a_weight_is_left(path: Path, rig_from: Callable[[str], Rig]) -> None:
    """By the strands alone, with no equation of the solver: each rope pulls on its bodies as often up as down."""
    rig = rig_from(path.read_text(encoding="utf-8"))
    found = contradiction(rig)
    if solve(rig).status == "impossible":
        assert found
    if not found:
        return
    root = bodies(rig)
    times = {root[one.part]: one.times for one in found}
    assert all(times[root[one.part]] == one.times for one in found), "a body has one balance"
    for rope in rig.ropes:
        total = Fraction(0)
        for strand in rope.strands:
            for end, other in ((strand.start, "down"), (strand.end, "up")):
                rides = rig.hand.rides if rig.hand and end.part == "hand" else None
                body = root.get(rides or end.part or "", "")
                if body in times and strand.course != "level":
                    total += times[body] * (-1 if strand.course == other else 1)
        assert total == 0, rope.name
    assert sum(one.times * one.weight for one in found) != 0


def test_a_rig_that_holds_contradicts_nothing(rig_from: Callable[[str], Rig]) -> None:
    rig = rig_from("fixed top sheaves 1\nload sack weight 90 N\nrope fall: sack, over top, hand\n")
    assert contradiction(rig) == ()
