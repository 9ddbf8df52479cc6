"""Rigs and readings that the tests of the lab share."""

from collections.abc import Sequence
from fractions import Fraction

import numpy as np

from gantline.bench import Settings
from gantline.bench.measured.measuring import Measured, measure, read_measured
from gantline.bench.measured.readings import Readings, Row, Steps
from gantline.mechanics import Shares, shares
from gantline.notation import parse
from gantline.rig import Rig, read

FOUR = """\
fixed upper sheaves 2
moving lower sheaves 2, weight 0.5 N, carries bag
load bag weight 10 N
rope fall: upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
"""
RUNNER = """\
fixed beam
moving lower sheaves 1, weight 0.5 N, carries bag
load bag weight 10 N
rope fall: beam, under lower, hand
"""
SINGLE = """\
fixed top sheaves 1
load bag weight 10 N
rope fall: bag, over top, hand
"""
BURTON = """\
fixed top sheaves 1
moving flyer sheaves 1, weight 0.4 N
load bag weight 10 N
rope long: bag, over top, flyer
rope short: bag, over flyer, hand
"""
GUN = """\
fixed upper sheaves 1
moving lower sheaves 1, weight 0.5 N, carries bag
load bag weight 10 N
rope fall: upper, under lower, over upper, hand
"""
SIX = """\
fixed upper sheaves 3
moving lower sheaves 3, weight 0.5 N, carries bag
load bag weight 10 N
rope fall: upper, under lower.1, over upper.1, under lower.2, over upper.2, under lower.3, over upper.3, hand
"""
LOADS = (2, 4, 6, 8, 10, 12)
QUIET = Settings(draws=10_000)


def rig(text: str) -> Rig:
    found, problems = read(parse(text)[0])
    assert found is not None, problems
    return found


def pull(of: Shares, way: str, load: float, e: float, block: float, drag: float, zero: float) -> float:
    branch = of.raising if way == "raising" else of.lowering
    assert branch is not None
    by_load, by_block, by_drag, rest = branch.at(e)
    return float(by_load * load + by_block * block + by_drag * drag + rest + zero)


def rounded(value: float, division: float) -> Fraction:
    step = Fraction(str(division))
    return round(Fraction(float(value)) / step) * step


def simulated(
    of: Shares,
    truth: tuple[float, float, float, float],
    *,
    noise: float = 0.0,
    division: float = 0.001,
    times: int = 3,
    loads: Sequence[float] = LOADS,
    seed: int = 1,
    ways: Sequence[str] = ("raising", "lowering"),
    extra: Row | None = None,
) -> Readings:
    """Rows as a class might read them: the rig's own pulls with noise, on a scale of this division."""
    random = np.random.default_rng(seed)
    rows = [
        Row(n + 2, Fraction(str(load)), **{
            way: (rounded(pull(of, way, load, *truth) + random.normal(0, noise), division),) for way in ways
        })
        for n, load in enumerate(each for each in loads for _ in range(times))
    ]  # fmt: skip
    if extra is not None:
        rows.append(extra)
    return Readings(tuple(rows), (), 0, 0, (), Steps(Fraction(str(division)), Fraction("0.001")))


def measured(text: str, readings: Readings, settings: Settings = QUIET) -> Measured:
    return measure(rig(text), readings, settings)


def from_table(text: str, table: str | bytes, settings: Settings = QUIET) -> Measured:
    found, problems = read_measured(rig(text), table if isinstance(table, bytes) else table.encode(), settings)
    assert found is not None, problems
    return found


def shares_of(text: str) -> Shares:
    return shares(rig(text))
