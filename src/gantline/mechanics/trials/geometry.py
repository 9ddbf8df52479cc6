"""The exact equations of a rig at rest, for one pattern of what slips, stands and is slack.

Unknown are, in this order: the rise of each body, its tilt, what its floor carries, and the rope handed over each
sheave. A row belongs to each: the forces and the moments on a body, its gap to the floor, the law of a sheave. Of the
last two kinds only those rows and columns count that the pattern makes active.
"""

from typing import Any, NamedTuple

import numpy as np

from .nouns import FIXED, Setup

Array = np.ndarray[Any, np.dtype[Any]]

FREE = 2  # a sheave without any loss: its two pulls are equal, whichever way it turns
_TRIES = 30
_NEAR = 1e-9  # the last correction of an unknown; what it leaves is of its square


class Unsettled(Exception):
    """No start was found: measures so far apart that their sums are lost in rounding."""


class Pattern(NamedTuple):
    """`slips`: of each sheave 1 along its path, -1 against it, 0 stuck, FREE; `stands` and `slack` are flags."""

    slips: tuple[int, ...]
    stands: tuple[bool, ...]
    slack: tuple[bool, ...]


class Place(NamedTuple):
    """A state at rest: hand travel, unknowns, how each changes with the hand, tensions, how they change, stretch."""

    hand: float
    unknown: Array
    rate: Array
    tension: Array
    tension_rate: Array
    stretch: Array
    stretch_rate: Array


class Active(NamedTuple):
    """What a pattern switches on, as arrays."""

    rows: Array
    square: tuple[Array, ...]
    law: Array
    drag: Array
    stiffness: Array


