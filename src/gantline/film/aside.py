"""What comes beside the rig in a step: the column of arrows, lengths of rope, a panel, a question, a formula."""

from collections.abc import Callable

from msgspec.structs import replace

from gantline.account import Step
from gantline.figure import Path, Primitive, arrow_part
from gantline.quantity import Equation, Symbol

from . import givens, groups, side
from .composing import Composer, Passage
from .formats import Box
from .on_rig import FORMULA, add
from .panels import Panel
from .picture import Layer
from .stage import Parts, Stage
from .strip import Strip, strip
from .verbs import grown

STANDS = 1.4  # s that a formula stands before its shot holds: two seconds in all
TURN, GROWS, LENGTH, LENGTHS = 0.2, 1.2, 0.5, 3.0  # s: a whipping turn, a bar, a length of rope, all of them at most


def to_scale(stage: Stage, parts: Parts) -> Parts:
    """Arrows on strands to the scale of those in the column."""
    share = stage.beside(parts).scale / stage.scale
    if parts.column and share < 1.0:
        parts.over = tuple(
            replace(mark, d=arrow_part(mark.d, share)) if isinstance(mark, Path) and mark.role == "force" else mark
            for mark in parts.over
        )
    return parts


def column(made: Composer, at: Passage, parts: Parts) -> None:
    """Arrows end to end between two level lines."""
    like = at.stage.beside(parts)
    for group in groups.of_column(parts.column):
        add(made, like, group)


def rope_lengths(made: Composer, at: Passage, hauled: bool) -> Strip | None:
    """Where the way of the hand is told as so many times the rise: so many lengths of rope end to end, one after the
    other."""
    if not hauled or at.step.view != "displacement" or not _times_the_rise(at):
        return None
    found = strip(at.stage)
    if found is None:
        return None
    each = min(LENGTH, LENGTHS / len(found.lengths))
    for done in range(len(found.lengths)):
        partly = _longer(found, done)
        made.change("draw", f"length {done + 1}", each, {"column": found.layer(done + 1)}, {"column": partly})
    return found


def _longer(found: Strip, done: int) -> Callable[[float], Layer]:
    return lambda share: found.layer(done + share)


def _times_the_rise(at: Passage) -> bool:
    shown, rig = at.step.formula, at.stage.act.rig
    if not isinstance(shown, Equation) or len(shown.sides) < 2:
        return False
    return shown.sides[0] == Symbol(rig.haul_symbol)


def panel(made: Composer, found: Panel) -> None:
    """Row by row: words are set, bars grow."""
    for upto, (verb, marks) in enumerate(found.rows, 1):
        now, old = found.layer(upto), found.layer(upto - 1).marks
        grows = verb == "grow"
        partly = {"words": lambda share, now=now, old=old, marks=marks: replace(now, marks=old + grown(marks, share))}
        made.change("grow" if grows else "set", "panel", GROWS if grows else FORMULA, {"words": now},
                    partly if grows else None)  # fmt: skip


def question(made: Composer, at: Passage, says: str, turns: int) -> None:
    """The question, and the learner's time: a whipping turn goes every second."""
    format = at.stage.format
    made.change("set", "question", FORMULA, {"words": side.question(format, says, turns, 0)})
    for gone in range(1, turns + 1):
        made.change("set", "turn", TURN, {"words": side.question(format, says, turns, gone)}, turn=True)


def formula(made: Composer, at: Passage, parts: Parts, beside: Strip | None) -> None:
    """Givens with their leaders, or the formula in the room that is left."""
    stage, step = at.stage, at.step
    shown = step.formula or step.formula_text
    if not shown:
        return
    if isinstance(shown, Symbol):
        value = next((v.shown for v in stage.act.account.values if v.key == shown.name and _asked(stage, shown)), "")
        shown = f"{shown.name} = {value}" if value else shown
    named = givens.givens(stage, side.known(step.formula_text)) if step.formula_text and step.view == "bare" else []
    if named:
        marks: tuple[Primitive, ...] = ()
        for one in givens.layers(stage.format, named, stage.kinds):
            marks += one.marks
            made.change("set", "name and number", FORMULA, {"words": replace(one, marks=marks)})
        return
    room = _room(at, parts, beside)
    words = _named(stage, shown) if isinstance(shown, Symbol) else _held(stage, step)
    layer = side.formula(stage.format, shown, stage.kinds, room, words)
    made.change("set", "formula", FORMULA, {"words": layer}, waits=True, rest=STANDS)


def _asked(stage: Stage, shown: Symbol) -> bool:
    asked = stage.act.rig.asked
    return asked is not None and asked.distance.symbol == shown.name


def _named(stage: Stage, shown: Symbol) -> str:
    """What a letter is that stands alone: the one place where it is introduced."""
    rig, answer = stage.act.rig, stage.act.answer
    if shown.name == rig.effort_symbol:
        return "your pull"
    ropes = [rope for rope, symbol in answer.tension_symbols if symbol == shown.name]
    if not ropes:
        return ""
    return "the pull in the rope" if len(rig.ropes) == 1 else "the pull in this rope"


def _held(stage: Stage, step: Step) -> str:
    """Whose force stands alone: a support's."""
    if not step.formula_text or not step.cites or not step.cites[0].startswith("support:"):
        return ""
    name = stage.names[step.about]
    upward = step.formula_text.startswith("−")
    return f"{name} is pulled up" if upward else f"what {name} carries"


def _room(at: Passage, parts: Parts, beside: Strip | None) -> Box:
    """The room that column, ledger and lengths of rope leave."""
    format = at.stage.format
    left, top, right, bottom = format.words
    if beside is not None:
        return beside.room(top if not at.shows or format.ledger is None else format.ledger[3])
    if parts.column:
        return format.beside
    return (left, format.ledger[3], right, bottom) if at.shows and format.ledger else format.words
