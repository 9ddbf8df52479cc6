"""The cut free body: arrows at the strands that cross, and the same arrows stacked beside the weights, to one scale."""

from msgspec.structs import replace

from ..counting import held_body
from ..cutting import Bag
from ..forces import Force, pulls_on, weights_on
from ..glyphs import notes
from ..labels import Wanted, around, clear
from ..layout import Body
from ..plate import Plate
from ..words import plain
from .column import APART, levels, middle, stack, write_scale
from .strands import write_on_strands

TALLEST, LONGEST, EQUAL = 236.0, 62.0, 40.0


def draw(plate: Plate) -> None:
    body = held_body(plate)
    bag = Bag(plate, body)
    plate.sheet.layer = "bag"
    bag.tint()
    plate.draw_rig(values=False)
    bag.draw()
    regime = plate.answer.regime("holding") or plate.answer.ideal
    forces = [*pulls_on(plate, body, regime), *weights_on(plate, body)]
    if not known(forces):
        forces = [replace(force, number=None) for force in forces]  # a letter each, and no scale
    scale = scale_for(plate, body, bag, forces)
    plate.sheet.layer = "force"
    labels = at_strands(plate, bag, forces, scale)
    labels += stacks(plate, forces, scale)
    write_on_strands(plate, {}, extra=labels)
    plate.caption = plain(
        "What pulls up and what pulls down, to one scale" if known(forces) else "What pulls up, what pulls down"
    )


def known(forces: list[Force]) -> bool:
    return all(force.number is not None and force.number >= 0 for force in forces)


def scale_for(plate: Plate, body: Body, bag: Bag, forces: list[Force]) -> float:
    """px a newton: the stacks fit the column, the longest pull fits between bag and what is above it."""
    if not known(forces):
        return EQUAL
    up = sum(float(force.number or 0) for force in forces if force.up)
    down = sum(float(force.number or 0) for force in forces if not force.up)
    _, top, _, bottom = plate.rig_box()
    scale = min(TALLEST, 0.62 * (bottom - top)) / max(up, down, 1e-9)
    spaces = room(plate, bag)
    return min([scale, *(spaces[f.strand] / float(f.number) for f in forces if f.strand in spaces and f.number)])


def room(plate: Plate, bag: Bag) -> dict[str, float]:
    """The clear height (px) between the bag and the next thing along each strand that crosses it."""
    found = {}
    for crossing in bag.crossings:
        top, bottom = (plate.sheet.at(0, y)[1] for y in clear(plate.layout, crossing.run))
        space = (bag.top - top if crossing.up else bottom - bag.bottom) + 14
        found[crossing.run.name] = min(max(space, 24.0), LONGEST)
    return found


def at_strands(plate: Plate, bag: Bag, forces: list[Force], scale: float) -> list[Wanted]:
    """An arrow on each crossing strand, from the line of the bag outward."""
    wanted = []
    for force in forces:
        crossing = next((one for one in bag.crossings if one.run.name == force.strand), None)
        if crossing is None:
            continue
        x = plate.sheet.at(crossing.run.x1, 0)[0]
        sense = -1 if force.up else 1
        start = (bag.top if force.up else bag.bottom) + sense * 5
        length = abs(float(force.number)) * scale if force.number is not None else scale
        notes.arrow(plate, force.part, x, start, start + sense * length, "force", 4.4 if length > 20 else 3.1)
        box = (x - 7, min(start, start + sense * length), x + 7, max(start, start + sense * length))
        wanted.append(Wanted(force.part, "red-text", force.words, 17.0, 600, around(box, 17.0)))
    return wanted


def stacks(plate: Plate, forces: list[Force], scale: float) -> list[Wanted]:
    """Pulls up in one stack, all that pulls down in the other, between two level lines."""
    x, y = middle(plate)
    up = [force for force in forces if force.up]
    down = [force for force in forces if not force.up]
    if known(forces):
        tall = max(sum(float(f.number or 0) for f in side) for side in (up, down)) * scale
    else:
        tall = len(up) * scale
        share = tall / max(len(down), 1)
        down = [Force(f.part, f.words, None, False, f.strand) for f in down]
        return _drawn(plate, x, y + tall / 2, up, down, (scale, share), tall)
    labels = _drawn(plate, x, y + tall / 2, up, down, (scale, scale), tall)
    write_scale(plate, x, y + tall / 2 + 34 * plate.large, scale, forces)
    return labels


def _drawn(
    plate: Plate, x: float, foot: float, up: list[Force], down: list[Force], scales: tuple[float, float], tall: float
) -> list[Wanted]:
    levels(plate, x, APART + 44, (foot - tall, foot))
    labels = stack(plate, x - APART / 2, foot, up, scales[0], -1)
    return labels + stack(plate, x + APART / 2, foot, down, scales[1], 1)
