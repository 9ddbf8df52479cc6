"""What readings of a real tackle say: its sheaves' efficiency, its block's weight, drag and zero, and how well."""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .budget import Limits
    from .measuring import Measured, Settings, measure, read_measured
    from .readings import Readings, read_readings
    from .reporting import Report, report

_LAZY = {
    "Limits": "budget", "Measured": "measuring", "Readings": "readings", "Report": "reporting",
    "Settings": "measuring", "measure": "measuring", "read_measured": "measuring",
    "read_readings": "readings",
    "report": "reporting",
}  # fmt: skip


def __getattr__(name: str) -> Any:
    """The fit loads arrays and statistics only when something is measured."""
    if name not in _LAZY:
        raise AttributeError(name)
    from importlib import import_module

    return getattr(import_module(f".{_LAZY[name]}", __name__), name)


__all__ = [
    "Limits", "Measured", "Readings", "Report", "Settings", "measure", "read_measured", "read_readings", "report",
]  # fmt: skip
