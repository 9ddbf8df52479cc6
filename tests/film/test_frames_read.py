"""Every picture of every format can be read on a phone, leaves the captions' room alone, and keeps words apart."""

import pytest
from filmed import SHELF, act, layer, shots

from gantline.figure import Circle, Line, Path, Rect, Strand, Text, Wrap
from gantline.film import FORMATS, Picture, Take

EVERY = [(format, name) for format in FORMATS for name in SHELF]
# px of the frame: words beside the rig, and on strands that are near each other. On a phone that shows a level film
# 360 px wide the first are 8.8 px high; the other shapes are as wide there, and their words larger.
SMALL = {"level": (46.5, 46.5), "square": (46.5, 33.9), "upright": (61.5, 43.9)}
MARGIN = 16


def texts(picture: Picture) -> list[tuple[str, Text, tuple[float, float, float, float]]]:
    """Every line of text with its layer and its box in px of the frame."""
    found = []
    for one in picture.layers:
        for mark in one.marks:
            if isinstance(mark, Text):
                left, top, right, bottom = (edge * one.scale for edge in mark.box)
                found.append((one.name, mark, (left + one.x, top + one.y, right + one.x, bottom + one.y)))
    return found


def stills(format: str, name: str) -> tuple[Take, ...]:
    return shots(format, name)


@pytest.mark.parametrize(("format", "name"), EVERY)
def test_words_are_large_enough_for_a_phone(format: str, name: str) -> None:
    letters = {given.symbol for part in act(name).rig.parts if (given := _given(part))}
    for take in stills(format, name):
        for one in take.still.layers:
            for mark in one.marks:
                if isinstance(mark, Text) and mark.words not in letters:
                    low = 0.71 if any(run.low for run in mark.runs) and len(mark.runs) == 1 else 1.0
                    low = 0.71 if one.name in ("words", "ledger") and len(mark.words) <= 2 else low  # an index
                    size = mark.size * one.scale
                    assert size >= low * _least(format, one.name), (take.shot.id, mark.words, size)


def _given(part):
    return getattr(part, "weight", None) or getattr(part, "mass", None)


def _least(format: str, layer: str) -> float:
    """Letters at an arrow of the column may be a little smaller; a square frame is three times as large on a phone as
    a level one of its height, so that a long formula in its one column of words may be smaller."""
    beside, on_rig = SMALL[format]
    if layer == "column" or (format == "square" and layer == "words"):
        return 0.65 * beside
    return on_rig if layer in ("rig", "over") else beside


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
def test_no_word_meets_another(format: str, name: str) -> None:
    for take in stills(format, name):
        boxes = texts(take.still)
        for number, (place, mark, box) in enumerate(boxes):
            for beside, other, there in boxes[number + 1 :]:
                if place == beside and mark.y == other.y:
                    continue  # pieces of one line
                assert not _meet(box, there, 6.0), (take.shot.id, mark.words, other.words)


@pytest.mark.parametrize(("format", "name"), EVERY)
def test_no_word_on_the_rig_covers_a_load(format: str, name: str) -> None:
    for take in stills(format, name):
        place = layer(take.still, "rig")
        loads = [
            (place.x + (m.x - 30) * place.scale, place.y + (m.y - 4) * place.scale,
             place.x + (m.x + 30) * place.scale, place.y + (m.y + 50) * place.scale)
            for m in place.marks if isinstance(m, Path) and m.role == "load"
        ]  # fmt: skip
        for name_of, mark, box in texts(take.still):
            assert name_of != "over" or not any(_meet(box, load, 8.0) for load in loads), (take.shot.id, mark.words)


def _meet(a, b, by: float) -> bool:
    """Whether boxes share more than `by` px across and down."""
    return a[0] + by < b[2] and b[0] + by < a[2] and a[1] + by < b[3] and b[1] + by < a[3]


@pytest.mark.parametrize(("format", "name"), EVERY)
def test_the_rig_stays_in_the_picture_wherever_it_goes(format: str, name: str) -> None:
    shape = FORMATS[format][0]
    for take in stills(format, name):
        place = layer(take.still, "rig")
        for mark in place.marks:
            for x, y in _points(mark):
                x, y = place.x + x * place.scale, place.y + y * place.scale
                where = (take.shot.id, mark.part, mark.role, x, y)
                assert 10 <= x <= shape.width - 10, where
                assert 16 <= y <= shape.captions[1], where


def _points(mark):
    """The outermost points of wheels and ropes; the place of the hand."""
    if isinstance(mark, Circle | Wrap):
        return (mark.x - mark.r, mark.y - mark.r), (mark.x + mark.r, mark.y + mark.r)
    if isinstance(mark, Strand | Line):
        return (mark.x1, mark.y1), (mark.x2, mark.y2)
    return ((mark.x, mark.y),) if isinstance(mark, Path) and mark.layer == "hand" else ()


