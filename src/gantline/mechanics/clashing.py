"""Why no pull holds: balances that, added up, lose every pull and leave weights that differ."""

from collections.abc import Sequence
from fractions import Fraction
from math import gcd, lcm
from typing import Any

from msgspec import Struct

from gantline.rig import Rig

from .assembly import assemble
from .forces import Equations, Flows, Question, equations, flow_rows
from .linear import Row, back, plan
from .numbers import exact, numbers
from .ring import Rationals
from .system import Coordinate


class Counted(Struct, frozen=True):
    """A moving part, how many times its body's balance is counted (whole, of either sign), and its weight (N)."""

    part: str
    times: int
    weight: Fraction


def contradiction(rig: Rig) -> tuple[Counted, ...]:
    """The balances that contradict each other, every part of their bodies; empty where some pull of the hand holds.

    Added up so often, the pulls of all ropes cancel, and sum(times x weight) is not zero: that is what no pull can
    mend. Wheels lose nothing here. The first of them is counted a positive number of times.
    """
    system = assemble(rig, Rationals(numbers(rig).of))
    rest: Flows = (0,) * len(system.ties)
    found = equations(system, Question(hand=rig.hand is not None), rest, flow_rows(system))
    times = _whole(_cancelling(found), found)
    parts = [(part.name, Coordinate(system.body[part.name], "rise")) for part in rig.movers]
    counted = [(name, times.get(at, 0)) for name, at in parts]
    weights = {name: _weight(rig, name) for name, n in counted if n}
    sign = next((1 if n > 0 else -1 for _, n in counted if n), 1)
    clash = tuple(Counted(name, sign * n, weights[name]) for name, n in counted if n)
    return clash if sum(one.times * one.weight for one in clash) else ()


def _cancelling(found: Equations) -> dict[int, Any]:
    """How often each row is taken so that all columns cancel and the right-hand side comes to one; empty: no way."""
    across: list[Row] = [{} for _ in range(found.columns)]
    for n, row in enumerate(found.rows):
        for column, share in row.items():
            across[column][n] = share
    whole = {n: side for n, side in enumerate(found.right) if side}
    rows, right = [*across, whole], [0] * found.columns + [1]
    steps, work, side = plan(rows, right, len(found.rows))
    return {} if steps.clash or not whole else back(steps, work, side)


def _whole(times: dict[int, Any], found: Equations) -> dict[Coordinate, int]:
    """The same in the smallest whole numbers, by body."""
    shares = {
        Coordinate(found.names[n][1], "rise"): exact(share)
        for n, share in times.items() if share and found.names[n][0] == "balance"
    }  # fmt: skip
    below = lcm(*(share.denominator for share in shares.values()))
    numerators = {at: int(share * below) for at, share in shares.items()}
    common = _common(list(numerators.values()))
    return {at: number // common for at, number in numerators.items()}


def _common(values: Sequence[int]) -> int:
    return gcd(*values) or 1


def _weight(rig: Rig, name: str) -> Fraction:
    """The weight of a part in N; a letter without a number counts as its stand-in does."""
    part = rig.part(name)
    known = numbers(rig).of
    if part.weight is not None:
        return exact(known[part.weight.symbol])
    return exact(known[part.mass.symbol] * known[rig.gravity.symbol]) if part.mass is not None else Fraction(0)
