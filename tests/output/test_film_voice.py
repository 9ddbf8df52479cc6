"""A film of ten minutes cut to a voice: sound and picture are taken out of the file again, and keep together."""

from pathlib import Path

import numpy
import pytest
from msgspec.structs import replace
from ready import shelf

from gantline.account import Account, explain
from gantline.film import Act, Storyboard, Tap, Taps, board
from gantline.output import film_sound, voice
from gantline.output.film_folder import build
from gantline.output.film_pieces import Look
from gantline.output.film_sound import RATE, Sound
from gantline.output.narration import Narrated

LONG, SIZE, TOGETHER = 35.4321, 90, 0.04  # s of every step, px, and s that sound and picture may be apart


def told() -> Storyboard:
    rig, answer = shelf("planter")
    account = explain(rig, answer)
    assert isinstance(account, Account)
    return board([Act("planter", rig, answer, account)])


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Storyboard, Path]:
    story = told()
    steps = [shot.id for shot in story.shots if shot.says]
    taps = Taps(LONG * len(steps), tuple(Tap(step, LONG * n) for n, step in enumerate(steps)))
    samples = numpy.zeros(round(taps.seconds * RATE), "<i2")
    burst = (16_000 * numpy.sin(2 * numpy.pi * 880 * numpy.arange(RATE // 5) / RATE)).astype("<i2")
    for tap in taps.steps:
        samples[round((tap.start + 0.1) * RATE) :][: len(burst)] = burst
    sound = Sound(samples.tobytes())
    spoken, folder = voice.cut(story, sound, taps), tmp_path_factory.mktemp("film")
    voice.save(folder / "voice.wav", voice.laid(sound, spoken.pieces, spoken.board.seconds))
    look = Look(size=SIZE, kinds=("mp4",))
    done = build(Narrated(spoken.board, folder / "voice.wav", spoken.taps), folder / "made", look, folder / "kept")
    return spoken.board, done.film


def changes(file: Path, starts: list[float]) -> list[float]:
    """How long after each of these moments the picture has plainly changed, told from the frames as they are shown."""
    import av

    found, left, rest = list[float](), list(starts), None
    with av.open(str(file)) as film:
        for frame in film.decode(film.streams.video[0]):
            picture = numpy.frombuffer(frame.planes[0], "u1").astype(int)
            time = float(frame.pts * frame.time_base)
            if left and time >= left[0] - 1e-6:
                began, rest = left.pop(0), picture
            elif rest is not None and (abs(picture - rest) > 60).sum() > 3:
                found.append(time - began)
                rest = None
    return found


def test_bursts_come_with_the_first_move_of_their_steps_over_ten_minutes(made: tuple[Storyboard, Path]) -> None:
    story, file = made
    assert story.seconds > 600
    samples = numpy.frombuffer(film_sound.read(file).pcm, "<i2")
    loud = numpy.flatnonzero(abs(samples.astype(int)) > 6000) / RATE
    heard = loud[numpy.concatenate([[True], numpy.diff(loud) > 1])] - 0.1
    shots = [shot for shot in story.shots if shot.says]
    assert heard == pytest.approx([shot.start for shot in shots], abs=TOGETHER)
    moved = numpy.array(changes(file, [shot.start for shot in shots])) + [shot.start for shot in shots]
    late = moved - heard  # every step begins with the same kind of move, which sometimes changes nothing yet
    usual = numpy.median(late)
    assert shots[0].moves[0].start < usual < shots[0].moves[0].end
    assert (late > usual - TOGETHER).all()
    assert (abs(late - usual) < TOGETHER).sum() >= 13
    assert abs(numpy.median(late[-6:]) - numpy.median(late[1:7])) < 1 / 30 + 1e-3  # without drift


def test_only_the_step_that_was_taken_again_is_drawn_again(tmp_path: Path) -> None:
    story = told()
    story = replace(story, shots=story.shots[:5])
    steps = [shot.id for shot in story.shots if shot.says]
    drawn = []
    for longer in (0.0, 1.234):
        taps = Taps(24 + longer, tuple(Tap(step, 6.05 * n + (longer if n > 1 else 0)) for n, step in enumerate(steps)))
        made = voice.cut(story, Sound(bytes(2 * 26 * RATE)), taps)
        look = Look(size=SIZE, kinds=("mp4",))
        told_to = Narrated(made.board, taps=made.taps)
        drawn.append(build(told_to, tmp_path / "film", look, tmp_path / "kept").drawn)
    assert drawn == [5, 1]
