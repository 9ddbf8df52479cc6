"""Explains a solved rig in several ways, says kindly why a way will not do, and knows the wrong answers it invites."""

from typing import TYPE_CHECKING, Any

from .account import Account, Refusal, Said, Step, WrongAnswer

if TYPE_CHECKING:
    from .calling import called
    from .cautioning import Caution, cautions
    from .explaining import accepts, accounts, explain
    from .measuring import LONG, Measure, measure, near, said
    from .methods import METHODS
    from .phrases.en import METHOD_NAMES, seconds, spoken, spoken_words
    from .seeing import READ_AT, Remedy, Seen, seen
    from .status import verdict
    from .trials import assumed_says, ending_says, forces_said, meeting_says, millimetres, trial_says, unread_says
    from .turning import turned
    from .wrong import WRONG_RULES, wrong_answers

_LAZY = {
    "LONG": "measuring", "METHODS": "methods", "METHOD_NAMES": "phrases.en", "WRONG_RULES": "wrong",
    "READ_AT": "seeing", "Remedy": "seeing", "Seen": "seeing", "seen": "seeing",
    "Caution": "cautioning", "Measure": "measuring",
    "assumed_says": "trials", "ending_says": "trials", "forces_said": "trials", "millimetres": "trials",
    "meeting_says": "trials", "trial_says": "trials", "unread_says": "trials",
    "called": "calling",
    "accepts": "explaining", "accounts": "explaining", "cautions": "cautioning", "explain": "explaining",
    "measure": "measuring", "near": "measuring", "said": "measuring", "seconds": "phrases.en",
    "spoken": "phrases.en", "spoken_words": "phrases.en", "turned": "turning",
    "verdict": "status", "wrong_answers": "wrong",
}  # fmt: skip


def __getattr__(name: str) -> Any:
    """An answer on its own needs one sentence, not seven ways of explaining: each is loaded when it is asked for."""
    if name not in _LAZY:
        raise AttributeError(name)
    from importlib import import_module

    found = globals()[name] = getattr(import_module(f".{_LAZY[name]}", __name__), name)
    return found


__all__ = [
    "LONG", "METHODS", "METHOD_NAMES", "READ_AT", "WRONG_RULES", "Account", "Caution", "Measure", "Refusal",
    "Remedy", "Said", "Seen", "Step", "WrongAnswer", "accepts", "accounts", "assumed_says", "called", "cautions",
    "ending_says", "explain", "forces_said", "measure", "meeting_says", "millimetres", "near", "said", "seconds",
    "seen", "spoken", "spoken_words", "trial_says", "turned", "unread_says", "verdict", "wrong_answers",
]  # fmt: skip
