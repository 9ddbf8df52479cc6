"""How a rig is made ready: where strands run, what is assumed and named, and what is outside the model."""

from fractions import Fraction

import pytest
from tried_rigs import SIZES, named, preloaded, rig, standing, tackle, tried

from gantline.account import assumed_says, ending_says, trial_says, unread_says
from gantline.mechanics import FIXED, Setup, trial
from gantline.rig import with_efficiency


def sides(setup: Setup) -> dict[str, int]:
    return {wheel.name: wheel.side for wheel in setup.wheels}


# -- where strands run ----------------------------------------------------------------------------------------------


def test_sheaves_stand_in_a_row_from_left_to_right_centred_on_the_block() -> None:
    wheels = {wheel.name: wheel.x for wheel in standing(named("six", 90)).setup.wheels}
    assert [wheels[f"lower.{n}"] for n in (1, 2, 3)] == pytest.approx([-0.04, 0, 0.04])
    wheels = {wheel.name: wheel.x for wheel in standing(named("four", 90)).setup.wheels}
    assert [wheels[f"upper.{n}"] for n in (1, 2)] == pytest.approx([-0.02, 0.02])


def test_a_strand_meets_a_sheave_on_the_side_it_comes_from() -> None:
    assert set(sides(standing(named("six", 90)).setup).values()) == {-1}
    mid = sides(standing(named("six-mid", 90)).setup)
    assert mid["lower.2"] == 1
    assert {mid[name] for name in ("lower.1", "upper.1", "lower.3")} == {-1}
    assert set(sides(standing(tackle(90, order=(2, 1))).setup).values()) == {1}


def test_the_other_strand_of_a_sheave_runs_on_its_other_side() -> None:
    setup = standing(named("six-mid", 90)).setup
    for wheel in setup.wheels:
        before = next(t for t in setup.spans[wheel.before].touches if t.part == wheel.name)
        after = next(t for t in setup.spans[wheel.after].touches if t.part == wheel.name)
        assert (before.side, after.side) == (wheel.side, -wheel.side)
        assert before.x == after.x == wheel.x
        assert before.pull == after.pull == (-1 if wheel.over else 1)


def test_a_path_read_from_the_hand_is_the_same_rig() -> None:
    text = named("four", 90)
    head, _, path = text.partition("rope fall: ")
    path, _, rest = path.partition("\n")
    turned = f"{head}rope fall: {', '.join(reversed(path.split(', ')))}\n{rest}"
    one, other = tried(text, (3, 30)), tried(turned, (3, 30))
    for first, second in zip(one.history, other.history, strict=True):
        assert second.tilt == pytest.approx(first.tilt, abs=1e-12)
        assert second.axles == pytest.approx(first.axles, abs=1e-12)
        assert second.turns == pytest.approx(first.turns, abs=1e-9)


def test_ends_are_fast_at_becket_hook_or_pin() -> None:
    becket = standing(named("three-off", 90)).setup.spans[0].start
    assert (becket.x, becket.z, becket.side) == (-0.025, 0, 0)
    middle = standing(named("three", 90)).setup.spans[0].start
    assert (middle.x, middle.z) == (0, 0)
    flyer = standing(named("burton", 90)).setup.spans[1].end
    assert (flyer.part, flyer.z, flyer.pull) == ("flyer", 0.04, 1)  # it hangs from there
    pendant = standing(named("two", 90)).setup.spans[-1].end
    assert (pendant.part, pendant.z, pendant.pull) == ("first", -0.04, -1)
    load = standing(named("on-load", 90)).setup.spans[0].start
    assert (load.part, load.z, load.pull) == ("bag", -0.04, 1)
    assert load.body == 0
    assert standing(named("four", 90)).setup.spans[0].start.body == FIXED


def test_a_strand_is_as_long_as_its_blocks_are_apart_and_the_hauled_run_as_the_longest() -> None:
    text = named("burton", 90).replace("apart top bag 0.8 m", "apart top bag 1.5 m")
    lengths = {span.name: span.length for span in standing(text).setup.spans}
    assert lengths == {"long:1": 1.5, "long:2": 0.8, "short:1": 0.8, "short:2": 1.5}
    lead = standing(text + "lead 0.3 m\n").setup.spans[-1]
    assert (lead.length, lead.stiffness) == (0.3, pytest.approx(2000 / 0.3))


