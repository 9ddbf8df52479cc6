"""The other methods beside the main account: the short of each, or why it will not do."""

from collections.abc import Sequence

from gantline.account import Account, Refusal, Step, near
from gantline.figure import Layout, draw
from gantline.mechanics import Answer
from gantline.rig import Rig

from . import words
from .beats import plate
from .lesson import Way

_SENTENCES = 3


def ways(rig: Rig, answer: Answer, layout: Layout, others: Sequence[Account | Refusal]) -> tuple[Way, ...]:
    """Accepted ways first, each ending at its number; then the refused ones."""
    return tuple(
        _accepted(rig, answer, layout, other) if isinstance(other, Account) else _refused(rig, answer, layout, other)
        for other in sorted(others, key=lambda other: isinstance(other, Refusal))
    )


def _accepted(rig: Rig, answer: Answer, layout: Layout, account: Account) -> Way:
    steps = _telling(account)
    shown = next((step for step in steps if step.view != "bare"), steps[-1])
    scene = plate(rig, answer, layout, shown, frame="tight")
    return Way(
        account.method, account.name, scene, tuple(account.line(step) for step in steps),
        next((step.formula for step in reversed(steps) if step.formula), None), _result(rig, answer, account), account,
    )  # fmt: skip


def _telling(account: Account) -> list[Step]:
    """The steps that are this method's own, the last three: where it turns into a number."""
    own = [step for step in account.steps if step.id not in words.WAY_STEPS_LEFT_OUT]
    return (own or list(account.steps))[-_SENTENCES:]


def _result(rig: Rig, answer: Answer, account: Account) -> str:
    """What a way ends at: the pull, the load, the acceleration; for ropes alone, how far the hand goes."""
    if account.result is None or account.result.number is None:
        return ""
    ideal = answer.ideal
    if account.result == ideal.effort and rig.effort is None:
        return f"{rig.effort_symbol} = {near(rig, account.result)}"
    if account.result == answer.velocity_ratio:
        rise = rig.asked.distance.symbol if rig.asked else rig.rise_symbol
        return f"{rig.haul_symbol} = {near(rig, account.result)} {rise}"
    return near(rig, account.result)


def _refused(rig: Rig, answer: Answer, layout: Layout, refusal: Refusal) -> Way:
    scene = draw(rig, answer, "bare", layout=layout, lit=refusal.parts, caption=False)
    return Way(
        refusal.method, refusal.name, scene, refused=refusal.reason, elsewhere=words.ELSEWHERE[refusal.method]
    )  # fmt: skip
