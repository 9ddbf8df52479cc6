"""When each move of a shot happens: one after the other, formulas when they are said, the learner's time at the end."""

from collections.abc import Sequence

from msgspec.structs import replace

from .storyboard import Move

BREATH = 0.3  # s before the first move
REST = 0.5  # s after the learner's time
SAID = 0.5  # of the time of speech, after which a formula may come


def scheduled(moves: Sequence[Move], pause: float, seconds: float) -> tuple[Move, ...]:
    """The moves with their starts. `seconds` is the length of the shot; moves that do not fit go faster, all alike."""
    turns = [move for move in moves if move.when == "pause"]
    others = [move for move in moves if move.when != "pause"]
    waiting = min(pause + REST, 0.6 * seconds) if turns else 0.0
    speech = seconds - waiting
    return (*_in_row(others, speech), *_spread(turns, speech, waiting))


def needed(moves: Sequence[Move]) -> float:
    """The seconds that all moves but those of the learner's time take, with their rests."""
    return BREATH + sum(move.seconds + move.rest for move in moves if move.when != "pause")


def _in_row(moves: Sequence[Move], speech: float) -> tuple[Move, ...]:
    """One after the other; those that wait for the word wait as long as the rest still fits."""
    room = speech - needed(moves)
    if room < 0:
        pace = speech / needed(moves)
        return _at_once([replace(m, seconds=m.seconds * pace, rest=m.rest * pace) for m in moves], BREATH * pace)
    made, now, left = [], BREATH, room
    for move in moves:
        if move.when == "said":
            wait = min(max(0.0, SAID * speech - now), left)
            now, left = now + wait, left - wait
        made.append(replace(move, start=now))
        now += move.seconds + move.rest
    return tuple(made)


def _at_once(moves: Sequence[Move], first: float) -> tuple[Move, ...]:
    made, now = [], first
    for move in moves:
        made.append(replace(move, start=now))
        now += move.seconds + move.rest
    return tuple(made)


def _spread(turns: Sequence[Move], start: float, waiting: float) -> tuple[Move, ...]:
    """One turn goes at the end of each equal share of the learner's time."""
    if not turns:
        return ()
    share = max(waiting - REST, 0.8 * waiting) / len(turns)
    ends = (start + share * number for number in range(1, len(turns) + 1))
    return tuple(replace(turn, start=end - min(turn.seconds, share)) for turn, end in zip(turns, ends, strict=True))
