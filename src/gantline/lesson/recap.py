"""A rig in a few lines, and what the rigs of a lesson have in common."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from gantline.account import Account, Refusal, measure, near, verdict
from gantline.figure import Layout, draw
from gantline.mechanics import Answer
from gantline.rig import Rig

from .lesson import Recap

if TYPE_CHECKING:
    from .lesson import Part


def recap(rig: Rig, answer: Answer, layout: Layout, account: Account | Refusal) -> Recap:
    """The plate that tells most, and the numbers worth keeping."""
    counted = isinstance(account, Account) and account.method == "count"
    view = "cut" if counted else "labelled"
    scene = draw(rig, answer, view, layout=layout, caption=False)
    return Recap(rig.title, verdict(rig, answer), tuple(_facts(rig, answer)), scene)


def _facts(rig: Rig, answer: Answer) -> list[str]:
    """Short formulas: the ratio, the pull, the rope to haul, the accelerations."""
    ideal = answer.ideal
    found = []
    if answer.velocity_ratio is not None and answer.velocity_ratio.number is not None:
        found.append(f"VR = {measure(rig, answer.velocity_ratio.number, '1').exact}")
    if ideal.effort is not None and ideal.effort.number is not None:
        found.append(f"{rig.effort_symbol} = {near(rig, ideal.effort)}")
    hand = dict(answer.travel).get("hand")
    if hand is not None and hand.number is not None:
        found.append(f"{rig.haul_symbol} = {measure(rig, abs(hand.number), 'm').near}")
    moving = [m for m in ideal.motions if m.acceleration and m.acceleration.number and rig.bearer(m.name) == m.name]
    letters = ("a",) if len(moving) == 1 else tuple(f"a{n}" for n in range(1, len(moving) + 1))
    return found + [f"{letter} = {near(rig, m.acceleration)}" for letter, m in zip(letters, moving, strict=True)]


def moral(parts: "Sequence[Part]") -> str:
    """One sentence that holds for every rig of the lesson."""
    counted = [isinstance(part.account, Account) and part.account.method == "count" for part in parts]
    if all(counted):
        return "Count the strands through the bag: that is the gain in force, and the price in rope."
    if all(part.answer.status == "holds" for part in parts):
        return "What pulls up balances what pulls down, on every part by itself; the rope sets how far each one goes."
    return "Ask every part by itself what pulls it up and what pulls it down; the ropes tie the answers together."
