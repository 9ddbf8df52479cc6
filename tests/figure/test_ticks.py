"""While a value is tried, the earlier length of each force stays as a tick: at the very share that the forces have."""

import re
from fractions import Fraction
from pathlib import Path

import pytest

from gantline.figure import Line, Scene, Text, draw, lay_out
from gantline.figure import Path as Outline
from gantline.mechanics import Answer, solve
from gantline.notation import parse, with_value
from gantline.rig import Rig, read

HERE = Path(__file__).resolve()
PLANTER = (HERE.parents[2] / "src/gantline/shelf/planter.rig").read_text(encoding="utf-8")


def solved(**values: str) -> tuple[Rig, Answer]:
    tree, _ = parse(PLANTER)
    for target, value in values.items():
        tree, _ = with_value(tree, target.replace("_", "."), value)
    rig, problems = read(tree)
    assert rig is not None, problems
    return rig, solve(rig)


def drawn(view: str, earlier: bool, **values: str) -> Scene:
    rig, answer = solved(**values)
    return draw(rig, answer, view, layout=lay_out(rig, answer), earlier=solved() if earlier else None)


def arrows(scene: Scene) -> list[tuple[str, float, float, float]]:
    """Part, x, where it begins and where it ends (px) of every force."""
    found = [mark for mark in scene.marks if isinstance(mark, Outline) and mark.role in ("force", "weight")]
    return [(m.part, m.x, m.y, m.y + float(re.findall(r"L0 (-?[\d.]+)", m.d)[0])) for m in found]


def ticks(scene: Scene) -> list[tuple[str, float, float]]:
    found = [mark for mark in scene.marks if isinstance(mark, Line) and mark.role == "before"]
    return [(mark.part, (mark.x1 + mark.x2) / 2, mark.y1) for mark in found]


def pull(**values: str) -> Fraction:
    effort = solved(**values)[1].ideal.effort
    assert effort is not None
    assert effort.number is not None
    return effort.number


@pytest.mark.parametrize("weight", ["100 N", "340 N", "360 N", "2 kN"])
@pytest.mark.parametrize("view", ["labelled", "numbered", "cut"])
def test_the_tick_at_the_hand_has_the_share_of_the_pull_before(view: str, weight: str) -> None:
    scene = drawn(view, True, planter_weight=weight)
    (part, x, y), (_, at, tail, tip) = ticks(scene)[0], next(one for one in arrows(scene) if one[0] == "hand")
    assert (part, x) == ("hand", pytest.approx(at))
    assert (y - tail) / (tip - tail) == pytest.approx(float(pull() / pull(planter_weight=weight)), abs=0.001)
    assert any("was 90" in "".join(run.text for run in mark.runs) for mark in scene.marks if isinstance(mark, Text))


def test_every_force_on_every_body_has_its_tick() -> None:
    scene = drawn("free-body", True, planter_weight="500 N")
    found = ticks(scene)
    assert len(found) == len(arrows(scene)) - 1, "all but the block's own weight, which is the same"
    share = float(pull() / pull(planter_weight="500 N"))
    weights = {"planter": 348 / 500, "upper": share, "fall": share}
    for part, x, tail, tip in arrows(scene):
        for tick in found:
            if tick[0] == part and tick[1] == pytest.approx(x):
                assert (tick[2] - tail) / (tip - tail) == pytest.approx(weights[part], abs=0.002), part


@pytest.mark.parametrize("view", ["bare", "labelled", "free-body", "tensions"])
def test_without_anything_tried_there_is_no_tick(view: str) -> None:
    assert drawn(view, True).marks == drawn(view, False).marks
    assert not ticks(drawn(view, False, planter_weight="500 N"))
