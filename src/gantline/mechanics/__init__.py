"""From a rig to its exact, certified answer."""

from typing import TYPE_CHECKING, Any

from .answer import (
    Answer,
    Certificate,
    Check,
    Finding,
    Motion,
    Pull,
    Regime,
    Relation,
    Status,
    Support,
    Value,
    Way,
    Work,
)

if TYPE_CHECKING:
    from .branches import Branch, NoShares, Share, Shares, shares
    from .carried import Carried, carry
    from .clashing import Counted, contradiction
    from .relations import acceleration_symbol, support_symbols, tension_symbols, way_symbols
    from .solver import solve
    from .trials import FIXED, HAND_TRAVELS, Assumed, Body, Ending, Event, Meeting, Moment, Setup, Span, Steady, Touch
    from .trials import Trial as Trial
    from .trials import TrialWay as TrialWay
    from .trials import Wheel as Wheel
    from .trials import steady as steady
    from .trials import trial as trial
    from .variants import sweep

_LAZY = {
    "Carried": "carried", "carry": "carried", "solve": "solver", "sweep": "variants",
    "acceleration_symbol": "relations", "support_symbols": "relations", "tension_symbols": "relations",
    "way_symbols": "relations", "Branch": "branches", "NoShares": "branches", "Share": "branches", "Shares": "branches",
    "shares": "branches", "Counted": "clashing", "contradiction": "clashing",
}  # fmt: skip
_TRIALS = (
    "FIXED", "HAND_TRAVELS", "Assumed", "Body", "Ending", "Event", "Meeting", "Moment", "Setup", "Span", "Steady",
    "Touch", "Trial", "TrialWay", "Wheel", "steady", "trial",
)  # fmt: skip
_LAZY |= dict.fromkeys(_TRIALS, "trials")


def __getattr__(name: str) -> Any:
    """The solver loads the algebra library only when something is solved."""
    if name not in _LAZY:
        raise AttributeError(name)
    from importlib import import_module

    return getattr(import_module(f".{_LAZY[name]}", __name__), name)


__all__ = [
    "FIXED", "HAND_TRAVELS", "Answer", "Assumed", "Body", "Branch", "Carried", "Certificate", "Check", "Counted",
    "Ending", "Event", "Finding", "Meeting", "Moment", "Motion", "NoShares", "Pull", "Regime", "Relation", "Setup",
    "Share", "Shares", "Span", "Status", "Steady", "Support", "Touch", "Trial", "TrialWay", "Value", "Way", "Wheel",
    "Work", "acceleration_symbol", "carry", "contradiction", "shares", "solve", "steady", "support_symbols", "sweep",
    "tension_symbols", "trial", "way_symbols",
]  # fmt: skip
