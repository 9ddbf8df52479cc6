"""Explains a solved rig in several ways, says kindly why a way will not do, and knows the wrong answers it invites."""

from .account import Account, Refusal, Said, Step, WrongAnswer
from .explaining import accounts, explain
from .methods import METHODS
from .verdict import verdict
from .wrong import WRONG_RULES, wrong_answers

__all__ = [
    "METHODS", "WRONG_RULES", "Account", "Refusal", "Said", "Step", "WrongAnswer", "accounts", "explain",
    "verdict", "wrong_answers",
]  # fmt: skip
