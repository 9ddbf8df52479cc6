"""Generated accounts beside what a tutor wrote by hand for the same rigs: the numbers, the named slip, the turns."""

from fractions import Fraction

import pytest
from saying import main, said, shelf, solved

from gantline.account import WRONG_RULES, Refusal, explain, verdict, wrong_answers


def wrong_of(name):
    return {wrong.rule: wrong for wrong in wrong_answers(*solved(shelf(name)))}


def test_the_planter():
    account = main("planter")
    assert account.method == "count"
    assert account.result.number == 90
    assert "348 newtons" in said(account, "meet")
    assert said(account, "solve").startswith("Four T make 360, so T is 90 newtons.")
    assert "nearly 3.9" in said(account, "gain")
    assert "450 newtons" in said(account, "beam")
    assert "2 metres" in said(account, "pay-hand")
    assert "180 joules" in said(account, "work")
    assert "174" in said(account, "work")
    assert account.wrong.rule == "M02"
    assert account.wrong.value.number == 72
    assert "102" in said(account, "really")
    assert "79" in said(account, "really")
    assert said(account, "answer").startswith("Five")
    lucky = [wrong for wrong in wrong_of("planter").values() if wrong.right_by_luck]
    assert "M01" in {rule for wrong in lucky for rule in (wrong.rule, *wrong.same_as)}


def test_a_runner_hauled_up():
    account = main("runner-up")
    assert account.method == "count"
    assert account.result.number == 120
    assert "one from the ring, one from your hand" in said(account, "cross")
    assert "Two T make 240" in said(account, "solve")
    assert "nearly 1.9" in said(account, "gain")
    assert "the other 120" in said(account, "beam")
    assert "6 metres" in said(account, "pay")
    assert "672" in said(account, "work")
    assert "48" in said(account, "work")
    assert account.wrong.value.number == 240
    assert {account.wrong.rule, *account.wrong.same_as} >= {"M01", "M03", "M51"}
    assert "you gave your own strand everything" in said(account, "wrong")
    assert "123" in said(account, "really")
    assert "117" in said(account, "really")


@pytest.mark.parametrize(
    ("rule", "number"), [("M30", 112), ("M31", 128), ("M32", 104), ("M09", 60), ("M20", 3), ("M23", 360), ("M24", 1440)]
)
def test_wrong_answers_of_the_runner(rule, number):
    found = {r: wrong.value.number for wrong in wrong_of("runner-up").values() for r in (wrong.rule, *wrong.same_as)}
    assert rule in found
    assert abs(found[rule] - number) <= Fraction(5, 100) * number


def test_a_burton_with_a_heavy_flying_block():
    account = main("burton-heavy")
    assert account.method == "carry"
    assert account.result.number == 84
    assert "two F plus 24" in said(account, "hop")
    assert "three F plus 24" in said(account, "add")
    assert "252" in said(account, "solve")
    assert "84 newtons" in said(account, "solve")
    assert "more than three, thanks to the flying block" in said(account, "gain")
    assert "384" in said(account, "beam")
    assert "126 joules" in said(account, "work")
    assert account.wrong.value.number == 69
    assert "M07" in {account.wrong.rule, *account.wrong.same_as}
    wrong = wrong_of("burton-heavy")
    assert wrong["M52"].value.number == 100
    assert any(w.right_by_luck and "M32" in (w.rule, *w.same_as) for w in wrong.values())
    refusal = explain(*solved(shelf("burton-heavy")), "count")
    assert isinstance(refusal, Refusal)
    assert "bell" in refusal.reason


def test_the_double_atwood():
    account = main("atwood-double")
    assert account.method == "newton"
    assert account.result.number == Fraction(-14, 5)
    assert "2.8 metres per second squared" in said(account, "solve")
    assert "42 newtons" in said(account, "solve")
    assert "the sack sinks at 5.6, and the bag rises at 11.2" in said(account, "others")
    assert "84 newtons" in said(account, "beam")
    assert account.wrong.rule == "M46"
    assert account.wrong.value.number == 0
    assert said(account, "wrong").startswith("If you said that it stays")
    assert said(account, "answer").startswith("It stays.")
    assert verdict(*solved(shelf("atwood-double"))) == "Let go, and the crate sinks, gathering speed at 2.8 m/s2."


def test_rules_have_words_and_words_have_rules():
    from gantline.account.phrases import en

    assert set(WRONG_RULES) == set(en.WRONG)


def test_impossible_rigs_say_where_and_how_to_mend():
    account = main("impossible-one-rope")
    steps = [step.id for step in account.steps]
    assert steps[-2:] == ["clash", "mend"]
    assert account.result is None
    assert "No pull" in verdict(*solved(shelf("impossible-one-rope"))) or "no pull" in said(account, "clash")


def test_indeterminate_rigs_count_what_is_open():
    assert "two strands" in verdict(*solved(shelf("indeterminate-two-ropes")))
