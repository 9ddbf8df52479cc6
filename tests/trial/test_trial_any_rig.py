"""Whatever rig is tried, there is an answer: numbers that can be written down, or a reason in words."""

import json
import random
import re
from pathlib import Path

import pytest
from msgspec.structs import replace
from tried_rigs import named, standing

import gantline
from gantline.account import ending_says
from gantline.account.phrases.en.trials import ENDINGS
from gantline.mechanics.trials.statics import Statics, at_rest

ROOT = Path(__file__).parents[2]
FILES = sorted([*(ROOT / "src" / "gantline" / "shelf").glob("*.rig"), *(ROOT / "tests" / "rigs").glob("*.rig")])
MACHINES = ("runner", "gun", "three", "three-off", "four", "six", "six-mid", "ten", "burton", "on-load", "two")
WAYS = ("raising", "lowering", "second")


def answer(text: str, way: str) -> dict:
    """The record of a trial, which must be whole, and its words."""
    rig, problems = gantline.read(text)
    assert rig is not None, problems
    tried = gantline.trial(rig, [0.005, 0.02, 0.06, 0.15], way=way)
    said = json.loads(json.dumps(tried.record(), allow_nan=False))
    assert said["status"] in ("followed", "jump", "not determined")
    assert {one["why"] for one in said["endings"]} <= set(ENDINGS)
    assert tried.says
    assert str(tried)
    return said


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_rig_at_hand(path: Path, way: str) -> None:
    answer(path.read_text(encoding="utf-8"), way)


def likely(chance: random.Random) -> str:
    """A table-top rig such as could be built."""
    drag = chance.choice([0, chance.uniform(0, 0.2)])
    stiffness = f"{10 ** chance.uniform(1.7, 4.3):.4g} N"
    text = named(chance.choice(MACHINES), round(chance.uniform(60, 99.5), 2), stiffness, f", drag {drag:.3g} N")
    for what, least, most in (("radius", 5, 40), ("spacing", 15, 80), ("hook", 20, 200)):
        text = re.sub(rf"{what} \S+ mm", lambda _, w=what, a=least, b=most: f"{w} {chance.uniform(a, b):.3g} mm", text)
    return text.replace("weight 0.5 N", f"weight {chance.uniform(0.05, 3):.3g} N")


def absurd(chance: random.Random) -> str:
    """A rig of sizes that nothing has."""
    text = named(chance.choice(MACHINES), chance.choice([1, 5, 30, 60, 90, 99.9, 100]))
    for what, unit in (("radius", "mm"), ("spacing", "mm"), ("hook", "mm"), ("stiffness", "kN"), ("weight", "N")):
        if chance.random() < 0.5:
            text = re.sub(
                rf"{what} \S+ {unit}",
                lambda _, w=what, u=unit: f"{w} {10 ** chance.uniform(-9, 9):.6g} {u}",
                text,
            )
    return text


@pytest.mark.parametrize("seed", range(30))
def test_likely_rigs_never_jump(seed: int) -> None:
    """Where each wheel passes on 60 % and more, there is one way on and only one."""
    chance = random.Random(seed)
    said = answer(likely(chance), chance.choice(WAYS))
    assert said["status"] != "jump"


@pytest.mark.parametrize("seed", range(40))
def test_absurd_rigs_have_an_answer_too(seed: int) -> None:
    chance = random.Random(seed)
    answer(absurd(chance), chance.choice(WAYS))


def test_sizes_at_the_edge_of_what_floats_hold_are_not_determined() -> None:
    text = named("runner", 100).replace("hook 40 mm", "hook 0.0000002 mm").replace("15 mm", "152538 mm")
    said = answer(text.replace("weight 10 N", "weight 0.0004 N"), "raising")
    assert said["status"] == "not determined"


def test_where_no_pull_makes_it_run_there_is_no_steady_state() -> None:
    """A wheel that turned pull into push would leave the law and the balance as one equation."""
    setup = standing(named("runner", 90)).setup
    odd = replace(setup, wheels=(replace(setup.wheels[0], ratio=-1.0),))
    ending = at_rest(Statics(odd), "raising")
    assert (ending.kind, ending.why, ending.way) == ("not determined", "jams", "raising")
    assert ending_says(ending) == "Not determined while raising: friction jams it: no pull on the rope makes it run."
