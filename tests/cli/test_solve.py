"""`gantline solve`: one screen for people, one record for programs."""

import json
from pathlib import Path

import pytest
from running import PLANTER, SHELF, fresh, record, run

KEYS = ["format", "title", "status", "says", "velocity_ratio", "travel", "regimes", "certificate"]
REGIME = ["effort", "mechanical_advantage", "efficiency", "strands", "supports", "motions", "work"]


def test_the_record_has_the_promised_keys_in_order(capsys) -> None:
    answer = record(capsys, "solve", PLANTER)
    assert list(answer)[: len(KEYS)] == KEYS
    assert list(answer["regimes"]) == ["ideal"]
    assert list(answer["regimes"]["ideal"])[: len(REGIME)] == REGIME
    assert answer["format"] == "gantline-answer/1"
    assert answer["title"] == "Planter onto the roof terrace"


def test_the_record_of_the_planter(capsys) -> None:
    answer = record(capsys, "solve", PLANTER)
    ideal = answer["regimes"]["ideal"]
    assert ideal["effort"] == {"value": 90.0, "exact": "90", "unit": "N", "formula": "(W + w)/4"}
    assert ideal["mechanical_advantage"] == {"value": 348 / 90, "exact": "58/15", "formula": "4*W/(W + w)"}
    assert answer["velocity_ratio"]["exact"] == "4"
    assert {name: way["exact"] for name, way in answer["travel"].items()} == {
        "hand": "2", "planter": "1/2", "lower": "1/2",
    }  # fmt: skip
    assert [strand["index"] for strand in ideal["strands"]] == [1, 2, 3, 4, 5]
    assert {strand["tension"]["exact"] for strand in ideal["strands"]} == {"90"}
    assert (ideal["strands"][0]["from"], ideal["strands"][0]["to"]) == ("upper", "lower.1")
    assert ideal["strands"][0]["toward"] == [0, -1]
    assert [(one["name"], one["force"]["exact"]) for one in ideal["supports"]] == [("upper", "450")]
    assert {key: work["exact"] for key, work in ideal["work"].items()} == {"in": "180", "out": "180", "lost": "0"}
    assert answer["certificate"]["largest_residual"] == "0"
    assert len(answer["certificate"]["checks"]) > 3


def test_every_moving_part_has_its_motion(capsys) -> None:
    motions = record(capsys, "solve", PLANTER)["regimes"]["ideal"]["motions"]
    assert {motion["name"]: motion["per_hand"]["exact"] for motion in motions} == {"lower": "1/4", "planter": "1/4"}
    assert {motion["freedom"] for motion in motions} == {"rise"}


def test_loss_has_three_regimes_in_order(capsys) -> None:
    regimes = record(capsys, "solve", str(SHELF / "loss-twofold.rig"))["regimes"]
    assert list(regimes) == ["ideal", "raising", "lowering"]
    pulls = [regimes[way]["effort"]["value"] for way in ("lowering", "ideal", "raising")]
    assert pulls == sorted(pulls)
    assert regimes["raising"]["work"]["lost"]["value"] > 0


def test_a_level_run_pulls_its_supports_sideways_and_no_others(capsys) -> None:
    supports = record(capsys, "solve", str(SHELF / "level-lead.rig"))["regimes"]["ideal"]["supports"]
    sideways = {support["name"]: support["sideways"]["exact"] for support in supports if "sideways" in support}
    assert sideways == {"top": "150", "yard": "-150"}


def test_what_if_changes_the_answer_and_not_the_file(capsys) -> None:
    answer = record(capsys, "solve", PLANTER, "--set", "lower.weight=32N", "--set", "planter.weight = 368 N")
    assert answer["regimes"]["ideal"]["effort"]["exact"] == "100"
    assert "348 N" in Path(PLANTER).read_text(encoding="utf-8")


@pytest.mark.parametrize(("setting", "status"), [("nobody.weight=2N", 2), ("lower.weight=2 parrots", 2), ("lower", 1)])
def test_a_setting_that_cannot_be_says_so(capsys, setting, status) -> None:
    said = run(capsys, "solve", PLANTER, "--set", setting)
    assert said.status == status
    assert "do  " in said.err


def test_one_screen_for_people(capsys) -> None:
    said = run(capsys, "solve", PLANTER)
    assert said.status == 0
    assert "\x1b" not in said.out
    for words in ("Planter onto the roof terrace", "90 N", "(W + w)/4", "fall:5", "upper carries", "450 N", "180 J"):
        assert words in said.out
    lines = said.out.splitlines()
    assert len(lines) <= 40
    assert max(map(len, lines)) <= 110


@pytest.mark.parametrize("path", sorted(SHELF.glob("*.rig")), ids=lambda path: path.stem)
def test_every_ready_rig_fits_a_screen(capsys, path) -> None:
    said = run(capsys, "solve", str(path))
    assert said.status == 0, said.err
    assert len(said.out.splitlines()) <= 48
    assert "every residual 0" in said.out


def test_standard_input() -> None:
    done = fresh("solve", "-", "--json", input=Path(PLANTER).read_bytes())
    assert done.returncode == 0
    assert json.loads(done.stdout)["regimes"]["ideal"]["effort"]["exact"] == "90"


def test_a_symbol_without_a_number_is_null_with_its_formula(capsys) -> None:
    effort = record(capsys, "solve", str(SHELF / "formula-only.rig"))["regimes"]["ideal"]["effort"]
    assert effort == {"value": None, "exact": None, "unit": "N", "formula": "(W + w)/2"}


def test_why_the_efficiency_passes_one_while_lowering_is_said_with_the_share_below_it(capsys):
    done = run(capsys, "solve", str(SHELF / "loss-twofold.rig"))
    words = " ".join(done.out.split())
    lowering = record(capsys, "solve", str(SHELF / "loss-twofold.rig"))["regimes"]["lowering"]
    assert lowering["efficiency"]["value"] > 1
    work = -lowering["work"]["in"]["value"] / (348 * 0.5)
    assert f"For each joule the load gives, {work:.3g} J reach your hand." in words
    assert "passes 1" not in run(capsys, "solve", str(SHELF / "planter.rig")).out
