"""The voice of a film: what was recorded, where its steps begin, and the track it gives."""

import re
import wave
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from msgspec import Struct

from gantline.account import spoken_words
from gantline.film import FRAMES, Piece, Storyboard, Tap, Taps, unlike, voiced
from gantline.problems import Place, Problem

from . import taps as taps_json
from .film_sound import RATE, Sound

FULL_SCALE = 32_768
FADE = 0.005  # s at both ends of a piece of the voice, so that no cut clicks
_FASTEST = 300  # words a minute that nobody passes
_SILENT, _FULL, _OFTEN = 0.01, 32_700, 1e-4  # of full scale; a sample at full scale; how many of those are clipping
_SENTENCES = re.compile(r"(?<=[.?!:;]) ")


class Voiced(Struct, frozen=True):
    """A film cut to a voice: its board, where the pieces of the sound lie in it, the starts that were used, and when
    its words are said: see `captions`."""

    board: Storyboard
    pieces: tuple[Piece, ...]
    taps: Taps
    paces: Mapping[str, Sequence[float]]


def spoken(board: Storyboard, sound: Sound, taps: bytes | None) -> tuple[Voiced | None, tuple[Problem, ...]]:
    """The board cut to a recording: by the bytes of its taps.json, or without by the pauses in it.

    None where that cannot be done. Problems beside a film are what its maker should hear of.
    """
    faults = tuple(_faults(sound))
    if any(fault.code == "voice-silent" for fault in faults):
        return None, faults
    found, problems = listened(board, sound) if taps is None else taps_json.read(taps, board, sound.seconds)
    if found is None:
        return None, faults + problems
    changed = tuple(_other_words(shot.id, shot.written) for shot in unlike(board, found))
    return cut(board, sound, found), faults + problems + changed


def cut(board: Storyboard, sound: Sound, taps: Taps) -> Voiced:
    """The board for a voice whose steps begin at known places."""
    import numpy as np

    from gantline.film import hear, pace

    timed, pieces = voiced(board, taps)
    hearing = hear(np.frombuffer(sound.pcm, "<i2"), RATE, FULL_SCALE)
    paces = {piece.step: pace(hearing, piece.start, piece.stop) for piece in pieces}
    return Voiced(timed, pieces, taps, paces)


def listened(board: Storyboard, sound: Sound) -> tuple[Taps | None, tuple[Problem, ...]]:
    """Where the steps begin by the pauses in the sound; starts that may be wrong say why. None where too little is
    said for the film's words."""
    import numpy as np

    from gantline.film import hear, matched

    shots = [shot for shot in board.shots if shot.says]
    words = [[max(1, spoken_words(part)) for part in _SENTENCES.split(shot.says)] for shot in shots]
    hearing = hear(np.frombuffer(sound.pcm, "<i2"), RATE, FULL_SCALE)
    least = 60 * sum(map(sum, words)) / _FASTEST
    if hearing.spoken < least:
        return None, (_too_short(hearing.spoken, least),)
    starts = matched(hearing, words)
    taps = [Tap(shot.id, start.at, shot.says, start.doubt) for shot, start in zip(shots, starts, strict=True)]
    few = len(hearing.pauses) < len(shots) - 1
    return Taps(sound.seconds, tuple(taps)), ((_few_pauses(len(hearing.pauses), len(shots)),) if few else ())


def laid(sound: Sound, pieces: Sequence[Piece], seconds: float) -> Iterator[bytes]:
    """The track of a film of `seconds`, a stretch at a time: each piece of the sound at its place. What is left to the
    next frame is filled with the end of the piece, played back, so that the room does not fall silent; a longer rest is
    silence."""
    import numpy as np

    samples, whole, now = np.frombuffer(sound.pcm, "<i2"), round(seconds * RATE), 0
    places = [round(piece.at * RATE) for piece in pieces]
    for piece, place, after in zip(pieces, places, [*places[1:], whole], strict=False):
        run = samples[round(piece.start * RATE) : round(piece.stop * RATE)][: after - place]
        left = after - place - len(run)
        run = np.concatenate([run, run[::-1][:left]]) if left <= RATE // FRAMES else run.copy()
        fade = min(round(FADE * RATE), len(run) // 2)
        ramp = np.arange(fade) / max(1, fade)
        run[:fade] = np.rint(run[:fade] * ramp)
        run[len(run) - fade :] = np.rint(run[len(run) - fade :] * ramp[::-1])
        yield bytes(2 * (place - now))
        yield run.tobytes()
        now = place + len(run)
    yield bytes(2 * (whole - now))


def save(path: Path, stretches: Iterable[bytes]) -> None:
    """A track as a WAV file, in a folder that is made where it is missing; a long one is never held whole."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with wave.open(str(path), "wb") as out:
        out.setparams((1, 2, RATE, 0, "NONE", "not compressed"))
        for stretch in stretches:
            out.writeframesraw(stretch)


def _faults(sound: Sound) -> Iterator[Problem]:
    import numpy as np

    samples = np.frombuffer(sound.pcm, "<i2")
    if not len(samples) or max(-int(samples.min()), int(samples.max())) < _SILENT * FULL_SCALE:
        yield _problem("voice-silent", "Nothing is heard in this recording.",
                       "The film would be cut to nothing.",
                       "Choose the right microphone, and record once more.")  # fmt: skip
        return
    seconds = (samples[n : n + RATE] for n in range(0, len(samples), RATE))
    clipped = sum(int(((part >= _FULL) | (part <= -_FULL)).sum()) for part in seconds)
    if clipped > _OFTEN * len(samples):
        yield _problem("voice-clipped", f"This recording is too loud: {clipped} of its samples are cut off.",
                       "What is cut off crackles, and cannot be mended later.",
                       "Go back from the microphone, or turn it down, and record once more.")  # fmt: skip


def _too_short(seconds: float, least: float) -> Problem:
    return _problem(
        "voice-too-short", f"{seconds:.1f} s of speech are too few: these words take {least:.0f} s at the least.",
        "A recording of other words, or of a few of the steps, would be spread over all of them.",
        "Record all steps, or save the taps with the rehearsal: then steps may be missing.",
    )  # fmt: skip


def _few_pauses(pauses: int, steps: int) -> Problem:
    return _problem(
        "voice-pauses-few", f"There are {pauses} pauses in this recording, and {steps} steps.",
        "Where two steps run into each other, nothing in the sound tells where the second begins.",
        "Look through the starts that are marked, and mend them in the taps; or rehearse with taps.",
    )  # fmt: skip


def _other_words(step: str, written: str) -> Problem:
    return Problem(
        "voice-other-words", Place(1, 1), written, f"{step}: its sentence has been changed since it was spoken.",
        "The captions say one thing and the voice another.", "Take this step again, or put the sentence back.",
    )  # fmt: skip


def _problem(code: str, says: str, why: str, do: str) -> Problem:
    return Problem(code, Place(1, 1), "", says, why, do)
