"""The bag round the load and its block, and the strands that cross it, counted."""

from ..counting import held_body, in_order
from ..cutting import Bag
from ..plate import Plate
from ..words import plain
from .strands import discs, hand_arrow, write_on_strands

NUMBERS = ("no strand crosses", "one strand crosses", "two strands cross", "three strands cross", "four strands cross",
           "five strands cross", "six strands cross", "seven strands cross", "eight strands cross",
           "nine strands cross", "ten strands cross")  # fmt: skip


def draw(plate: Plate) -> None:
    _draw(plate, pull=True)


def draw_count(plate: Plate) -> None:
    """The same as a step of a lesson: without the pull at the hand, and only what a step marks is numbered."""
    _draw(plate, pull=False)


def _draw(plate: Plate, pull: bool) -> None:
    bag = Bag(plate, held_body(plate))
    plate.sheet.layer = "bag"
    bag.tint()
    plate.draw_rig(values=False)
    bag.draw()
    crossing = [one.run.name for one in bag.crossings]
    rest = [run.name for run in in_order(plate.layout) if run.name not in crossing]
    hauled = plate.layout.grip.strand if plate.layout.grip else ""
    numbers = {name: str(n) for n, name in enumerate(crossing, 1)}
    numbers.update({name: str(len(crossing) + n) for n, name in enumerate([r for r in rest if r == hauled], 1)})
    discs(plate, numbers, frozenset(() if pull else rest))
    write_on_strands(plate, {}, extra=hand_arrow(plate) if pull else [])
    count = len(crossing)
    plate.caption = plain(f"The cut: {NUMBERS[count] if count < len(NUMBERS) else f'{count} strands cross'} it")
