"""A film in a format: the picture at every moment of every shot."""

from collections.abc import Iterator, Sequence

from .acts import first, step_changes
from .composing import Change, Composer, Scenery
from .formats import FORMATS
from .panels import together
from .picture import Moment, Picture
from .side import known, title
from .stage import Stage
from .storyboard import Act, Kind, Move, Shot, Storyboard
from .telling import kept

FORMULA = 0.3
_COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


class Take:
    """One shot in one format."""

    def __init__(self, shot: Shot, before: Picture, changes: Sequence[Change]) -> None:
        self.shot, self.before, self.changes = shot, before, tuple(changes)

    @property
    def last(self) -> Picture:
        """What stands when all has moved: the still of the shot."""
        return self.changes[-1].after if self.changes else self.before

    @property
    def still(self) -> Picture:
        """The shot's best picture: complete, and before the learner's time runs out."""
        pictures = [change.after for change in self.changes if change.move.when != "pause"]
        return pictures[-1] if pictures else self.before

    def at(self, seconds: float) -> Moment:
        """The frame so long after the shot's start."""
        now = self.before
        for change, move in zip(self.changes, self.shot.moves, strict=True):
            if seconds < move.start:
                break
            if seconds < move.end:
                return change.at(now, (seconds - move.start) / move.seconds)
            now = change.after
        return Moment(now)


def takes(board: Storyboard, format: str = "level") -> tuple[Take, ...]:
    """Every shot of a board in this format. KeyError for an unknown format, NotDrawable for a rig without a figure."""
    shape = FORMATS[format]
    stages = [Stage(act, shape) for act in board.acts]
    made: list[Take] = []
    scenery = first(stages[0])
    for shot in board.shots:
        stage = stages[shot.act]
        if shot.step is None:
            scenery = first(stage)
            before, changes = card(board, shot, stage)
        else:
            before = scenery.picture
            changes, scenery = step_changes(stage, shot.step, shot.says, scenery)
        made.append(Take(shot, before, changes))
    return tuple(made)


def moves_of(act: Act, says: Sequence[str]) -> Iterator[tuple[Move, ...]]:
    """The moves of each step of an act; they are the same in every format. `says` are the sentences, step by step."""
    stage = Stage(act, FORMATS["level"])
    scenery: Scenery = first(stage)
    for step, words in zip(act.account.steps, says, strict=True):
        changes, scenery = step_changes(stage, step, words, scenery)
        yield tuple(change.move for change in changes)


def card_moves(kind: Kind) -> tuple[Move, ...]:
    """A title or a recap is set, once."""
    return (Move("set", kind, FORMULA),)


def card(board: Storyboard, shot: Shot, stage: Stage) -> tuple[Picture, list[Change]]:
    """A title over its rig, the rope in ink; or what all rigs of the film gave."""
    made = Composer(stage)
    format, act = stage.format, stage.act
    if shot.kind == "recap":
        found = [(one.rig.title, _facts(one)) for one in board.acts]
        before = made.picture
        made.says = "; ".join(f"{words}: {', '.join(facts)}" for words, facts in found)
        made.change("set", "recap", FORMULA, {"words": together(format, found)})
        return before, made.changes
    ropes = tuple(dict.fromkeys(run.rope for run in stage.layout.runs))
    parts = stage.parts("bare", (*ropes, *(run.name for run in stage.layout.runs), "hand"))
    made.put(rig=stage.layer("rig", parts.rig))
    before = made.picture
    whole = shot.id == "title"
    words, under = (board.title, _rigs(board)) if whole else (act.rig.title or board.title, _under(act))
    made.says = f"{words}. {under}"
    made.change("set", "title", FORMULA, {"words": title(format, words, under)})
    return before, made.changes


def _rigs(board: Storyboard) -> str:
    return ", ".join(act.rig.title for act in board.acts if act.rig.title)


def _under(act: Act) -> str:
    """What the machine is made of, in one line."""
    ropes, wheels = len(act.rig.ropes), len(act.rig.sheaves)
    parts = [_counted(ropes, "rope"), *([_counted(wheels, "wheel")] if wheels else [])]
    line = ", ".join(parts) + (", and you" if act.rig.hand is not None else "")
    return f"{line[:1].upper()}{line[1:]}."


def _counted(number: int, noun: str) -> str:
    words = _COUNTS[number] if number < len(_COUNTS) else str(number)
    return f"{words} {noun}" if number == 1 else f"{words} {noun}s"


def _facts(act: Act) -> list[str]:
    """The numbers worth keeping of an act, each as letter and value."""
    found = kept(act.account, act.rig.effort_symbol, act.rig.haul_symbol)
    return [f"{letter} = {shown}" for formula, _ in found for letter, shown in known(formula)]
