"""The last answer is shown on the rig it speaks of: the tackle turned over, counted."""

import pytest
from filmed import SHELF, act, layer, shots, story

from gantline.figure import Circle, Text
from gantline.film import FORMATS
from gantline.mechanics import solve
from gantline.rig import turned_over

ASKED = [name for name in SHELF if any(step.formula_text == "N = ?" for step in act(name).account.steps)]
TURNED = [name for name in ASKED if turned_over(act(name).rig)]


def test_turning_over_twice_is_the_same_rig() -> None:
    assert len(TURNED) > 10
    for name in TURNED:
        rig = act(name).rig
        once = turned_over(rig)
        assert once is not None, name
        assert once != rig
        assert turned_over(once) == rig, name


@pytest.mark.parametrize(
    ("name", "other"), [("planter", "twofold-up"), ("gun-down", "gun-up"), ("luff-down", "luff-up")]
)
def test_a_turned_tackle_is_the_one_the_shelf_has(name: str, other: str) -> None:
    """The same number of strands hold it as in the rig that is written that way round."""
    turned = turned_over(act(name).rig)
    assert turned is not None
    assert solve(turned).velocity_ratio == act(other).answer.velocity_ratio


def test_what_cannot_be_turned_over_stays() -> None:
    for name in ("atwood", "burton-heavy", "rider-own-rope", "level-lead"):
        assert turned_over(act(name).rig) is None, name


@pytest.mark.parametrize("format", FORMATS)
@pytest.mark.parametrize("name", TURNED)
def test_the_answer_counts_what_is_seen(format: str, name: str) -> None:
    take = next(take for take in shots(format, name) if take.shot.id.endswith("/answer"))
    said = take.shot.step.formula_text.removeprefix("N = ")
    discs = [mark for mark in layer(take.still, "over").marks if isinstance(mark, Circle) and mark.role == "disc"]
    assert len(discs) == int(said)
    assert "N" in [mark.words for mark in layer(take.still, "words").marks if isinstance(mark, Text)]
    assert story(name).acts[0].rig == act(name).rig, "the film's own rig is as it was"


@pytest.mark.parametrize("name", sorted(set(ASKED) - set(TURNED)))
def test_a_rig_that_the_answer_does_not_speak_of_is_in_pencil(name: str) -> None:
    take = next(take for take in shots("level", name) if take.shot.id.endswith("/answer"))
    assert all(mark.pencil for mark in layer(take.still, "rig").marks if mark.layer in ("rope", "hand", "wheel"))
