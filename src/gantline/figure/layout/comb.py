"""The closed form for a rig of one rope: strands two radii apart, in the order of the path. No solver."""

from .across import Across
from .frame import Frame
from .sizes import LEVEL_GAP

SLACK = 1e-7


def comb(frame: Frame, made: Across) -> list[float]:
    """Values for all unknowns, whether legal or not: `violation` tells."""
    values = [0.0] * made.count
    x = 0.0
    for number, strand in enumerate(frame.strands):
        after_level = number > 0 and frame.strands[number - 1].course == "level"
        if strand.course == "level":
            x += LEVEL_GAP + (2.0 if after_level else 3.0)
        else:
            x += 1.0 if after_level or not number else 2.0
            values[next(iter(made.strand[number]))] = x
    for centre, turn in zip(made.centre, frame.turns, strict=True):
        if turn.level == (True, True):
            values[next(iter(centre))] = evaluate(made.centre[turn.before - 1], values) + LEVEL_GAP + 2.0
    return _bars(made, values)


def _bars(made: Across, values: list[float]) -> list[float]:
    """Bars as short as their rows allow. A hook in the middle of its bar makes no row of its own."""
    for left, right in made.bars:
        mine = [row for row in made.rows if (left in row.terms) != (right in row.terms) and len(row.terms) > 1]
        lefts = [_rest(row.terms, left, values) - row.low for row in mine if row.terms.get(left) == -1.0]
        rights = [row.low - _rest(row.terms, right, values) for row in mine if row.terms.get(right) == 1.0]
        values[left] = min(lefts, default=0.0)
        values[right] = max(rights, default=0.0)
    return values


def _rest(terms: dict[int, float], without: int, values: list[float]) -> float:
    return sum(v * values[k] for k, v in terms.items() if k not in (without, -1))


def evaluate(expr: dict[int, float], values: list[float]) -> float:
    return sum(number * (values[key] if key >= 0 else 1.0) for key, number in expr.items())


def rows_hold(made: Across, values: list[float], skip: int | None = None) -> bool:
    """Whether every row holds at these values; `skip` is an unknown whose rows do not count (the width)."""
    for row in made.rows:
        if skip is not None and skip in row.terms:
            continue
        amount = evaluate(row.terms, values)
        if amount < row.low - SLACK or amount > row.high + SLACK:
            return False
    return True
