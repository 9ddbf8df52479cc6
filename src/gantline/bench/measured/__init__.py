"""What readings of a real tackle say: its sheaves' efficiency, its block's weight, drag and zero, and how well."""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .advice import Advice
    from .budget import Combined, Limits, Part
    from .lines import Line
    from .measuring import Estimate, Measured, Residual, Settings, measure
    from .ratio import Ratio
    from .readings import Refused, Row, Sheet, read_readings

_LAZY = {
    "Advice": "advice", "Combined": "budget", "Estimate": "measuring", "Limits": "budget", "Line": "lines",
    "Measured": "measuring", "Part": "budget", "Ratio": "ratio", "Refused": "readings", "Residual": "measuring",
    "Row": "readings", "Settings": "measuring", "Sheet": "readings", "measure": "measuring",
    "read_readings": "readings",
}  # fmt: skip


def __getattr__(name: str) -> Any:
    """The fit loads arrays and statistics only when something is measured."""
    if name not in _LAZY:
        raise AttributeError(name)
    from importlib import import_module

    return getattr(import_module(f".{_LAZY[name]}", __name__), name)


__all__ = [
    "Advice", "Combined", "Estimate", "Limits", "Line", "Measured", "Part", "Ratio", "Refused", "Residual", "Row",
    "Settings", "Sheet", "measure", "read_readings",
]  # fmt: skip
