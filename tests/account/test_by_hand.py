"""Generated accounts beside what a tutor wrote by hand for the same rigs: the numbers, the named slip, the turns."""

from fractions import Fraction

import pytest
from saying import main, rig_of, said, shelf, solved

from gantline.account import WRONG_RULES, Refusal, explain, verdict, wrong_answers
from gantline.account.facts import Facts
from gantline.account.wrong import given
from gantline.mechanics import solve
from gantline.quantity import value


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
    assert verdict(*solved(shelf("atwood-double"))) == "Let go, and the crate sinks, gathering speed at 2.8 m/s²."


def test_rules_have_words_and_words_have_rules():
    from gantline.account.phrases import en

    assert set(WRONG_RULES) == set(en.WRONG)


def test_impossible_rigs_say_where_and_how_to_mend():
    """By hand: 2T = 240 at the crate, T = 2T at the flying block."""
    account = main("impossible-one-rope")
    steps = [step.id for step in account.steps]
    assert steps[-3:] == ["clash", "wrong", "mend"]
    assert account.result is None
    assert "No pull" in verdict(*solved(shelf("impossible-one-rope"))) or "no pull" in said(account, "clash")
    assert said(account, "clash").startswith(
        "So the crate asks the rope for 120 newtons, and the flying block for none"
    )
    assert [step.formula_text for step in account.steps if step.id == "clash"] == ["120 N = 0 N?"]
    assert account.wrong.rule == "M56"


def test_a_weight_that_would_fit_is_named():
    """By hand: one rope over a free wheel, 90 N at one end and 60 N at the other."""
    account = main("impossible-unequal")
    assert "the sign asks the other rope for 90 newtons, and the board for 60." in said(account, "clash")
    assert "If the board weighed 90 newtons, both could be held." in said(account, "mend")


HUNG = """\
fixed   beam    sheaves 2
moving  flyer   sheaves 1, weight {flyer}
moving  cradle  sheaves 1, weight 40 N, carries piano{company}
load    piano   weight {piano}
{stool}rope    long:   beam, under cradle, over beam.1, flyer
rope    short:  cradle, over beam.2, under flyer, hand
raise   piano 1.2 m
"""


def hung(flyer, piano, stool=""):
    company = " and stool" if stool else ""
    return rig_of(HUNG.format(flyer=flyer, piano=piano, company=company, stool=stool))


@pytest.mark.parametrize(
    ("stool", "says"),
    [("", "Make the flying block heavier, or the piano lighter, and the rope is taut again."),
     ("load    stool   weight 60 N\n", "Make the flying block heavier, and the rope is taut again.")],
)  # fmt: skip
def test_a_slack_rope_is_mended_by_what_really_mends_it(stool, says):
    """By hand: 2T + S = W + m + 40 at the cradle, T + 2S = w at the flyer, so S = (2w - W - m - 40)/3. With w = 25
    a piano below 10 N would do, and beside a stool of 60 N none at all."""
    rig = hung("25 N", "1800 N", stool)
    account = explain(rig, solve(rig), "free-body")
    assert said(account, "mend") == says
    assert "too light for the piano" in verdict(rig, solve(rig))
    heavier, lighter = hung("1100 N", "1800 N", stool), hung("25 N", "9 N", stool)
    assert solve(heavier).status == "holds"
    assert solve(lighter).status == ("slack" if stool else "holds")


def test_the_weight_that_would_fit_is_reckoned_over_the_wheel():
    """By hand: 80 N on a bight asks for 40; the palm hangs on two strands of it, so 2 x 40 = 80 would do."""
    text = """
fixed    ring
fixed    top   sheaves 1
moving   one   sheaves 1, carries fern
moving   two   sheaves 1, carries palm
load     fern  weight 80 N
load     palm  weight 120 N
rope     line: ring, under one, over top, under two, hand
raise    fern 1 m
"""
    account = told_of(text)
    assert "the fern asks the rope for 40 newtons, and the palm for 60" in said(account, "clash")
    assert "If the palm weighed 80 newtons, both could be held." in said(account, "mend")
    assert "under the fern's wheel" in said(account, "path")
    fits = rig_of(text.replace("120 N", "80 N"))
    assert solve(fits).status == "holds"


def test_indeterminate_rigs_count_what_is_open():
    """By hand: 160 + 160 = 320 and 240 + 80 = 320."""
    assert "two strands" in verdict(*solved(shelf("indeterminate-two-ropes")))
    account = main("indeterminate-two-ropes")
    assert said(account, "undecided") == (
        "160 newtons in every strand would fit this sum. But 240 in the first rope and 80 in the second rope fit it as "
        "well."
    )
    assert account.wrong.rule == "M55"
    assert "One sum cannot settle two pulls" in said(account, "mend")


