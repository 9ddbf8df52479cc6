"""What-if: one value changed on the tree, the rest as it stands."""

import pytest

from gantline.notation import parse, tidy, with_value
from gantline.rig import Rig, read

TEXT = """\
fixed upper sheaves 2, efficiency 95 %
moving lower sheaves 2, weight w = 12 N, carries planter
load planter mass 35 kg
rope fall: upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
"""


def changed(target: str, text: str, of: str = TEXT) -> Rig:
    tree, problems = with_value(parse(of)[0], target, text)
    assert problems == ()
    rig, problems = read(tree)
    assert problems == ()
    assert rig is not None
    return rig


@pytest.mark.parametrize("written", ["20N", "20 N", " 20 N ", "w = 20 N", "0.02 kN", "40/2 N"])
def test_a_value_takes_the_place_of_another(written: str) -> None:
    assert changed("lower.weight", written).part("lower").weight.number == 20


def test_a_value_that_was_not_said_is_added() -> None:
    assert changed("upper.weight", "3 N").part("upper").weight.number == 3
    assert changed("gravity", "10 m/s2").gravity.number == 10
    assert changed("effort", "100 N").effort.number == 100
    assert changed("lower.efficiency", "90%").part("lower").sheaves[1].efficiency.number * 10 == 9
    assert changed("raise", "2 m").asked.part == "planter"


def test_a_cord_is_set_by_the_name_of_its_rope() -> None:
    rig = changed("fall.stiffness", "3 kN")
    assert rig.cord("fall").stiffness.number == 3000
    said = changed("fall.drag", "0.1 N", TEXT + "cord fall drag 0.2 N, weight 0.1 N/m\n").cord("fall")
    assert [10 * given.number for given in (said.drag, said.weight)] == [1, 1]
    assert changed("lead", "1.5 m").lead.number == 1.5
    assert changed("lower.becket", "-20 mm").part("lower").becket.number * 50 == -1


@pytest.mark.parametrize("said", ["", "apart upper lower 80 cm\n", "apart lower upper 80 cm\n"])
def test_how_far_two_parts_are_apart_is_set_by_both_names(said: str) -> None:
    for target in ("upper.lower.apart", "lower.upper.apart"):
        rig = changed(target, "1.2 m", TEXT + said)
        assert [one.distance.number * 10 for one in rig.aparts] == [12]
    _, problems = with_value(parse(TEXT)[0], "upper.nothing.apart", "1 m")
    assert [problem.code for problem in problems] == ["nothing-to-set"]


def test_weight_and_mass_take_turns() -> None:
    planter = changed("planter.weight", "300 N").part("planter")
    assert (planter.weight.number, planter.mass) == (300, None)


def test_the_motion_keeps_its_part_and_may_turn_round() -> None:
    text = TEXT + "raise lower 1 m\n"
    assert changed("raise", "2 m", text).asked.distance.number == 2
    down = changed("lower", "2 m", text).asked
    assert (down.part, down.sense) == ("lower", -1)


def test_a_number_may_become_a_letter() -> None:
    weight = changed("lower.weight", "w").part("lower").weight
    assert (weight.symbol, weight.number) == ("w", None)


def test_nothing_else_changes() -> None:
    tree, _ = with_value(parse(TEXT)[0], "lower.weight", "w = 20 N")
    rest = [line for line in tidy(tree).splitlines() if not line.startswith("moving")]
    assert rest == [line for line in tidy(parse(TEXT)[0]).splitlines() if not line.startswith("moving")]


@pytest.mark.parametrize(
    ("target", "text", "code", "column"),
    [
        ("nobody.weight", "2 N", "nothing-to-set", 1),
        ("lower.wait", "2 N", "nothing-to-set", 1),
        ("lower.carries", "bell", "nothing-to-set", 1),
        ("fall.carries", "bell", "nothing-to-set", 1),
        ("fall.wait", "2 N", "nothing-to-set", 1),
        ("lead.weight", "2 N", "nothing-to-set", 1),
        ("title", "x", "nothing-to-set", 1),
        ("", "2 N", "nothing-to-set", 1),
        (".", "2 N", "nothing-to-set", 1),
        ("lower.weight", "2,5 N", "comma-in-number", 17),
        ("lower.weight", "nan", "number-unreadable", 16),
        ("lower.weight", "1e99 N", "number-too-large", 16),
        ("lower.weight", "2 N, mass 3 kg", "something-left-over", 19),
        ("lower.sheaves", "two", "count-unreadable", 17),
        ("gravity", "-- m/s2", "number-unreadable", 11),
    ],
)
def test_what_cannot_be_set(target: str, text: str, code: str, column: int) -> None:
    before = parse(TEXT)[0]
    tree, (problem,) = with_value(before, target, text)
    assert tree == before
    assert (problem.code, problem.place.line, problem.place.column) == (code, 1, column)
    assert problem.text == f"{target} = {text}"
    assert problem.do


@pytest.mark.parametrize(
    ("target", "text", "code"),
    [("lower.weight", "-2 N", "not-positive"), ("lower.weight", "2 kg", "unit-of-another-kind"),
     ("upper.efficiency", "120 %", "efficiency-out-of-range"), ("fall.weight", "2 N", "unit-of-another-kind"),
     ("fall.sheaves", "2", "attribute-not-here"), ("lower.weight", "2 parrots", "no-such-unit"),
     ("lower.sheaves", "1", "no-such-sheave"), ("raise", "0 m", "not-positive")],
)  # fmt: skip
def test_what_no_machine_can_have(target: str, text: str, code: str) -> None:
    tree, problems = with_value(parse(TEXT)[0], target, text)
    assert problems == ()
    assert [one.code for one in read(tree)[1]] == [code]


def test_a_name_nearly_right_gets_a_suggestion() -> None:
    _, (problem,) = with_value(parse(TEXT)[0], "lowr.weight", "2 N")
    assert "`lower.weight`" in problem.do
