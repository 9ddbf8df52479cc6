"""The same ways by another route: stiff time integration of a rig with slightly viscous wheels and a stiff floor.

It shares nothing with the trial: each machine's strands are written down by hand as lengths, block and load follow the
slope of one energy (by the complex step), and each sheave slips as fast as its pulls stand outside what it can hold,
over a small viscosity. As that viscosity goes to nothing the way becomes the trial's; what is left of it, and of the
floor's give, sets the tolerances: 0.005 degrees, 0.005 mm, 0.01 N.
"""

from collections.abc import Callable
from itertools import pairwise
from math import degrees
from typing import Any, NamedTuple

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from tackles import named, tried

from gantline.mechanics import Moment

W, BLOCK = 10.0, 0.5  # N
R, HOOK, LONG = 15.0, 40.0, 800.0  # mm
FLOOR = 5e3  # N/mm
VISCOUS = 2e-4  # N for 1 mm/mm of slip, and N, N mm for each of the block's rates
Shape = Callable[[float, Any, Any, np.ndarray[Any, Any]], list[Any]]


def four(s: float, y: Any, th: Any, g: np.ndarray[Any, Any]) -> list[Any]:
    """How much longer each strand is than when it lay slack, less its start: dead end, then left and right of each
    lower sheave at -20 and 20 mm, then the hauled run."""
    left, right = y - 20 * np.sin(th), y + 20 * np.sin(th)
    roll = R * th
    return [-(left - roll) + g[0], -(left + roll) - g[0] + g[1], -(right - roll) - g[1] + g[2],
            -(right + roll) - g[2] + g[3], s - g[3]]  # fmt: skip


def runner(s: float, y: Any, th: Any, g: np.ndarray[Any, Any]) -> list[Any]:
    return [-(y - R * th) + g[0], s - (y + R * th) - g[0]]


def six_mid(s: float, y: Any, th: Any, g: np.ndarray[Any, Any]) -> list[Any]:
    """Lower sheaves at -40, 40, then 0, which the rope meets from the right."""
    left, right, roll = y - 40 * np.sin(th), y + 40 * np.sin(th), R * th
    return [-(left - roll) + g[0], -(left + roll) - g[0] + g[1], -(right - roll) - g[1] + g[2],
            -(right + roll) - g[2] + g[3], -(y + roll) - g[3] + g[4], -(y - roll) - g[4] + g[5], s - g[5]]  # fmt: skip


def three(s: float, y: Any, th: Any, g: np.ndarray[Any, Any]) -> list[Any]:
    roll = R * th
    return [-y + g[0], -(y - roll) - g[0] + g[1], -(y + roll) - g[1] + g[2], s - g[2]]


class Case(NamedTuple):
    """A machine by its name in the tables and by its strands; `bearing` of them carry the block. `drag` in N."""

    machine: str
    shape: Shape
    bearing: int
    sheaves: int
    e: float
    rope: str = "cord"
    drag: float = 0.0


CASES = [
    Case("four", four, 4, 4, 90), Case("runner", runner, 2, 1, 85, "string"), Case("six-mid", six_mid, 6, 6, 90),
    Case("three", three, 3, 3, 92, drag=0.05), Case("four", four, 4, 4, 60, drag=3.0),
    Case("six-mid", six_mid, 6, 6, 70, drag=1.5),
]  # fmt: skip
HAND = (1.0, 3.0, 5.5, 9.0, 15.0, 30.0, 60.0)  # mm
EACH = pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.machine}-{case.e}-{case.drag}")


def integrated(case: Case, times: list[float], top: float = 1e9) -> Any:
    """Rise (mm), tilt (rad), pull (N) at each time: the hand goes 1 mm a unit of it, up to `top` and then back."""
    k, ratio = {"cord": 2000, "string": 200}[case.rope] / LONG, 100 / case.e
    begun = BLOCK / case.bearing / k

    def hand(time: float) -> float:
        return min(time, 2 * top - time)

    def energy(s: float, y: Any, th: Any, g: np.ndarray[Any, Any]) -> Any:
        taut = [begun + longer for longer in case.shape(s, y, th, g) if np.real(begun + longer) > 0]
        stretched = sum(k / 2 * longer**2 for longer in taut)
        pin = y + HOOK * (1 - np.cos(th))
        return stretched + BLOCK * y + W * pin + (FLOOR / 2 * pin**2 if np.real(pin) < 0 else 0)

    def rates(time: float, state: np.ndarray[Any, Any]) -> list[float]:
        s, y, th, g = hand(time), state[0], state[1], state[2:]
        lift = -energy(s, y + 1e-20j, th, g).imag / 1e-20
        turn = -energy(s, y, th + 1e-20j, g).imag / 1e-20
        pulls = [max(0.0, k * (begun + longer)) for longer in case.shape(s, y, th, g)]
        slips = [
            max(0.0, after - ratio * before - case.drag) - max(0.0, before - ratio * after - case.drag)
            for before, after in pairwise(pulls)
        ]
        return [lift / VISCOUS, turn / VISCOUS / 400, *(slip / VISCOUS for slip in slips)]

    # the floor carries all of the load at first, the block's pin a hair below it
    state = [-W / FLOOR, 0.0, *([0.0] * case.sheaves)]
    found = solve_ivp(rates, (0, times[-1]), state, "LSODA", times, rtol=1e-7, atol=1e-8)
    assert found.success
    hauled = [begun + case.shape(hand(t), *u[:2], u[2:])[-1] for t, u in zip(found.t, found.y.T, strict=True)]
    return list(zip(found.y[0], found.y[1], [max(0.0, k * longer) for longer in hauled], strict=True))


def same(moment: Moment, rise: float, tilt: float, pull: float) -> bool:
    return (
        abs(degrees(tilt - moment.tilt["lower"])) < 0.005
        and abs(rise - 1000 * moment.rises["lower"]) < 0.005
        and abs(pull - moment.effort) < 0.01
    )


def text(case: Case) -> str:
    return named(case.machine, case.e, case.rope, f", drag {case.drag} N" if case.drag else "")


@EACH
def test_hauled_it_goes_the_same_way(case: Case) -> None:
    found = tried(text(case), HAND)
    for moment, state in zip(found.history, integrated(case, list(HAND)), strict=True):
        assert same(moment, *state), (moment, state)


def test_with_much_drag_single_strands_go_slack_and_taut_again() -> None:
    """What makes the last cases harder: at readings that the test above compares."""
    events = {(event.part, event.what) for case in CASES[-2:] for event in tried(text(case), HAND).events}
    assert {("fall:3", "slack"), ("fall:3", "taut"), ("fall:1", "slack"), ("fall:1", "taut")} <= events


@EACH
def test_let_out_again_it_goes_the_same_way(case: Case) -> None:
    """Hauled to 50 mm, then back past where the load lands."""
    back = [49.5, 48.0, 44.0, 35.0, 10.0, 4.0]
    found = tried(text(case), tuple(back), "lowering", 50)
    for moment, state in zip(found.history, integrated(case, [100 - hand for hand in back], 50), strict=True):
        assert same(moment, *state), (moment, state)
