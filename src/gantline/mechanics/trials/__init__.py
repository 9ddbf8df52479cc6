"""The trial: what is really seen when a rig is hauled, with rope that stretches and wheels that take their share."""

from typing import TYPE_CHECKING, Any

from .nouns import (
    FIXED,
    HAND_TRAVELS,
    Assumed,
    Body,
    Ending,
    Event,
    Meeting,
    Moment,
    Setup,
    Span,
    Steady,
    Touch,
    Trial,
    TrialWay,
    Wheel,
)

if TYPE_CHECKING:
    from .following import steady, trial

__all__ = [
    "FIXED", "HAND_TRAVELS", "Assumed", "Body", "Ending", "Event", "Meeting", "Moment", "Setup", "Span",
    "Steady", "Touch", "Trial", "TrialWay", "Wheel", "steady", "trial",
]  # fmt: skip


def __getattr__(name: str) -> Any:
    """The arrays are loaded only when something is tried."""
    if name not in ("steady", "trial"):
        raise AttributeError(name)
    from . import following

    return getattr(following, name)
