"""The true pose: drawn by the numbers of the trial, at its true angle, to one scale."""

from math import atan2, cos, degrees, radians, sin

import pytest

from gantline import api
from gantline.figure import NotDrawable, Scene, draw, lay_out
from gantline.figure.pose import pose, posed, scale_of
from gantline.figure.scene import Circle, Path, Strand, Text
from gantline.figure.sheet import UNIT
from gantline.mechanics import Moment, Trial, trial
from gantline.rig import Rig

FOUR = """\
fixed   upper  sheaves 2, efficiency {e}
moving  lower  sheaves 2, weight 0.5 N, efficiency {e}, carries bag
load    bag    weight 10 N
rope    fall: upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
"""
SIX = """\
fixed   upper  sheaves 3, efficiency {e}
moving  lower  sheaves 3, weight 0.5 N, efficiency {e}, carries bag
load    bag    weight 10 N
rope    fall: upper, under lower.{a}, over upper.{a}, under lower.{b}, over upper.{b}, under lower.{c}, over upper.{c}, hand
"""  # noqa: E501


def rig_of(text: str) -> Rig:
    rig, problems = api.read(text)
    assert rig is not None, problems
    return rig


def six(e: str, order: str) -> Rig:
    return rig_of(SIX.format(e=e, a=order[0], b=order[1], c=order[2]))


def tried(rig: Rig, hand: float = 0.05) -> tuple[Scene, Trial, Moment]:
    found = trial(rig, (hand,))
    return draw(rig, api.solve(rig).answer, "tried", hand=hand), found, found.history[-1]


def panels(scene: Scene, sheaves: int) -> list[dict[str, tuple[float, float]]]:
    """The centre of every sheave, panel by panel."""
    hubs = [mark for mark in scene.marks if isinstance(mark, Circle) and mark.role == "wheel" and mark.sheave]
    outer = hubs[::2]
    return [{mark.sheave: (mark.x, mark.y) for mark in outer[n : n + sheaves]} for n in range(0, len(outer), sheaves)]


@pytest.mark.parametrize("e", ["98 %", "95 %", "90 %"])
def test_axles_lie_on_a_line_at_the_solved_angle(e: str) -> None:
    rig = rig_of(FOUR.format(e=e))
    scene, _, moment = tried(rig)
    perfect, real = panels(scene, 4)
    (x1, y1), (x2, y2) = real["lower.1"], real["lower.2"]
    assert y1 - y2 == pytest.approx((x2 - x1) * sin(moment.tilt["lower"]))
    assert perfect["lower.1"][1] == pytest.approx(perfect["lower.2"][1])
    bars = [mark for mark in scene.marks if isinstance(mark, Path) and mark.part == "lower" and mark.role == "bold"]
    assert [round(mark.turn, 6) for mark in bars] == [0, round(-degrees(moment.tilt["lower"]), 6)]


def test_rises_have_one_scale_in_both_panels() -> None:
    rig = rig_of(FOUR.format(e="90 %"))
    scene, found, moment = tried(rig)
    assert found.setup is not None
    layout = lay_out(rig, api.solve(rig).answer)
    scale = scale_of(layout, found.setup)
    start = {wheel.sheave: wheel.y * UNIT for wheel in layout.wheels}
    perfect, real = panels(scene, 4)
    for name in ("lower.1", "lower.2"):
        assert start[name] - perfect[name][1] == pytest.approx(scale * moment.hand / 4)
    middle = sum(start[name] - real[name][1] for name in ("lower.1", "lower.2")) / 2
    assert middle == pytest.approx(scale * moment.rises["lower"])
    assert scale * 0.04 == pytest.approx((layout.wheels[2].x - layout.wheels[0].x) * UNIT)


def test_strands_stay_plumb_and_meet_their_wheels_level_with_the_axle() -> None:
    scene, _, _ = tried(six("80 %", "123"), 0.1)
    wheels = panels(scene, 6)[1]
    strands = [mark for mark in scene.marks if isinstance(mark, Strand)][7:]
    assert len(strands) == 7
    assert all(mark.x1 == mark.x2 for mark in strands)
    ends = [(mark.x1, y) for mark in strands for y in (mark.y1, mark.y2)]
    for x, y in wheels.values():
        touching = [end for end in ends if end[1] == pytest.approx(y) and abs(abs(end[0] - x) - UNIT) < 1.5]
        assert len(touching) >= 2


