"""The opened-out figure beside the rig as built: sheaves on one axle, in cabinet oblique, with the same numbers."""

from typing import NamedTuple

from ..counting import in_order
from ..glyphs import hand as hand_glyph
from ..glyphs import hardware, notes
from ..glyphs import load as load_glyph
from ..glyphs import rope as rope_glyph
from ..glyphs.fixed import HATCH_HEIGHT, HATCH_PITCH
from ..glyphs.sheave import HALF_ROPE, HUB, RIM, arms
from ..layout import Body, Fast, Grip, Layout, NotDrawable
from ..layout.sizes import BAR_TO_RING
from ..plate import Plate
from ..scene import Panel
from ..sheet import UNIT
from ..words import plain
from .strands import discs

STEP = (0.80, -0.40)  # a sheave's shift along the axle, radii
THICK = (0.30, -0.15)
MOST = 3
APART, HIGH, LOW, LED, GUTTER = 5.6, 2.9, 8.5, 1.25, 2.4
CAPTION = 15.0


class Disc(NamedTuple):
    """A sheave of a built block: its centre on the page (radii) and its depth behind the front one."""

    sheave: str
    block: str
    up: bool
    x: float
    y: float
    depth: int


class Piece(NamedTuple):
    """A run of rope between two points of the built figure, and how deep it lies."""

    name: str
    rope: str
    ends: tuple[float, float, float, float]
    depth: float


def draw(plate: Plate) -> None:
    whole = plate.layout
    upper, lower = _two_blocks(plate)
    plate.draw_rig(values=False)
    numbers = {run.name: str(n) for n, run in enumerate(in_order(whole), 1)}
    discs(plate, numbers)
    start = whole.right + GUTTER
    sides = _sides(whole)
    built = _built(whole, upper, lower, start)
    pieces = _pieces(plate, built, sides)
    right = _paint(plate, whole, built, pieces, numbers, start)
    _captions(plate, whole, start, right)


def _two_blocks(plate: Plate) -> tuple[Body, Body]:
    """The fixed and the moving block, or why there is no such figure."""
    layout = plate.layout
    names = [body for body in layout.bodies if any(wheel.body == body.name for wheel in layout.wheels)]
    if len(plate.rig.ropes) != 1 or plate.rig.hand is None or plate.rig.hand.rides:
        raise NotDrawable("The as-built figure is drawn for tackles of one rope, hauled from the ground.")
    fixed = [body for body in names if body.side == "ceiling"]
    moving = [body for body in names if body.side == "moving"]
    if len(fixed) != 1 or len(moving) != 1 or len(layout.bodies) != 2 or any(True in w.level for w in layout.wheels):
        raise NotDrawable("The as-built figure is drawn for one fixed and one moving block, and nothing between.")
    most = max(sum(wheel.body == body.name for wheel in layout.wheels) for body in (*fixed, *moving))
    if most > MOST:
        raise NotDrawable(f"The as-built figure is drawn up to {MOST} sheaves a block; this rig has {most} in one.")
    return fixed[0], moving[0]


def _sides(whole: Layout) -> dict[str, tuple[int, int]]:
    """On which side of its wheel each strand runs, before and after: alternating, the last one leaving to the right."""
    sides: dict[str, tuple[int, int]] = {}
    side = 1
    for wheel in reversed(whole.wheels):
        sides[wheel.sheave] = (-side, side)
        side = -side
    return sides


def _built(whole: Layout, upper: Body, lower: Body, start: float) -> list[Disc]:
    found: list[Disc] = []
    middle = start + 3.2
    for body, row in ((upper, HIGH), (lower, LOW)):
        wheels = [wheel for wheel in whole.wheels if wheel.body == body.name]
        for place, wheel in enumerate(wheels):
            back = place - (len(wheels) - 1) / 2
            found.append(
                Disc(wheel.sheave, wheel.block, wheel.up, middle + back * STEP[0], row + back * STEP[1], place)
            )
    return found


