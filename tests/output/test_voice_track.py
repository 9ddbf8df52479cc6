"""Recordings as files: taps read back or refused in words, the voice laid where its steps are, in any format."""

import json
import wave
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy
import pytest
from ready import shelf

from gantline.account import Account, explain
from gantline.film import Act, Piece, Storyboard, Tap, Taps, board
from gantline.output import film_sound, speech, taps, voice
from gantline.output.film_sound import RATE, Sound


@pytest.fixture(scope="module")
def film() -> Storyboard:
    return film_of("single-fixed")


def film_of(name: str) -> Storyboard:
    rig, answer = shelf(name)
    account = explain(rig, answer)
    assert isinstance(account, Account)
    return board([Act("bell", rig, answer, account)])


def sound_of(samples: Any) -> Sound:
    return Sound(numpy.rint(32_767 * numpy.asarray(samples)).astype("<i2").tobytes())


def samples_of(sound: Sound) -> numpy.ndarray:
    return numpy.frombuffer(sound.pcm, "<i2") / 32_768


def bursts(seconds: float, at: dict[float, float]) -> Sound:
    """Bursts of 0.3 s, each of its own pitch, at moments of a silence."""
    samples = numpy.zeros(round(seconds * RATE))
    time = numpy.arange(round(0.3 * RATE)) / RATE
    for start, pitch in at.items():
        samples[round(start * RATE) :][: len(time)] = 0.5 * numpy.sin(2 * numpy.pi * pitch * time)
    return sound_of(samples)


def pitch_at(sound: Sound, start: float) -> float:
    piece = samples_of(sound)[round((start + 0.05) * RATE) : round((start + 0.25) * RATE)]
    return float(numpy.argmax(abs(numpy.fft.rfft(piece * numpy.hanning(len(piece)), RATE))))


def steps_of(film: Storyboard) -> list[str]:
    return [shot.id for shot in film.shots if shot.says]


def record(film: Storyboard, **changes: Any) -> dict[str, Any]:
    steps = [{"step": id, "start": 2.0 * n} for n, id in enumerate(steps_of(film))]
    return {"format": "gantline-taps/1", "seconds": 99, "steps": steps} | changes


def codes(film: Storyboard, record: Any) -> list[str]:
    data = record if isinstance(record, bytes) else json.dumps(record).encode()
    found, problems = taps.read(data, film, 60)
    assert (found is None) == bool(problems)
    assert all(problem.says and problem.why and problem.do for problem in problems)
    return [problem.code for problem in problems]


# -- taps ---------------------------------------------------------------------------------------------------------


def test_taps_are_read_as_they_were_written(film: Storyboard) -> None:
    made = Taps(
        60, tuple(Tap(id, 1.5 * n, f"«{n}»", "why not" if n == 2 else "") for n, id in enumerate(steps_of(film)))
    )
    assert taps.read(taps.write(made), film, 60) == (made, ())


@pytest.mark.parametrize(
    "data",
    [b"", b"[", b"[]", b"null", b"\xff", b'{"format": "gantline-answer/1"}', b'{"format": "gantline-taps/1"}',
     b'{"format": "gantline-taps/1", "steps": [3]}', b'{"format": "gantline-taps/1", "steps": [{"step": "a"}]}',
     b'{"format": "gantline-taps/1", "steps": [{"step": "a", "start": "b"}]}',
     b'{"format": "gantline-taps/1", "steps": [{"step": "a", "start": NaN}]}',
     b'{"format": "gantline-taps/1", "steps": [{"step": "a", "start": true}]}',
     b'{"format": "gantline-taps/1", "steps": [{"step": 1, "start": 1}]}', b"[" * 100_000],
)  # fmt: skip
def test_what_is_no_taps_is_a_problem(film: Storyboard, data: bytes) -> None:
    assert codes(film, data) == ["taps-unreadable"]


def test_taps_of_before_steps_were_named_by_their_part_are_read_in_order() -> None:
    made = film_of("burton-light")
    paths = [shot.id for shot in made.shots if shot.step and shot.step.id == "path"]
    assert len(paths) == 2
    assert all("path:" in name for name in paths)
    older = record(made, steps=[{"step": "bell/path", "start": 1}, {"step": "bell/path-2", "start": 2}])
    found, problems = taps.read(json.dumps(older).encode(), made, 9.0)
    assert problems == ()
    assert found is not None
    assert [tap.step for tap in found.steps] == paths


def test_steps_that_the_film_has_not_are_problems(film: Storyboard) -> None:
    steps = [*record(film)["steps"], {"step": "bell/nowhere", "start": 59.5}]
    assert codes(film, record(film, steps=steps)) == ["tap-step-unknown"]


