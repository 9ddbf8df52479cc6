"""Steady states and trials of a rig."""

from gantline.rig import Rig

from .nouns import Ending, Trial
from .setting_up import set_up
from .statics import Statics, at_rest, start


def steady(rig: Rig) -> Trial:
    """The steady states of a rig, raising and lowering; no events and no history."""
    statics = ready(rig)
    if isinstance(statics, Ending):
        return Trial(None, endings=(statics,))
    up, down = at_rest(statics, "raising"), at_rest(statics, "lowering")
    endings = tuple(state for state in (up, down) if isinstance(state, Ending))
    return Trial(
        statics.setup,
        raising=None if isinstance(up, Ending) else up,
        lowering=None if isinstance(down, Ending) else down,
        endings=tuple(dict.fromkeys(endings)),
    )


def ready(rig: Rig) -> Statics | Ending:
    """The rig set up with its start; or why it has none."""
    setup = set_up(rig)
    if isinstance(setup, Ending):
        return setup
    statics = Statics(setup)
    if not statics.determined:
        return Ending("not determined", "freedoms")
    begun = start(statics)
    return begun if isinstance(begun, Ending) else Statics(begun)
