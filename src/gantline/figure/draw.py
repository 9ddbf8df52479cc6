"""One figure of a rig: which view, which parts in ink, and the frame round it."""

from typing import Literal

from gantline.mechanics import Answer
from gantline.rig import Rig

from .alt import describe
from .layout import Layout, lay_out
from .plate import Box, Plate
from .scene import Panel, Scene
from .views import VIEWS
from .words import width, wrapped

MARGIN = 20.0
CAPTION_SIZE, CAPTION_DROP, CAPTION_LEADING, CAPTION_FOOT = 15.5, 32.0, 20.0, 14.0
CAPTION_EDGE, CAPTION_WIDEST = 8.0, 420.0
COLUMN = 176.0  # what stands beside the rig in the steps of a lesson, px
REACH = 4.1  # radii kept free in the way of the hand in the steps of a lesson
SIDE = 64.0  # px kept free at the left in the steps of a lesson, for the way of the load

Frame = Literal["tight", "steps"]


def draw(
    rig: Rig,
    answer: Answer,
    view: str = "bare",
    *,
    layout: Layout | None = None,
    lit: tuple[str, ...] | None = None,
    marks: tuple[tuple[str, str], ...] = (),
    struck: tuple[str, ...] = (),
    caption: bool = True,
    frame: Frame | Box | None = None,
    way: str | None = None,
    hand: float | None = None,
    large: float = 1.0,
    earlier: tuple[Rig, Answer] | None = None,
) -> Scene:
    """A view of a rig.

    `lit` are the part ids in ink, the rest is pencil (None: all ink); `marks` are (part id, text) to stand beside
    parts; `struck` are parts crossed out. `frame`: "tight" round what is drawn, or "steps", which is the same for all
    views of one rig, so that the rig never moves from step to step, or a box (px) for words to stay in (None: as the
    view has it). `way` is the regime a
    view of pulls shows, `hand` the rope taken up (m) in a view of what is tried. `large` is the size of what is
    written, against the common one, where the plate is seen from afar: words then break the ropes they stand on.
    `earlier` is the same machine before a value was tried: the length of its forces stays as a tick. Raises
    ValueError for an unknown view or part id, NotDrawable where the rig or view has none.
    """
    if view not in VIEWS:
        raise ValueError(f"no view is named {view}; there are {', '.join(VIEWS)}")
    known = part_ids(rig)
    for name in (*(lit or ()), *(part for part, _ in marks), *struck):
        if name not in known:
            raise ValueError(f"no part is named {name}; there are {', '.join(sorted(known))}")
    layout = layout or lay_out(rig, answer)
    plate = Plate(rig, answer, layout, None if lit is None else frozenset(lit), marks, struck, large)
    plate.earlier = Plate(*earlier, layout) if earlier else None
    shown = VIEWS[view]
    if isinstance(frame, tuple):
        plate.frame = frame
    elif (frame or shown.frame) == "steps":
        plate.frame = steps_box(plate)
    more: dict[str, str | float | None] = {"way": way, "hand": hand}
    shown.draw(plate, **{shown.takes: more[shown.takes]} if shown.takes else {})
    box = plate.frame if plate.frame and not plate.panels else _tight_box(plate)
    bottom = box[3]
    if caption and plate.caption:
        box = box if plate.frame and not plate.panels else _widened(plate, box)
        bottom = _write_caption(plate, box)
    return Scene(
        view, box[0], box[1], box[2] - box[0], bottom - box[1], rig.title or "A rope-and-pulley rig",
        describe(rig, answer, view), tuple(plate.sheet.marks), tuple(plate.panels), plate.scale,
    )  # fmt: skip


def part_ids(rig: Rig) -> frozenset[str]:
    """Every id a part of the figure can be called by."""
    names = {part.name for part in rig.parts} | {rope.name for rope in rig.ropes}
    names |= {strand.name for strand in rig.strands} | {"hand", "beam"}
    return frozenset(names | {sheave.name for part in rig.parts for sheave in getattr(part, "sheaves", ())})


def _tight_box(plate: Plate) -> Box:
    boxes = [plate.rig_box() if not plate.panels else _panels_box(plate.panels), *plate.room]
    return (
        min(box[0] for box in boxes) - MARGIN, min(box[1] for box in boxes) - MARGIN,
        max(box[2] for box in boxes) + MARGIN, max(box[3] for box in boxes) + MARGIN,
    )  # fmt: skip


def _panels_box(panels: list[Panel]) -> Box:
    return panels[0].x, 0.0, panels[-1].x + panels[-1].width, 0.0


def steps_box(plate: Plate) -> Box:
    """A frame that depends on the layout alone: room for the hand's way, for dimensions, and a column at the right."""
    left, top, right, bottom = plate.rig_box()
    grip = plate.layout.grip
    if grip:
        _, y = plate.sheet.at(grip.x, grip.y)
        top, bottom = (min(top, y - REACH * 30), bottom) if grip.up else (top, max(bottom, y + REACH * 30))
    return left - SIDE, top - MARGIN, right + SIDE + COLUMN, bottom + MARGIN + 6


def _write_caption(plate: Plate, box: Box) -> float:
    """Below the figure, in as many lines as it needs. Returns where the figure ends."""
    middle, room = (box[0] + box[2]) / 2, box[2] - box[0] - 2 * CAPTION_EDGE
    plate.sheet.layer = "caption"
    lines = wrapped(plate.caption, CAPTION_SIZE, room)
    first = box[3] - MARGIN + CAPTION_DROP
    for number, line in enumerate(lines):
        y = first + number * CAPTION_LEADING
        plate.sheet.text("caption", "ink-text", middle, y, line, CAPTION_SIZE, 400, "middle")
    return first + (len(lines) - 1) * CAPTION_LEADING + CAPTION_FOOT


def _widened(plate: Plate, box: Box) -> Box:
    """A tight frame wide enough for its caption, within reason."""
    short = min(width(plate.caption, CAPTION_SIZE), CAPTION_WIDEST) + 2 * CAPTION_EDGE - (box[2] - box[0])
    return (box[0] - short / 2, box[1], box[2] + short / 2, box[3]) if short > 0 else box
