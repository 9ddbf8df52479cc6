"""A voice: its steps found again by their pauses, doubts said where there are any, and the film cut to it."""

import itertools

import numpy
import pytest
from voices import RATE, film_of, voice, words_of

from gantline.film import Storyboard, Tap, Taps, hear, matched, pace, unlike, voiced

RIG = (
    "title The bell\nfixed ring sheaves 2\nmoving lower sheaves 2, weight 12 N, carries bell\nload bell weight 60 N\n"
    "rope fall: ring, under lower.1, over ring.1, under lower.2, over ring.2, hand\nraise bell 1.5 m\n"
)


@pytest.fixture(scope="module")
def film(rig_from) -> Storyboard:
    return film_of(rig_from(RIG))


@pytest.mark.parametrize("seed", range(4))
def test_starts_are_found_by_the_pauses(film: Storyboard, seed: int) -> None:
    words = words_of(film)
    sound, known = voice(words, seed)
    found = matched(hear(sound, RATE), words)
    assert [start.at for start in found] == pytest.approx(known, abs=0.1)
    assert sum(bool(start.doubt) for start in found) <= 2


@pytest.mark.parametrize(("seed", "step"), [(0, 4), (1, 9), (2, 13)])
def test_two_steps_without_a_pause_between_them_are_marked(film: Storyboard, seed: int, step: int) -> None:
    words = words_of(film)
    sound, known = voice(words, seed, run_on=step)
    found = matched(hear(sound, RATE), words)
    assert found[step].doubt
    others = [n for n in range(len(known)) if n != step]
    right = [n for n in others if abs(found[n].at - known[n]) <= 0.1]
    assert len(right) >= len(others) - 1
    assert all(found[n].doubt for n in others if n not in right)


@pytest.mark.parametrize(("seed", "step"), [(0, 2), (1, 7), (2, 12)])
def test_stop_in_the_middle_of_a_step_is_no_new_step(film: Storyboard, seed: int, step: int) -> None:
    words = words_of(film)
    sound, known = voice(words, seed, falters=step)
    found = matched(hear(sound, RATE), words)
    assert [start.at for start in found] == pytest.approx(known, abs=0.1)


def test_voice_without_any_pause_is_doubtful_throughout(film: Storyboard) -> None:
    words = words_of(film)
    sound = numpy.random.default_rng(0).normal(0, 0.1, 60 * RATE) * (1 + numpy.sin(numpy.arange(60 * RATE) / 2000))
    found = matched(hear(sound, RATE), words)
    assert len(found) == len(words)
    assert all(start.doubt == "there is no pause here" for start in found[1:])
    assert all(one.at < other.at for one, other in itertools.pairwise(found))


def test_step_of_quite_other_words_is_marked() -> None:
    said, written = [[12], [3], [12], [9]], [[12], [12], [12], [9]]
    sound, _ = voice(said, 3)
    assert any(start.doubt for start in matched(hear(sound, RATE), written)[1:3])


@pytest.mark.parametrize("sound", [numpy.zeros(RATE), numpy.zeros(0), 1e-4 * numpy.ones(RATE)])
def test_silence_has_no_starts(sound: numpy.ndarray) -> None:
    assert matched(hear(sound, RATE), [[3], [4]]) == ()


