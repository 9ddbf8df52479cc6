"""Every picture of every format can be read on a phone, leaves the captions' room alone, and keeps words apart."""

import pytest
from filmed import act, shots

from gantline.figure import Text
from gantline.film import FORMATS, Picture, Take

RIGS = ["planter", "burton-heavy", "ten-strands", "atwood", "rider-own-rope", "luff-upon-luff"]
EVERY = [(format, name) for format in FORMATS for name in RIGS]
SMALL = {"level": 46.5, "square": 46.5, "upright": 61.5}
MARGIN = 16


def texts(picture: Picture) -> list[tuple[str, Text, tuple[float, float, float, float]]]:
    """Every line of text with its layer and its box in px of the frame."""
    found = []
    for layer in picture.layers:
        for mark in layer.marks:
            if isinstance(mark, Text):
                left, top, right, bottom = (edge * layer.scale for edge in mark.box)
                found.append((layer.name, mark, (left + layer.x, top + layer.y, right + layer.x, bottom + layer.y)))
    return found


def stills(format: str, name: str) -> tuple[Take, ...]:
    return shots(format, name)


@pytest.mark.parametrize(("format", "name"), EVERY)
def test_words_are_large_enough_for_a_phone(format: str, name: str) -> None:
    letters = {given.symbol for part in act(name).rig.parts if (given := _given(part))}
    for take in stills(format, name):
        for layer in take.still.layers:
            for mark in layer.marks:
                if isinstance(mark, Text) and mark.words not in letters:
                    low = 0.71 if any(run.low for run in mark.runs) and len(mark.runs) == 1 else 1.0
                    low = 0.71 if layer.name in ("words", "ledger") and len(mark.words) <= 2 else low  # an index
                    size = mark.size * layer.scale
                    assert size >= low * SMALL[format] * _beside(format, layer.name), (take.shot.id, mark.words, size)


def _given(part):
    return getattr(part, "weight", None) or getattr(part, "mass", None)


def _beside(format: str, layer: str) -> float:
    """Letters in a column may be as small as the column; a square frame is three times as large on a phone as a level
    one of its height, so that a long formula in its one column of words may be smaller."""
    return 0.7 if layer == "column" or (format == "square" and layer == "words") else 1.0


@pytest.mark.parametrize(("format", "name"), EVERY)
def test_words_stay_in_the_frame_and_off_the_captions(format: str, name: str) -> None:
    shape = FORMATS[format][0]
    for take in stills(format, name):
        for _, mark, (left, top, right, bottom) in texts(take.still):
            where = (take.shot.id, mark.words, (left, top, right, bottom))
            assert left >= MARGIN, where
            assert right <= shape.width - MARGIN, where
            assert top >= 0, where
            assert bottom <= shape.captions[1], where


@pytest.mark.parametrize(("format", "name"), EVERY)
def test_what_stands_beside_the_rig_meets_no_word_on_it(format: str, name: str) -> None:
    for take in stills(format, name):
        boxes = texts(take.still)
        beside = [(mark, box) for layer, mark, box in boxes if layer in ("words", "ledger")]
        on_rig = [(mark, box) for layer, mark, box in boxes if layer in ("rig", "over", "column")]
        for mark, box in beside:
            for other, there in on_rig:
                apart = box[2] <= there[0] or there[2] <= box[0] or box[3] <= there[1] or there[3] <= box[1]
                assert apart, (take.shot.id, mark.words, other.words)


@pytest.mark.parametrize("format", FORMATS)
def test_the_rig_never_moves_from_shot_to_shot(format: str) -> None:
    places = {
        (layer.scale, layer.x, layer.y)
        for take in stills(format, "planter")
        for layer in take.still.layers
        if layer.name == "rig"
    }
    assert len(places) == 1


def test_no_spoken_sentence_stands_on_the_screen_but_the_question() -> None:
    for take in stills("level", "planter"):
        shown = " ".join(mark.words for layer, mark, _ in texts(take.still) if layer == "words")
        asked = any(move.when == "pause" for move in take.shot.moves)
        assert asked or not take.shot.says or take.shot.says[:24] not in shown


def test_nothing_gives_the_pull_away_before_it_is_found() -> None:
    for name in ("planter", "burton-heavy"):
        answer = next(value.shown for value in act(name).account.values if value.key == "F")
        for take in stills("level", name):
            if take.shot.step and take.shot.step.id == "solve":
                break
            assert answer not in [mark.words for _, mark, _ in texts(take.still)], take.shot.id