@pytest.mark.parametrize("format", FORMATS)
@pytest.mark.parametrize("name", ["planter", "threefold-up", "ten-strands"])
def test_the_stack_of_pulls_is_as_high_as_the_stack_of_weights(format: str, name: str) -> None:
    """The same in every shape, and to the scale of the arrows on the strands."""
    take = next(take for take in stills(format, name) if take.shot.id.endswith("/balance"))
    column, over = layer(take.still, "column"), layer(take.still, "over")
    pulls = [_long(mark) * column.scale for mark in column.marks if _arrow(mark, "force")]
    weights = [_long(mark) * column.scale for mark in column.marks if _arrow(mark, "weight")]
    on_rig = [_long(mark) * over.scale for mark in over.marks if _arrow(mark, "force")]
    gap = 2.0 * column.scale  # each arrow leaves so much to the next
    assert len(pulls) == len(on_rig) == act(name).answer.velocity_ratio.number
    assert sum(pulls) + len(pulls) * gap == pytest.approx(sum(weights) + len(weights) * gap, abs=2 * gap)
    assert max(pulls) == pytest.approx(max(on_rig), abs=2 * gap)
    assert {mark.words for mark in column.marks if isinstance(mark, Text)} >= {"T", "W", "w"}


def _arrow(mark, role: str) -> bool:
    return isinstance(mark, Path) and mark.role == role


def _long(mark: Path) -> float:
    return abs(float(mark.d.split("L0 ")[1].split("L")[0]))


@pytest.mark.parametrize("format", FORMATS)
@pytest.mark.parametrize("name", ["planter", "threefold-up", "luff-upon-luff", "ten-strands"])
def test_as_many_lengths_of_rope_as_the_ratio_make_the_way_of_the_hand(format: str, name: str) -> None:
    take = next(t for t in stills(format, name) if t.shot.id.rsplit("/", 1)[1] in ("pay-hand", "pay-all"))
    strip, over = layer(take.still, "column"), layer(take.still, "over")
    ratio = int(act(name).answer.velocity_ratio.number)
    rope = next(mark for mark in strip.marks if isinstance(mark, Strand))
    ways = {
        part: sum(abs(m.y2 - m.y1) for m in over.marks if isinstance(m, Line) and m.role == "way" and m.part == part)
        for part in ("hand", *(load.name for load in act(name).rig.loads))
    }
    long = (abs(rope.x2 - rope.x1) + abs(rope.y2 - rope.y1)) * strip.scale
    hand = ways["hand"] * over.scale
    assert long == pytest.approx(hand, abs=0.06 * hand + 12)  # a way's line ends inside its head
    ticks = [mark for mark in strip.marks if isinstance(mark, Line) and mark.role == "edge"]
    assert len(ticks) == ratio + 1


@pytest.mark.parametrize("format", FORMATS)
@pytest.mark.parametrize("name", ["planter", "burton-heavy", "runners-three", "loss-lowering"])
def test_work_put_in_is_as_long_as_what_it_became(format: str, name: str) -> None:
    take = next(take for take in stills(format, name) if take.shot.id.endswith("/work"))
    done = act(name).answer.ideal.work
    bars = [mark for mark in layer(take.still, "words").marks if isinstance(mark, Rect) and mark.role != "dot"]
    bars += [m for m in layer(take.still, "words").marks if isinstance(m, Rect) and m.role == "dot" and m.height > 8]
    rows = {round(bar.y, 1) for bar in bars}
    assert len(rows) == 2
    wide = [sum(bar.width for bar in bars if round(bar.y, 1) == row) for row in rows]
    assert wide[0] == pytest.approx(wide[1], rel=1e-6)
    hand = next(bar for bar in bars if bar.role == "work-in")
    rising = sum(abs(v.number) for _, v in done.shares if v.number * done.put_in.number > 0)
    assert hand.width / wide[0] == pytest.approx(float(abs(done.put_in.number) / rising), rel=1e-6)


@pytest.mark.parametrize("format", FORMATS)
def test_a_wrong_count_stands_beside_the_right_one(format: str) -> None:
    take = next(take for take in stills(format, "planter") if take.shot.id.endswith("/wrong"))
    words = layer(take.still, "words").marks
    on_rig = layer(take.still, "over").marks
    for marks in (words, on_rig) if format == "level" else (on_rig,):
        assert sum(isinstance(mark, Circle) and mark.role == "disc-out" for mark in marks) == 1
        assert sum(isinstance(mark, Line) and mark.role == "strike" for mark in marks) == 1
    discs = sum(isinstance(mark, Circle) and mark.role == "disc" for mark in words)
    assert discs == (8 if format == "level" else 0)


def test_a_mass_of_a_block_is_known_too() -> None:
    rows = {mark.words for take in stills("level", "effort-speeds-up") for mark in layer_texts(take.still, "ledger")}
    assert {"10 kg", "10\u00a0kg"} & rows or {"9 kg", "9\u00a0kg"} & rows


def layer_texts(picture: Picture, name: str) -> list[Text]:
    return [mark for one in picture.layers if one.name == name for mark in one.marks if isinstance(mark, Text)]


@pytest.mark.parametrize("format", FORMATS)
def test_the_rig_never_moves_from_shot_to_shot(format: str) -> None:
    places = {
        (layer.scale, layer.x, layer.y)
        for take in stills(format, "planter")
        if not take.shot.id.endswith("/answer")  # that is another rig
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
