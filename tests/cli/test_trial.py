"""`gantline trial`: the record other programs read, and the screen."""

import json
from math import degrees
from pathlib import Path
from typing import Any

import pytest
from running import SHELF, record, run

import gantline

BAG = str(SHELF / "flour-bag.rig")
QUANTITY = {"value", "exact", "unit", "formula"}


@pytest.fixture
def said(capsys: Any) -> dict[str, Any]:
    return record(capsys, "trial", BAG, "--hand", "10mm,2cm,0.05m")


def test_the_record_has_what_was_promised(said: dict[str, Any]) -> None:
    assert said["format"] == "gantline-trial/1"
    assert said["status"] == "followed"
    assert said["assumed"]
    assert set(said["stretch_before_rise"]) == QUANTITY
    (block,) = said["blocks"]
    assert block["name"] == "lower"
    assert block["tilt_raising"]["unit"] == block["tilt_lowering"]["unit"] == "deg"
    assert block["tilt_raising"]["value"] > 0 > block["tilt_lowering"]["value"]
    assert [moment["hand"]["value"] for moment in said["history"]] == [0.01, 0.02, 0.05]
    assert said["hauled_side"] == "right"


def test_every_quantity_carries_its_unit(said: dict[str, Any]) -> None:
    found: list[dict[str, Any]] = []

    def walk(value: Any) -> None:
        if isinstance(value, dict):
            found.extend([value] if "unit" in value else [])
            for entry in value.values():
                walk(entry)
        elif isinstance(value, list):
            for entry in value:
                walk(entry)

    walk(said)
    assert len(found) > 60
    assert all(set(each) == QUANTITY and isinstance(each["value"], float) for each in found)
    assert {each["unit"] for each in found} == {"m", "N", "deg"}


def test_a_moment_has_effort_strands_tilt_axles_and_load(said: dict[str, Any]) -> None:
    moment = said["history"][-1]
    assert len(moment["strands"]) == len(said["strand_names"]) == 5
    assert moment["effort"] == moment["strands"][-1]
    assert set(moment["tilt"]) == {"lower"}
    assert set(moment["axles"]) == {"lower.1", "lower.2"}
    assert set(moment["load"]) == {"bag"}
    assert moment["axles"]["lower.2"]["value"] > moment["axles"]["lower.1"]["value"]
    assert moment["effort"]["value"] == pytest.approx(said["steady"]["raising"]["effort"]["value"])


def test_events_say_hand_part_and_what(said: dict[str, Any]) -> None:
    events = [(event["part"], event["what"]) for event in said["events"]]
    assert ("bag", "leaves floor") in events
    assert events[-1] == ("bag", "steady")
    assert ("lower.1", "turns back") in events
    hands = [event["hand"]["value"] for event in said["events"]]
    assert hands == sorted(hands)
    assert said["leaves_floor"]["value"] in hands
    assert said["all_turning"]["value"] == hands[-1]


def test_lowering_goes_down_from_the_top(capsys: Any) -> None:
    down = record(capsys, "trial", BAG, "--way", "lowering", "--top", "60mm", "--hand", "10mm,50mm")
    assert down["begins"]["value"] == 0.06
    assert [moment["hand"]["value"] for moment in down["history"]] == [0.05, 0.01]
    assert down["history"][-1]["effort"]["value"] == pytest.approx(down["steady"]["lowering"]["effort"]["value"])
    assert down["history"][-1]["tilt"]["lower"]["value"] < 0


def test_a_second_pull_begins_where_the_first_was_let_out_to(capsys: Any) -> None:
    again = record(capsys, "trial", BAG, "--way", "second", "--low", "3mm", "--hand", "3mm,50mm")
    assert again["begins"]["value"] == 0.003
    assert again["history"][0]["tilt"]["lower"]["value"] < 0 < again["history"][1]["tilt"]["lower"]["value"]


def test_a_rig_outside_the_model_is_an_answer_too(capsys: Any) -> None:
    done = run(capsys, "trial", str(SHELF / "rider-runner.rig"), "--json")
    assert done.status == 0
    said = json.loads(done.out)
    assert said["status"] == "not determined"
    assert said["says"].startswith("Not determined: the hand rides")
    assert said["history"] == said["events"] == said["blocks"] == []
    assert said["stretch_before_rise"] is None
    assert said["endings"][0]["why"] == "rides"