def test_starts_that_do_not_rise_are_problems(film: Storyboard) -> None:
    steps = record(film)["steps"]
    steps[3]["start"] = steps[2]["start"] + 0.01
    assert codes(film, record(film, steps=steps)) == ["tap-not-later"]


def test_steps_in_another_order_are_problems(film: Storyboard) -> None:
    steps = record(film)["steps"]
    steps[3]["step"], steps[4]["step"] = steps[4]["step"], steps[3]["step"]
    assert "tap-out-of-order" in codes(film, record(film, steps=steps))


def test_start_past_the_end_is_a_problem(film: Storyboard) -> None:
    steps = record(film)["steps"]
    steps[-1]["start"] = 60
    assert codes(film, record(film, steps=steps)) == ["tap-past-end"]


def test_table_has_every_start_and_marks_the_doubtful(film: Storyboard) -> None:
    made = Taps(60, (Tap(steps_of(film)[0], 0.5), Tap(steps_of(film)[1], 7.25, "", "there is no pause here")))
    first, says, second, _, why = taps.table(film, made).splitlines()
    assert first.split() == ["0.50", "s", steps_of(film)[0]]
    assert says.strip() == film.shots[1].says
    assert second.split()[:2] == ["?", "7.25"]
    assert why.strip() == "? there is no pause here"


# -- the track ------------------------------------------------------------------------------------------------------


def laid(sound: Sound, pieces: Sequence[Piece], seconds: float) -> Sound:
    return Sound(b"".join(voice.laid(sound, pieces, seconds)))


def test_pieces_lie_where_their_steps_are_and_silence_between() -> None:
    sound = bursts(6, {0.5: 300, 2.5: 500, 4.5: 700})
    track = laid(sound, [Piece("a", 0, 2, 1.0), Piece("b", 2, 4, 3.0), Piece("c", 4, 6, 10.0)], 12.0)
    assert track.seconds == 12
    assert [pitch_at(track, at) for at in (1.5, 3.5, 10.5)] == [300, 500, 700]
    samples = samples_of(track)
    assert not samples[: RATE + round(0.5 * RATE) - 1].any()
    assert not samples[round(5.0 * RATE) : round(10.4 * RATE)].any()


