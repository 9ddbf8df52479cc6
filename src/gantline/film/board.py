"""From accounts to a storyboard: a title, every step as a shot as long as its words and moves need, and a recap."""

from collections.abc import Iterator, Mapping, Sequence

from gantline.account import Step

from .schedule import needed, scheduled
from .storyboard import Act, Kind, Move, Shot, Storyboard
from .take import card_moves, moves_of
from .words import HOLD, LEAST, LEVELS, RECAP, TITLE, on_grid, speech

Words = Mapping[tuple[str, str], str]  # (key of the act, key of the step) -> the tutor's sentence, slots live
_NAMES = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}


def board(acts: Sequence[Act], words: Words | None = None, level: str = "middle", title: str = "") -> Storyboard:
    """The storyboard of a film over these acts, in their order. `words` replaces sentences by the tutor's own.

    Raises ValueError for no act or an unknown level, KeyError where a sentence has a slot its account has not.
    """
    if not acts:
        raise ValueError("a film needs at least one rig")
    if level not in LEVELS:
        raise ValueError(f"there is no level {level!r}; there are {', '.join(LEVELS)}")
    shots: list[Shot] = []
    for draft in _drafts(acts, words or {}):
        start = shots[-1].end if shots else 0.0
        shots.append(_timed(draft, round(start, 6), level))
    return Storyboard(title or _title(acts), level, tuple(acts), tuple(shots))


def _title(acts: Sequence[Act]) -> str:
    if len(acts) == 1:
        return acts[0].rig.title or "A rope-and-pulley rig"
    return f"A lesson over {_NAMES.get(len(acts), len(acts))} rigs"


def _drafts(acts: Sequence[Act], words: Words) -> Iterator[Shot]:
    """All shots without their times."""
    if len(acts) > 1:
        yield _card("title", "title", 0)
    for number, act in enumerate(acts):
        yield _card(f"{act.key}/title", "title", number)
        yield from _steps(act, number, words)
    if len(acts) > 1:
        yield _card("recap", "recap", len(acts) - 1)


def _card(id: str, kind: Kind, act: int) -> Shot:
    return Shot(id, kind, act, None, "", "", 0.0, card_moves(kind), 0.0, 0.0)


def _steps(act: Act, number: int, words: Words) -> Iterator[Shot]:
    keys, steps = act.account.keys, act.account.steps
    said = [_said(act, key, step, words) for key, step in zip(keys, steps, strict=True)]
    all_moves = moves_of(act, [spoken for spoken, _ in said])
    for key, step, (spoken, written), moves in zip(keys, steps, said, all_moves, strict=True):
        yield Shot(f"{act.key}/{key}", "step", number, step, spoken, written, step.pause, moves, 0.0, 0.0)


def _said(act: Act, key: str, step: Step, words: Words) -> tuple[str, str]:
    """The sentence as spoken and as written, the tutor's where there is one."""
    say = words.get((act.key, key), step.say)
    spoken = {value.key: value.spoken for value in act.account.values}
    shown = {value.key: value.shown for value in act.account.values}
    return say.format_map(spoken), say.format_map(shown)


def _timed(shot: Shot, start: float, level: str) -> Shot:
    seconds = on_grid(_length(shot.says, shot.moves, shot.pause, shot.kind, level))
    moves = scheduled(shot.moves, shot.pause, seconds)
    return Shot(shot.id, shot.kind, shot.act, shot.step, shot.says, shot.written, shot.pause, moves, start, seconds)


def _length(says: str, moves: Sequence[Move], pause: float, kind: Kind, level: str) -> float:
    """The longer of speech and moves, a hold, and the learner's own time."""
    if kind != "step":
        return needed(moves) + (TITLE if kind == "title" else RECAP)
    turns = any(move.when == "pause" for move in moves)
    return max(speech(says, level), needed(moves), LEAST - HOLD) + HOLD + pause + (0.5 if turns else 0.0)
