"""The same ways by another route: stiff time integration of a rig with slightly viscous wheels and a stiff floor.

It shares nothing with the trial: each machine's strands are written down by hand as lengths, block and load follow the
slope of one energy (by the complex step), and each sheave slips as fast as its pulls stand outside what it can hold,
over a small viscosity. As that viscosity goes to nothing the way becomes the trial's; what is left of it, and of the
floor's give, sets the tolerances: 0.005 degrees, 0.005 mm, 0.01 N.
"""

from collections.abc import Callable
from itertools import pairwise
from math import atan, cos, degrees
from typing import Any, NamedTuple

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from tried_rigs import named, tried

from gantline.mechanics import Moment

W = 10.0  # N
R, LONG = 15.0, 800.0  # mm
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


def three_off(s: float, y: Any, th: Any, g: np.ndarray[Any, Any]) -> list[Any]:
    """The same with its end 25 mm to the left."""
    end, *others = three(s, y, th, g)
    return [end + 25 * np.sin(th), *others]


def five(s: float, y: Any, th: Any, g: np.ndarray[Any, Any]) -> list[Any]:
    """Of other sizes: sheaves of 20 mm at -30 and 30 mm, the end 12 mm to the right."""
    left, right, roll = y - 30 * np.sin(th), y + 30 * np.sin(th), 20 * th
    return [-(y + 12 * np.sin(th)) + g[0], -(left - roll) - g[0] + g[1], -(left + roll) - g[1] + g[2],
            -(right - roll) - g[2] + g[3], -(right + roll) - g[3] + g[4], s - g[4]]  # fmt: skip


class Case(NamedTuple):
    """A machine as a text, and by its strands; `bearing` of them carry the block. Forces in N, lengths in mm.

    `stiffness` of a strand in N/mm; `preload` is on the hook at the start, when an end at `becket` holds it askew.
    """

    text: str
    shape: Shape
    bearing: int
    sheaves: int
    e: float
    stiffness: float = 2000 / LONG
    drag: float = 0.0
    block: float = 0.5
    hook: float = 40.0
    preload: float = 0.0
    becket: float = 0.0


FIVE = """fixed upper sheaves 3, efficiency 85 %, radius 20 mm, spacing 60 mm
moving lower sheaves 2, weight 0.9 N, efficiency 85 %, radius 20 mm, spacing 60 mm, hook 90 mm,
              becket 12 mm, carries bag
load bag weight 10 N
rope fall: lower, over upper.1, under lower.1, over upper.2, under lower.2, over upper.3, hand
cord fall stiffness 1.5 kN, drag 0.03 N
apart upper lower 0.6 m
"""
CASES = {
    "four": Case(named("four", 90), four, 4, 4, 90),
    "runner": Case(named("runner", 85, "string"), runner, 2, 1, 85, 200 / LONG),
    "six-mid": Case(named("six-mid", 90), six_mid, 6, 6, 90),
    "three": Case(named("three", 92, "cord", ", drag 0.05 N"), three, 3, 3, 92, drag=0.05),
    "three-off": Case(named("three-off", 90), three_off, 3, 3, 90, preload=1.0, becket=-25),
    "five": Case(FIVE, five, 5, 5, 85, 1500 / 600, 0.03, 0.9, 90, 1.0, 12),
    "four-drag": Case(named("four", 60, "cord", ", drag 3 N"), four, 4, 4, 60, drag=3.0),
    "six-drag": Case(named("six-mid", 70, "cord", ", drag 1.5 N"), six_mid, 6, 6, 70, drag=1.5),
}
HAND = (1.0, 3.0, 5.5, 9.0, 15.0, 30.0, 60.0)  # mm
EACH = pytest.mark.parametrize("case", CASES.values(), ids=CASES)


def integrated(case: Case, times: list[float], top: float = 1e9) -> Any:
    """Rise (mm), tilt (rad), pull (N) at each time: the hand goes 1 mm a unit of it, up to `top` and then back."""
    k, ratio, still = case.stiffness, 100 / case.e, np.zeros(case.sheaves)
    pull = (case.block + case.preload) / case.bearing
    askew = atan(case.becket * pull / case.preload / case.hook) if case.becket else 0.0
    low = -case.hook * (1 - cos(askew))
    begun = case.shape(0, low, askew, still)

    def hand(time: float) -> float:
        return min(time, 2 * top - time)

    def stretches(s: float, y: Any, th: Any, g: np.ndarray[Any, Any]) -> list[Any]:
        return [pull / k + now - then for now, then in zip(case.shape(s, y, th, g), begun, strict=True)]

    def energy(s: float, y: Any, th: Any, g: np.ndarray[Any, Any]) -> Any:
        stretched = sum(k / 2 * longer**2 for longer in stretches(s, y, th, g) if np.real(longer) > 0)
        pin = y + case.hook * (1 - np.cos(th))
        return stretched + case.block * y + W * pin + (FLOOR / 2 * pin**2 if np.real(pin) < 0 else 0)

    def rates(time: float, state: np.ndarray[Any, Any]) -> list[float]:
        s, y, th, g = hand(time), state[0], state[1], state[2:]
        lift = -energy(s, y + 1e-20j, th, g).imag / 1e-20
        turn = -energy(s, y, th + 1e-20j, g).imag / 1e-20
        pulls = [max(0.0, k * longer) for longer in stretches(s, y, th, g)]
        slips = [
            max(0.0, after - ratio * before - case.drag) - max(0.0, before - ratio * after - case.drag)
            for before, after in pairwise(pulls)
        ]
        return [lift / VISCOUS, turn / VISCOUS / 400, *(slip / VISCOUS for slip in slips)]

    # the floor carries what does not hang yet, the block's pin a hair below it
    state = [low - (W - case.preload) / FLOOR, askew, *still]
    found = solve_ivp(rates, (0, times[-1]), state, "LSODA", times, rtol=1e-7, atol=1e-8)
    assert found.success
    hauled = [stretches(hand(t), *u[:2], u[2:])[-1] for t, u in zip(found.t, found.y.T, strict=True)]
    return list(zip(found.y[0] - low, found.y[1], [max(0.0, k * longer) for longer in hauled], strict=True))


