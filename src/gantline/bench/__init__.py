"""The bench: the rig shown with real rope, planned before and measured after."""

from typing import TYPE_CHECKING, Any

from .kit import Kit
from .plan import Plan, plan
from .reading import read_kit
from .refusing import Declined
from .sheet import Sheet, Table, laws_table, sheet

if TYPE_CHECKING:
    from .measured import Limits, Measured, Readings, Report, Settings, measure, read_measured, read_readings, report


def __getattr__(name: str) -> Any:
    """Planning needs no statistics: what readings say is loaded when it is asked for."""
    if name not in __all__:
        raise AttributeError(name)
    from . import measured

    return getattr(measured, name)


__all__ = [
    "Declined", "Kit", "Limits", "Measured", "Plan", "Readings", "Report", "Settings", "Sheet", "Table",
    "laws_table", "measure", "plan", "read_kit", "read_measured", "read_readings", "report", "sheet",
]  # fmt: skip
