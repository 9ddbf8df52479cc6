"""What is seen when a rig is tried: every number is the trial's, every remedy has been tried."""

import re
from fractions import Fraction
from math import degrees

import pytest

from gantline import api
from gantline.account import Seen, seen
from gantline.mechanics import steady, trial
from gantline.rig import Rig

FOUR = """\
fixed   upper  sheaves 2, efficiency 90 %
moving  lower  sheaves 2, weight 0.5 N, efficiency 90 %, hook {hook}, carries bag
load    bag    weight {weight}
rope    fall: upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
"""


def rig_of(text: str) -> Rig:
    rig, problems = api.read(text)
    assert rig is not None, problems
    return rig


def four(weight: str = "10 N", hook: str = "40 mm") -> tuple[Rig, Seen]:
    rig = rig_of(FOUR.format(weight=weight, hook=hook))
    found = seen(rig)
    assert found is not None
    return rig, found


def test_the_sentences_say_the_trials_numbers() -> None:
    rig, found = four()
    told = " ".join(found.sees)
    own = trial(rig, (0.01, 0.02, 0.05, 0.1))
    assert own.raising is not None
    assert own.lowering is not None
    assert own.leaves_floor is not None
    assert f"leaves the floor after {1000 * own.leaves_floor:.1f} mm" in told
    assert f"{degrees(own.raising.tilt['lower']):.1f} degrees askew, the side of your hand up" in told
    assert f"you pull {own.raising.effort:.2f} N" in told
    assert "perfect wheels would need 2.625 N" in told
    assert "turns back" in told
    assert "far axle even sinks" in told


def test_a_longer_hook_is_a_remedy_that_was_tried() -> None:
    _, found = four()
    deeper = steady(rig_of(FOUR.format(weight="10 N", hook="80 mm"))).raising
    assert deeper is not None
    hook = next(one for one in found.smaller if one.id == "hook")
    assert hook.after == pytest.approx(abs(deeper.tilt["lower"]))
    assert f"{degrees(hook.after):.1f} degrees" in hook.says
    assert hook.after < hook.before


def test_a_stiffer_cord_lets_the_floor_go_sooner() -> None:
    rig, found = four()
    cord = next(one for one in found.smaller if one.id == "cord")
    stiff = rig_of(FOUR.format(weight="10 N", hook="40 mm") + "cord fall stiffness 20 kN\n")
    assert cord.after == pytest.approx(trial(stiff, (0.1,)).leaves_floor)
    assert cord.before == pytest.approx(trial(rig, (0.1,)).leaves_floor)


def test_three_wheels_can_be_hauled_from_the_middle() -> None:
    text = """\
fixed   upper  sheaves 3, efficiency 90 %
moving  lower  sheaves 3, weight 0.5 N, efficiency 90 %, carries bag
load    bag    weight 10 N
rope    fall: upper, under lower.1, over upper.1, under lower.{b}, over upper.{b}, under lower.{c}, over upper.{c}, hand
"""
    found = seen(rig_of(text.format(b=2, c=3)))
    other = steady(rig_of(text.format(b=3, c=2))).raising
    assert found is not None
    assert other is not None
    middle = next(one for one in found.smaller if one.id == "middle")
    assert middle.after == pytest.approx(abs(other.tilt["lower"]))
    assert degrees(middle.after) == pytest.approx(3.97, abs=0.005)


def test_a_heavy_load_is_shown_by_a_stand_in_with_the_same_tilt() -> None:
    rig, found = four("348 N")
    assert found.standing.share == Fraction(10, 348)
    assert found.standing.rig.loads[0].weight is not None
    assert found.standing.rig.loads[0].weight.number == 10
    own, other = steady(rig).raising, found.trial.raising
    assert own is not None
    assert other is not None
    assert other.tilt["lower"] == pytest.approx(own.tilt["lower"])
    assert other.effort == pytest.approx(own.effort * 10 / 348)


def test_who_says_what_the_rope_is_made_of_is_taken_at_the_word() -> None:
    text = FOUR.format(weight="348 N", hook="40 mm") + "cord fall stiffness 60 kN\n"
    found = seen(rig_of(text))
    assert found is not None
    assert found.standing.share == 1


def test_without_a_hand_or_without_loss_nothing_is_told() -> None:
    assert seen(rig_of("fixed a sheaves 1\nload x weight 2 N\nload y weight 2 N\nrope r: x, over a, y\n")) is None
    perfect = FOUR.format(weight="10 N", hook="40 mm").replace("90 %", "100 %")
    assert seen(rig_of(perfect)) is None


def test_sentences_are_short_and_have_no_empty_slots() -> None:
    for found in (four()[1], four("348 N")[1]):
        for says in (*found.sees, found.why, *(one.says for one in found.smaller)):
            assert len(says.split()) <= 40
            assert not re.search(r"[{}]", says)


def test_a_rise_that_the_blocks_have_no_room_for_is_among_what_is_seen() -> None:
    text = FOUR.format(weight="10 N", hook="40 mm")
    room = next(one for one in (seen(rig_of(f"{text}raise bag 2 m\n")),) if one)
    assert any("block to block" in one for one in room.sees)
    enough = next(one for one in (seen(rig_of(f"{text}raise bag 0.1 m\n")),) if one)
    assert not any("block to block" in one for one in enough.sees)
