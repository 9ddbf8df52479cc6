"""Cautions say what a fixing carries, by the name a listener knows it by, and are true of the rig."""

import pytest
from saying import FILES, shelf, solved

from gantline.account import cautions


def beam(name: str) -> str:
    return next(caution.says for caution in cautions(*solved(shelf(name))) if caution.id == "beam")


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("planter", "load, blocks and pull together: 450\u00a0N at the upper block."),  # 5 x 90
        ("runner-up", "what your hand does not: 120\u00a0N at the ring."),  # one strand of two
        ("atwood", "all that hangs there: 29.4\u00a0N at the top wheel."),  # 2 x 14.7
        ("rider-own-rope", "all that hangs there: 640\u00a0N at the top wheel."),  # both strands of 320
        ("lead-at-floor", "500\u00a0N at the upper block; and the floor wheel is pulled upward, with 200\u00a0N."),
        ("loss-twofold", "462\u00a0N at the upper block while raising."),  # 360 + 102.1
    ],
)
def test_what_the_fixing_carries(name: str, says: str) -> None:
    """By hand, beside each."""
    assert says in beam(name)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_caution_speaks_of_a_part_as_a_file_does(path) -> None:
    rig, answer = solved(path)
    odd = {part.name for part in rig.parts if not part.name.isalpha()}
    for caution in cautions(rig, answer):
        assert not odd & set(caution.says.replace(";", " ").replace(".", " ").split())
        assert caution.source


def test_three_loads_are_not_both() -> None:
    said = {caution.id: caution.says for caution in cautions(*solved(shelf("atwood-double")))}
    assert "under the loads, or where they would swing" in said["under"]
