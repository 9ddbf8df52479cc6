"""The rig that a step is about, where that is another than the one it began with."""

from gantline.mechanics import Answer, solve
from gantline.rig import Rig, turned_over

from .account import Step


def turned(rig: Rig, step: Step) -> tuple[Rig, Answer] | None:
    """The tackle turned over, with its answer, where a step counts its strands; None where it is the same rig."""
    if step.id != "answer" or not step.formula_text.startswith("N = "):
        return None
    other = turned_over(rig)
    if other is None:
        return None
    answer = solve(other)
    ratio = answer.velocity_ratio.number if answer.velocity_ratio else None
    return (other, answer) if ratio is not None and step.formula_text == f"N = {ratio}" else None
