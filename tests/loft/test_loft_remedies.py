"""What the page is offered for a broken text: words to take, and what still stands while one value is at fault."""

import pytest
from inside import PLANTER

from gantline.loft.asked import See
from gantline.loft.seeing import see
from gantline.loft.wording import words

# a text, and what its first remedy makes of the line
MENDED = [
    ("weight 348 N", "weight 348", "load     planter  weight 348 N"),
    ("weight 348 N", "weight 348 kg", "load     planter  mass 348 kg"),
    ("weight 348 N", "weight 348 Nn", "load     planter  weight 348 N"),
    ("load     planter", "lode     planter", "load     planter  weight 348 N"),
    ("carries planter", "carries plantr", "moving   lower    sheaves 2, weight 12 N, carries planter"),
]


@pytest.mark.parametrize(("right", "wrong", "line"), MENDED)
def test_the_first_remedy_mends_the_line(right: str, wrong: str, line: str) -> None:
    text = PLANTER.replace(right, wrong, 1)
    offer = next(found["offers"][0] for found in see(See(text))["problems"] if found["offers"])
    lines = text.split("\n")
    old = lines[offer["line"] - 1]
    start = offer["column"] - 1
    new = old[:start] + offer["write"] + old[start + offer["length"] :]
    assert new == line
    lines[offer["line"] - 1] = new
    assert not see(See("\n".join(lines)))["problems"]


def test_at_most_four_remedies_are_offered() -> None:
    found = see(See(PLANTER.replace("348 N", "348")))["problems"][0]
    assert [offer["says"] for offer in found["offers"]] == ["348 N", "mass 348 kg", "348 lbf", "mass 348 lb"]


def test_what_needs_no_number_still_stands() -> None:
    found = see(See(PLANTER.replace("348 N", "348")))["still"]
    assert found["answer"]["spoken"] == "F = (W + w)/4"
    assert [given["number"] for given in found["givens"] if given["id"] == "planter.weight"] == [""]
    assert found["svg"]


@pytest.mark.parametrize(
    ("right", "wrong"),
    [("load     planter", "lode     planter"), ("under lower.1", "under lower.9"), ("sheaves 2", "sheaves two")],
)
def test_nothing_else_is_guessed(right: str, wrong: str) -> None:
    assert see(See(PLANTER.replace(right, wrong, 1)))["still"] is None


def test_every_word_of_the_notation_is_explained_with_an_example() -> None:
    told = words()
    for word in (*told["statements"], *told["attributes"], *told["path"]):
        assert told["says"][word], word
        assert word in told["examples"][word], word
    assert told["units"]["weight"][0] == "N"
