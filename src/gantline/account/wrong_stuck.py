"""Wrong ideas about rigs without a right number: no pull holds them, or balance leaves the pulls open."""

from gantline.quantity import Formula

from .facts import Body, Facts
from .wrong_terms import WrongRule, one_rope_up, over, weights


def sharing(facts: Facts) -> Body | None:
    """The body that strands of several ropes hold side by side, with nothing to say how they share it."""
    undecided = set(facts.answer.finding.parts)
    body = facts.body(facts.load)
    if facts.answer.status != "indeterminate" or body is None or body.down or body.level or len(body.ropes) < 2:
        return None
    return body if {strand.name for strand in body.up} <= undecided else None


def _alike(facts: Facts) -> Formula | None:
    """Every strand side by side with an equal share."""
    body = sharing(facts)
    held = weights(facts, body) if body else None
    return over(held, len(body.up)) if body and held else None


def _load_alone(facts: Facts) -> Formula | None:
    """The pull that balances the load, with no other part asked."""
    body = facts.body(facts.load)
    if facts.answer.status != "impossible" or facts.rig.hand is None or facts.rig.effort or body is None:
        return None
    hauled = facts.hand_rope is not None and body.ropes == (facts.hand_rope.name,)
    held = weights(facts, body) if hauled and one_rope_up(body) else None
    return over(held, len(body.up)) if held else None


STUCK: tuple[WrongRule, ...] = (
    WrongRule("M55", "tension", _alike, "share", 4, open=True),
    WrongRule("M56", "effort", _load_alone, "balance", 4, open=True),
)
