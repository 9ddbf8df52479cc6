"""The last answer on the rig it is about: the tackle turned over, with the strands that hold it now."""

from gantline.account import Step
from gantline.figure import NotDrawable
from gantline.mechanics import solve
from gantline.rig import turned_over

from . import groups
from .composing import Composer
from .on_rig import FORMULA, INK, add
from .stage import Stage
from .storyboard import Act


def another(stage: Stage, step: Step) -> Stage | None:
    """The rig that an answer speaks of, where that is the tackle turned over; None where it is still the same one."""
    if step.id != "answer" or not step.formula_text.startswith("N = "):
        return None
    rig = turned_over(stage.act.rig)
    if rig is None:
        return None
    answer = solve(rig)
    ratio = answer.velocity_ratio.number if answer.velocity_ratio else None
    if ratio is None or step.formula_text != f"N = {ratio}":
        return None
    try:
        return Stage(Act(stage.act.key, rig, answer, stage.act.account), (stage.format,))
    except NotDrawable:
        return None


def show(made: Composer, other: Stage) -> None:
    """It takes the place of the rig, then its bag, then the strands through it one by one."""
    parts = other.parts("count")
    made.says = parts.says
    gone = dict.fromkeys(("under", "over", "column", "words", "ledger"))
    made.change("set", "the tackle turned over", INK, {"rig": other.layer("rig", parts.rig), **gone})
    cut = tuple(mark for mark in parts.over if mark.layer == "cut")
    bag = {"under": other.layer("under", parts.under), "over": other.layer("over", cut)}
    made.change("set", "bag", FORMULA, bag)
    discs = groups.of_rig([mark for mark in parts.over if mark.layer == "disc"], "count", False)
    for group in discs:
        add(made, other.layer("over", ()), group)
