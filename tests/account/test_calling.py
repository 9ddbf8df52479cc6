"""Outside accounts too, a part is called what a tutor calls it, and two parts are never called alike."""

import pytest
from saying import FILES, shelf, solved

from gantline.account import called


def test_what_parts_are_called() -> None:
    names = called(*solved(shelf("burton-heavy")))
    assert names["flyer"] == "the flying block"
    assert names["top"] == names["top.1"] == "the top wheel"
    assert names["long"] == "the long rope"
    assert called(*solved(shelf("planter")))["upper.2"] == "wheel 2 of the upper block"
    assert called(*solved(shelf("planter")))["fall"] == "the rope"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_two_parts_are_called_alike(path) -> None:
    rig, answer = solved(path)
    names = called(rig, answer)
    assert set(names) >= {part.name for part in rig.parts} | {sheave.name for sheave in rig.sheaves}
    parts = [names[part.name] for part in rig.parts]
    assert len(set(parts)) == len(parts), parts
    ropes = [names[rope.name] for rope in rig.ropes]
    assert len(set(ropes)) == len(ropes), ropes