def _pieces(plate: Plate, built: list[Disc], sides: dict[str, tuple[int, int]]) -> list[Piece]:
    """Every strand from tangent point to tangent point: a strand leans by the true lead between the two sheaves."""
    whole = plate.layout
    discs_by = {disc.sheave: disc for disc in built}
    found = []
    for run in whole.runs:
        places = []
        depths = []
        for number, name in enumerate(run.ends):
            disc = discs_by.get(name)
            if disc:
                side = sides[name][1 - number]
                places.append((disc.x + side + THICK[0] / 2, disc.y + THICK[1] / 2))
                depths.append(disc.depth + 0.15)
            else:
                places.append((0.0, 0.0))
                depths.append(-1.0)
        for number, name in enumerate(run.ends):
            if name not in discs_by:
                places[number] = _loose_end(plate, built, name, places[1 - number])
                depths[number] = depths[1 - number]
        found.append(Piece(run.name, run.rope, (*places[0], *places[1]), max(depths) + 0.4 * (depths[0] != depths[1])))
    return found


def _loose_end(plate: Plate, built: list[Disc], name: str, other: tuple[float, float]) -> tuple[float, float]:
    """The hand is led outward; an end made fast hangs on a tail post at the middle of its block's axle."""
    grip = plate.layout.grip
    if name == "hand" and grip:
        reach = 4.4
        return (other[0] + LED, max(other[1] - reach, 1.7)) if grip.up else (other[0] + LED, other[1] + reach + 0.9)
    body = plate.layout.body(name)
    block = [disc for disc in built if disc.block in body.parts]
    x = sum(disc.x for disc in block) / len(block) + THICK[0] / 2
    row = sum(disc.y for disc in block) / len(block)
    return (x, row + 1.75) if body.side == "ceiling" else (x, row - 1.75)


def _paint(
    plate: Plate, whole: Layout, built: list[Disc], pieces: list[Piece], numbers: dict[str, str], start: float
) -> float:
    """Back to front by depth; then the discs, on one shelf. Returns the right edge (radii)."""
    sheet = plate.sheet
    middle = start + 3.2 + THICK[0] / 2
    sheet.layer = "built"
    jobs: list[tuple[float, int, object]] = []
    for disc in built:
        jobs += [(disc.depth + 0.30, 0, disc), (disc.depth + 0.14, 2, disc), (float(disc.depth), 3, disc)]
    jobs += [(piece.depth, 1, piece) for piece in pieces]
    _ground(plate, middle)
    _frames(plate, whole, built, middle, back=True)
    for end in whole.ends:
        _tail_post(plate, end, built, pieces)
    for _, kind, thing in sorted(jobs, key=lambda job: (-job[0], job[1])):
        if isinstance(thing, Piece):
            sheet.strand(thing.rope, thing.name, (*sheet.at(*thing.ends[:2]), *sheet.at(*thing.ends[2:])), 0)
        elif isinstance(thing, Disc):
            _draw_disc(plate, thing, kind)
    for end in whole.ends:
        _tail_eye(plate, end, pieces)
    _frames(plate, whole, built, middle, back=False)
    right = _hand_and_load(plate, whole, built, pieces, middle)
    _number(plate, pieces, numbers)
    return right


def _draw_disc(plate: Plate, disc: Disc, kind: int) -> None:
    sheet = plate.sheet
    radius = UNIT - HALF_ROPE
    x, y = sheet.at(disc.x, disc.y)
    back = sheet.at(disc.x + THICK[0], disc.y + THICK[1])
    if kind == 0:
        sheet.circle(disc.block, "wheel", *back, radius)
    elif kind == 2:
        groove = sheet.at(disc.x + THICK[0] / 2, disc.y + THICK[1] / 2)
        rope = plate.layout.runs[0].rope
        sheet.circle(disc.block, "wheel", *groove, radius - 2)
        sheet.sheave = disc.sheave
        sheet.wrap(rope, rope, *groove, UNIT, (180.0, 0.0) if disc.up else (180.0, 360.0), 0)
        sheet.sheave = ""
    else:
        sheet.circle(disc.block, "wheel", x, y, radius)
        sheet.circle(disc.block, "fine", x, y, radius - RIM)
        sheet.path(disc.block, "spokes", arms(round(radius - RIM, 2)), x, y)
        sheet.circle(disc.block, "wheel", x, y, HUB)