def test_a_jump_is_said_in_words(capsys: Any, tmp_path: Path) -> None:
    rig = tmp_path / "odd.rig"
    rig.write_text(
        "fixed upper sheaves 3, efficiency 25 %\nmoving lower sheaves 3, weight 0.5 N, efficiency 25 %, carries bag\n"
        "load bag weight 10 N\nrope fall: upper, under lower.1, over upper.1, under lower.3, over upper.3, "
        "under lower.2, over upper.2, hand\n",
        encoding="utf-8",
    )
    said = record(capsys, "trial", str(rig))
    assert said["status"] == "jump"
    assert "Jump: at 14.7" in said["says"]


def test_what_if_values_reach_the_cord_and_the_hook(capsys: Any) -> None:
    soft = record(capsys, "trial", BAG, "--set", "fall.stiffness=200N", "--hand", "20mm")
    assert soft["stretch_before_rise"]["value"] == pytest.approx(10 * 0.005265, rel=1e-3)
    deep = record(capsys, "trial", BAG, "--set", "lower.hook=120mm", "--hand", "20mm")
    assert deep["blocks"][0]["tilt_raising"]["value"] == pytest.approx(3.1668 / 2, rel=2e-3)


def test_the_screen_says_it_in_words_and_as_a_table(capsys: Any) -> None:
    done = run(capsys, "trial", BAG, "--hand", "10mm,20mm")
    assert done.status == 0
    lines = done.out.splitlines()
    assert lines[0] == "Flour bag beside the blackboard"
    assert "The floor lets go of the bag after 5.1 mm of rope." in done.out
    assert "3.2 degrees askew, its right-hand side higher." in " ".join(lines)
    assert "  0.1 mm  lower.1  turns back in its block" in lines
    table = lines.index("   hand    pull  lower tilts  lower.1, mm  lower.2, mm  bag, mm")
    assert lines[table + 1].split() == ["10", "mm", "3.36", "N", "3.2°", "−0.2", "2.6", "1.3"]
    assert lines[-1] == "  start: load on the floor, no tilt, rope just taut"
    assert max(map(len, lines)) <= 100


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--hand", "10"), "--hand 10 is no length"),
        (("--hand", "10mm,,20mm"), "is no length"),
        (("--hand", "-5mm"), "--hand"),
        (("--hand", "10kg"), "--hand 10kg is no length"),
        (("--top", "far"), "--top far is no length"),
        (("--way", "sideways"), "sideways"),
    ],
)
def test_what_is_no_length_or_way_is_said_kindly(capsys: Any, words: tuple[str, ...], says: str) -> None:
    done = run(capsys, "trial", BAG, *words)
    assert done.status in (1, 2)
    assert says in done.err
    assert "do  " in done.err
    assert "Traceback" not in done.err


def test_from_python_it_is_one_call() -> None:
    rig, _ = gantline.load(BAG)
    tried = gantline.trial(rig, [0.02])
    assert tried.record()["history"][0]["tilt"]["lower"]["value"] == degrees(tried.trial.history[0].tilt["lower"])
    assert str(tried).startswith("Flour bag")
    assert tried.says in " ".join(str(tried).split())
    assert gantline.trial(gantline.solve(rig), [0.02]).trial == tried.trial
    with pytest.raises(ValueError, match="there is no way"):
        gantline.trial(rig, way="up")


def test_a_load_that_has_not_risen_is_said_to_be_on_the_floor(capsys: Any) -> None:
    lines = run(capsys, "trial", BAG, "--hand", "2mm,10mm").out.splitlines()
    table = next(n for n, line in enumerate(lines) if "lower tilts" in line)
    assert lines[table + 1].endswith("  on the floor")
    assert lines[table + 2].split()[-1] == "1.3"


def test_a_hand_travel_past_the_meeting_of_blocks_shows_how_far_it_goes(capsys: Any) -> None:
    done = run(capsys, "trial", BAG, "--hand", "10mm,5m")
    lines = done.out.splitlines()
    table = next(n for n, line in enumerate(lines) if "lower tilts" in line)
    stop = lines[table + 2].split()[0]
    assert (
        lines[table + 3]
        == f"  Not read at 5000 mm of rope: it stops at {stop} mm, and the last row is how all stands there."
    )
    assert "block to block" in " ".join(lines)
    record = json.loads(run(capsys, "trial", BAG, "--hand", "10mm,5m", "--json").out)
    assert [moment["hand"]["value"] for moment in record["history"]] == [0.01]
    assert [hand["value"] for hand in record["unread"]] == [5]
    assert 1 < record["stopped"]["hand"]["value"] < 5