def test_two_ways_of_sharing_do_add_up_with_unequal_strands():
    """By hand, 300 N on one strand and a bight of two: 100 in each; or 150 in the one strand and 75 twice."""
    text = """
fixed    beam
moving   ring  sheaves 1, carries lamp
load     lamp  weight 300 N
rope     stay: beam, lamp
rope     loop: beam, under ring, beam
"""
    account = told_of(text)
    assert "100 newtons in every strand" in said(account, "undecided")
    assert "150 in the first rope and 75 in the second rope" in said(account, "undecided")


def test_what_friction_holds_pulls_with_what_hangs_there():
    """By hand: 5 kg and 4.8 kg at 9.8 m/s2 hang still, so their sides pull with 49 and 47.04 N, whatever the wheel."""
    assert "49 newtons on one and 47.04 on the other" in said(main("loss-holds"), "mend")


def test_a_rope_that_would_have_to_push_says_how_hard():
    """By hand: (276 - 300)/3 = -8 N."""
    account = main("slack-burton")
    assert "pushes with 8 newtons" in said(account, "push")
    refusal = explain(*solved(shelf("slack-burton")), "carry")
    assert "a push of 8 newtons" in refusal.reason


HOOK = """
fixed    upper    sheaves 2
moving   lower    sheaves 2, weight 12 N, carries bell and clapper
load     bell     weight 300 N
load     clapper  weight 48 N
rope     fall: upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
raise    bell 0.5 m
"""


def told_of(text):
    rig = rig_of(text)
    account = explain(rig, solve(rig))
    assert not isinstance(account, Refusal)
    return account


def test_everything_on_a_hook_is_met_before_it_is_weighed():
    """By hand: 300 + 48 + 12 = 360 on four strands; 348 goes up, 300 of it the bell; 90 x 2 = 180 = 150 + the rest."""
    account = told_of(HOOK)
    ids = [step.id for step in account.steps]
    assert ids.index("meet") < ids.index("beside") < ids.index("path")
    assert said(account, "beside") == "On the same hook hangs a clapper of 48 newtons."
    assert said(account, "balance").endswith("all that weighs in the bag: the bell, the clapper and the lower block.")
    assert said(account, "gain").startswith("You pull 90 and 348 goes up, 300 of it the bell.")
    assert "150 for the bell, the rest for all that hangs with it" in said(account, "work")
    rig = rig_of(HOOK)
    assert (
        verdict(rig, solve(rig)) == "A pull of 90 N holds the bell and the clapper, and 2 m of rope raise them 0.5 m."
    )


def test_of_many_on_a_hook_the_weight_they_have_together_is_said():
    """By hand: 48 + 20 + 7 = 75 besides the bell."""
    text = HOOK.replace("bell and clapper", "bell and clapper and yoke and strap").replace(
        "rope ", "load     yoke  weight 20 N\nload     strap  weight 7 N\nrope "
    )
    account = told_of(text)
    assert (
        said(account, "beside")
        == "On the same hook hang the clapper, the yoke and the strap as well, 75 newtons in all."
    )
    assert "the bell and all that hangs with it" in said(account, "balance")


def test_the_one_asked_about_is_met_first():
    account = told_of(HOOK.replace("raise    bell", "raise    clapper"))
    assert said(account, "meet").startswith("A clapper of 48 newtons")
    assert said(account, "beside") == "On the same hook hangs a bell of 300 newtons."


def test_a_forgotten_block_does_not_forget_the_clapper():
    """By hand: M30 leaves out the block alone, 348/4 = 87 N."""
    rig = rig_of(HOOK.replace("12 N", "60 N"))
    facts = Facts(rig, solve(rig))
    law = WRONG_RULES["M30"].law(facts)
    assert value(law, {s: v.number for s, v in facts.answer.givens if v.number is not None}) == 87
    assert given(facts, "M30")[0].number == 87


def test_a_lower_block_is_called_so():
    assert "the lower block" in said(main("planter"), "path")
    assert "the moving wheel" in said(main("level-lead"), "path")  # its file calls it something that is no place


def test_a_refusal_says_what_the_method_would_have_said():
    """By hand: 276/2 = 138 N at the two strands of the bell, and 84 N is right: 54/84 is 64 per cent. 276/4 = 69 N."""
    count = explain(*solved(shelf("burton-heavy")), "count").reason
    assert "two ropes hold the bell" in count
    assert "138 newtons, 64 per cent too much" in count
    assert "69 newtons, 18 per cent too little" in explain(*solved(shelf("burton-heavy")), "stages").reason


def test_a_refusal_of_what_moves_says_the_pull_at_rest():
    """By hand: 98/2 = 49 N would hold the sack and its wheel."""
    assert "it says 49 newtons" in explain(*solved(shelf("effort-speeds-up")), "count").reason
    assert "49 newtons would just hold the sack" in said(main("effort-speeds-up"), "no-count")


def test_a_right_number_by_luck_is_not_held_against_a_method():
    """By hand: even totals, and the pair hangs with its full weight where it is even: nothing to say it is off."""
    refusal = explain(*solved(shelf("atwood-double-still")), "count").reason
    assert "78.4" not in refusal


