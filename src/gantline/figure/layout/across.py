"""The conditions on places across the page, as linear inequalities in a few unknowns. No search here.

Unknowns: x of every strand that is plumb, the centre of a wheel between two level runs, the left and right end of every
bar, and the width of the whole. All else is a linear expression in them.
"""

from msgspec import Struct

from .frame import Frame, Piece, Tie, Turn
from .heights import Heights, depth, on_the_rope
from .sizes import (
    BAR_TO_RING,
    BEAM_TO_BAR,
    HAND_HIGH,
    HAND_LEFT,
    HAND_RIGHT,
    LEVEL_GAP,
    LOAD_HALF,
    SPREAD,
)

Expr = dict[int, float]  # unknown -> coefficient; -1 holds the constant

STRAND_GAP, GAP = 0.85, 0.55
BAR_PAST_WHEEL, BAR_PAST_END = 0.25, 0.45
LOAD_ROOM, RIDER_ROOM = LOAD_HALF + 0.25, LOAD_HALF + 0.35
ARM = (1.15, 4.0)  # a rider's reach


def plus(a: Expr, b: Expr, factor: float = 1.0) -> Expr:
    total = dict(a)
    for key, number in b.items():
        total[key] = total.get(key, 0.0) + factor * number
    return total


def shift(a: Expr, by: float) -> Expr:
    return plus(a, {-1: by})


class Row(Struct):
    """`low` <= sum(coefficient * unknown) <= `high`."""

    terms: Expr
    low: float
    high: float = float("inf")


class Thing(Struct):
    """Something that takes room: its extent as expressions, and the strands and bodies it belongs to."""

    kind: str
    top: float
    bottom: float
    left: Expr
    right: Expr
    strands: frozenset[int]
    body: int


class Across(Struct):
    """All conditions for one choice of senses. `cost` is to be least; `things` must keep clear of each other."""

    count: int
    rows: list[Row]
    cost: Expr
    things: list[Thing]
    strand: list[Expr]
    centre: list[Expr]
    radius: list[Expr]
    hook: list[Expr]
    bars: list[tuple[int, int]]  # unknowns of each body's extent


class Loosened(Struct, frozen=True):
    """What may be given up, in turn, where nothing fits otherwise."""

    hand_inside: bool = False
    off_balance: bool = False
    spread: float = SPREAD


def conditions(frame: Frame, up: Heights, senses: list[int], loose: Loosened) -> Across:
    """The whole model, `senses` being 1 or -1 for each wheel."""
    made = Across(0, [], {}, [], [], [], [], [], [])
    for strand in frame.strands:
        made.strand.append({} if strand.course == "level" else {_new(made): 1.0})
    for number, turn in enumerate(frame.turns):
        _wheel(made, turn, senses[number], loose)
    for number, turn in enumerate(frame.turns):
        _level_run(made, number, turn, senses)
    for number, piece in enumerate(frame.pieces):
        _body(made, frame, number, piece, loose)
    _things(made, frame, up, senses)
    _outermost(made, frame, loose)
    _width(made, frame)
    return made


def _new(made: Across) -> int:
    made.count += 1
    return made.count - 1


def _wheel(made: Across, turn: Turn, sense: int, loose: Loosened) -> None:
    before, after = made.strand[turn.before], made.strand[turn.after]
    if turn.level == (False, False):
        across = plus(after, before, -1.0)
        low, high = (2.0, 2 * loose.spread) if sense > 0 else (-2 * loose.spread, -2.0)
        made.rows.append(Row(across, low, high))
        made.centre.append({k: v / 2 for k, v in plus(before, after).items()})
        made.radius.append({k: sense * v / 2 for k, v in across.items()})
        return
    made.radius.append({-1: 1.0})
    if turn.level == (True, True):
        made.centre.append({_new(made): 1.0})
    elif turn.level[1]:
        made.centre.append(shift(before, float(sense)))
    else:
        made.centre.append(shift(after, -float(sense)))


