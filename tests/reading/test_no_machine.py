"""What cannot be a machine is named, all at once: the right code, the right place, and what to do."""

from pathlib import Path

import pytest
from corpus import Bad, corpus

from gantline.notation import parse
from gantline.problems import Problem
from gantline.rig import read

TEXTS = corpus(Path(__file__).with_name("bad.txt"))
PULL = "fixed top sheaves 1\nload bell weight 60 N\nrope fall: bell, over top, hand\n"


def problems_of(text: str) -> tuple[Problem, ...]:
    tree, unreadable = parse(text)
    assert unreadable == ()
    rig, problems = read(tree)
    assert (rig is None) == bool(problems)
    return problems


@pytest.mark.parametrize("bad", TEXTS, ids=lambda bad: f"{bad.expected[0][0]}: {bad.text[-40:]!a}")
def test_the_problem_and_its_place(bad: Bad) -> None:
    problems = problems_of(bad.text)
    assert [(one.code, one.place.line, one.place.column) for one in problems] == bad.expected
    for problem in problems:
        assert problem.text == bad.text.split("\n")[problem.place.line - 1]
        assert problem.says
        assert problem.why
        assert problem.do.endswith((".", "?"))


def test_there_are_many() -> None:
    assert len(TEXTS) >= 100


def test_all_problems_of_a_file_come_at_once_in_the_order_of_the_text() -> None:
    problems = problems_of(
        "fixed top sheaves 1, efficiency 120 %\nload bell weight 60 kg\nload bell mass 1 kg\n"
        "rope fall: bell, over tap, hand\nraise top 0 m\n"
    )
    assert [one.code for one in problems] == [
        "efficiency-out-of-range", "unit-of-another-kind", "name-twice", "no-such-part", "fixed-cannot-move",
        "not-positive",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (PULL.replace("over top", "over tap"), "`top`"),
        (PULL.replace("60 N", "60 n"), "`N`"),
        (PULL.replace("weight 60 N", "mass 60 KG"), "`kg`"),
        (PULL.replace("60 N", "60 kg"), "`mass`"),
        (PULL.replace("weight 60 N", "mass 60 N"), "`weight`"),
        (PULL.replace("over top", "top"), "`over top`"),
        (PULL.replace("sheaves 1", "sheaves 2").replace("over top", "over top.3"), "from 1 to 2"),
    ],
)
def test_the_advice_names_what_to_write(text: str, words: str) -> None:
    (problem,) = problems_of(text)
    assert words in problem.do


def test_a_second_name_or_symbol_says_where_the_first_one_is() -> None:
    (name,) = problems_of(PULL + "load bell weight 5 N\n")
    assert "line 2" in name.says
    (symbol,) = problems_of(PULL.replace("60 N", "P = 60 N") + "effort P = 50 N\n")
    assert "line 2" in symbol.says


def test_parts_in_a_circle_are_all_named_with_their_lines() -> None:
    bad = next(bad for bad in TEXTS if bad.expected[0][0] == "hangs-in-a-circle")
    (problem,) = problems_of(bad.text)
    assert "`first` (line 1) above `second`" in problem.says
    assert "`second` (line 2) above `first`" in problem.says


def test_nothing_is_noted_twice_where_a_part_has_a_problem_of_its_own() -> None:
    assert [one.code for one in problems_of(PULL.replace("60 N", "60 kg") + "raise bell 1 m\n")] == [
        "unit-of-another-kind"
    ]


def test_the_problems_of_text_and_machine_come_together_and_an_unread_line_is_not_missed() -> None:
    text = "lod bell weight 60 N\nfixed top sheaves 1, efficiency 120 %\nrope fall: bell, over top, hand\n"
    tree, unreadable = parse(text)
    rig, problems = read(tree, unreadable)
    assert rig is None
    assert [(one.code, one.place.line) for one in problems] == [
        ("no-such-statement", 1),
        ("efficiency-out-of-range", 2),
    ]


def test_of_both_kinds_no_more_than_a_hundred_are_shown() -> None:
    text = "lod\n" * 60 + "load bell weight 60\n" * 60
    tree, unreadable = parse(text)
    _, problems = read(tree, unreadable)
    assert len(problems) == 101
    assert problems[-1].code == "too-many-problems"
