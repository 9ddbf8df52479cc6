"""A film cut to a voice: where each step begins in the sound, and where that piece of it lies in the film."""

from collections.abc import Sequence

from msgspec import Struct

from .schedule import REST, needed
from .storyboard import Shot, Storyboard, retimed

FRAMES = 30  # a second: shots last whole frames, so that a step taken again changes no other shot


class Tap(Struct, frozen=True):
    """The start of a step (a shot's id) in the sound, in seconds. `says` is the sentence it was spoken to, if known;
    `doubt` is why the start may be wrong."""

    step: str
    start: float
    says: str = ""
    doubt: str = ""


class Taps(Struct, frozen=True):
    """The starts of the steps in a sound of `seconds`, in rising order."""

    seconds: float
    steps: tuple[Tap, ...]


class Piece(Struct, frozen=True):
    """A piece of the sound, from `start` to `stop`, that lies at `at` in the film; all in seconds."""

    step: str
    start: float
    stop: float
    at: float


def voiced(board: Storyboard, taps: Taps) -> tuple[Storyboard, tuple[Piece, ...]]:
    """The board cut to a voice: a shot with a tap lasts its piece of the sound, up to a frame, or what its moves need.

    Shots without a tap keep their length and are silent. Every piece begins with its shot.
    """
    stops = [*(tap.start for tap in taps.steps[1:]), taps.seconds]
    spoken = {tap.step: (tap.start, stop) for tap, stop in zip(taps.steps, stops, strict=False)}
    lengths = [
        max(spoken[shot.id][1] - spoken[shot.id][0], _least(shot)) if shot.id in spoken else shot.seconds
        for shot in board.shots
    ]
    timed = retimed(board, [-int(-round(length * FRAMES, 3) // 1) for length in lengths], FRAMES)
    return timed, tuple(Piece(shot.id, *spoken[shot.id], shot.start) for shot in timed.shots if shot.id in spoken)


def _least(shot: Shot) -> float:
    """The seconds its moves need, with the learner's own time where there is any."""
    moving = needed(shot.moves)
    turns = any(move.when == "pause" for move in shot.moves)
    return moving + (min(shot.pause + REST, 1.5 * moving) if turns else 0.0)


def unlike(board: Storyboard, taps: Taps) -> Sequence[Shot]:
    """The shots whose sentence has been changed since it was spoken."""
    said = {tap.step: tap.says for tap in taps.steps if tap.says}
    return [shot for shot in board.shots if shot.says and said.get(shot.id, shot.says) != shot.says]
