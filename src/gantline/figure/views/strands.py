"""Shared by views: words on strands, discs on one shelf, marks beside parts, the arrow at the hand."""

import re
from fractions import Fraction

from ..counting import in_order
from ..glyphs import notes
from ..labels import Spot, Wanted, around, body_boxes, breaking_spots, clear, meet, settle, strand_spots
from ..layout import Straight
from ..plate import Box, Plate
from ..scene import Run
from ..sheet import UNIT
from ..words import mathematics, plain, symbol, width

SHELF_STEPS = (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75, 0.2, 0.8)
LEAST_SHARED = 34.0  # px of height that strands must share to stand on one shelf
APART = 2 * UNIT - 5.0  # px that words may be wide between neighbouring strands
_VALUE = re.compile(r"^([\d.]+)\s[a-zA-Z]+$")  # a number with its unit
ARROW, GAP, TAIL = 66.0, 5.0, 0.95


def strand_texts(plate: Plate, own: dict[str, str]) -> dict[str, str]:
    """What stands at each strand: the step's marks where it has any for strands, else the view's own."""
    names = {run.name for run in plate.layout.runs}
    marked = {part: text.replace("*", "") for part, text in plate.marks if part in names}
    return marked or own


def write_on_strands(
    plate: Plate, texts: dict[str, str], role: str = "ink-text", extra: list[Wanted] | None = None
) -> None:
    """Words beside strands, with the marks of other parts, all placed together."""
    texts = _fitting(plate, texts)
    named = [run for run in plate.layout.runs if run.name in texts]
    places = shelves(plate, named)
    wanted = [
        Wanted(
            run.rope,
            role,
            mathematics(texts[run.name]),
            notes.LABEL,
            500,
            spots_beside(plate, run, places[run.name][1]),
            run.name,
        )
        for run in named
    ]
    plate.sheet.layer = "label"
    settle(plate, [*wanted, *(extra or []), *part_marks(plate)])


def _fitting(plate: Plate, texts: dict[str, str]) -> dict[str, str]:
    """Where words are large, and wider than strands are apart: values without their unit."""
    if plate.large == 1:
        return texts
    size = notes.LABEL * plate.large
    if all(width(mathematics(text), size, 500) <= APART for text in texts.values()):
        return texts
    return {name: _VALUE.sub(r"\1", text) for name, text in texts.items()}


def spots_beside(plate: Plate, run: Straight, shelf: float) -> list[Spot]:
    """Beside a strand, at the height it shares with its neighbours where that is free."""
    spots = strand_spots(plate, run, notes.LABEL)
    if not run.plumb:
        return spots
    x, y = plate.sheet.at(run.x1, 0)[0], shelf + 0.25 * notes.LABEL
    if plate.large > 1:
        spots = [*breaking_spots(plate, run, y), *spots]
    return [Spot(x + 8, y, "start", -0.2), Spot(x - 8, y, "end", -0.1), *spots]


def part_marks(plate: Plate) -> list[Wanted]:
    """The marks of a step that stand beside parts other than strands."""
    strands = {run.name for run in plate.layout.runs}
    return [
        Wanted(part, "ink-text", mathematics(text), notes.LABEL, 500, _spots(plate, part))
        for part, text in plate.marks
        if part not in strands
    ]


def _spots(plate: Plate, part: str) -> list[Spot]:
    """Round a part; of what hangs from the beam also beside its hook."""
    spots = around(_box(plate, part), notes.LABEL)
    body = next((one for one in plate.layout.bodies if one.side == "ceiling" and part in one.parts), None)
    if body is None or plate.large == 1:
        return spots
    (left, y), (right, _) = plate.sheet.at(body.x - 0.5, 0.62), plate.sheet.at(body.x + 0.5, 0.62)
    return [Spot(right, y, "start", 0.15), Spot(left, y, "end", 0.16), *spots]


def _box(plate: Plate, part: str) -> Box:
    """Where a part stands, as one box in px."""
    layout, at = plate.layout, plate.sheet.at
    for wheel in layout.wheels:
        if wheel.sheave == part:
            return (*at(wheel.x - wheel.r, wheel.y - wheel.r), *at(wheel.x + wheel.r, wheel.y + wheel.r))
    if part == "hand" and layout.grip:
        return (*at(layout.grip.x - 0.6, layout.grip.y - 0.8), *at(layout.grip.x + 1.75, layout.grip.y + 0.8))
    if any(run.rope == part for run in layout.runs):
        run = next(run for run in layout.runs if run.rope == part)
        return (*at(run.x1 - 0.1, run.high), *at(run.x1 + 0.1, run.low))
    if any(part in body.parts for body in layout.bodies):
        body = layout.body(part)
        boxes = body_boxes(plate, part)
        if part in body.loads and boxes:
            return boxes[-1]
        return boxes[0] if boxes else (*at(body.x - 0.4, body.y - 0.4), *at(body.x + 0.4, body.y + 0.4))
    return (*at(layout.left, -0.5), *at(layout.right, 0.0))