def test_pauses_and_speech_are_told_apart_in_noise() -> None:
    chance = numpy.random.default_rng(5)
    loud = numpy.concatenate([numpy.zeros(RATE), numpy.ones(2 * RATE), numpy.zeros(RATE // 2), numpy.ones(RATE)])
    hearing = hear(chance.normal(0, 0.01, len(loud)) + loud * chance.normal(0, 0.2, len(loud)), RATE)
    assert hearing.first == pytest.approx(1.0, abs=0.02)
    assert hearing.spoken == pytest.approx(3.0, abs=0.03)
    assert hearing.pauses == (pytest.approx((3.0, 3.5), abs=0.02),)


def test_pace_follows_the_speech_and_waits_in_its_pauses() -> None:
    loud = numpy.concatenate([numpy.zeros(RATE), numpy.ones(2 * RATE), numpy.zeros(3 * RATE), numpy.ones(2 * RATE)])
    sound = numpy.random.default_rng(2).normal(0, 0.2, len(loud)) * loud
    found = pace(hear(numpy.concatenate([sound, numpy.zeros(RATE)]), RATE), 0.5, 9.0)
    assert len(found) == 21
    assert found[0] == 0
    assert found[1] == pytest.approx(0.7, abs=0.03)  # a twentieth of four seconds, half a second in
    assert found[9] == pytest.approx(2.3, abs=0.03)
    assert found[11] == pytest.approx(5.7, abs=0.03)
    assert found[20] == pytest.approx(7.5, abs=0.03)
    assert all(one < other for one, other in itertools.pairwise(found))
    assert pace(hear(sound, RATE), 3.2, 5.8) == ()


def tapped(film: Storyboard, lengths: float, skip: tuple[str, ...] = ()) -> Taps:
    shots = [shot for shot in film.shots if shot.says and shot.id not in skip]
    steps = tuple(Tap(shot.id, 0.4 + lengths * n, shot.says) for n, shot in enumerate(shots))
    return Taps(0.4 + lengths * len(steps), steps)


def test_the_film_is_cut_to_the_voice_on_whole_frames(film: Storyboard) -> None:
    taps = tapped(film, 11.2371)
    timed, pieces = voiced(film, taps)
    starts = {shot.id: shot.start for shot in timed.shots}
    assert [piece.step for piece in pieces] == [tap.step for tap in taps.steps]
    assert all(starts[piece.step] == piece.at for piece in pieces)
    assert all(round(30 * shot.start, 6).is_integer() for shot in timed.shots)
    assert all(shot.seconds == 338 / 30 for shot in timed.shots if shot.says)
    assert all(piece.stop - piece.start == pytest.approx(11.2371) for piece in pieces)
    assert all(one.stop == other.start for one, other in itertools.pairwise(pieces))
    assert pieces[0].start == 0.4


def test_step_taken_again_leaves_the_other_shots_as_they_were(film: Storyboard) -> None:
    before = tapped(film, 8.123)
    after = Taps(before.seconds + 1.77, tuple(
        Tap(tap.step, tap.start + (1.77 if n > 4 else 0), tap.says) for n, tap in enumerate(before.steps)
    ))  # fmt: skip
    old, new = voiced(film, before)[0], voiced(film, after)[0]
    changed = [
        one.id for one, other in zip(old.shots, new.shots, strict=True)
        if (one.seconds, one.moves) != (other.seconds, other.moves)
    ]  # fmt: skip
    assert changed == [before.steps[4].step]


def test_shot_is_no_shorter_than_its_moves(film: Storyboard) -> None:
    timed, pieces = voiced(film, tapped(film, 0.5))
    for shot, piece in zip([shot for shot in timed.shots if shot.says], pieces, strict=True):
        moving = [move for move in shot.moves if move.when != "pause"]
        before = next(old for old in film.shots if old.id == shot.id)
        assert sum(move.seconds for move in moving) == pytest.approx(
            sum(move.seconds for move in before.moves if move.when != "pause"), rel=0.05
        )
        assert piece.stop - piece.start == pytest.approx(0.5)


def test_step_without_a_tap_keeps_its_length(film: Storyboard) -> None:
    gone = film.shots[4].id
    timed, pieces = voiced(film, tapped(film, 9, skip=(gone,)))
    assert gone not in {piece.step for piece in pieces}
    assert timed.shots[4].seconds == pytest.approx(film.shots[4].seconds, abs=1 / 30)


def test_sentences_changed_since_they_were_spoken_are_known(film: Storyboard) -> None:
    taps = tapped(film, 9)
    assert unlike(film, taps) == []
    other = Taps(
        taps.seconds, (*taps.steps[:2], Tap(taps.steps[2].step, taps.steps[2].start, "Other words."), Tap("x", 99))
    )
    assert [shot.id for shot in unlike(film, other)] == [taps.steps[2].step]
