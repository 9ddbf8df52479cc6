"""How far a state is from each limit of its pattern: below zero, the pattern holds no longer."""

import numpy as np

from .geometry import FREE, Array, Geometry, Pattern, Place
from .nouns import FIXED, Ending, Touch
from .statics import FARTHEST, on_pin

PASSED = 1e-9  # of all weight, or of a metre (per metre): a limit is passed by more than this


class Limits:
    """Limits in one array: of each sheave both ways, each floor, each strand; then where the model ends: hooks that
    would have to push, blocks that lean too far, blocks that meet.

    Forces are shares of all weight, ways in m, angles in rad.
    """

    def __init__(self, geometry: Geometry) -> None:
        self.geometry = geometry
        setup = geometry.setup
        self.before = np.array([wheel.before for wheel in setup.wheels], dtype=int)
        self.after = np.array([wheel.after for wheel in setup.wheels], dtype=int)
        self.ratio = np.array([wheel.ratio for wheel in setup.wheels])
        self.drag = np.array([wheel.drag for wheel in setup.wheels])
        self.hooked = np.array([body.tilts and body.load > 0 for body in setup.bodies])
        self.floored = np.array([body.stands for body in setup.bodies])
        self.pinned = np.zeros_like(geometry.lift)
        for n, span in enumerate(setup.spans):
            for touch in span.touches:
                if touch.body != FIXED and on_pin(setup, touch):
                    self.pinned[n, touch.body] += touch.pull
        self.spare = np.array([np.inf if s.hauled else s.length - sum(map(_radius, s.touches)) for s in setup.spans])

    def all(self, place: Place, pattern: Pattern, sense: int) -> Array:
        """Every limit of a state, the hand going on (sense 1) or back (-1)."""
        return np.concatenate((self._wheels(place, pattern, sense), self._rest(place, pattern), self._ends(place)))

    def least(self, place: Place, pattern: Pattern, sense: int) -> float:
        return float(self.all(place, pattern, sense).min())

    def room(self, place: Place) -> tuple[Array, Array]:
        """What each sheave could still hold without turning: along its path, and against it."""
        before, after = place.tension[self.before], place.tension[self.after]
        along, against = self.ratio * before + self.drag - after, self.ratio * after + self.drag - before
        return along / self.geometry.scale, against / self.geometry.scale

    def widening(self, place: Place) -> tuple[Array, Array]:
        """How fast that room grows with the hand travel."""
        before, after = place.tension_rate[self.before], place.tension_rate[self.after]
        return (self.ratio * before - after) / self.geometry.scale, (self.ratio * after - before) / self.geometry.scale

    def gap(self, place: Place) -> Array:
        n = self.geometry.count
        gap: Array = place.unknown[:n] + self.geometry.hook * (1 - np.cos(place.unknown[n : 2 * n]))
        return gap

    def opening(self, place: Place) -> Array:
        """How fast the gaps grow with the hand travel."""
        n = self.geometry.count
        tilting = self.geometry.hook * np.sin(place.unknown[n : 2 * n]) * place.rate[n : 2 * n]
        opening: Array = place.rate[:n] + tilting
        return opening

    def ended(self, passed: int, hand: float) -> Ending | None:
        """Why the model ends where the limit with this place in `all` is passed, if it does."""
        setup, n = self.geometry.setup, self.geometry.count
        at = passed - 2 * len(setup.wheels) - n - len(setup.spans)
        if at < 0:
            return None
        if at < n:
            return Ending("not determined", "hook-slack", (setup.bodies[at].name,), hand)
        if at < 2 * n:
            return Ending("not determined", "topples", (setup.bodies[at - n].name,), hand)
        span = setup.spans[at - 2 * n]
        return Ending("not determined", "blocks-meet", (span.start.part, span.end.part), hand)

    def _wheels(self, place: Place, pattern: Pattern, sense: int) -> Array:
        slips = np.array(pattern.slips)
        turning = np.where(slips == FREE, np.inf, sense * slips * place.rate[3 * self.geometry.count :])
        along, against = self.room(place)
        return np.concatenate((np.where(slips == 0, along, turning), np.where(slips == 0, against, np.inf)))

    def _rest(self, place: Place, pattern: Pattern) -> Array:
        n, scale = self.geometry.count, self.geometry.scale
        floor = place.unknown[2 * n : 3 * n] / scale
        floors = np.where(pattern.stands, floor, np.where(self.floored, self.gap(place), np.inf))
        strands = np.where(pattern.slack, -place.stretch, place.tension / scale)
        return np.concatenate((floors, strands))

    def _ends(self, place: Place) -> Array:
        geometry, n = self.geometry, self.geometry.count
        hanging = geometry.load - place.unknown[2 * n : 3 * n] - place.tension @ self.pinned
        hooks = np.where(self.hooked, hanging / geometry.scale, np.inf)
        lean = FARTHEST - np.abs(place.unknown[n : 2 * n])
        return np.concatenate((hooks, lean, self.spare - geometry.shortened(place.unknown)))


def _radius(touch: Touch) -> float:
    return touch.radius
