"""Shared by views: what stands in the column beside the rig, arrows end to end to one stated scale."""

from ..forces import Force, bar_length
from ..glyphs import notes
from ..labels import Spot, Wanted
from ..plate import Plate
from ..scene import Run
from ..words import plain, width

# Of the room draw.py keeps beside the rig: the middle of its column from the rig's right edge.
AWAY, APART = 132.0, 64.0
SHAFT, SMALL = 4.4, 14.0
MOST_RATIO = 8
LAYER = "column"


def middle(plate: Plate) -> tuple[float, float]:
    """The middle of the column (px)."""
    _, top, right, bottom = plate.rig_box()
    return right + AWAY, (top + bottom) / 2


def stack(plate: Plate, x: float, foot: float, forces: list[Force], scale: float, side: int) -> list[Wanted]:
    """Arrows end to end from the level `foot` upward: those up first, from it; those down from their own top.

    `side` 1 puts the labels at the right, -1 at the left. Returns the labels.
    """
    labels = []
    level = foot
    plate.sheet.layer = LAYER
    for force in forces if forces and forces[0].up else forces[::-1]:
        length = _length(force, scale)
        tail, tip = (level, level - length) if force.up else (level - length, level)
        level -= length
        gap = 2.0 if length > 8 else 0.6
        role = "force" if force.strand or force.part == "hand" else "weight"
        ends = (tail, tip + gap) if force.up else (tail + gap * 0, tip - gap)
        notes.arrow(plate, force.part, x, ends[0], ends[1], role, SHAFT if length > 20 else 3.1)
        labels.append(_label(force, x, (tail + tip) / 2, length, side))
    return labels


def _length(force: Force, scale: float) -> float:
    return abs(float(force.number)) * scale if force.number is not None else scale


def _label(force: Force, x: float, y: float, length: float, side: int) -> Wanted:
    size = 17.0
    role = "red-text" if force.strand or force.part == "hand" else "ink-text"
    anchor = "start" if side > 0 else "end"
    drops = (0.0, 9.0, -9.0, 20.0, -20.0, 32.0, -32.0, 46.0, -46.0)
    spots = [Spot(x + side * 14, y + d + 5.5, anchor, 0.1 * n) for n, d in enumerate(drops)]
    spots += [
        Spot(x - side * 14, y + d + 5.5, "end" if side > 0 else "start", 1 + 0.1 * n) for n, d in enumerate(drops)
    ]
    return Wanted(force.part, role, force.words, size, 600, spots, beside=True)


def levels(plate: Plate, x: float, across: float, ys: tuple[float, float]) -> None:
    """Two level lines that the stacks stand between."""
    plate.sheet.layer = LAYER
    for y in ys:
        plate.sheet.line("scale", "level", x - across / 2, y, x + across / 2, y)
        plate.claim(x - across / 2, y - 1, x + across / 2, y + 1)


def write_scale(plate: Plate, x: float, y: float, scale: float, forces: list[Force]) -> None:
    """The scale bar, centred at x; beside it a note where the longest arrow is over eight times the shortest."""
    plate.scale = scale
    plate.sheet.layer = LAYER
    length, words = bar_length(plate, scale)
    runs = plain(words)
    whole = length + 6 + width(runs, notes.scale_text(plate))
    notes.scale_bar(plate, x - whole / 2, y, length, runs)
    sizes = [abs(force.number) for force in forces if force.number]
    if plate.large == 1 and sizes and max(sizes) > MOST_RATIO * min(sizes):
        note: tuple[Run, ...] = (Run("all arrows to this scale"),)
        plate.sheet.text("scale", "mid-text", x, y + 22, note, 12.0, 400, "middle")
        plate.claim(x - width(note, 12.0) / 2, y + 12, x + width(note, 12.0) / 2, y + 25)
