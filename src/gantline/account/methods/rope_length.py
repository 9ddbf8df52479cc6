"""Keeping account of the rope: what some strands give up, others take up. Half a method: how far, not how hard."""

from gantline.mechanics import Answer
from gantline.rig import Rig

from ..account import Account, Refusal
from ..facts import Facts
from ..price import pay_ropes
from ..refusing import Yes, no
from ..steps import begin, meet, movers, path
from ..writing import Writer

NAME = "rope-length"
SHORT = frozenset(("meet", "beside", "keep", "pay", "pay-hand", "pay-rope", "pay-all", "tie", "half"))


def accepts(rig: Rig, answer: Answer) -> Yes | Refusal:
    """Valid wherever ropes are taut, with loss or without; it tells ways and speeds, and no force."""
    facts = Facts(rig, answer)
    if answer.status in ("impossible", "slack"):
        return no(facts, NAME, answer.status)
    if answer.freedoms == 0:
        return no(facts, NAME, "still")
    if answer.freedoms > 1 and rig.hand is not None:
        return no(facts, NAME, "freedoms")
    return Yes(half=True)


def explain(rig: Rig, answer: Answer, short: bool = False) -> Account:
    """How the ways of all parts belong together."""
    facts = Facts(rig, answer)
    writer = begin(facts, NAME, SHORT if short else None)
    meet(writer)
    movers(writer)
    path(writer)
    writer.step("keep", "bare", lit=[rope.name for rope in rig.ropes])
    hauled = rig.hand is not None and answer.velocity_ratio is not None
    if hauled:
        pay_ropes(writer)
    if not any(step.id.startswith("pay") for step in writer.steps):
        for rope in rig.ropes:
            _tie(writer, rope.name)
    writer.step("half", "bare", true={"moves" if answer.status == "accelerates" else "rests"})
    return writer.account(answer.velocity_ratio)


def _tie(writer: Writer, rope: str) -> None:
    """What one rope says of the bodies on it."""
    facts = writer.facts
    relation = facts.answer.relation(f"length:{rope}")
    bodies = [body.parts[-1] for body in facts.bodies if rope in body.ropes]
    if not bodies:
        return
    first, *_, last = (*bodies, bodies[-1])
    writer.step(
        "tie", "displacement", lit=(rope, *bodies), formula=relation.holds if relation else None,
        cites=(f"length:{rope}",), true={"two" if len(bodies) == 2 else "many"},
        words={"rope": writer.nouns[f"rope {rope}"], "first": writer.nouns[first], "second": writer.nouns[last]},
    )  # fmt: skip