def shelves(plate: Plate, runs: list[Straight]) -> dict[str, tuple[float, float]]:
    """A place on each strand, strands that share a clear stretch at one height: it reads as a count, not as scatter."""
    spans = {run.name: _span(plate, run) for run in runs}
    groups: list[tuple[float, float, list[Straight]]] = []
    for run in sorted(runs, key=lambda one: (spans[one.name][1] - spans[one.name][0], one.name)):
        low, high = spans[run.name]
        for number, (top, bottom, members) in enumerate(groups):
            if min(bottom, high) - max(top, low) >= LEAST_SHARED:
                groups[number] = (max(top, low), min(bottom, high), [*members, run])
                break
        else:
            groups.append((low, high, [run]))
    places: dict[str, tuple[float, float]] = {}
    for top, bottom, members in groups:
        y = _shelf(plate, top, bottom, members)
        places.update({run.name: (_x(plate, run), y) for run in members})
    return places


def _x(plate: Plate, run: Straight) -> float:
    return plate.sheet.at((run.x1 + run.x2) / 2, 0)[0]


def _span(plate: Plate, run: Straight) -> tuple[float, float]:
    if not run.plumb:
        y = plate.sheet.at(0, run.y1)[1]
        return y, y
    top, bottom = clear(plate.layout, run)
    return plate.sheet.at(0, top)[1], plate.sheet.at(0, bottom)[1]


def _shelf(plate: Plate, top: float, bottom: float, members: list[Straight]) -> float:
    """The first height at which no disc meets what is already there."""
    half = notes.DISC * plate.large + 2
    for share in SHELF_STEPS:
        y = top + share * (bottom - top)
        boxes = [(_x(plate, run) - half, y - half, _x(plate, run) + half, y + half) for run in members]
        if not any(meet(box, other) for box in boxes for other in plate.room):
            return y
    return (top + bottom) / 2


def discs(plate: Plate, own: dict[str, str], out: frozenset[str] = frozenset()) -> None:
    """Numbers in rings on strands; `out` are those that do not count, and what a step strikes is struck."""
    texts = strand_texts(plate, own)
    runs = [run for run in in_order(plate.layout) if run.name in texts]
    plate.sheet.layer = "disc"
    for name, (x, y) in shelves(plate, runs).items():
        rope = name.rsplit(":", 1)[0]
        notes.disc(plate, rope, x, y, texts[name], name in out or name in plate.struck)
        if name in plate.struck:
            notes.strike(plate, rope, x, y)


def hand_line(plate: Plate) -> tuple[float, float, int] | None:
    """Where an arrow at the hand begins: x, y (px), and its sense down the page."""
    grip = plate.layout.grip
    if grip is None or grip.body:
        return None
    sense = -1 if grip.up else 1
    x, y = plate.sheet.at(grip.x, grip.y + sense * TAIL)
    return x, y + sense * GAP, sense


def hand_arrow(plate: Plate, length: float = ARROW, words: tuple[Run, ...] | None = None) -> list[Wanted]:
    """The force arrow at the hand and the label it wants. No scale is claimed for it alone; where a value is tried, the
    longer of the pull and the pull before has the full length, and a tick stays where the arrow ended."""
    line = hand_line(plate)
    if line is None:
        return rider_label(plate, words)
    x, y, sense = line
    plate.sheet.layer = "force"
    now, before = _pull(plate), _pull(plate.earlier)
    was = []
    if now and before and now != before:
        most = max(now, before)
        at = y + sense * length * float(before / most)
        notes.tick(plate, "hand", x, at)
        was = [_was(plate, x, at, before)]
        length *= float(now / most)
    notes.arrow(plate, "hand", x, y, y + sense * length)
    box = (x - 5, min(y, y + sense * length), x + 5, max(y, y + sense * length))
    return [Wanted("hand", "red-text", words or symbol(plate.rig.effort_symbol), 17.0, 600, around(box, 17.0)), *was]


def _pull(plate: Plate | None) -> Fraction | None:
    """The size of the pull at the hand with wheels that lose nothing, where it has one."""
    effort = plate.answer.ideal.effort if plate and plate.answer.regimes else None
    return abs(effort.number) if effort and effort.number is not None else None


def _was(plate: Plate, x: float, y: float, before: Fraction) -> Wanted:
    words = plain(f"was {plate.amount(before, 'N')}")
    spots = [Spot(x - 16, y + 4 + by, "end", abs(by) / 40) for by in (0, 8, -8, 16)]
    spots += [Spot(x + 16, y + 4 + by, "start", 0.6 + abs(by) / 40) for by in (0, 8, -8, 16)]
    return Wanted("hand", "ink-text", words, 13.5, 400, spots)


def rider_label(plate: Plate, words: tuple[Run, ...] | None) -> list[Wanted]:
    grip = plate.layout.grip
    if grip is None:
        return []
    box = (*plate.sheet.at(grip.x - 0.5, grip.y - 0.6), *plate.sheet.at(grip.x + 0.5, grip.y + 0.6))
    return [Wanted("hand", "red-text", words or symbol(plate.rig.effort_symbol), 17.0, 600, around(box, 17.0))]
