"""The last answer on the rig it is about: the tackle turned over, with the strands that hold it now."""

from gantline.account import Step, turned
from gantline.figure import NotDrawable

from . import groups
from .composing import Composer
from .on_rig import FORMULA, INK, add
from .stage import Stage
from .storyboard import Act


def another(stage: Stage, step: Step) -> Stage | None:
    """The rig that an answer speaks of, where that is the tackle turned over; None where it is still the same one."""
    other = turned(stage.act.rig, step)
    if other is None:
        return None
    try:
        return Stage(Act(stage.act.key, *other, stage.act.account), (stage.format,))
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