def _frames(plate: Plate, whole: Layout, built: list[Disc], middle: float, back: bool) -> None:
    """The straps before and behind the sheaves, and the bar over them that leans with the axle."""
    sheet = plate.sheet
    for body in whole.bodies:
        block = sorted((disc for disc in built if disc.block in body.parts), key=lambda disc: disc.depth)
        if not block:
            continue
        reach = 1.5 if block[0].up else -1.5
        front, rear = block[0], block[-1]
        x1, y1 = front.x - THICK[0] * 0.6, front.y - THICK[1] * 0.6
        x2, y2 = rear.x + THICK[0] * 1.7, rear.y + THICK[1] * 1.7
        end = (x2, y2) if back else (x1, y1)
        (px, py), (_, bar) = sheet.at(*end), sheet.at(0, end[1] + reach)
        tip = -9 if reach > 0 else 9
        sheet.path(
            body.name,
            "metal",
            f"M{px - 5:.1f} {bar:.1f}L{px - 5.6:.1f} {py:.1f}Q{px - 5:.1f} {py + tip * 0.7:.1f} {px:.1f} {py + tip:.1f}"
            f"Q{px + 5:.1f} {py + tip * 0.7:.1f} {px + 5.6:.1f} {py:.1f}L{px + 5:.1f} {bar:.1f}Z",
        )
        if back:
            continue
        sheet.circle(body.name, "metal", px, py, 3.6)
        sheet.circle(body.name, "dot", px, py, 1.1)
        a, b = sheet.at(x1, y1 + reach), sheet.at(x2, y2 + reach)
        d = f"M{a[0]:.1f} {a[1]:.1f}L{b[0]:.1f} {b[1]:.1f}"
        sheet.path(body.name, "beam-case", d)
        sheet.path(body.name, "beam", d)
        hook = sheet.at(middle, (y1 + y2) / 2 + reach)
        if body.side == "ceiling":
            sheet.line(body.name, "rod-case", hook[0], hook[1] - 5, hook[0], sheet.at(0, 0.9)[1])
            hardware.ring(sheet, body.name, hook[0], sheet.at(0, 0.42)[1], False)
            hardware.plate(sheet, body.name, hook[0], sheet.at(0, 0)[1], 1, False)
            hardware.short_hook(sheet, body.name, hook[0], sheet.at(0, 1.05)[1], -1, False)


def _tail_post(plate: Plate, end: Fast, built: list[Disc], pieces: list[Piece]) -> None:
    piece = next(piece for piece in pieces if piece.name == end.strand)
    x, y = _end_of(plate, end, piece)
    block = [disc for disc in built if disc.block in plate.layout.body(end.body).parts]
    row = sum(disc.y for disc in block) / len(block)
    foot = plate.sheet.at(0, row + (-1.5 if y > row else 1.5))[1]
    px, py = plate.sheet.at(x, y)
    hardware.post(plate.sheet, end.part, px, foot, py, False)


def _tail_eye(plate: Plate, end: Fast, pieces: list[Piece]) -> None:
    piece = next(piece for piece in pieces if piece.name == end.strand)
    x, y = _end_of(plate, end, piece)
    rope_glyph.draw_end(plate.sheet, Fast(end.part, end.body, end.rope, end.strand, end.up, x, y, True), 0, (end.part,))


def _end_of(plate: Plate, end: Fast, piece: Piece) -> tuple[float, float]:
    run = plate.layout.run(end.strand)
    first = run.ends[0] == end.part
    return (piece.ends[0], piece.ends[1]) if first else (piece.ends[2], piece.ends[3])


def _ground(plate: Plate, middle: float) -> None:
    (left, y), (right, _) = plate.sheet.at(middle - 1.4, 0), plate.sheet.at(middle + 1.4, 0)
    count = int((right - left) / HATCH_PITCH)
    strokes = "".join(
        f"M{left + n * HATCH_PITCH:.1f} {y:.1f}l{min(HATCH_HEIGHT, right - left - n * HATCH_PITCH):.1f} "
        f"{-min(HATCH_HEIGHT, right - left - n * HATCH_PITCH):.1f}"
        for n in range(count)
    )
    plate.sheet.path("beam", "hair", strokes)
    plate.sheet.line("beam", "shade", left, y, right, y)
    plate.claim(left, y - HATCH_HEIGHT, right, y)