def _level_run(made: Across, number: int, turn: Turn, senses: list[int]) -> None:
    """The wheel after a level run stands clear of the wheel before it, on the side the rope goes to."""
    if turn.level[0]:
        gap = plus(made.centre[number], made.centre[number - 1], -1.0)
        made.rows.append(_least({k: v * senses[number] for k, v in gap.items()}, 2.0 + LEVEL_GAP))


def _body(made: Across, frame: Frame, number: int, piece: Piece, loose: Loosened) -> None:
    ends = (_new(made), _new(made))
    made.bars.append(ends)
    turns = [n for n, turn in enumerate(frame.turns) if turn.body == number]
    left, right = {ends[0]: 1.0}, {ends[1]: 1.0}
    for n in turns:
        reach = shift(made.radius[n], BAR_PAST_WHEEL)
        _reach(made, left, right, made.centre[n], reach)
    for tie in piece.fasts:
        _reach(made, left, right, made.strand[tie.strand], {-1: BAR_PAST_END})
    hook = _hook(made, frame, number, piece, turns, loose)
    made.hook.append(hook)
    if piece.bar:
        _reach(made, left, right, hook, {-1: 0.35})
    lone = len(turns) == 1 and len(piece.fasts) == 1 and not piece.bar
    if lone and not piece.bare_anchor:
        _equal(made, made.strand[piece.fasts[0].strand], made.centre[turns[0]])
    for tie in piece.grips:
        _arm(made, hook, tie)


def _reach(made: Across, left: Expr, right: Expr, centre: Expr, half: Expr) -> None:
    made.rows.append(_least(plus(plus(centre, half, -1.0), left, -1.0), 0.0))
    made.rows.append(_least(plus(right, plus(centre, half), -1.0), 0.0))


def _arm(made: Across, hook: Expr, tie: Tie) -> None:
    """The rider's rope comes down on the right, within reach."""
    across = plus(made.strand[tie.strand], hook, -1.0)
    constant = across.pop(-1, 0.0)
    made.rows.append(Row(across, ARM[0] - constant, ARM[1] - constant))


def _least(expr: Expr, low: float) -> Row:
    terms = dict(expr)
    constant = terms.pop(-1, 0.0)
    return Row(terms, low - constant)


def _equal(made: Across, a: Expr, b: Expr) -> None:
    difference = plus(a, b, -1.0)
    constant = difference.pop(-1, 0.0)
    made.rows.append(Row(difference, -constant, -constant))


def _hook(made: Across, frame: Frame, number: int, piece: Piece, turns: list[int], loose: Loosened) -> Expr:
    """Where the body hangs: at the mean of what pulls at it, each pull counting by its size (the moment rule)."""
    if piece.bare_anchor or on_the_rope(piece):
        return made.strand[piece.fasts[0].strand]
    if not piece.bar:
        return made.centre[turns[0]] if turns else made.strand[piece.fasts[0].strand]
    pulls: list[tuple[float, Expr]] = []
    for n in turns:
        turn = frame.turns[n]
        pulls.append((turn.tension * (1 if turn.up else -1), made.centre[n]))
    pulls += [(tie.tension * (1 if tie.up else -1), made.strand[tie.strand]) for tie in piece.fasts]
    if any(True in frame.turns[n].level for n in turns):
        pulls = [(1.0, made.centre[n]) for n in turns]
    return _balance(made, piece, pulls, made.bars[number], loose)


def _balance(
    made: Across, piece: Piece, pulls: list[tuple[float, Expr]], ends: tuple[int, int], loose: Loosened
) -> Expr:
    total = sum(pull for pull, _ in pulls)
    largest = max((abs(pull) for pull, _ in pulls), default=0.0)  # none: only a rider's own rope
    moment: Expr = {}
    for pull, at in pulls:
        moment = plus(moment, at, pull / (largest or 1.0))
    if loose.off_balance or not largest:
        return {ends[0]: 0.5, ends[1]: 0.5}
    if piece.heavy or piece.side != "moving":
        if abs(total) > 1e-6 * largest:
            return {k: v * largest / total for k, v in moment.items()}
        return {ends[0]: 0.5, ends[1]: 0.5}
    _equal(made, moment, {})
    return {ends[0]: 0.5, ends[1]: 0.5}