def same(moment: Moment, rise: float, tilt: float, pull: float) -> bool:
    return (
        abs(degrees(tilt - moment.tilt["lower"])) < 0.005
        and abs(rise - 1000 * moment.rises["lower"]) < 0.005
        and abs(pull - moment.effort) < 0.01
    )


@EACH
def test_hauled_it_goes_the_same_way(case: Case) -> None:
    found = tried(case.text, HAND)
    for moment, state in zip(found.history, integrated(case, list(HAND)), strict=True):
        assert same(moment, *state), (moment, state)


def test_with_much_drag_single_strands_go_slack_and_taut_again() -> None:
    """What makes the last cases harder: at readings that the test above compares."""
    hard = (CASES["four-drag"], CASES["six-drag"])
    events = {(event.part, event.what) for case in hard for event in tried(case.text, HAND).events}
    assert {("fall:3", "slack"), ("fall:3", "taut"), ("fall:1", "slack"), ("fall:1", "taut")} <= events


@EACH
def test_let_out_again_it_goes_the_same_way(case: Case) -> None:
    """Hauled to 50 mm, then back past where the load lands."""
    back = [49.5, 48.0, 44.0, 35.0, 10.0, 4.0]
    found = tried(case.text, tuple(back), "lowering", 50)
    for moment, state in zip(found.history, integrated(case, [100 - hand for hand in back], 50), strict=True):
        assert same(moment, *state), (moment, state)


def test_two_bodies_on_two_ropes_go_the_same_way() -> None:
    """A burton: the flyer hangs 40 mm above its axle, and 1 N of the load hangs on the ropes at the start."""
    k, ratio, weight = 2000 / LONG, 1 / 0.9, 0.5
    short = (1 - weight) / 3
    long = weight + 2 * short

    def stretches(s: float, load: Any, flyer: Any, th: Any, g: np.ndarray[Any, Any]) -> list[Any]:
        eye = flyer + 40 * (np.cos(th) - 1)
        return [long / k - load + g[0], long / k - eye - g[0], short / k - load + (flyer - R * th) + g[1],
                short / k + s + (flyer + R * th) - g[1]]  # fmt: skip

    def energy(s: float, load: Any, flyer: Any, th: Any, g: np.ndarray[Any, Any]) -> Any:
        held = sum(k / 2 * longer**2 for longer in stretches(s, load, flyer, th, g))
        return held + W * load + weight * flyer + (FLOOR / 2 * load**2 if np.real(load) < 0 else 0)

    def rates(s: float, u: np.ndarray[Any, Any]) -> list[float]:
        moved = [[*u[:n], u[n] + 1e-20j, *u[n + 1 : 3]] for n in range(3)]
        slopes = [-energy(s, *place, u[3:]).imag / 1e-20 / VISCOUS for place in moved]
        pulls = [k * longer for longer in stretches(s, *u[:3], u[3:])]
        slips = [
            max(0.0, after - ratio * before) - max(0.0, before - ratio * after)
            for before, after in (pulls[:2], pulls[2:])
        ]
        return [slopes[0], slopes[1], slopes[2] / 400, *(slip / VISCOUS for slip in slips)]

    hand = [1.0, 3.0, 6.0, 10.0, 12.0, 14.0, 40.0]
    found = solve_ivp(rates, (0, hand[-1]), [-(W - 1) / FLOOR, 0, 0, 0, 0], "LSODA", hand, rtol=1e-7, atol=1e-8)
    for u, moment in zip(found.y.T, tried(named("burton", 90), tuple(hand)).history, strict=True):
        assert u[0] == pytest.approx(1000 * moment.load["bag"], abs=0.005)
        assert u[1] == pytest.approx(1000 * moment.axles["flyer.1"], abs=0.005)
        assert degrees(u[2]) == pytest.approx(degrees(moment.tilt["flyer"]), abs=0.005)
        assert k * stretches(moment.hand * 1000, *u[:3], u[3:])[3] == pytest.approx(moment.effort, abs=0.01)
