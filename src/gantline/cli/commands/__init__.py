"""The commands: one file each, listed here. A command has HELP, EXAMPLES, `add` (its arguments) and `run`."""

from types import ModuleType

from . import bench, draw, explain, film, lesson, loft, measure, rehearse, shelf, solve, tidy, trial

COMMANDS: dict[str, ModuleType] = {
    "solve": solve,
    "explain": explain,
    "draw": draw,
    "lesson": lesson,
    "rehearse": rehearse,
    "film": film,
    "loft": loft,
    "bench": bench,
    "trial": trial,
    "measure": measure,
    "shelf": shelf,
    "tidy": tidy,
}