def _things(made: Across, frame: Frame, up: Heights, senses: list[int]) -> None:
    for number, strand in enumerate(frame.strands):
        if strand.course != "level":
            top, bottom = up.points[number]
            x = made.strand[number]
            made.things.append(Thing("strand", top, bottom, x, x, frozenset((number,)), -1))
    for number, turn in enumerate(frame.turns):
        y, reach, half = up.axles[number], up.radii[number], made.radius[number]
        left, right = plus(made.centre[number], half, -1.0), plus(made.centre[number], half)
        own = frozenset((turn.before, turn.after))
        made.things.append(Thing("wheel", y - reach, y + reach, left, right, own, turn.body))
        if turn.level[1]:
            _level_thing(made, up, number, turn, senses[number])
    for number, piece in enumerate(frame.pieces):
        _body_things(made, up, number, piece)
    if frame.grip and up.hand is not None:
        x = made.strand[frame.grip.strand]
        own = frozenset((frame.grip.strand,))
        made.things.append(
            Thing("hand", up.hand - HAND_HIGH, up.hand + HAND_HIGH, shift(x, -HAND_LEFT), shift(x, HAND_RIGHT), own, -1)
        )


def _level_thing(made: Across, up: Heights, number: int, turn: Turn, sense: int) -> None:
    """A level run is a bar that no other strand crosses."""
    y = up.points[turn.after][0]
    first, second = (made.centre[number], made.centre[number + 1])[::sense]
    own = frozenset((turn.before, turn.after, turn.after + 1))
    made.things.append(Thing("run", y - 0.1, y + 0.1, first, second, own, -1))


def _body_things(made: Across, up: Heights, number: int, piece: Piece) -> None:
    y = up.bars[number]
    own = frozenset(tie.strand for tie in piece.grips)
    below = not (all(turn.up for turn in piece.turns) and all(tie.up for tie in piece.fasts))
    left, right = {made.bars[number][0]: 1.0}, {made.bars[number][1]: 1.0}
    hook = made.hook[number]
    if piece.bar:
        made.things.append(Thing("bar", y - 0.25, y + 0.25, left, right, own, number))
    if piece.loads:
        half = RIDER_ROOM if piece.rider else LOAD_ROOM
        top = y if below or on_the_rope(piece) else y + BAR_TO_RING - 0.2
        made.things.append(Thing("load", top, y + depth(piece), shift(hook, -half), shift(hook, half), own, number))
    if piece.side == "ceiling" and not piece.bare_anchor and y > BEAM_TO_BAR:
        made.things.append(Thing("rod", 0.0, y, shift(hook, -0.2), shift(hook, 0.2), own, number))


def _outermost(made: Across, frame: Frame, loose: Loosened) -> None:
    if frame.grip is None or loose.hand_inside:
        return
    hand = made.strand[frame.grip.strand]
    for number, x in enumerate(made.strand):
        if x and number != frame.grip.strand:
            made.rows.append(_least(plus(hand, x, -1.0), 0.3))


def _width(made: Across, frame: Frame) -> None:
    width = _new(made)
    cost: Expr = {width: 1.0}
    for number, ends in enumerate(made.bars):
        piece = frame.pieces[number]
        cost = plus(cost, {ends[1]: 0.02, ends[0]: -0.02})  # bars no longer than they must be
        made.rows.append(Row({width: 1.0, ends[1]: -1.0}, 0.0))
        if piece.loads:
            made.rows.append(_least(shift(made.hook[number], -LOAD_ROOM), 0.0))
            made.rows.append(_least(plus({width: 1.0}, shift(made.hook[number], LOAD_ROOM), -1.0), 0.0))
    for x in made.strand:
        if x:
            made.rows.append(Row(plus({width: 1.0}, x, -1.0), 0.0))
            cost = plus(cost, x, 0.01)
    for radius in made.radius:
        cost = plus(cost, radius, 1.5)
    made.cost = cost
