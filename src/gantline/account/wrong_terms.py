"""What the laws of wrong ideas are written with: sums and shares of the rig's own letters."""

from collections.abc import Callable
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from gantline.mechanics import Value
from gantline.quantity import Formula, Number, Quotient, Sum

from .facts import Body, Facts

What = Literal["effort", "load", "haul", "work", "support", "tension", "acceleration", "raising", "lowering"]
Law = Callable[[Facts], "Formula | None"]


class WrongRule(Struct, frozen=True):
    """`what` is the quantity it mistakes, `idea` the thought it goes against, `prior` how common
    it is taken to be, 1 to 5: a judgement of our own, not measured, that only orders which is named first.

    `right` gives the true value where that is not simply the rig's own `what`. `open` says that the rule is committed
    where there is no right number: no pull holds the rig, or the file leaves the pulls undecided.
    """

    id: str
    what: What
    law: Law
    idea: str = "strands"
    prior: int = 2
    right: Callable[[Facts], Value | None] | None = None
    open: bool = False


def whole(number: int | Fraction) -> Number:
    return Number(Fraction(number))


def over(top: Formula, number: int | Fraction) -> Formula | None:
    """A share: the top itself for one, None for none."""
    if number == 0:
        return None
    return top if number == 1 else Quotient(top, whole(number))


def added(terms: list[Formula]) -> Formula | None:
    return None if not terms else terms[0] if len(terms) == 1 else Sum(tuple(terms))


def weights(facts: Facts, body: Body) -> Formula | None:
    """All that a body weighs, in the rig's letters."""
    return added([value.formula for _, value in facts.body_weights(body) if value.formula])


def one_rope_up(body: Body) -> bool:
    """Whether a body hangs on strands of one rope and on nothing else."""
    return bool(body.up) and not body.down and not body.level and len(body.ropes) == 1
