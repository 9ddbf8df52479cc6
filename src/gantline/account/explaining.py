"""Which method explains a rig best, and all of them in that order."""

from gantline.mechanics import Answer
from gantline.rig import Rig

from .account import Account, Refusal
from .methods import METHODS

# Best first: counting is the quickest to see where it is valid; carrying the pull follows the rope as the eye does.
_ORDER = ("count", "newton", "carry", "stages", "free-body", "work", "rope-length")


def explain(rig: Rig, answer: Answer, method: str | None = None) -> Account | Refusal:
    """The account by a method, or why that will not do; without one, by the best that will. Raises KeyError for an
    unknown method."""
    if method is not None:
        found = METHODS[method].accepts(rig, answer)
        return found if isinstance(found, Refusal) else METHODS[method].explain(rig, answer)
    return accounts(rig, answer)[0]


def accounts(rig: Rig, answer: Answer) -> tuple[Account | Refusal, ...]:
    """By every method: the accounts first, best first, then the refusals."""
    found = [explain(rig, answer, name) for name in _ORDER]
    return tuple(sorted(found, key=lambda item: isinstance(item, Refusal)))