def test_loads_of_a_block_are_spoken_of_by_the_block_where_it_comes_to_distances() -> None:
    text = named("on-load", 90).replace("0.8 m", "1.1 m")
    assert {span.length for span in standing(text).setup.spans} == {1.1}


# -- the start ------------------------------------------------------------------------------------------------------


def test_the_rope_is_just_taut_at_the_start() -> None:
    setup = standing(named("four", 90)).setup
    assert setup.tensions == pytest.approx([0.125] * 5)
    assert setup.tilts == (0,)
    assert setup.floors == pytest.approx((10,))
    assert setup.preload == 0


@pytest.mark.parametrize(("machine", "preload"), [("burton", 0.1), ("three-off", 0.1), ("on-load", 0), ("two", 0)])
def test_what_must_hang_on_the_rope_at_the_start(machine: str, preload: float) -> None:
    setup = standing(named(machine, 90)).setup
    assert setup.preload == preload
    assert min(setup.tensions) > 0


def test_weightless_blocks_begin_with_next_to_nothing() -> None:
    setup = standing(named("four", 90).replace("weight 0.5 N", "weight 0 N")).setup
    assert 0 < setup.preload < 1e-3


def test_a_counterweight_hangs_from_the_start() -> None:
    text = f"""fixed a sheaves 1, {SIZES}
fixed b sheaves 1, {SIZES}
load bell weight 100 N
load sack weight 40 N
rope haul: bell, over a, hand
rope tie: bell, over b, sack
raise bell 0.5 m
"""
    found = tried(text, (100,))
    assert found.history[0].load["sack"] < 0 < found.history[0].load["bell"]
    assert not any(event.part == "sack" for event in found.events)


# -- what is assumed ------------------------------------------------------------------------------------------------

BARE = """fixed upper sheaves 2
moving lower sheaves 2, carries bag
load bag weight 10 N
rope fall: upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
"""


def test_every_default_is_named() -> None:
    trial = standing(BARE)
    found = {one.what: (set(one.parts), one.value) for one in trial.setup.assumed}
    assert found["efficiency"] == ({"lower", "upper"}, 0.95)
    assert found["radius"] == ({"lower", "upper"}, 0.015)
    assert set(found) == {
        "efficiency", "weight", "radius", "spacing", "hook", "becket", "stiffness", "drag", "apart", "lead",
    }  # fmt: skip
    said = assumed_says(trial)
    assert "apart, upper and lower: 800 mm" in said
    assert "hook of lower: 40 mm below the sheave line" in said
    assert "stiffness of the cord of fall: 2000 N" in said
    assert any("95 %" in one for one in said)
    assert said[-1].startswith("start: ")


def test_the_defaults_are_what_is_reckoned_with() -> None:
    assert standing(BARE).raising.effort == pytest.approx(
        standing(named("four", 95).replace("weight 0.5 N", "weight 0 N")).raising.effort, rel=1e-12
    )


def test_what_is_given_is_not_assumed() -> None:
    text = named("four", 90, "cord", ", drag 0.01 N") + "lead 0.8 m\n"
    text = text.replace("hook 40 mm", "hook 40 mm, becket 0 mm")
    assert standing(text).setup.assumed == ()
    assert len(assumed_says(standing(text))) == 1


def test_wheels_without_an_efficiency_are_free_where_others_have_one() -> None:
    text = BARE.replace("fixed upper sheaves 2", "fixed upper sheaves 2, efficiency 90 %")
    setup = standing(text).setup
    assert {wheel.name: round(wheel.ratio, 6) for wheel in setup.wheels} == {
        "lower.1": 1, "upper.1": 1.111111, "lower.2": 1, "upper.2": 1.111111,
    }  # fmt: skip
    assert any(one.what == "efficiency" and one.value == 1 for one in setup.assumed)
    assert with_efficiency(rig(BARE), Fraction(9, 10)).sheaves[0].efficiency is not None


# -- what is outside ------------------------------------------------------------------------------------------------

