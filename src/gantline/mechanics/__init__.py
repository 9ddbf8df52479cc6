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
    from .carried import Carried, carry
    from .solver import solve
    from .variants import sweep

_LAZY = {"Carried": "carried", "carry": "carried", "solve": "solver", "sweep": "variants"}


def __getattr__(name: str) -> Any:
    """The solver loads the algebra library only when something is solved."""
    if name not in _LAZY:
        raise AttributeError(name)
    from importlib import import_module

    return getattr(import_module(f".{_LAZY[name]}", __name__), name)


__all__ = [
    "Answer", "Carried", "Certificate", "Check", "Finding", "Motion", "Pull", "Regime", "Relation", "Status",
    "Support", "Value", "Way", "Work", "carry", "solve", "sweep",
]  # fmt: skip
