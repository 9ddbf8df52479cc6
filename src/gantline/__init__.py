"""Gantline: rope-and-pulley machines, from a few words to a lesson.

    import gantline

    rig, problems = gantline.load("planter.rig")
    solved = gantline.solve(rig)
    solved.answer.ideal.effort          # exact, with its formula

Everything here is fetched when it is first asked for, so that importing costs next to nothing.
"""

import sys
from types import ModuleType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .api import Measurement as Measurement
    from .api import Plate as Plate
    from .api import Solved as Solved
    from .api import Tried as Tried
    from .api import bench as bench
    from .api import draw as draw
    from .api import explain as explain
    from .api import film as film
    from .api import lesson as lesson
    from .api import load as load
    from .api import measure as measure
    from .api import read as read
    from .api import read_kit as read_kit
    from .api import rehearsal as rehearsal
    from .api import solve as solve
    from .api import tidy as tidy
    from .api import trial as trial

__all__ = [
    "Measurement", "Plate", "Solved", "Tried", "bench", "draw", "explain", "film", "lesson", "load", "measure", "read",
    "read_kit", "rehearsal", "solve", "tidy", "trial",
]  # fmt: skip


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module 'gantline' has no attribute {name!r}")
    from . import api

    return getattr(api, name)


def __dir__() -> list[str]:
    return __all__


class _Door(ModuleType):
    def __setattr__(self, name: str, value: object) -> None:
        """A folder of a function's name (`lesson`, `film`), once it is loaded, never stands in its place."""
        if not (name in __all__ and isinstance(value, ModuleType)):
            super().__setattr__(name, value)


sys.modules[__name__].__class__ = _Door
