"""The nouns of a film. Times are in seconds; everything that moves says which of the eight verbs it does."""

from collections.abc import Sequence
from itertools import accumulate
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from gantline.account import Account, Step
from gantline.mechanics import Answer
from gantline.rig import Rig

Verb = Literal["pencil", "ink", "draw", "grow", "set", "haul", "run", "tip"]
Kind = Literal["title", "step", "recap"]


class Act(Struct, frozen=True):
    """A rig with its answer and the account the film tells. `key` names it in shot ids and in the tutor's script."""

    key: str
    rig: Rig
    answer: Answer
    account: Account


class Move(Struct, frozen=True):
    """One movement: from `start` (after its shot begins) for `seconds`. `what` says what moves, for people.

    `rest` is the stillness that belongs to it, after it. `when`: it follows at once ("next"), waits until half has been
    said ("said"), or marks the learner's time ("pause").
    """

    verb: Verb
    what: str
    seconds: float
    when: Literal["next", "said", "pause"] = "next"
    rest: float = 0.0
    start: float = 0.0

    @property
    def end(self) -> float:
        return self.start + self.seconds


class Shot(Struct, frozen=True):
    """One step on the screen: from `start`, for `seconds`.

    `id` is unique in its film; `act` is the place of its rig in the board. `says` is the sentence as spoken, `written`
    as a caption has it (numbers and units in signs); both are empty where nothing is said (a title). `pause` is the
    learner's own time at the end of the shot, part of `seconds`.
    """

    id: str
    kind: Kind
    act: int
    step: Step | None
    says: str
    written: str
    pause: float
    moves: tuple[Move, ...]
    start: float
    seconds: float

    @property
    def end(self) -> float:
        return self.start + self.seconds


class Storyboard(Struct, frozen=True):
    """A whole film: its acts, its shots in order without a gap, and the learners' level."""

    title: str
    level: str
    acts: tuple[Act, ...]
    shots: tuple[Shot, ...]

    @property
    def seconds(self) -> float:
        return self.shots[-1].end if self.shots else 0.0


def retimed(board: Storyboard, frames: Sequence[int], rate: int) -> Storyboard:
    """The same board with shots of so many frames, at `rate` a second; a shot of as many frames is the same as before.

    Moves keep their order; where a shot is too short for them they go faster. Raises ValueError where the lengths are
    not as many as the shots, or one is not positive.
    """
    from .schedule import scheduled

    if len(frames) != len(board.shots) or not all(count > 0 for count in frames):
        raise ValueError(f"a film of {len(board.shots)} shots needs as many lengths; here: {list(frames)}")
    shots = (
        replace(shot, start=first / rate, seconds=count / rate, moves=scheduled(shot.moves, shot.pause, count / rate))
        for shot, count, first in zip(board.shots, frames, accumulate(frames, initial=0), strict=False)
    )
    return replace(board, shots=tuple(shots))
