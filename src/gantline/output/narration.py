"""Who speaks in a film: a tutor's recording, by its taps or its pauses; a scratch voice; or nobody."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from msgspec import Struct

from gantline.film import Storyboard, Taps
from gantline.problems import Place, Problem

from . import film_sound, speech, voice
from . import taps as taps_json
from .film_sound import Sound

TAPS = "taps.json"


class Narration(Struct, frozen=True):
    """What was asked for: a recording, the taps of it, or a scratch voice."""

    recording: Path | None = None
    taps: Path | None = None
    scratch: bool = False


class Narrated(Struct, frozen=True):
    """A board with its voice: `track` is a WAV file to lay under the film, `taps` where its steps begin in the
    recording, `note` whose voice it is, and `paces` when its words are said. `starts` lists the starts to look through,
    where they were told from pauses."""

    board: Storyboard
    track: Path | None = None
    taps: Taps | None = None
    note: str = ""
    starts: str = ""
    problems: tuple[Problem, ...] = ()
    paces: Mapping[str, Sequence[float]] = {}


class NoVoice(Exception):
    """The film cannot be cut to this voice; `problems` are of `file`."""

    def __init__(self, file: str, problems: tuple[Problem, ...]) -> None:
        super().__init__(file)
        self.file = file
        self.problems = problems


def narrated(board: Storyboard, asked: Narration, track: Path) -> Narrated:
    """The board cut to the voice that was asked for, which is written to `track`. Raises NoVoice, OSError where that
    cannot be written, and ImportError without PyAV."""
    if asked.scratch:
        return _scratch(board, track)
    if asked.recording is None:
        return Narrated(board)
    sound, data = _sound(asked.recording), _read(asked.taps) if asked.taps else None
    made, problems = voice.spoken(board, sound, data)
    if made is None:
        taps_fault = asked.taps is not None and problems[-1].code.startswith("tap")
        raise NoVoice(str(asked.taps if taps_fault else asked.recording), problems)
    starts = "" if asked.taps else taps_json.table(board, made.taps)
    voice.save(track, voice.laid(sound, made.pieces, made.board.seconds))
    return Narrated(made.board, track, made.taps, starts=starts, problems=problems, paces=made.paces)


def _scratch(board: Storyboard, track: Path) -> Narrated:
    try:
        sound, taps = speech.speak(board)
    except FileNotFoundError as error:
        problem = _problem("voice-no-program", f"There is no {speech.PROGRAM} on this machine.",
                           "A scratch voice is spoken by a program that is not part of Gantline.",
                           f"Install {speech.PROGRAM}, record a voice, or leave the film silent.")  # fmt: skip
        raise NoVoice(speech.PROGRAM, (problem,)) from error
    made = voice.cut(board, sound, taps)
    voice.save(track, voice.laid(sound, made.pieces, made.board.seconds))
    return Narrated(made.board, track, note=speech.NOTE, paces=made.paces)


def _sound(path: Path) -> Sound:
    try:
        return film_sound.read(path)
    except (OSError, ValueError) as error:
        says = (error.strerror or str(error)) if isinstance(error, OSError) else str(error)
        raise NoVoice(str(path), (_unreadable(says),)) from error


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise NoVoice(str(path), (_unreadable(error.strerror or str(error)),)) from error


def _unreadable(says: str) -> Problem:
    return _problem(
        "voice-unreadable", f"This cannot be read: {says}.", "The film is cut to what is in it.",
        "Check the name; a recording is a WAV, MP3, M4A, OGG or WebM file.",
    )  # fmt: skip


def _problem(code: str, says: str, why: str, do: str) -> Problem:
    return Problem(code, Place(1, 1), "", says, why, do)
