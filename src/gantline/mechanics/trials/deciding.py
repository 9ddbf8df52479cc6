"""At an event: which sheaves turn, which stick, what stands and what is slack from here on.

All that is at a limit is decided together. Each such thing has two ways to go on, and each way a rate that must not be
negative; the ways of all of them must agree. They are found by changing the first that is wrong, time and again, which
ends where there is one answer; else by trying every combination. Where none agrees the rig has no way on at rest.
"""

from itertools import product
from typing import NamedTuple

from .geometry import FREE, Geometry, Pattern, Place
from .limits import PASSED, Limits

_AT = 1e-7  # of all weight (or of a metre): nearer than this a limit is reached
_AHEAD = 1e-7  # m, how far ahead a choice is tried where the rates at the event itself do not tell
_MOST = 12  # limits reached at once of which every combination is tried

Found = tuple[Pattern, Place]


class Reached(NamedTuple):
    """A limit that is reached: `kind` is the field of the pattern, `on` its value past the limit, `off` before it."""

    kind: str
    at: int
    on: int
    off: int


class Deciding:
    """One event: the limits reached there, and the search for a pattern in which each of them goes on."""

    def __init__(self, geometry: Geometry, limits: Limits, place: Place, sense: int) -> None:
        self.geometry, self.limits, self.place, self.sense = geometry, limits, place, sense
        self.least = PASSED * float(geometry.stiffness.max()) / geometry.scale

    def decide(self, pattern: Pattern) -> Found | None:
        """The pattern that goes on, and the place as it has it; None where there is none."""
        reached = self._reached(pattern)
        return self._by_changing(pattern, reached) or self._by_trying(pattern, reached)

    def _reached(self, pattern: Pattern) -> list[Reached]:
        along, against = self.limits.room(self.place)
        found = []
        for n, slip in enumerate(pattern.slips):
            way = slip or (1 if along[n] <= against[n] else -1)
            if slip != FREE and (slip or min(along[n], against[n]) < _AT):
                found.append(Reached("slips", n, way, 0))
        count, scale = self.geometry.count, self.geometry.scale
        floor, gap = self.place.unknown[2 * count : 3 * count] / scale, self.limits.gap(self.place)
        for n, stands in enumerate(pattern.stands):
            if self.limits.floored[n] and (floor[n] < _AT if stands else gap[n] < _AT):
                found.append(Reached("stands", n, True, False))
        for n, slack in enumerate(pattern.slack):
            if -self.place.stretch[n] < _AT if slack else self.place.tension[n] / scale < _AT:
                found.append(Reached("slack", n, True, False))
        return found

    def _by_changing(self, pattern: Pattern, reached: list[Reached]) -> Found | None:
        seen = set()
        while pattern not in seen:
            seen.add(pattern)
            place = self._placed(pattern)
            if place is None:
                return None
            wrong = next((one for one in reached if not self._goes(one, pattern, place)), None)
            if wrong is None:
                return (pattern, place) if self.geometry.firm(place, pattern) else None
            pattern = _with(pattern, wrong, wrong.off if _value(pattern, wrong) == wrong.on else wrong.on)
        return None

    def _by_trying(self, pattern: Pattern, reached: list[Reached]) -> Found | None:
        """Every combination, by where it leads a little way ahead."""
        if len(reached) > _MOST:
            return None
        for values in product(*((one.on, one.off) for one in reached)):
            for one, value in zip(reached, values, strict=True):
                pattern = _with(pattern, one, value)
            place = self._placed(pattern)
            if place is None or not self.geometry.firm(place, pattern):
                continue
            ahead = place.hand + self.sense * _AHEAD
            there = self.geometry.settle(ahead, place.unknown + place.rate * (ahead - place.hand), pattern)
            if there is not None and self.limits.least(there, pattern, self.sense) >= -PASSED:
                return pattern, place
        return None

    def _placed(self, pattern: Pattern) -> Place | None:
        """The same place in another pattern: what does not stand loads no floor."""
        unknown, count = self.place.unknown.copy(), self.geometry.count
        unknown[2 * count : 3 * count][[not stands for stands in pattern.stands]] = 0
        return self.geometry.settle(self.place.hand, unknown, pattern)

    def _goes(self, one: Reached, pattern: Pattern, place: Place) -> bool:
        """Whether a limit reached is kept as the hand goes on. A sheave that would not move by its rate sticks."""
        on, n, count = _value(pattern, one) == one.on, one.at, self.geometry.count
        if one.kind == "slips" and on:
            return bool(self.sense * one.on * place.rate[3 * count + n] > PASSED)
        if one.kind == "slips":
            rate = self.limits.widening(place)[0 if one.on == 1 else 1][n]
            return bool(self.sense * rate >= -self.least)
        if one.kind == "stands":
            rate = place.rate[2 * count + n] / self.geometry.scale if on else self.limits.opening(place)[n]
            return bool(self.sense * rate >= -(self.least if on else PASSED))
        rate = -place.stretch_rate[n] if on else place.tension_rate[n] / self.geometry.scale
        return bool(self.sense * rate >= -(PASSED if on else self.least))


def _value(pattern: Pattern, one: Reached) -> int:
    values: tuple[int, ...] = getattr(pattern, one.kind)
    return values[one.at]


def _with(pattern: Pattern, one: Reached, value: int) -> Pattern:
    values = list(getattr(pattern, one.kind))
    values[one.at] = value
    return pattern._replace(**{one.kind: tuple(values)})