def test_wheels_stand_at_the_angle_the_room_sees() -> None:
    rig = rig_of(FOUR.format(e="90 %"))
    scene, _, moment = tried(rig)
    spokes = [mark for mark in scene.marks if isinstance(mark, Path) and mark.role == "spokes"][4:]
    assert len(spokes) == 4
    for mark in spokes:
        assert radians(mark.turn) == pytest.approx(-moment.turns[mark.sheave])


def test_every_rise_and_the_angle_are_written() -> None:
    rig = rig_of(FOUR.format(e="90 %"))
    scene, _, moment = tried(rig)
    words = {mark.words for mark in scene.marks if isinstance(mark, Text)}
    assert {f"{1000 * rise:.1f}" for rise in moment.axles.values()} <= words
    assert f"{degrees(moment.tilt['lower']):.1f}°" in words
    assert "12.5" in words


def test_perfect_wheels_hang_level() -> None:
    scene, _, _ = tried(rig_of(FOUR.format(e="100 %")))
    assert not any(mark.words.endswith("°") for mark in scene.marks if isinstance(mark, Text))


def test_the_load_hangs_plumb_below_the_tipped_pin() -> None:
    rig = rig_of(FOUR.format(e="90 %"))
    found = trial(rig, (0.05,))
    assert found.setup is not None
    layout = lay_out(rig, api.solve(rig).answer)
    at = pose(layout, found.setup, found.history[-1])
    _, level = posed(layout, at)
    scene, _, moment = tried(rig)
    castings = [mark for mark in scene.marks if isinstance(mark, Path) and mark.role == "load"]
    assert [mark.turn for mark in castings] == [0, 0]
    tilt, body = moment.tilt["lower"], level.body("lower")
    pin = castings[0].y - panels(scene, 4)[0]["lower.1"][1]  # below the sheave line, with the ring, where it is level
    across = castings[1].x - (castings[0].x + scene.panels[1].x - scene.panels[0].x)
    assert body.x == pytest.approx((level.wheels[0].x + level.wheels[2].x) / 2)
    assert 0 < across < pin * sin(tilt)
    assert degrees(atan2(sin(tilt), cos(tilt))) == pytest.approx(4.34, abs=0.01)


def test_another_order_on_the_block_than_along_the_rope_is_not_drawn_falsely() -> None:
    rig = six("90 %", "132")
    with pytest.raises(NotDrawable, match="order"):
        draw(rig, api.solve(rig).answer, "tried")


UP = """\
fixed   upper  sheaves 2, efficiency 90 %
moving  lower  sheaves 2, weight 0.5 N, efficiency 90 %, {becket}carries bag
load    bag    weight 10 N
rope    fall: lower, over upper.1, under lower.1, over upper.2, under lower.2, hand
"""


@pytest.mark.parametrize("millimetres", [-60, 0, 25])
def test_a_becket_stands_at_its_true_place_on_the_block(millimetres: int) -> None:
    scene, found, moment = tried(rig_of(UP.format(becket=f"becket {millimetres} mm, ")), 0.02)
    assert found.setup is not None
    real = panels(scene, 4)[1]
    first, second = real["lower.1"], real["lower.2"]
    pin = [mark for mark in scene.marks if isinstance(mark, Circle) and mark.role == "metal" and mark.part == "lower"][
        -1
    ]
    a_metre = (second[0] - first[0]) / 0.04
    assert pin.x - (first[0] + second[0]) / 2 == pytest.approx(a_metre * millimetres / 1000, abs=0.01)
    assert (first[1] + second[1]) / 2 - pin.y == pytest.approx(
        a_metre * millimetres / 1000 * sin(moment.tilt["lower"]), abs=0.5
    ), "it rises and falls with its own arm"
    assert "Becket" not in words_of(scene)


def test_a_becket_that_the_file_does_not_place_is_said_to_be_reckoned_elsewhere() -> None:
    assert "Becket of lower: reckoned in its middle, drawn clear of the wheels." in words_of(
        tried(rig_of(UP.format(becket="")), 0.02)[0]
    )
    assert "Becket" not in words_of(tried(rig_of(FOUR.format(e="90 %")))[0])


def words_of(scene: Scene) -> str:
    return " ".join(mark.words for mark in scene.marks if isinstance(mark, Text))
