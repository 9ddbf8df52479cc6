"""The commands: one file each, listed here. A command has HELP, EXAMPLES, `add` (its arguments) and `run`."""

from types import ModuleType

from . import draw, explain, lesson, shelf, solve, tidy

COMMANDS: dict[str, ModuleType] = {
    "solve": solve,
    "explain": explain,
    "draw": draw,
    "lesson": lesson,
    "shelf": shelf,
    "tidy": tidy,
}
