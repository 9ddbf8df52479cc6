"""The forces on a body, with their letters and numbers, and the scale arrows are drawn to."""

from fractions import Fraction

from msgspec import Struct

from gantline.mechanics import Regime
from gantline.rig import Fixed, Load, Moving, Part, shown_unit

from .counting import crossings
from .layout import Body
from .plate import Plate
from .scene import Run
from .words import symbol


class Force(Struct, frozen=True):
    """One force on a body: `up`, its words, its size in newtons (None: unknown); `strand` where a strand pulls."""

    part: str
    words: tuple[Run, ...]
    number: Fraction | None
    up: bool
    strand: str = ""


def pulls_on(plate: Plate, body: Body, regime: Regime) -> list[Force]:
    """The pulls of the strands that leave a body."""
    letters = dict(plate.answer.tension_symbols)
    found = []
    for crossing in crossings(plate.layout, body):
        tension = regime.tension(crossing.run.name)
        number = tension.number if tension else None
        words = symbol(letters.get(crossing.run.rope, "T"))
        found.append(Force(crossing.run.rope, words, number, crossing.up, crossing.run.name))
    return found


def weights_on(plate: Plate, body: Body) -> list[Force]:
    """The weights of a body's parts, the loads first. A mass weighs mass times gravity."""
    parts = [part for part in plate.rig.parts if part.name in body.parts]
    parts.sort(key=lambda part: not isinstance(part, Load))
    return [force for part in parts if (force := _weight(plate, part))]


def _weight(plate: Plate, part: Part) -> Force | None:
    given = part.weight or part.mass
    if given is None or not isinstance(part, Load | Moving | Fixed):
        return None
    if given.kind == "mass":
        gravity = plate.rig.gravity
        both = given.number is not None and gravity.number is not None
        number = given.number * gravity.number if both else None  # type: ignore[operator]
        return Force(part.name, (*symbol(given.symbol), Run("\u2009"), *symbol(gravity.symbol)), number, False)
    return Force(part.name, symbol(given.symbol), given.number, False)


def bar_length(plate: Plate, scale: float) -> tuple[float, str]:
    """A round force for the scale bar (px, words): 1, 2 or 5 times a power of ten in the reader's unit."""
    shown = shown_unit(plate.rig, "N")
    unit = float(shown.factor) if shown else 1.0
    target = 50.0 / scale / unit
    power = 10.0 ** _floor_log(target)
    size = next((step * power for step in (5, 2, 1) if step * power <= target), power)
    return size * unit * scale, plain_number(size) + "\u00a0" + (shown.name if shown else "N")


def _floor_log(value: float) -> int:
    from math import floor, log10

    return floor(log10(value))


def plain_number(size: float) -> str:
    return f"{size:.6f}".rstrip("0").rstrip(".")
