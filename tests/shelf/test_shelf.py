"""Every ready rig keeps what its head promises, and the shelf covers the trade."""

import re
from pathlib import Path

import pytest

import gantline
from gantline.account import WRONG_RULES, accounts, wrong_answers

SHELF = Path(__file__).parents[2] / "src" / "gantline" / "shelf"
RIGS = sorted(SHELF.glob("*.rig"))
RULE = re.compile(r"M\d\d")


def solved(path: Path):
    rig, problems = gantline.load(path)
    assert not problems, problems
    return gantline.solve(rig)


def head(path: Path) -> list[str]:
    return path.read_text(encoding="utf-8").splitlines()


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.stem)
def test_the_head_is_whole(path) -> None:
    lines = head(path)
    assert lines[0].startswith("# Invented for teaching: ")
    assert lines[1].startswith("# Teaches: ")
    assert re.match(r"# Wrong ideas: (uncovers|hides) ", lines[2])


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.stem)
def test_the_file_is_tidy(path) -> None:
    text = path.read_text(encoding="utf-8")
    assert gantline.tidy(text) == (text, ())


def claims(path: Path, word: str) -> set[str]:
    """The wrong rules a head says it uncovers, or hides; those that are thoughts without a number cannot be tried."""
    parts = head(path)[2].removeprefix("# Wrong ideas: ").split("; ")
    return {rule for part in parts if part.startswith(word) for rule in RULE.findall(part)}


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.stem)
def test_what_it_says_of_wrong_ideas_is_true(path) -> None:
    one = solved(path)
    found = wrong_answers(one.rig, one.answer)
    caught = {rule for wrong in found if not wrong.right_by_luck for rule in (wrong.rule, *wrong.same_as)}
    lucky = {rule for wrong in found if wrong.right_by_luck for rule in (wrong.rule, *wrong.same_as)}
    assert claims(path, "uncovers") & set(WRONG_RULES) <= caught
    assert claims(path, "hides") & set(WRONG_RULES) <= lucky


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.stem)
def test_some_method_explains_it_or_each_says_why_not(path) -> None:
    one = solved(path)
    told = accounts(one.rig, one.answer)
    assert len(told) == 7
    assert all(getattr(each, "reason", "account") for each in told)


STATUS = {
    "impossible-one-rope": "impossible",
    "impossible-unequal": "impossible",
    "indeterminate-two-ropes": "indeterminate",
    "indeterminate-two-tackles": "indeterminate",
    "slack-burton": "slack",
    "atwood": "accelerates",
    "atwood-double": "accelerates",
    "atwood-double-still": "accelerates",
    "atwood-heavy-wheel": "accelerates",
    "falling-mass": "accelerates",
    "effort-speeds-up": "accelerates",
    "loss-atwood": "accelerates",
}


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.stem)
def test_its_status(path) -> None:
    assert solved(path).answer.status == STATUS.get(path.stem, "holds")


EFFORT = {
    "single-fixed": 180, "runner-up": 120, "runner-down": 120, "gun-down": 140, "gun-up": 100, "luff-down": 120,
    "luff-up": 100, "planter": 90, "twofold-up": 100, "threefold-down": 300, "threefold-up": 300, "gyn": 200,
    "ten-strands": 300, "lead-at-floor": 100, "leads-two": 130, "level-lead": 150, "burton-light": 90,
    "burton-heavy": 84, "burton-double-1": 80, "burton-double-2": 70, "luff-upon-luff": 90, "gun-upon-runner": 120,
    "runners-two": 100, "runners-three": 170, "ends-on-load": 50, "rider-own-rope": 320, "rider-from-the-ground": 640,
    "rider-runner": 220,
}  # fmt: skip


@pytest.mark.parametrize("name", EFFORT)
def test_its_pull_as_worked_by_hand(name) -> None:
    assert solved(SHELF / f"{name}.rig").answer.ideal.effort.number == EFFORT[name]


RATIO = {
    "single-fixed": 1, "runner-up": 2, "gun-down": 2, "gun-up": 3, "luff-down": 3, "luff-up": 4, "planter": 4,
    "twofold-up": 5, "gyn": 5, "threefold-down": 6, "threefold-up": 7, "ten-strands": 10, "lead-at-floor": 4,
    "leads-two": 2, "level-lead": 2, "burton-light": 3, "burton-heavy": 3, "burton-double-1": 5, "burton-double-2": 5,
    "luff-upon-luff": 9, "gun-upon-runner": 4, "runners-two": 4, "runners-three": 8, "ends-on-load": 7,
    "rider-own-rope": 2, "rider-from-the-ground": 1, "rider-runner": 3,
}  # fmt: skip


@pytest.mark.parametrize("name", RATIO)
def test_its_velocity_ratio_as_counted_by_hand(name) -> None:
    assert solved(SHELF / f"{name}.rig").answer.velocity_ratio.number == RATIO[name]


def test_the_motions_worked_by_hand() -> None:
    """Accelerations in m/s2 with g = 9.8: (m1 - m2)g/(m1 + m2) and its relatives."""
    wanted = {
        "atwood": {"heavy": "-49/10", "light": "49/10"},
        "atwood-heavy-wheel": {"heavy": "-98/25", "light": "98/25"},
        "atwood-double-still": {"crate": "0"},
        "falling-mass": {"barge": "7/10", "counterweight": "-7/5"},
        "effort-speeds-up": {"sack": "1"},
    }
    for name, bodies in wanted.items():
        motions = {one.name: str(one.acceleration.number) for one in solved(SHELF / f"{name}.rig").answer.ideal.motions}
        assert {body: motions[body] for body in bodies} == bodies, name


def test_a_stiff_wheel_takes_part_of_the_difference() -> None:
    motions = {one.name: one for one in solved(SHELF / "loss-atwood.rig").answer.regimes[-1].motions}
    assert motions["heavy"].acceleration.number * 100 == -196


def test_no_two_rigs_have_one_title() -> None:
    titles = [solved(path).rig.title for path in RIGS]
    assert len(set(titles)) == len(titles)


def test_the_shelf_is_large_enough() -> None:
    assert len(RIGS) >= 30