def test_the_crate_that_stays_is_the_one_asked_about():
    """By hand: 4 x 6 x 3/(6 + 3) = 8 kg, just the crate."""
    account = main("atwood-double-still")
    assert "Does the crate rise, sink, or stay?" in said(account, "ask")
    assert said(account, "solve").endswith("just what the crate weighs, and it stays.")
    assert verdict(*solved(shelf("atwood-double-still"))).startswith("Let go, and the crate stays")


def test_a_heavy_wheel_has_its_own_line():
    """By hand: 3(9.8 - 3.92) = 17.64 N on one side, 9.8 + 3.92 = 13.72 on the other; the disc counts by half."""
    account = main("atwood-heavy-wheel")
    assert "counts like 1 kilogram on the rope" in said(account, "turn")
    assert "17.64 newtons" in said(account, "solve")
    assert "13.72 newtons" in said(account, "others")
    assert account.wrong.rule == "M47"


@pytest.mark.parametrize("name", ["runners-two", "gun-upon-runner"])
def test_where_the_count_is_right_it_is_not_blamed(name):
    """By hand: two stages of two; 360/4 and 520/4 leave out how far the blocks between go."""
    assert "and four is right" in said(main(name), "wrong")


def test_a_load_that_is_asked_for_is_not_given_away():
    account = explain(*solved(shelf("effort-holds")), "free-body")
    assert "its unknown weight and 15 newtons" in said(account, "body")
    assert "210" not in said(account, "body")


def test_the_strand_that_holds_is_told_from_the_wheel_it_comes_from():
    text = """
fixed    top    sheaves 1
fixed    floor  sheaves 1
load     lamp   weight 75 N
rope     line: lamp, over top, under floor, hand
"""
    assert "the one that comes down from the top wheel" in said(told_of(text), "cross")


def test_a_bight_is_not_two_ropes():
    text = """
fixed    top     sheaves 1
moving   yoke    sheaves 1, weight 4 N
load     bell    weight 96 N
rope     bight: bell, over yoke, bell
rope     fall: yoke, over top, hand
raise    bell 40 cm
"""
    assert said(told_of(text), "meet").endswith("hangs on both ends of one rope.")


def test_nothing_left_is_said_so():
    """By hand: two F and 20 hold 20."""
    text = """
fixed    top    sheaves 1
fixed    floor
moving   loose  sheaves 1, weight 20 N
load     pot    weight 20 N
rope     long:  pot, over top, loose
rope     short: floor, over loose, hand
raise    pot 1 m
"""
    account = told_of(text)
    assert said(account, "solve").endswith("nothing is left for your pull.")
    assert "twist" not in [step.id for step in account.steps]


def test_a_given_pull_is_carried_along_to_the_load_it_holds():
    """By hand: 75 N on three strands, 225 less 15 of wheel; and 84 N in a burton, 3 x 84 + 24 = 276."""
    rig, answer = solved(shelf("effort-holds"))
    account = explain(rig, answer, "carry")
    assert account.result.number == 210
    assert "so that comes to 225. Less the 15 that hangs there besides, 210 newtons is left" in said(account, "solve")
    burton = told_of("""
fixed    top      sheaves 1
moving   flyer    sheaves 1, weight 24 N
load     bell     weight W
rope     long:    bell, over top, flyer
rope     short:   bell, over flyer, hand
effort   84 N
""")
    assert burton.method == "carry"
    assert burton.result.number == 276
    assert said(burton, "meet") == "A bell hangs on two ropes. How heavy it is we do not know yet."
    assert said(burton, "solve") == "Your F is 84 newtons, so that comes to 276: so heavy is the bell."
    assert burton.wrong.rule == "M07"
    assert burton.wrong.value.number == 4 * 84


def test_a_block_may_hang_there_by_itself():
    """By hand: a cradle of 620 N hung from its own wheel, and nothing on its hook."""
    text = """
fixed    upper
moving   cradle  sheaves 1, weight 620 N
rope     fall: upper, under cradle, hand at cradle
"""
    rig = rig_of(text)
    answer = solve(rig)
    assert verdict(rig, answer).endswith(".")
    told = explain(rig, answer)
    assert isinstance(told, Refusal) or told.steps
    assert isinstance(wrong_answers(rig, answer), tuple)


def test_a_block_by_itself_is_hauled_up():
    """By hand: 80 N of block on two strands."""
    text = """
fixed    ring
moving   hook  sheaves 1, weight 80 N
rope     fall: ring, under hook, hand
raise    hook 1 m
"""
    rig = rig_of(text)
    answer = solve(rig)
    assert answer.ideal.effort.number == 40
    assert (
        said(explain(rig, answer), "meet")
        == "A runner of 80 newtons hangs in the rope by itself, with nothing on its hook."
    )
    assert "around the runner, and look" in said(explain(rig, answer), "cut")
    for method in ("count", "free-body", "work", "rope-length", "carry", "stages", "newton"):
        told = explain(rig, answer, method)
        assert isinstance(told, Refusal) or told.steps
