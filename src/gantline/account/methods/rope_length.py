"""Keeping account of the rope: what some strands give up, others or the hand take up. Half a method: how far, not how hard."""

from gantline.mechanics import Answer
from gantline.rig import Rig

from ..account import Account, Refusal
from ..closing import pay_ropes
from ..facts import Facts
from ..refusing import Yes, no
from ..steps import begin, meet, movers, path

NAME = "rope-length"
SHORT = frozenset(("meet", "keep", "pay", "pay-hand", "pay-rope", "pay-all", "tie", "half"))


def accepts(rig: Rig, answer: Answer) -> Yes | Refusal:
    """Valid wherever ropes are taut, with loss or without; it tells ways and speeds, and no force."""
    facts = Facts(rig, answer)
    if answer.status in ("impossible", "slack") or answer.freedoms == 0:
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
            relation = answer.relation(f"length:{rope.name}")
            movers_ = [b.parts[-1] for b in facts.bodies if rope.name in b.ropes]
            writer.step(
                "tie", "displacement", lit=(rope.name, *movers_), formula=relation.holds if relation else None,
                cites=(f"length:{rope.name}",), true={"two" if len(movers_) == 2 else "many"},
                words={"rope": writer.nouns[f"rope {rope.name}"], "first": writer.nouns[movers_[0]], "second": writer.nouns[movers_[-1]]},
            ) if movers_ else None  # fmt: skip
    writer.step("half", "bare", true={"moves" if answer.status == "accelerates" else "rests"})
    return writer.account(answer.velocity_ratio)