OUTSIDE = {
    "no-hand": "fixed top sheaves 1\nload a weight 5 N\nload b weight 4 N\nrope f: a, over top, b\n",
    "rides": "fixed top sheaves 1\nload seat weight 5 N\nrope f: seat, over top, hand at seat\n",
    "level": "fixed top sheaves 1\nfixed side sheaves 1\nload a weight 5 N\nrope f: a, over top, over side, hand\n",
    "number-missing": "fixed top sheaves 1\nload a\nrope f: a, over top, hand\n",
    "two-blocks": "fixed top sheaves 1\nmoving p sheaves 1, carries a\nmoving q sheaves 1, carries a\n"
    "load a weight 9 N\nrope f: top, under p, over top, under q, hand\n",
    "no-load": BARE.replace("10 N", "0 N"),
    "freedoms": "fixed top sheaves 2\nload a weight 5 N\nload b weight 5 N\nmoving p sheaves 1\n"
    "rope f: a, over top.1, p\nrope g: b, over p, hand\n",
    "no-start": "fixed top sheaves 1\nmoving flyer sheaves 1, weight 75 N\nload pot weight 60 N\n"
    "rope long: pot, over top, flyer\nrope short: pot, over flyer, hand\n",
}  # fmt: skip


@pytest.mark.parametrize("why", OUTSIDE)
def test_what_is_outside_is_said_so(why: str) -> None:
    trial = tried(OUTSIDE[why], (10,))
    assert trial.setup is None
    assert trial.history == trial.events == ()
    assert trial.ending.why == why
    assert trial.ending.kind == "not determined"
    assert trial_says(rig(OUTSIDE[why]), trial).startswith("Not determined: ")


def test_past_64_sheaves_only_the_steady_states_are_told() -> None:
    text = tackle(99, order=tuple(range(1, 34))).replace("hook 40 mm", "hook 2000 mm")
    trial = tried(text, (20,))
    assert trial.ending.why == "too-large"
    assert trial.history == ()
    assert trial.raising.effort > trial.lowering.effort > 0
    assert "64 sheaves" in trial_says(rig(text), trial)


def test_a_block_that_would_lie_down_is_not_drawn_askew() -> None:
    trial = tried(named("six", 60).replace("hook 40 mm", "hook 2 mm"), (10, 50, 200))
    assert trial.raising is trial.lowering is None
    assert trial.ending.why == "topples"
    assert 0.1 < trial.ending.hand < 0.2
    assert [moment.hand for moment in trial.history] == [0.01, 0.05]


def test_wheels_that_lose_three_quarters_make_it_jump() -> None:
    trial = tried(named("six-mid", 25), (10, 20, 50))
    assert trial.ending.kind == "jump"
    assert [moment.hand for moment in trial.history] == [0.01]
    assert 0.01 < trial.ending.hand < 0.02
    assert ending_says(trial.ending).startswith("Jump: at 14.7")


def test_blocks_that_meet_end_it() -> None:
    text = named("four", 90).replace("apart upper lower 0.8 m", "apart upper lower 60 mm")
    trial = tried(text, (50, 100, 200))
    assert trial.ending.why == "blocks-meet"
    assert set(trial.ending.parts) <= {"upper", "lower.1", "upper.1", "lower.2", "upper.2"}
    assert trial.history[-1].shortened["fall:2"] < 0.03 + 1e-9


def test_where_it_stops_is_told_with_what_was_not_read() -> None:
    text = named("four", 90).replace("apart upper lower 0.8 m", "apart upper lower 60 mm")
    trial = tried(text, (5000,))
    assert trial.history == ()
    assert trial.stopped.hand == trial.ending.hand < 5
    assert trial.unread == (5,)
    assert unread_says(trial).startswith("Not read at 5000 mm of rope: it stops at ")
    assert tried(text, (50,)).unread == ()
    assert unread_says(tried(named("four", 90), (50, 10), "lowering", 20)) == (
        "Not read at 50 mm of rope: that does not lie on the way."
    )