class Geometry:
    """A setup as arrays. Columns of bodies or sheaves, rows of strands."""

    def __init__(self, setup: Setup) -> None:
        self.setup = setup
        spans, bodies, wheels = setup.spans, setup.bodies, setup.wheels
        self.count = len(bodies)
        shape = (len(spans), self.count)
        self.lift, self.across, self.arm, self.height = (np.zeros(shape) for _ in range(4))
        for n, span in enumerate(spans):
            for touch in span.touches:
                if touch.body != FIXED:
                    self.lift[n, touch.body] += touch.pull
                    self.across[n, touch.body] += touch.pull * touch.x
                    self.arm[n, touch.body] += touch.pull * touch.side * touch.radius
                    self.height[n, touch.body] += touch.pull * touch.z
        self.over = np.zeros((len(spans), len(wheels)))
        for n, wheel in enumerate(wheels):
            self.over[wheel.before, n], self.over[wheel.after, n] = 1, -1
        self.stiffness = np.array([span.stiffness for span in spans])
        self.hauled = np.array([float(span.hauled) for span in spans])
        self.weight = np.array([body.weight for body in bodies])
        self.load = np.array([body.load for body in bodies])
        self.hook = np.array([body.hook for body in bodies])
        self.scale = float((self.weight + self.load).sum()) or 1.0
        self.stretch0 = np.zeros(len(spans))
        self._active: dict[Pattern, Active] = {}
        self._begin()

    def _begin(self) -> None:
        """The stretch that gives the start's tensions where the loads touch the floor."""
        tilt = np.array(self.setup.tilts)
        self.first = np.concatenate([
            -self.hook * (1 - np.cos(tilt)), tilt, np.array(self.setup.floors), np.zeros(self.over.shape[1]),
        ])  # fmt: skip
        self.stretch0 = np.array(self.setup.tensions) / self.stiffness + self.shortened(self.first)

    def begin(self, pattern: Pattern) -> Place:
        """The start, which is at rest by the way it is made. Raises Unsettled where the numbers are past floats."""
        place = self.settle(0.0, self.first, pattern)
        if place is None:
            raise Unsettled
        return place

    def shortened(self, unknown: Array) -> Array:
        """How much each strand loses by the rise and the tilt of what its ends are on (m)."""
        n = self.count
        rise, tilt = unknown[:n], unknown[n : 2 * n]
        moved: Array = self.lift @ rise + self.across @ np.sin(tilt) + self.arm @ tilt
        moved += self.height @ (np.cos(tilt) - 1)
        return moved

    def stretch(self, hand: float, unknown: Array) -> Array:
        turned: Array = self.over @ unknown[3 * self.count :]
        stretched: Array = self.stretch0 + self.hauled * hand - self.shortened(unknown) + turned
        return stretched

    def active(self, pattern: Pattern) -> Active:
        if pattern not in self._active:
            self._active[pattern] = self._switched(pattern)
        return self._active[pattern]

    def _switched(self, pattern: Pattern) -> Active:
        wheels = self.setup.wheels
        law, drag = np.zeros((len(wheels), len(self.setup.spans))), np.zeros(len(wheels))
        for n, (wheel, slip) in enumerate(zip(wheels, pattern.slips, strict=True)):
            ahead, behind = (wheel.before, wheel.after) if slip == -1 else (wheel.after, wheel.before)
            law[n, ahead], law[n, behind], drag[n] = 1, -wheel.ratio, wheel.drag
        on = [True] * self.count + [body.tilts for body in self.setup.bodies]
        on += [*pattern.stands, *(slip != 0 for slip in pattern.slips)]
        rows = np.flatnonzero(on)
        stiffness = np.where(pattern.slack, 0.0, self.stiffness)
        return Active(rows, np.ix_(rows, rows), law, drag, stiffness)

    def settle(self, hand: float, guess: Array, pattern: Pattern) -> Place | None:
        """The state of a pattern at a hand travel, from a guess nearby; None where none is found."""
        active = self.active(pattern)
        unknown = guess.copy()
        last = np.inf
        for _ in range(_TRIES):
            residual, slope, pulling = self._equations(hand, unknown, active)
            try:
                solved = np.linalg.solve(slope[active.square], np.column_stack((residual, pulling))[active.rows])
            except np.linalg.LinAlgError:
                return None
            unknown[active.rows] -= solved[:, 0]
            size = float(np.abs(solved[:, 0]).max())
            if not np.isfinite(size) or np.abs(unknown[self.count : 2 * self.count]).max() > np.pi / 2:
                return None
            if size < _NEAR or (size < 1e3 * _NEAR and size >= last):
                return self._place(hand, unknown, -solved[:, 1], active)
            last = size
        return None

    def _place(self, hand: float, unknown: Array, rates: Array, active: Active) -> Place:
        rate = np.zeros(len(unknown))
        rate[active.rows] = rates
        stretch = self.stretch(hand, unknown)
        growing = self._growth(unknown[self.count : 2 * self.count]) @ rate + self.hauled
        pulls, pulling = active.stiffness * stretch, active.stiffness * growing
        return Place(hand, unknown, rate, pulls, pulling, stretch, growing)

    def _growth(self, tilt: Array) -> Array:
        """How each strand's stretch grows as each unknown does, the hand kept still."""
        lever = self.across * np.cos(tilt) + self.arm - self.height * np.sin(tilt)
        return np.hstack((-self.lift, -lever, np.zeros_like(lever), self.over))

    def _equations(self, hand: float, unknown: Array, active: Active) -> tuple[Array, Array, Array]:
        """The residuals, their slopes with the unknowns, and with the hand."""
        n = self.count
        tilt, floor = unknown[n : 2 * n], unknown[2 * n : 3 * n]
        sine, cosine = np.sin(tilt), np.cos(tilt)
        growth = self._growth(tilt)
        tension = active.stiffness * self.stretch(hand, unknown)
        lever = -growth[:, n : 2 * n]
        hanging = self.load - floor
        # the sums that pulls enter: forces, moments, nothing for the gap, the laws of the sheaves
        sums = np.vstack((self.lift.T, lever.T, np.zeros((n, len(tension))), active.law))
        residual = sums @ tension
        residual[:n] -= self.weight + hanging
        residual[n : 2 * n] -= hanging * self.hook * sine
        residual[2 * n : 3 * n] = unknown[:n] + self.hook * (1 - cosine)
        residual[3 * n :] -= active.drag
        slope = sums @ (active.stiffness[:, None] * growth)
        body = np.arange(n)
        slope[body, 2 * n + body] += 1
        slope[n + body, n + body] -= (
            (self.across * sine + self.height * cosine).T @ tension
        ) + hanging * self.hook * cosine
        slope[n + body, 2 * n + body] += self.hook * sine
        slope[2 * n + body, body] = 1
        slope[2 * n + body, n + body] = self.hook * sine
        return residual, slope, sums @ (active.stiffness * self.hauled)

    def firm(self, place: Place, pattern: Pattern) -> bool:
        """Whether the rig stands firm there: small pushes move it a little, not away."""
        active = self.active(pattern)
        _, slope, _ = self._equations(place.hand, place.unknown, active)
        sign, _ = np.linalg.slogdet(slope[active.square])
        odd = self.count + sum(body.tilts for body in self.setup.bodies) + sum(slip > 0 for slip in pattern.slips)
        return bool(sign == (-1) ** odd)
