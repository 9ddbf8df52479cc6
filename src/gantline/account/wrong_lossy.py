"""Wrong ideas about wheels that lose: what a learner makes of one efficiency for a rig of several wheels."""

from fractions import Fraction

from gantline.quantity import Formula, Product, Quotient, Sum, Symbol

from .facts import Facts
from .wrong_terms import WrongRule, one_rope_up, weights, whole


def _alike(facts: Facts) -> tuple[Formula, int, Formula, Fraction] | None:
    """A tackle of one rope, asked for its pull, whose wheels all lose alike: (weights, strands, e, its number)."""
    body = facts.aim
    given = [sheave.efficiency for sheave in facts.sheaves]
    if not facts.lossy or facts.answer.status != "holds" or facts.rig.effort or body is None:
        return None
    if len(facts.rig.ropes) != 1 or not one_rope_up(body) or any(e is None for e in given):
        return None
    held, numbers = weights(facts, body), {e.number for e in given if e}
    (number, *others) = numbers
    if held is None or others or number is None:
        return None
    return held, len(body.up), Symbol(next(e.symbol for e in given if e)), number


def _one_loss(facts: Facts) -> Formula | None:
    """The efficiency of one wheel taken for that of the whole machine."""
    found = _alike(facts)
    return Quotient(found[0], _times(found[1], found[2])) if found and len(facts.sheaves) > 1 else None


def _losses_added(facts: Facts) -> Formula | None:
    """So many wheels, so many times the loss of one; nothing where that would leave nothing."""
    found, wheels = _alike(facts), len(facts.sheaves)
    if found is None or wheels < 2 or wheels * (1 - found[3]) >= 1:
        return None
    lost = Product((whole(-wheels), Sum((whole(1), Product((whole(-1), found[2]))))))
    return Quotient(found[0], _times(found[1], Sum((whole(1), lost))))


def _times(number: int, formula: Formula) -> Formula:
    return formula if number == 1 else Product((whole(number), formula))


def _as_up(facts: Facts) -> Formula | None:
    """Letting down with the pull that raises."""
    raising = facts.answer.regime("raising")
    asked = facts.answer.status == "holds" and facts.rig.effort is None
    return raising.effort.formula if asked and raising and raising.effort else None


LOSSY: tuple[WrongRule, ...] = (
    WrongRule("M33", "raising", _one_loss, "loss", 3),
    WrongRule("M35", "raising", _losses_added, "loss"),
    WrongRule("M36", "lowering", _as_up, "loss", 3),
)