def test_voice_is_never_cut_and_the_room_does_not_fall_silent_between_two_frames() -> None:
    tone = sound_of(0.5 * numpy.sin(2 * numpy.pi * 440 * numpy.arange(4 * RATE) / RATE))
    pieces = [Piece("a", 0.0, 1.011, 0.0), Piece("b", 1.011, 2.5, 31 / 30), Piece("c", 2.5, 4.0, 2.6)]
    track = samples_of(laid(tone, pieces, 6.0))
    fade = round(0.005 * RATE)
    for piece in pieces:
        at, start, stop = (round(second * RATE) for second in (piece.at, piece.start, piece.stop))
        inner = slice(fade, stop - start - fade)
        assert (track[at : at + stop - start][inner] == samples_of(tone)[start:stop][inner]).all()
    assert abs(numpy.diff(track)).max() <= abs(numpy.diff(samples_of(tone))).max() + 0.01  # no click
    between = track[round(1.0 * RATE) : round(1.028 * RATE)]
    assert all(abs(between[n:][: RATE // 440]).max() > 0.4 for n in range(0, len(between) - RATE // 440, 50))
    assert not track[round(2.56 * RATE) : round(2.6 * RATE)].any()  # a longer rest is silence


def test_film_is_cut_to_taps_and_its_track_with_it(film: Storyboard) -> None:
    ids = steps_of(film)
    starts = {6.0 * n + 0.2: 300.0 + 40 * n for n in range(len(ids))}
    sound = bursts(6 * len(ids) + 1, starts)
    data = json.dumps(record(film, steps=[{"step": id, "start": 6.0 * n} for n, id in enumerate(ids)])).encode()
    made, problems = voice.spoken(film, sound, data)
    assert problems == ()
    assert made is not None
    track = laid(sound, made.pieces, made.board.seconds)
    for shot, pitch in zip([shot for shot in made.board.shots if shot.says], starts.values(), strict=True):
        assert pitch_at(track, shot.start + 0.2) == pitch
    assert track.seconds == pytest.approx(made.board.seconds, abs=1 / RATE)


def refused(film: Storyboard, sound: Sound, data: bytes | None = None) -> list[str]:
    made, problems = voice.spoken(film, sound, data)
    assert made is None
    assert all(problem.says and problem.why and problem.do for problem in problems)
    return [problem.code for problem in problems]


def test_silent_or_empty_recording_is_refused(film: Storyboard) -> None:
    assert refused(film, sound_of(numpy.zeros(RATE))) == ["voice-silent"]
    assert refused(film, Sound(b"")) == ["voice-silent"]


def test_recording_too_short_for_the_words_is_refused(film: Storyboard) -> None:
    assert refused(film, bursts(3, {1.0: 300})) == ["voice-too-short"]


def test_bad_taps_are_refused(film: Storyboard) -> None:
    assert refused(film, bursts(3, {1.0: 300}), b"{}") == ["taps-unreadable"]


def test_clipped_recording_is_used_and_said(film: Storyboard) -> None:
    loud = numpy.clip(3 * numpy.sin(numpy.arange(30 * RATE) / 20), -1, 1)
    made, problems = voice.spoken(film, sound_of(loud), json.dumps(record(film, steps=[])).encode())
    assert made is not None
    assert [problem.code for problem in problems] == ["voice-clipped"]


def test_too_few_pauses_are_said_and_the_starts_doubtful(film: Storyboard) -> None:
    noise = numpy.random.default_rng(1).normal(0, 0.1, 200 * RATE)
    swelling = noise * (1 + numpy.sin(numpy.arange(200 * RATE) / 2000)) / 2
    made, problems = voice.spoken(film, sound_of(numpy.clip(swelling, -0.9, 0.9)), None)
    assert made is not None
    assert [problem.code for problem in problems] == ["voice-pauses-few"]
    assert all(tap.doubt for tap in made.taps.steps[1:])


def test_sentence_changed_since_it_was_spoken_is_said(film: Storyboard) -> None:
    steps = record(film)["steps"]
    steps[1]["says"] = "The words of another day."
    made, problems = voice.spoken(film, bursts(60, {1.0: 300}), json.dumps(record(film, steps=steps)).encode())
    assert made is not None
    assert [problem.code for problem in problems] == ["voice-other-words"]
    assert steps[1]["step"] in problems[0].says


# -- files ------------------------------------------------------------------------------------------------------------


def test_wav_is_plain_and_read_back(tmp_path: Path) -> None:
    sound = bursts(1, {0.2: 440})
    voice.save(tmp_path / "a.wav", [sound.pcm[:1000], b"", sound.pcm[1000:]])
    with wave.open(str(tmp_path / "a.wav"), "rb") as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (1, 2, RATE)
        assert file.readframes(file.getnframes()) == sound.pcm


@pytest.mark.parametrize(
    ("name", "codec", "rate"),
    [("a.wav", "pcm_s16le", 44_100), ("a.m4a", "aac", 48_000), ("a.webm", "libopus", 48_000), ("a.mp3", "mp3", 44_100)],
)
def test_recordings_of_any_format_keep_their_times(tmp_path: Path, name: str, codec: str, rate: int) -> None:
    """What a phone or a browser records: a burst at 1.5 s is heard at 1.5 s."""
    import av

    sound = bursts(3, {1.5: 600})
    with av.open(str(tmp_path / name), "w") as file:
        stream = file.add_stream(codec, rate=rate, layout="stereo")
        resampler = av.AudioResampler(stream.format, "stereo", rate)
        frame = av.AudioFrame.from_ndarray(numpy.frombuffer(sound.pcm, "<i2").reshape(1, -1), "s16", "mono")
        frame.rate, frame.pts, frame.time_base = RATE, 0, Fraction(1, RATE)
        for piece in [*resampler.resample(frame), *resampler.resample(None)]:
            file.mux(stream.encode(piece))
        file.mux(stream.encode(None))
    heard = samples_of(film_sound.read(tmp_path / name))
    assert numpy.argmax(abs(heard) > 0.2) / RATE == pytest.approx(1.5, abs=0.01)
    assert len(heard) / RATE == pytest.approx(3.0, abs=0.06)


# -- the scratch voice ---------------------------------------------------------------------------------------------


@pytest.mark.skipif(not speech.here(), reason=f"no {speech.PROGRAM} on this machine: the scratch voice is not tried")
def test_scratch_voice_says_every_step_and_its_pauses_find_them_again(film: Storyboard) -> None:
    sound, spoken = speech.speak(film)
    assert [tap.step for tap in spoken.steps] == steps_of(film)
    made = voice.cut(film, sound, spoken)
    assert made.board.seconds >= film.seconds - 0.1
    found, problems = voice.listened(film, sound)
    assert problems == ()
    assert found is not None
    assert [tap.start for tap in found.steps] == pytest.approx([tap.start for tap in spoken.steps], abs=0.2)


def test_machine_without_the_program_is_known(film: Storyboard, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "")
    assert not speech.here()
    with pytest.raises(FileNotFoundError):
        speech.speak(film)
