"""A storyboard: lengths from words, one move at a time, causes before effects, and the board cut to given starts."""

from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from filmed import SHELF, act, layer, pixels, shots, story

from gantline.account import spoken_words
from gantline.figure import Strand, Text
from gantline.film import FORMATS, LEVELS, Picture, board, takes
from gantline.film.storyboard import retimed


@pytest.mark.parametrize("level", LEVELS)
def test_shots_last_as_long_as_their_words_at_the_level(level: str) -> None:
    made = board([act("planter")], level=level)
    for shot in made.shots:
        if shot.says:
            assert shot.seconds >= spoken_words(shot.says) / LEVELS[level].pace + 0.8
            assert shot.seconds - shot.pause >= 2.5 - 1e-9
    assert made.shots[0].start == 0
    assert all(one.end == pytest.approx(two.start) for one, two in pairwise(made.shots))


def test_lengths_are_whole_tenths_so_that_a_longer_sentence_moves_no_frame_of_another_shot() -> None:
    longer = board([act("planter")], {("planter", "path"): "One rope runs through it all, from the beam to your hand."})
    for one, two in zip(story("planter").shots, longer.shots, strict=True):
        assert one.seconds * 10 == pytest.approx(round(one.seconds * 10))
        if one.says == two.says:
            assert (one.seconds, one.moves) == (two.seconds, two.moves)


@pytest.mark.parametrize("name", SHELF)
def test_one_thing_moves_at_a_time_and_all_ends_within_its_shot(name: str) -> None:
    for shot in story(name).shots:
        assert all(one.end <= two.start + 1e-9 for one, two in pairwise(shot.moves)), shot.id
        assert not shot.moves or shot.moves[-1].end <= shot.seconds + 1e-9


@pytest.mark.parametrize("name", SHELF)
def test_moves_are_the_same_in_every_format(name: str) -> None:
    for format in FORMATS:
        for take in takes(story(name), format):
            assert [change.move.what for change in take.changes] == [move.what for move in take.shot.moves]


@pytest.mark.parametrize("name", SHELF)
def test_nothing_moves_between_the_moves(name: str) -> None:
    for take in shots("level", name):
        edges = [0.0, *(move.end for move in take.shot.moves)]
        for end, move in zip(edges, take.shot.moves, strict=False):
            still = take.at(end + 1e-6), take.at(move.start - 1e-6)
            if move.start - end > 1e-3:
                assert still[0].picture is still[1].picture
                assert still[0].toward is None


def test_the_count_goes_strand_by_strand_and_the_hauled_end_is_last() -> None:
    shot = next(shot for shot in story("planter").shots if shot.id.endswith("/cross"))
    what = [move.what for move in shot.moves]
    assert what[2:10] == [part for n in range(1, 5) for part in (f"along fall:{n}", f"disc {n}")]
    assert what[10:] == ["the hauled end", "disc", "formula"]


def test_a_counted_strand_has_its_tick_with_the_ink_then_its_disc_then_a_rest() -> None:
    take = next(take for take in shots("level", "planter") if take.shot.id.endswith("/cross"))
    assert _ticks(take.before) == 0
    ticks = 0
    for change, move in zip(take.changes, take.shot.moves, strict=True):
        if move.what.startswith("along"):
            ticks += 1
            assert move.seconds == pytest.approx(0.5)
        elif move.what.startswith("disc "):
            assert (move.seconds, move.rest) == (pytest.approx(0.2), pytest.approx(0.2))
        assert _ticks(change.after) == ticks, move.what
    assert ticks == 4


def _ticks(picture: Picture) -> int:
    return sum(mark.role == "tick" for one in picture.layers if one.name == "over" for mark in one.marks)


def test_ink_runs_over_a_lay_that_stands_still() -> None:
    take = next(take for take in shots("level", "planter") if take.shot.id.endswith("/path"))
    move = next(move for move in take.shot.moves if move.what.startswith("along"))
    places: dict[str, set[float]] = {}
    for share in range(1, 40):
        picture = take.at(move.start + move.seconds * share / 40).picture
        for mark in layer(picture, "rig").marks:
            if isinstance(mark, Strand) and not mark.pencil and mark.x1 == mark.x2:
                places.setdefault(mark.name, set()).add(round((min(mark.y1, mark.y2) + mark.run) % 4.6, 3) % 4.6)
    assert places
    assert all(max(found) - min(found) < 0.01 for found in places.values())


@pytest.mark.parametrize(
    ("name", "says"),
    [("planter", "what the upper block carries"), ("luff-upon-luff", "the floor block is pulled up"),
     ("atwood-double", "carries")],
)  # fmt: skip
def test_a_force_of_a_support_has_its_name_under_it(name: str, says: str) -> None:
    take = next(take for take in shots("level", name) if take.shot.id.endswith("/beam"))
    words = [mark for mark in layer(take.still, "words").marks if isinstance(mark, Text)]
    assert says in " ".join(run.text for mark in words for run in mark.runs)


def test_the_learner_has_a_turn_of_rope_a_second() -> None:
    shot = next(shot for shot in story("planter").shots if shot.id.endswith("/ask"))
    turns = [move for move in shot.moves if move.when == "pause"]
    assert len(turns) == round(shot.pause) == 5
    assert all(two.end - one.end == pytest.approx(1.0, abs=0.12) for one, two in pairwise(turns))
    assert turns[0].start >= spoken_words(shot.says) / LEVELS["middle"].pace


def test_given_frames_cut_the_same_board() -> None:
    made = story("planter")
    cut = retimed(made, [90] * len(made.shots), 30)
    assert [shot.start for shot in cut.shots] == [3.0 * number for number in range(len(made.shots))]
    for one, two in zip(made.shots, cut.shots, strict=True):
        assert [move.what for move in one.moves] == [move.what for move in two.moves]
        assert not two.moves or two.moves[-1].end <= 3.0 + 1e-9


def test_a_board_needs_a_rig_and_a_level() -> None:
    with pytest.raises(ValueError, match="at least one rig"):
        board([])
    with pytest.raises(ValueError, match="there is no level 'expert'"):
        board([act("planter")], level="expert")


@pytest.mark.parametrize("name", ["planter", "threefold-up", "luff-upon-luff", "atwood-double", "impossible-unequal"])
def test_nothing_flashes(name: str) -> None:
    """No patch of 64 px goes lighter and darker again more than three times in any second."""
    seen = [
        (take.shot.start + tenth / 10, patches(moment.picture))
        for take in shots("level", name)
        for tenth in range(int(take.shot.seconds * 10))
        if (moment := take.at(tenth / 10)).toward is None
    ]
    turn, way = seen[0][1].copy(), np.zeros(seen[0][1].shape)
    times = np.full((8, *turn.shape), -10.0)
    for at, now in seen[1:]:
        swing = np.where(abs(now - turn) > 25, np.sign(now - turn), 0)
        back = (swing != 0) & (swing != way) & (way != 0)
        times[:, back] = np.roll(times[:, back], 1, axis=0)
        times[0][back] = at
        way, turn = np.where(swing != 0, swing, way), np.where(swing != 0, now, turn)
        assert not (times[5] > at - 1.0).any(), f"more than three flashes before {at:.1f} s"


@cache
def patches(picture: Picture) -> np.ndarray:
    dark = pixels(picture, 1 / 8)[:128].astype(float)
    return dark.reshape(16, 8, 30, 8).mean(axis=(1, 3))
