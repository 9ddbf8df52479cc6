"""There is one way on, and only one: at every event all principal minors of the rates' problem are positive.

At an event the slips of the sheaves at their limit solve 0 <= slip, 0 <= M slip + q, one of each pair zero. If every
principal minor of M is positive the solution is there and single, whatever q is. M is not symmetric: friction is not.
"""

from itertools import combinations

import numpy as np
import pytest
from tried_rigs import named, standing

from gantline.mechanics.trials.deciding import Deciding, Reached
from gantline.mechanics.trials.geometry import Geometry, Pattern
from gantline.mechanics.trials.path import Path
from gantline.mechanics.trials.statics import Statics


def rates_matrix(path: Path) -> np.ndarray:
    """How the room of each sheave at its limit grows with each one's slip, hand still, blocks and load in balance."""
    geometry, count = path.geometry, path.geometry.count
    along, against = path.limits.room(path.place)
    reached = [1 if a < 1e-7 else -1 if b < 1e-7 else 0 for a, b in zip(along, against, strict=True)]
    ways = [slip or way for slip, way in zip(path.pattern.slips, reached, strict=True)]
    every = Pattern(tuple(ways), path.pattern.stands, path.pattern.slack)
    active = geometry.active(every)
    _, slope, _ = geometry._equations(path.place.hand, path.place.unknown, active)
    bodies = [n for n in active.rows if n < 3 * count]
    at = [3 * count + n for n, way in enumerate(ways) if way]
    sense = np.diag([float(way) for way in ways if way])
    condensed = slope[np.ix_(at, at)] - slope[np.ix_(at, bodies)] @ np.linalg.solve(
        slope[np.ix_(bodies, bodies)], slope[np.ix_(bodies, at)]
    )
    return -condensed @ sense  # room is what is left of the law, so its sign is turned


def least_minor(matrix: np.ndarray) -> float:
    """The smallest principal minor, each scaled by its diagonal."""
    matrix = matrix / np.sqrt(np.outer(np.diag(matrix), np.diag(matrix)))
    size = len(matrix)
    return min(
        np.linalg.det(matrix[np.ix_(which, which)])
        for k in range(1, size + 1)
        for which in map(list, combinations(range(size), k))
    )


def events_of(machine: str, e: float, stiffness: str) -> list[float]:
    """The least minor at every event, hauling to 150 mm and letting out to 5 mm again."""
    setup = standing(named(machine, e, stiffness)).setup
    path = Path(Geometry(setup), Statics(setup).flows(), 1e-4)
    found = []
    for goal in (0.15, 0.005):
        for _ in range(2000):
            met = len(path.events)
            if path.sense == 1 and goal < path.place.hand:
                assert path._turn(-1) is None
            assert path._leg(goal) is None
            if len(path.events) > met:
                found.append(least_minor(rates_matrix(path)))
            if path.place.hand == goal:
                break
    return found


@pytest.mark.parametrize("stiffness", ["200 N", "2 kN", "200 kN"])
@pytest.mark.parametrize("e", [98, 90, 80, 60])
@pytest.mark.parametrize("machine", ["gun", "three", "four", "six", "six-mid"])
def test_all_principal_minors_are_positive(machine: str, e: float, stiffness: str) -> None:
    found = events_of(machine, e, stiffness)
    assert len(found) > 3
    assert min(found) > 0


def test_the_least_of_them_is_as_found_before() -> None:
    """[1] 1.5e-5, where a symmetric block on stiff rope can tilt almost without using any."""
    assert min(events_of("six", 60, "200 kN")) == pytest.approx(1.5e-5, rel=0.05)


def test_below_half_it_is_no_longer_sure() -> None:
    """[1] Six strands hauled through the middle, 40 %: one minor is negative."""
    assert min(events_of("six-mid", 40, "2 kN")) < 0


def test_more_limits_at_once_than_can_be_tried_out_are_left_alone() -> None:
    """Beyond a dozen every combination would take too long; the trial then says that it jumps."""
    setup = standing(named("four", 90)).setup
    path = Path(Geometry(setup), Statics(setup).flows(), 1e-4)
    deciding = Deciding(path.geometry, path.limits, path.place, 1)
    assert deciding._by_trying(path.pattern, [Reached("slips", 0, 1, 0)] * 13) is None
    assert deciding._by_trying(path.pattern, [Reached("slips", 0, 1, 0)]) is not None
