"""Load and pull side by side, to one scale."""

from gantline.rig import Load

from ..forces import Force, weights_on
from ..labels import Wanted
from ..plate import Plate
from ..words import plain, symbol
from .column import APART, levels, middle, stack, write_scale
from .strands import hand_line, write_on_strands

TALLEST = 210.0


def draw(plate: Plate) -> None:
    plate.draw_rig()
    loads = _loads(plate)
    effort = plate.answer.ideal.effort
    pull = Force("hand", symbol(plate.rig.effort_symbol), effort.number if effort else None, hand_line(plate) is None)
    labels: list[Wanted] = []
    sizes = [abs(float(force.number)) for force in (*loads, pull) if force.number]
    if loads and len(sizes) == len(loads) + 1:
        labels = _side_by_side(plate, loads, pull)
    write_on_strands(plate, {}, extra=labels)
    plate.caption = plain(
        "What is raised, and what raises it, to one scale" if labels else "What is raised, and what raises it"
    )


def _loads(plate: Plate) -> list[Force]:
    aim = plate.rig.aim
    names = [part.name for part in plate.rig.parts if isinstance(part, Load) and aim in (None, part.name)]
    bodies = [body for body in plate.layout.bodies if any(name in body.parts for name in names)]
    return [force for body in bodies for force in weights_on(plate, body) if force.part in names]


def _side_by_side(plate: Plate, loads: list[Force], pull: Force) -> list[Wanted]:
    x, y = middle(plate)
    plate.sheet.layer = "force"
    total = sum(abs(float(force.number or 0)) for force in loads)
    _, top, _, bottom = plate.rig_box()
    scale = min(TALLEST, 0.62 * (bottom - top)) / max(total, abs(float(pull.number or 0)))
    foot = y + max(total, abs(float(pull.number or 0))) * scale / 2
    levels(plate, x, APART + 44, (foot, foot))
    pull = Force(pull.part, pull.words, pull.number, False)
    labels = stack(plate, x - APART / 2, foot, loads, scale, -1)
    labels += stack(plate, x + APART / 2, foot, [pull], scale, 1)
    write_scale(plate, x, foot + 34 * plate.large, scale, [*loads, pull])
    return labels
