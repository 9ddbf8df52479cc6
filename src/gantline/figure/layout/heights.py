"""Heights by longest path: every body as high as its ropes allow, every strand with clear rope in sight."""

from msgspec import Struct

from .frame import Frame, Piece
from .plan import NotDrawable
from .sizes import (
    BAR_TO_AXLE,
    BAR_TO_RING,
    BEAM_TO_BAR,
    CLEAR,
    CLEAR_MOVING,
    EYE,
    GRIP_DEPTH,
    HAND_ABOVE,
    HAND_BELOW,
    HAND_ROOF,
    LOAD_PITCH,
    load_depth,
)


class Heights(Struct):
    """`bars` is the line of each body's bar; `points` each strand's upper and lower end (y)."""

    bars: list[float]
    points: list[tuple[float, float]]
    axles: list[float]  # each turn's axle
    rows: list[tuple[float, float]]  # each body's axle offsets: of wheels with strands down, with strands up
    hand: float | None
    floor: float | None
    radii: list[float]


def heights(frame: Frame, radii: list[float], stretch: float = 1.0, hand_below: float = HAND_BELOW) -> Heights:
    """Heights for the wheels' radii. Raises NotDrawable where two bodies would hang from each other."""
    rows = _rows(frame, radii)
    upper, lower = _offsets(frame, radii, rows)
    bars = _settle(frame, upper, lower, rows, stretch)
    floor = None
    if any(piece.side == "floor" for piece in frame.pieces):
        level = max(bars[n] for n, piece in enumerate(frame.pieces) if piece.side == "floor")
        deepest = max(
            (bars[n] + depth(piece) for n, piece in enumerate(frame.pieces) if piece.side != "floor"), default=0.0
        )
        level = max(level, deepest - BEAM_TO_BAR + 0.6)
        bars = [level if piece.side == "floor" else y for piece, y in zip(frame.pieces, bars, strict=True)]
        floor = level + BEAM_TO_BAR
    axles = [bars[t.body] + rows[t.body][t.up] for t in frame.turns]
    hand = _hand(frame, axles, radii, bars, hand_below)
    points = [
        (0.0, 0.0) if strand.course == "level" else _points(upper[n], lower[n], bars, hand)
        for n, strand in enumerate(frame.strands)
    ]
    for number, turn in enumerate(frame.turns):
        top = axles[number] + (radii[number] if turn.up else -radii[number])
        for strand, level_run in zip((turn.before, turn.after), turn.level, strict=True):
            if level_run:
                points[strand] = (top, top)
    return Heights(bars, points, axles, rows, hand, floor, radii)


def depth(piece: Piece) -> float:
    """From the bar's line down to the lowest thing that hangs from it."""
    if not piece.loads:
        return 0.3
    return (0.0 if on_the_rope(piece) else BAR_TO_RING) + load_depth(len(piece.loads), piece.rider)


def on_the_rope(piece: Piece) -> bool:
    """A load tied straight to one rope's end: the bar's line is its ring."""
    return not piece.turns and len(piece.fasts) == 1 and piece.fasts[0].up


def _rows(frame: Frame, radii: list[float]) -> list[tuple[float, float]]:
    widest = [[0.0, 0.0] for _ in frame.pieces]
    for turn, radius in zip(frame.turns, radii, strict=True):
        row = widest[turn.body]
        row[turn.up] = max(row[turn.up], radius)
    roof = max((w[0] for w, p in zip(widest, frame.pieces, strict=True) if p.side == "ceiling"), default=0.0)
    ground = max((w[1] for w, p in zip(widest, frame.pieces, strict=True) if p.side == "floor"), default=0.0)
    rows = []
    for wide, piece in zip(widest, frame.pieces, strict=True):
        if piece.side == "ceiling" and wide[0]:
            wide[0] = roof
        if piece.side == "floor" and wide[1]:
            wide[1] = ground
        rows.append((wide[0] + BAR_TO_AXLE if wide[0] else EYE, -(wide[1] + BAR_TO_AXLE) if wide[1] else -EYE))
    return rows


Point = tuple[int, float, float]  # body, offset of the attachment from its bar, radius there