@pytest.mark.parametrize(
    ("distance", "asked", "meets"),
    [("0.8 m", "0.5 m", False), ("0.8 m", "0.769 m", False), ("0.8 m", "0.78 m", True), ("", "0.78 m", True)],
)
def test_a_rise_longer_than_the_blocks_are_apart_is_said_to_be(distance: str, asked: str, meets: bool) -> None:
    text = named("four", 90).replace("apart upper lower 0.8 m", f"apart upper lower {distance}" if distance else "")
    text += f"raise bag {asked}\n"
    found = tried(text, (10,))
    assert (found.meets is not None) is meets
    if found.meets is not None:
        assert (found.meets.rise, found.meets.asked) == pytest.approx((0.8 - 2 * 0.015, 0.78))
        assert found.meets.assumed is (distance == "")
    said = trial_says(rig(text), found)
    assert ("block to block" in said) is meets
    assert ("are taken to stand 800 mm apart" in said) is (meets and not distance)


def test_a_lowering_asks_for_no_room() -> None:
    assert tried(named("four", 90) + "lower bag 5 m\n", (10,)).meets is None


def test_let_out_too_far_the_hook_goes_slack() -> None:
    trial = tried(named("six-mid", 40), (20,), "second")
    assert (trial.ending.why, trial.ending.parts) == ("hook-slack", ("lower",))
    assert trial.history == ()
    assert "no longer hangs on to its load" in trial_says(rig(named("six-mid", 40)), trial)


def test_a_rig_that_does_not_run_back_still_goes_up() -> None:
    trial = tried(named("four", 60, "cord", ", drag 3 N"), (10,))
    assert trial.lowering is None
    assert {(one.why, one.way) for one in trial.endings} == {("strand-slack", "raising"), ("runs-not-back", "lowering")}


def test_a_rig_that_does_not_run_back_hangs_there_when_the_rope_is_let_out() -> None:
    trial = tried(named("four", 60, "cord", ", drag 3 N"), (30, 10), "lowering", 60)
    assert [moment.effort for moment in trial.history] == [0, 0]
    assert [moment.load["bag"] > 0 for moment in trial.history] == [True, True]
    assert ("fall:5", "slack") in {(event.part, event.what) for event in trial.events}


def test_a_sheave_that_stands_still_leaves_the_steady_pulls_open() -> None:
    text = f"""fixed floor
fixed crown sheaves 2, efficiency 90 %, {SIZES}
moving block sheaves 1, efficiency 90 %, weight 1 N, {SIZES}, carries drum
load drum weight 10 N
rope line: floor, over crown.1, under block, over crown.2, hand
"""
    trial = tried(text, (40,))
    assert trial.raising is None
    assert (trial.ending.why, trial.ending.parts) == ("idle", ("crown.1",))
    (moment,) = trial.history  # the way there is known all the same: it stuck where it last slipped
    assert moment.load["drum"] > 0
    assert moment.tensions["line:2"] == pytest.approx(moment.tensions["line:1"] / 0.9, rel=1e-6)


def test_a_rope_that_is_slack_all_along_ends_it() -> None:
    """Let out past its start, a strop between block and load hangs loose."""
    text = f"""fixed ring
moving runner sheaves 1, weight 2 N, efficiency 90 %, {SIZES}
load barrel weight 18 N
rope strop: runner, barrel
rope fall: ring, under runner, hand
"""
    path = preloaded(text, [0.0, 0.01])
    assert path.go(0.05) is None
    ending = path.go(-0.005)
    assert (ending.kind, ending.why, ending.parts) == ("not determined", "rope-slack", ("strop",))
    assert ending.hand == pytest.approx(-0.5e-3, abs=0.1e-3)
    assert "the whole rope strop is slack" in ending_says(ending)


def test_a_load_that_was_never_lifted_is_not_let_down() -> None:
    heavy = "fixed a\nfixed b sheaves 1\nmoving c sheaves 1, weight 1 N, carries sack\nload sack weight {w}\n"
    heavy += "rope fall: a, under c, over b, hand\n"
    for weight, never in (("900 N", True), ("9 N", False)):
        machine = rig(heavy.format(w=weight))
        said = trial_says(machine, trial(machine, (0.02,), "lowering", top=0.05))
        assert ("has not left the floor" in said) is never
