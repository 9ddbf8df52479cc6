"""What is not planned, and why: people, unrated anchors, and rigs that give nothing to read."""

import pytest
from planned import SMALL, declined, kit_of, planned, ready, rig_of

from gantline.bench.refusing import PEOPLE

WHIP = "fixed top sheaves 1\nload {load} weight 60 N\nrope line: {load}, over top, hand\n"
HEAVY = SMALL.replace('mass = "500 g"', 'mass = "6 kg"').replace('span = "10 N"', 'span = "100 N"')


@pytest.mark.parametrize("name", ["rider-own-rope", "rider-runner", "rider-from-the-ground"])
def test_nobody_is_lifted(name: str) -> None:
    no = declined(ready(name))
    assert no.code == "bench-person"
    assert "nobody is lifted" in no.why


@pytest.mark.parametrize("load", ["pupil", "Teacher", "old-man", "girl_2", "rider"])
def test_a_load_that_is_a_person_by_its_name_is_refused(load: str) -> None:
    assert declined(rig_of(WHIP.format(load=load))).code == "bench-person"


@pytest.mark.parametrize("load", ["bell", "manhole", "personal", "crate-of-cups"])
def test_a_thing_is_not_taken_for_a_person(load: str) -> None:
    assert not PEOPLE & {load}
    planned(rig_of(WHIP.format(load=load)))


def test_an_unrated_anchor_above_the_limit_is_refused_and_the_limit_is_said() -> None:
    no = declined(rig_of(WHIP.format(load="bell")), kit_of(HEAVY))
    assert no.code == "bench-anchor-unrated"
    assert "6 kg" in no.says
    assert "5 kg" in no.why
    assert "rated_by" in no.do


def test_a_lower_limit_of_ones_own_counts() -> None:
    rig = rig_of(WHIP.format(load="bell"))
    assert planned(rig, kit_of(SMALL)).choice.hung.mass == 1 / 2
    no = declined(rig, kit_of(SMALL.replace('"1.6 m"', '"1.6 m"\nlimit = "400 g"')))
    assert (no.code, "0.4 kg" in no.why) == ("bench-anchor-unrated", True)


def test_a_rated_anchor_may_take_what_it_is_rated_for() -> None:
    rig = rig_of(WHIP.format(load="bell"))
    rated = HEAVY.replace('"1.6 m"', '"1.6 m"\nrated = "{} N"\nrated_by = "the estates office"')
    made = planned(rig, kit_of(rated.replace("{}", "200")))
    assert made.choice.hung.mass == 6
    assert max(anchor.working for anchor in made.anchors) <= 200
    no = declined(rig, kit_of(rated.replace("{}", "100")))  # the wheel carries load and pull: more than 117 N
    assert no.code == "bench-anchor-overloaded"
    assert "the estates office rates it for 100 N" in no.why


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("atwood", "bench-no-hand"), ("impossible-unequal", "bench-not-one-load"),
        ("impossible-one-rope", "bench-no-steady-pull"), ("slack-burton", "bench-no-steady-pull"),
        ("indeterminate-two-tackles", "bench-no-steady-pull"),
    ],
)  # fmt: skip
def test_rigs_that_give_nothing_to_read(name: str, code: str) -> None:
    no = declined(ready(name))
    assert no.code == code
    assert no.why
    assert no.do.endswith(".")


def test_a_load_in_the_hand_is_no_tackle() -> None:
    assert declined(rig_of("load bell weight 50 N\nrope line: bell, hand\n")).code == "bench-no-sheave"


def test_a_letter_alone_that_counts_is_asked_for() -> None:
    text = "fixed top sheaves 1\nmoving low sheaves 1, weight w, carries bell\nload bell weight 60 N\n"
    text += "rope line: low, over top, under low, hand\n"
    no = declined(rig_of(text), kit_of(SMALL))
    assert (no.code, "w stands" in no.says) == ("bench-number-missing", True)
    gravity = declined(rig_of("gravity g\n" + WHIP.format(load="bell")), kit_of(SMALL))
    assert gravity.code == "bench-number-missing"


def test_a_letter_that_does_not_count_stops_nothing() -> None:
    assert planned(ready("formula-only")).readings


BLOCK = '[[block]]\nname = "single"\nsheaves = 1\nradius = "18 mm"\nmass = "38 g"\n'


@pytest.mark.parametrize(
    ("kit", "code"),
    [
        (SMALL + BLOCK, "bench-no-block"),
        (SMALL.replace('"1.6 m"', '"0.3 m"'), "bench-no-room"),
        (SMALL.replace('diameter = "2 mm"', 'diameter = "2 mm"\nlength = "3 m"'), "bench-no-cord"),
        (SMALL.replace('"500 g"', '"1 g"'), "bench-off-scale"),
    ],
)
def test_a_kit_that_will_not_do(kit: str, code: str) -> None:
    no = declined(rig_of(WHIP.format(load="bell")) if code == "bench-off-scale" else ready("planter"), kit_of(kit))
    assert no.code == code


def test_a_rope_that_the_hand_does_not_move_is_not_settled() -> None:
    text = "fixed top sheaves 2\nfixed eye\nmoving idle sheaves 1\nmoving free sheaves 1\nload bell weight 50 N\n"
    text += "rope a: bell, over top.1, hand\nrope b: eye, under idle, over top.2, under free, eye\n"
    assert declined(rig_of(text), kit_of(SMALL)).code == "bench-no-one-motion"


def test_balance_by_chance_is_no_steady_pull() -> None:
    """Two runners on one rope balance only for one pair of weights: with the masses of a kit they do not."""
    text = "fixed top sheaves 2\nmoving low sheaves 1, weight 1 N, carries bell\nmoving free sheaves 1, weight 61 N\n"
    text += "load bell weight 60 N\nrope line: top, under low, over top.1, under free, over top.2, hand\n"
    assert declined(rig_of(text), kit_of(SMALL)).code == "bench-no-steady-pull"


def test_a_rig_too_large_for_formulas_is_planned_too() -> None:
    wheels = ", ".join(f"under lower.{n}, over upper.{n}" for n in range(1, 76))
    text = "fixed upper sheaves 75\nmoving lower sheaves 75, weight 2 N, carries bell\nload bell weight 50 N\n"
    no = declined(rig_of(f"{text}rope fall: upper, {wheels}, hand\n"), kit_of(SMALL))
    assert no.code == "bench-off-scale"
