"""The one way to a layout: take apart, find heights, find places across, put together."""

from gantline.mechanics import Answer
from gantline.rig import Rig

from .across import Loosened
from .comb import evaluate
from .frame import Frame, Piece, take_apart
from .heights import Heights, depth, heights
from .plan import Body, Fast, Grip, Layout, NotDrawable, Straight, Wheel
from .search import Placed, place
from .sizes import EYE, HAND_BELOW, HAND_HIGH, HAND_LEFT, HAND_RIGHT, HAND_SHORT, LOAD_HALF, OVERHANG, SPREAD

STRANDS_AT_MOST = 48  # for several ropes; a rig of one rope has a closed form and no such limit

# What is given up, in turn, where nothing fits: stretch of clear rope, hand's distance, and the conditions across.
ATTEMPTS = (
    (1.0, HAND_BELOW, Loosened()),
    (1.0, HAND_SHORT, Loosened()),
    (1.0, HAND_BELOW, Loosened(hand_inside=True)),
    (3.0, HAND_BELOW, Loosened(hand_inside=True, spread=2 * SPREAD)),
    (1.0, HAND_BELOW, Loosened(hand_inside=True, off_balance=True)),
    (3.0, HAND_BELOW, Loosened(hand_inside=True, off_balance=True, spread=2 * SPREAD)),
)


def lay_out(rig: Rig, answer: Answer) -> Layout:
    """Where everything of a rig stands. The answer's ideal pulls only weigh the moment rule: every bar hangs level.

    Raises NotDrawable where no figure with plumb ropes and without crossings is found.
    """
    frame = take_apart(rig, answer)
    if len(rig.ropes) > 1 and len(frame.strands) > STRANDS_AT_MOST:
        raise NotDrawable(
            f"With several ropes a figure is drawn up to {STRANDS_AT_MOST} strands; this rig has {len(frame.strands)}."
        )
    for stretch, hand_below, loose in ATTEMPTS:
        found = _attempt(frame, stretch, hand_below, loose)
        if found:
            return _assemble(frame, *found, loose)
    raise NotDrawable(
        "No figure was found in which every rope hangs plumb and passes clear of everything it does not touch.",
        tuple(piece.name for piece in frame.pieces if piece.side == "moving"),
    )


def _attempt(frame: Frame, stretch: float, hand_below: float, loose: Loosened) -> tuple[Heights, Placed] | None:
    """Heights for the wheels' sizes and sizes for the heights, until they agree."""
    radii = [1.0] * len(frame.turns)
    for _ in range(4):
        up = heights(frame, radii, stretch, hand_below)
        placed = place(frame, up, loose)
        if placed is None:
            return None
        found = [evaluate(radius, placed.values) for radius in placed.made.radius]
        if all(new <= old + 1e-6 for new, old in zip(found, radii, strict=True)):
            return up, placed
        radii = [max(new, old) for new, old in zip(found, radii, strict=True)]
    return None


def _assemble(frame: Frame, up: Heights, placed: Placed, loose: Loosened) -> Layout:
    at = placed.values
    strand = [evaluate(x, at) for x in placed.made.strand]
    wheels = tuple(_wheels(frame, up, placed))
    runs = tuple(_runs(frame, up, wheels, strand))
    ends, grip = _ends(frame, up, strand)
    bodies = tuple(_body(frame, up, placed, number, loose) for number in range(len(frame.pieces)))
    left = min((*(min(r.x1, r.x2) for r in runs), *(w.x - w.r for w in wheels), *(b.left for b in bodies)))
    right = max((*(max(r.x1, r.x2) for r in runs), *(w.x + w.r for w in wheels), *(b.right for b in bodies)))
    bottom = max((*(w.y + w.r for w in wheels), *(run.low for run in runs)))
    for body, piece in zip(bodies, frame.pieces, strict=True):
        bottom = max(bottom, body.y + depth(piece))
        if piece.loads:
            left, right = min(left, body.x - LOAD_HALF), max(right, body.x + LOAD_HALF)
    if grip:
        left, right = min(left, grip.x - HAND_LEFT), max(right, grip.x + HAND_RIGHT)
        bottom = max(bottom, grip.y + HAND_HIGH)
    bottom = max(bottom, (up.floor or 0.0) + 0.45)
    anchored = [
        body.x for body, piece in zip(bodies, frame.pieces, strict=True) if body.side != "moving" and piece.turns
    ]
    anchored += [end.x for end, piece in ((e, frame.pieces[_number(frame, e.body)]) for e in ends) if piece.bare_anchor]
    left = min([left, *(x - OVERHANG for x in anchored)])
    right = max([right, *(x + OVERHANG for x in anchored)])
    top = -0.45 if any(body.side == "ceiling" for body in bodies) else min(_tops(bodies, wheels, grip)) - 0.2
    return Layout(bodies, wheels, runs, ends, grip, up.floor, left, top, right, bottom)


