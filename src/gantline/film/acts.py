"""What happens in each step: the rig to pencil and ink, then what its view adds, in the order in which it is told."""

from msgspec.structs import replace

from gantline.account import Step
from gantline.quantity import Symbol

from . import another, aside, on_rig, side
from .composing import Change, Composer, Passage, Scenery
from .stage import Lit, Parts, Stage
from .telling import lossy, panel_of, running_way

BIG = ("bare", "ask", "work", "tensions")  # views that need the ledger's room
FORCES = ("free-body", "newton")  # views that show what pulls on the bodies in ink, where they stand


def first(stage: Stage) -> Scenery:
    """Before the first step: the rig in pencil."""
    made = Composer(stage)
    parts = stage.parts("bare", ())
    made.put(rig=stage.layer("rig", parts.rig))
    made.says = parts.says
    return Scenery(made.picture, (), "bare", False, ())


def step_changes(stage: Stage, step: Step, says: str, before: Scenery) -> tuple[list[Change], Scenery]:
    """The changes of a step's shot, and what it leaves."""
    made = Composer(stage, before.picture)
    if step.id == "wrong" and stage.act.account.method != "count":
        step = replace(step, view="bare")  # nothing was counted
    if step.id == "answer" and step.formula_text.startswith("N = "):
        step = replace(step, lit=())  # it is of another rig than the one that stands here
    step = replace(step, lit=_with_hand(stage, step))
    panel = panel_of(stage, step)
    shows = step.view not in BIG and panel is None and step.id not in ("recap", "answer")
    at = Passage(stage, step, _view(step), before, shows)
    other = another.another(stage, step)
    if other is not None:
        another.show(made, other)
        aside.formula(made, at, other.parts("bare"), None)
        return made.changes, Scenery(made.picture, step.lit, step.view, False, before.rows)
    parts = _parts(at)
    made.says = parts.says
    on_rig.to_pencil(made, at)
    on_rig.back(made, at)
    on_rig.to_ink(made, at)
    on_rig.cut(made, at, parts)
    hauled = on_rig.haul(made, at) or at.stays
    on_rig.tip(made, at, parts)
    on_rig.over(made, at, parts)
    aside.column(made, at, parts)
    asks = _asks(step)
    if asks:
        aside.question(made, at, says, asks)
    elif panel is not None:
        aside.panel(made, panel)
    else:
        aside.formula(made, at, parts, aside.rope_lengths(made, at, hauled))
    bagged = before.bagged or step.view == "cut"
    return made.changes, Scenery(made.picture, step.lit, step.view, hauled, _known(stage, step, before.rows), bagged)


def _parts(at: Passage) -> Parts:
    """The rig as the step's view shows it, all done."""
    stage, step = at.stage, at.step
    if at.view == "tensions":
        marks = tuple((part, _number(text)) for part, text in step.marks)
        return stage.parts(at.view, step.lit, marks, answer=lossy(stage), way=running_way(stage))
    if at.view == "forces":
        return stage.pulled(step.lit)
    if at.view == "newton":  # it has its own numbers, and stands where things have come
        return stage.parts(at.view, step.lit, gone=at.stays or at.hauls)
    parts = stage.parts(at.view, step.lit, step.marks, step.struck)
    return aside.to_scale(stage, parts)


def _number(text: str) -> str:
    """A pull without its unit, for a number breaks its rope."""
    return text.split("\u00a0")[0].split(" ")[0]


def _with_hand(stage: Stage, step: Step) -> Lit:
    """Where a pull is asked for or the rope is hauled, the whole hauled end is in ink: what happens begins there."""
    grip = stage.layout.grip
    if grip is None or step.lit is None or step.view not in ("ask", "displacement"):
        return step.lit
    if step.view == "ask" and "hand" not in step.lit:
        return step.lit
    return tuple(dict.fromkeys((*step.lit, "hand", grip.strand)))


def _view(step: Step) -> str:
    """What is drawn: only the bag where a cut is made, pulls where bodies are spoken of, and nothing that has not been
    said yet, is not so here, or is told by a panel."""
    if step.view == "work" or step.id in ("recap", "twist", "answer") or (step.view == "units" and not step.marks):
        return "bare"
    if step.view in FORCES and not step.marks:
        return "forces" if step.id not in ("no-count", "tie") else "bare"
    return "count" if step.view == "cut" else step.view


def _asks(step: Step) -> int:
    """How many whipping turns the learner has; 0 where nothing is asked."""
    asked = step.view == "ask" or "?" in step.formula_text
    return round(step.pause) if asked and step.pause >= 3 else 0


def _known(stage: Stage, step: Step, rows: tuple[tuple[str, str], ...]) -> tuple[tuple[str, str], ...]:
    """What is known after the step: a letter has one row, its newest."""
    if step.id in ("wrong", "twist", "answer"):
        return rows
    found = side.known(step.formula_text or step.formula)
    asked = stage.act.rig.asked
    if asked is not None and step.formula == Symbol(asked.distance.symbol):
        found = [(v.key, v.shown) for v in stage.act.account.values if v.key == asked.distance.symbol]
    fresh = {name for name, _ in found}
    return (*(row for row in rows if row[0] not in fresh), *found)
