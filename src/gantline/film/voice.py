"""A film cut to a voice: where each step begins in the sound, and where that piece of it lies in the film."""

from collections.abc import Sequence

from msgspec import Struct

from .schedule import REST, needed
from .storyboard import Shot, Storyboard, retimed

FRAMES = 30  # a second: shots begin on frames, the voice runs on exactly


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
    """The board cut to a voice: a shot with a tap is as long as its piece of the sound, and no shorter than its moves.

    Shots without a tap keep their length and are silent. A piece that meets the next one in the sound meets it in the
    film, unless the moves of its shot need longer.
    """
    stops = [*(tap.start for tap in taps.steps[1:]), taps.seconds]
    spoken = {tap.step: (tap.start, stop) for tap, stop in zip(taps.steps, stops, strict=False)}
    starts, pieces, now = [], [], 0.0
    for shot in board.shots:
        starts.append(round(now * FRAMES) / FRAMES)
        if shot.id in spoken:
            start, stop = spoken[shot.id]
            pieces.append(Piece(shot.id, start, stop, now))
            now += max(stop - start, _least(shot))
        else:
            now += shot.seconds
    return retimed(board, starts, round(now * FRAMES) / FRAMES), tuple(pieces)


def _least(shot: Shot) -> float:
    """The seconds its moves need, with the learner's own time where there is any."""
    moving = needed(shot.moves)
    turns = any(move.when == "pause" for move in shot.moves)
    return moving + (min(shot.pause + REST, 1.5 * moving) if turns else 0.0)


def unlike(board: Storyboard, taps: Taps) -> Sequence[Shot]:
    """The shots whose sentence has been changed since it was spoken."""
    said = {tap.step: tap.says for tap in taps.steps if tap.says}
    return [shot for shot in board.shots if shot.says and said.get(shot.id, shot.says) != shot.says]