def _number(frame: Frame, body: str) -> int:
    return next(number for number, piece in enumerate(frame.pieces) if piece.name == body)


def _tops(bodies: tuple[Body, ...], wheels: tuple[Wheel, ...], grip: Grip | None) -> list[float]:
    tops = [body.y - 0.5 for body in bodies] + [wheel.y - wheel.r for wheel in wheels]
    return [*tops, grip.y - HAND_HIGH] if grip else tops


def _wheels(frame: Frame, up: Heights, placed: Placed) -> list[Wheel]:
    wheels = []
    for number, turn in enumerate(frame.turns):
        x = evaluate(placed.made.centre[number], placed.values)
        r = evaluate(placed.made.radius[number], placed.values)
        names = frame.strands[turn.before].name, frame.strands[turn.after].name
        body, rope = frame.pieces[turn.body].name, frame.rig.ropes[turn.rope].name
        y, sense = up.axles[number], placed.senses[number]
        wheels.append(Wheel(turn.sheave, turn.block, body, rope, *names, turn.up, x, y, r, sense, turn.level))
    return wheels


def _runs(frame: Frame, up: Heights, wheels: tuple[Wheel, ...], strand: list[float]) -> list[Straight]:
    runs = []
    for number, one in enumerate(frame.strands):
        top, bottom = up.points[number]
        if one.course == "level":
            first = next(w.x for w in wheels if w.after == one.name)
            second = next(w.x for w in wheels if w.before == one.name)
            places = (first, top, second, top)
        else:
            x = strand[number]
            places = (x, top, x, bottom) if one.course == "down" else (x, bottom, x, top)
        runs.append(Straight(one.rope, one.name, (one.start.name, one.end.name), *places))
    return runs


def _ends(frame: Frame, up: Heights, strand: list[float]) -> tuple[tuple[Fast, ...], Grip | None]:
    ends = []
    grip = None
    for number, piece in enumerate(frame.pieces):
        for tie in piece.ties:
            top, bottom = up.points[tie.strand]
            y, one = (bottom if tie.up else top), frame.strands[tie.strand]
            if tie.grip:
                grip = Grip(one.rope, one.name, not tie.up, strand[tie.strand], y, piece.name)
                continue
            post = not piece.bare_anchor and abs(y - up.bars[number]) > EYE + 1e-9
            ends.append(Fast(tie.part, piece.name, one.rope, one.name, tie.up, strand[tie.strand], y, post))
    if frame.grip and up.hand is not None:
        one = frame.strands[frame.grip.strand]
        grip = Grip(one.rope, one.name, not frame.grip.up, strand[frame.grip.strand], up.hand)
    return tuple(ends), grip


def _body(frame: Frame, up: Heights, placed: Placed, number: int, loose: Loosened) -> Body:
    piece: Piece = frame.pieces[number]
    left, right = (placed.values[end] for end in placed.made.bars[number])
    x = evaluate(placed.made.hook[number], placed.values)
    if not piece.bar:
        left = right = x
    level = not loose.off_balance
    side = piece.side
    return Body(
        piece.name, tuple(piece.parts), tuple(piece.loads), side, x, up.bars[number], left, right, piece.bar,
        piece.rider, level,
    )  # fmt: skip
