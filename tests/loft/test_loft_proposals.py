"""What would have to change where a rig has no answer: every proposal that is made does help."""

import json
from pathlib import Path
from typing import Any

import msgspec
import pytest
from handmade import comments

from gantline import api
from gantline.loft.making import edit
from gantline.loft.tasks import run

HERE = Path(__file__).resolve()
ALL = sorted([*HERE.parents[1].glob("rigs/*.rig"), *HERE.parents[2].glob("src/gantline/shelf/*.rig")])
FRAME = """\
title    Lifting yourself by your own frame
moving   cradle   sheaves 1, efficiency 95 %, weight 620 N   # invented
rope     fall: cradle, over cradle, hand at cradle
raise    cradle   1 m
"""


def told(text: str, what_if: dict[str, str] | None = None) -> dict[str, Any]:
    record = run("account", json.dumps({"text": text, "what_if": what_if or {}}).encode(), lambda _: None)
    answer: dict[str, Any] = json.loads(msgspec.json.encode(record))
    return answer


def seen(text: str, what_if: dict[str, str] | None = None) -> dict[str, Any]:
    record = run("see", json.dumps({"text": text, "what_if": what_if or {}}).encode(), lambda _: None)
    answer: dict[str, Any] = json.loads(msgspec.json.encode(record))
    return answer


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_what_is_proposed_does_help(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    status = seen(text)["status"]
    proposals = told(text)["proposals"]
    assert bool(proposals) == (status not in ("holds", "accelerates"))
    for one in proposals:
        after, what_if = text, one["what_if"]
        if one["action"]:
            done = edit(text, one["action"])
            assert not done.refused
            assert comments(done.text) == comments(text), "comments stay"
            after = done.text
        found = seen(after, what_if)
        assert (found["status"] == "holds") == one["helps"], one["words"]
        if one["then"]:
            assert found["answer"]["spoken"].split(" = ")[-1] == one["spoken"].split(" = ")[-1]


def test_two_weights_on_a_rope_are_made_alike() -> None:
    text = next(path for path in ALL if path.stem == "impossible-unequal").read_text(encoding="utf-8")
    assert [(one["what_if"], one["spoken"]) for one in told(text)["proposals"]] == [
        ({"sign.weight": "60 N"}, "F = 150 N"), ({"board.weight": "90 N"}, "F = 150 N"),
    ]  # fmt: skip
    assert seen(text)["answer"]["spoken"].replace("\u00a0", " ") == "90 N = 60 N"


def test_masses_are_proposed_as_masses() -> None:
    text = "gravity 10 m/s2\nfixed top sheaves 1\nfixed up sheaves 1\nload a mass 9 kg\nload b mass 6 kg\n"
    text += "load c mass 5 kg\nrope line: a, over top, b\nrope fall: c, over up, hand\nraise c 1 m\n"
    assert [one["words"] for one in told(text)["proposals"]] == [
        "Let a have a mass of 6 kg", "Let b have a mass of 9 kg",
    ]  # fmt: skip


def test_letters_contradict_each_other_in_letters() -> None:
    text = "fixed top sheaves 1\nfixed up sheaves 1\nload a weight P\nload b weight Q\nload c weight 50 N\n"
    text += "rope line: a, over top, b\nrope fall: c, over up, hand\nraise c 1 m\n"
    assert seen(text)["answer"]["spoken"] == "P = Q"


def test_a_wheel_of_ones_own_is_hung_from_the_beam() -> None:
    """The pull of one who sits below a fixed wheel and hauls for himself is half the weight: *common practice*."""
    first, second = told(FRAME.replace("efficiency 95 %, ", ""))["proposals"]
    assert (first["words"], first["spoken"]) == ("Hang the wheel of cradle from the beam", "F = 310 N")
    assert (second["words"], second["spoken"], second["helps"]) == ("Haul from the floor", "still none", False)
    done = edit(FRAME, first["action"])
    assert "fixed    upper    sheaves 1, efficiency 95 %\n" in done.text, "the wheel keeps what it loses"
    assert "moving   cradle   weight 620 N   # invented\n" in done.text
    assert "rope     fall: cradle, over upper, hand at cradle\n" in done.text


@pytest.mark.parametrize(
    "wish", [{"how": "fixed", "part": "top"}, {"how": "wheel-aloft", "part": "sack"}, {"how": "from-floor"},
             {"how": "without", "part": "x"}, {"how": "told-weight", "part": "top"}, {"how": "eat"}, {}],
)  # fmt: skip
def test_a_mend_that_does_not_fit_is_refused_in_a_sentence(wish: dict[str, str]) -> None:
    text = "fixed top sheaves 1\nload sack weight 90 N\nrope fall: sack, over top, hand\n"
    done = edit(text, {"do": "mend", **wish})
    assert done.text == text
    assert done.refused.endswith(".")


def test_a_pull_that_is_given_can_be_asked_instead() -> None:
    rig, _ = api.read(
        edit("load a weight 5 N\nrope r: a, hand\neffort 9 N\n", {"do": "mend", "how": "asked-pull"}).text
    )
    assert rig is not None
    assert rig.effort is None