def _hand_and_load(plate: Plate, whole: Layout, built: list[Disc], pieces: list[Piece], middle: float) -> float:
    sheet = plate.sheet
    lower = next(body for body in whole.bodies if body.side == "moving")
    block = [disc for disc in built if disc.block in lower.parts]
    row = sum(disc.y for disc in block) / len(block) + 1.5
    x, y = sheet.at(middle, row)
    hardware.hook(sheet, lower.name, x, y + 3, False, 4.0)
    stand_in = Body(lower.name, lower.parts, lower.loads, "moving", middle, row + 0.06, middle, middle, True)
    load_glyph.draw(sheet, whole, stand_in, plate.labels(False))
    right, bottom = middle + 1.4, row + BAR_TO_RING + 2.2
    grip = whole.grip
    if grip:
        piece = next(piece for piece in pieces if piece.name == grip.strand)
        at_start = whole.run(grip.strand).ends[0] == "hand"
        gx, gy = piece.ends[:2] if at_start else piece.ends[2:]
        held = Grip(grip.rope, grip.strand, grip.up, gx, gy)
        rope_glyph.draw_tail(sheet, held, 0)
        hand_glyph.draw(sheet, held)
        right = max(right, gx + 1.75)
    xs = [x for piece in pieces for x in (piece.ends[0], piece.ends[2])]
    left = min([disc.x - 1.1 for disc in built] + xs)
    plate.claim(*sheet.at(left, 0), *sheet.at(right, bottom))
    plate.room.pop()
    plate.room.append((*sheet.at(left, 0), sheet.at(left, 0)[0], sheet.at(left, 0)[1]))
    plate.room.append((*sheet.at(right, bottom), *sheet.at(right, bottom)))
    return right


def _number(plate: Plate, pieces: list[Piece], numbers: dict[str, str]) -> None:
    """All numbers at one height, between the blocks; moved apart where two would touch."""
    middle, least = (HIGH + LOW) / 2, 2 * notes.DISC / UNIT + 0.12
    placed: list[tuple[float, float]] = []
    plate.sheet.layer = "disc"
    for piece in sorted(pieces, key=lambda one: one.ends[0] + one.ends[2]):
        for step in (0.0, -0.75, 0.75, -1.4, 1.4, -2.0, 2.0):
            x, y = _along(piece, middle + step)
            if all((x - px) ** 2 + (y - py) ** 2 >= least**2 for px, py in placed):
                break
        placed.append((x, y))
        notes.disc(plate, piece.rope, *plate.sheet.at(x, y), numbers[piece.name])


def _along(piece: Piece, y: float) -> tuple[float, float]:
    """The point of a leaning strand at this height, kept off its ends."""
    x1, y1, x2, y2 = piece.ends
    share = min(max((y - y1) / (y2 - y1) if y2 != y1 else 0.5, 0.2), 0.8)
    return x1 + share * (x2 - x1), y1 + share * (y2 - y1)


def _captions(plate: Plate, whole: Layout, start: float, right: float) -> None:
    at = plate.sheet.at
    low = max([at(0, whole.bottom)[1], *(box[3] for box in plate.room)]) + 34
    left, middle = at(whole.left, 0)[0], at(whole.right, 0)[0]
    plate.sheet.layer = "caption"
    words = (plain("Opened out"), plain("As built: strands lean by their true lead"))
    plate.sheet.text("caption", "ink-text", (left + middle) / 2, low, words[0], CAPTION, 400, "middle")
    far = at(right, 0)[0]
    near = at(start, 0)[0]
    plate.sheet.text("caption", "ink-text", (near + far) / 2, low, words[1], CAPTION, 400, "middle")
    plate.claim(left, low, left, low + 6)
    plate.claim((near + far) / 2 + 140, low, (near + far) / 2 + 140, low + 6)
    plate.panels.append(Panel("opened out", left, middle - left, "Opened out"))
    plate.panels.append(Panel("as built", near, far - near, "As built"))