def _offsets(
    frame: Frame, radii: list[float], rows: list[tuple[float, float]]
) -> tuple[list[Point | None], list[Point | None]]:
    """Of each strand, what holds its upper and its lower end (None: the hand on firm ground)."""
    upper: list[Point | None] = [None] * len(frame.strands)
    lower: list[Point | None] = [None] * len(frame.strands)
    for turn, radius in zip(frame.turns, radii, strict=True):
        for strand in (turn.before, turn.after):
            (lower if turn.up else upper)[strand] = (turn.body, rows[turn.body][turn.up], radius)
    for number, piece in enumerate(frame.pieces):
        for tie in piece.ties:
            offset = rows[number][tie.up]
            if tie.grip:
                offset = GRIP_DEPTH + (0.0 if on_the_rope(piece) else BAR_TO_RING) + (len(piece.loads) - 1) * LOAD_PITCH
            elif on_the_rope(piece) or piece.bare_anchor:
                offset = 0.0 if piece.side == "moving" else (EYE - BEAM_TO_BAR) * (1 if not tie.up else -1)
            (lower if tie.up else upper)[tie.strand] = (number, offset, 0.0)
    return upper, lower


def _settle(
    frame: Frame,
    upper: list[Point | None],
    lower: list[Point | None],
    rows: list[tuple[float, float]],
    stretch: float,
) -> list[float]:
    pieces = frame.pieces
    bars = [_start(frame, n, rows[n]) for n in range(len(pieces))]
    edges = []
    for number, (above, below) in enumerate(zip(upper, lower, strict=True)):
        if above and below and frame.strands[number].course != "level":
            moving = pieces[above[0]].side == pieces[below[0]].side == "moving"
            clear = CLEAR_MOVING * stretch if moving else CLEAR
            edges.append((above[0], below[0], above[1] + above[2] + clear + below[2] - below[1]))
    edges += _level_edges(frame)
    for _ in range(len(pieces) + 2):
        moved = False
        for a, b, gap in edges:
            if pieces[b].side != "ceiling" and bars[b] < bars[a] + gap - 1e-9:
                bars[b] = bars[a] + gap
                moved = True
        if not moved:
            _check(frame, bars, edges)
            return bars
    raise NotDrawable(
        "Two parts would each have to hang below the other, so no figure with plumb ropes exists.",
        tuple(piece.name for piece in pieces if piece.side == "moving"),
    )


def _start(frame: Frame, number: int, row: tuple[float, float]) -> float:
    piece = frame.pieces[number]
    if piece.side != "ceiling":
        held = frame.grip and any(tie.strand == frame.grip.strand for tie in piece.ties)
        return HAND_ROOF + CLEAR if held else 0.0
    raised = any(turn.up for turn in piece.turns)
    return BEAM_TO_BAR + (2 * -row[1] if raised else 0.0)


def _level_edges(frame: Frame) -> list[tuple[int, int, float]]:
    """Two wheels joined by a level run stand at one height."""
    edges = []
    for first, second in zip(frame.turns, frame.turns[1:], strict=False):
        if first.level[1] and first.after == second.before and first.body != second.body:
            edges += [(first.body, second.body, 0.0), (second.body, first.body, 0.0)]
    return edges


def _check(frame: Frame, bars: list[float], edges: list[tuple[int, int, float]]) -> None:
    for a, b, gap in edges:
        if frame.pieces[b].side == "ceiling" and bars[b] < bars[a] + gap - 1e-9:
            names = (frame.pieces[a].name, frame.pieces[b].name)
            raise NotDrawable(f"A rope would have to run up from {names[0]} to the beam side of {names[1]}.", names)


def _hand(frame: Frame, axles: list[float], radii: list[float], bars: list[float], hand_below: float) -> float | None:
    grip = frame.grip
    if grip is None:
        return None
    for number, turn in enumerate(frame.turns):
        if grip.strand in (turn.before, turn.after):
            if turn.up:
                return max(axles[number] - HAND_ABOVE, HAND_ROOF)
            return axles[number] + max(hand_below, radii[number] + hand_below - 1)
    body = next(n for n, p in enumerate(frame.pieces) if any(t.strand == grip.strand for t in p.ties))
    return bars[body] + (CLEAR if grip.up else -CLEAR)


def _points(above: Point | None, below: Point | None, bars: list[float], hand: float | None) -> tuple[float, float]:
    top = bars[above[0]] + above[1] if above else hand
    bottom = bars[below[0]] + below[1] if below else hand
    assert top is not None
    assert bottom is not None
    return top, bottom
