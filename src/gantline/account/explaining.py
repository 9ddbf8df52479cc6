"""Which method explains a rig best, and all of them in that order."""

from gantline.mechanics import Answer
from gantline.rig import Rig

from .account import Account, Refusal
from .facts import Facts
from .methods import METHODS
from .refusing import Yes, no
from .tags import untold

# Best first: counting is the quickest to see where it is valid; carrying the pull follows the rope as the eye does.
_ORDER = ("count", "newton", "carry", "free-body", "work", "stages", "rope-length")


def accepts(rig: Rig, answer: Answer, method: str) -> Yes | Refusal:
    """Whether a method will do for a rig, or why not. Raises KeyError for an unknown method."""
    found: Yes | Refusal = METHODS[method].accepts(rig, answer)
    if isinstance(found, Refusal) or not untold(answer.ideal.effort):
        return found
    return no(Facts(rig, answer), method, "letters")


def explain(rig: Rig, answer: Answer, method: str | None = None, *, short: bool = False) -> Account | Refusal:
    """The account by a method, or why that will not do; without one, by the best that will.

    A short account keeps to the few steps that reach the answer. Raises KeyError for an unknown method.
    """
    if method is None:
        method = next((name for name in _ORDER if not isinstance(accepts(rig, answer, name), Refusal)), _ORDER[0])
    found = accepts(rig, answer, method)
    if isinstance(found, Refusal):
        return found
    account: Account = METHODS[method].explain(rig, answer, short)
    return account


def accounts(rig: Rig, answer: Answer) -> tuple[Account | Refusal, ...]:
    """By every method: the best in full, the others that will do in short, then the refusals."""
    best = explain(rig, answer)
    others = [explain(rig, answer, name, short=True) for name in _ORDER if name != best.method]
    return (best, *sorted(others, key=lambda item: isinstance(item, Refusal)))
