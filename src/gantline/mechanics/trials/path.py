"""How a trial goes on: from one event to the next, each found where it happens.

Between two events the pattern of what slips, stands and is slack stays the same, and the state depends on the hand
travel alone: no step is too long, save that an event inside it must not be missed. At an event all that stands at a
limit is decided anew together, by what the rates would be (deciding.py).
"""

import numpy as np

from .deciding import Deciding
from .geometry import FREE, Array, Geometry, Pattern, Place
from .limits import PASSED, Limits
from .nouns import Ending, Event, What

_MEANT = PASSED / 10  # a limit passed by less is reached
_EXACT = 1e-15  # m, how exactly an event is dated
_MOST_LOOKS = 60  # for one event
_SHORTEST = 1e-10  # m, steps shorter than this lead nowhere
_GROWS, _MOST, _LONGEST = 1.5, 16, 5e-4  # how steps grow while nothing happens: to so many of the first, or so many m


class Path:
    """A rig being hauled or let out. `place` and `pattern` are where it is now; `events` gather, `peak` too (rad)."""

    def __init__(self, geometry: Geometry, flows: Array, step: float) -> None:
        self.geometry, self.setup, self.flows, self.step = geometry, geometry.setup, flows, step
        self.limits = Limits(geometry)
        free = tuple(FREE if wheel.ratio == 1 and wheel.drag == 0 else 0 for wheel in self.setup.wheels)
        standing = tuple(body.stands for body in self.setup.bodies)
        self.pattern = Pattern(free, standing, (False,) * len(self.setup.spans))
        self.place, self.sense, self.long = geometry.begin(self.pattern), 1, step
        self.begin_leg()

    def go(self, hand: float) -> Ending | None:
        """On to a hand travel (m); or to where the trial ends before it."""
        if hand == self.place.hand:
            return None
        sense = 1 if hand > self.place.hand else -1
        ending = self._turn(sense) if sense != self.sense else None
        idle = 0
        while ending is None and self.place.hand != hand:
            was = self.place.hand
            ending = self._leg(hand)
            idle = 0 if abs(self.place.hand - was) > _SHORTEST else idle + 1
            if idle > 2 * len(self.setup.wheels) + 40:
                ending = self._jump()
        return ending

    def begin_leg(self) -> None:
        """What was met so far is forgotten."""
        self.events: list[Event] = []
        self.peak = self._tilt(self.place).copy()

    def _tilt(self, place: Place) -> Array:
        return place.unknown[self.geometry.count : 2 * self.geometry.count]

    @property
    def steady(self) -> bool:
        """Whether every sheave turns the way the hand goes and every load hangs free."""
        turning = all(
            slip == FREE or abs(flow) < PASSED or slip == self.sense * np.sign(flow)
            for slip, flow in zip(self.pattern.slips, self.flows, strict=True)
        )
        return turning and not any(self.pattern.stands) and not any(self.pattern.slack)

    def _leg(self, hand: float) -> Ending | None:
        """One step, at most to the next event."""
        place = self.place
        far = self.steady or abs(hand - place.hand) <= self.long
        target = hand if far else place.hand + self.sense * self.long
        found = self._settle(target, place)
        if found is None:
            self.long = abs(target - place.hand) / 4
            return self._jump() if self.long < _SHORTEST else None
        if self.limits.least(found, self.pattern, self.sense) >= -PASSED:
            self._arrive(found)
            self.long = min(self.long * _GROWS, max(self.step * _MOST, _LONGEST))
            return None
        event, passed = self._event(place, found)
        self._arrive(event)
        self.long = self.step
        return self.limits.ended(passed, event.hand) or self._change()

    def _settle(self, hand: float, near: Place) -> Place | None:
        return self.geometry.settle(hand, near.unknown + near.rate * (hand - near.hand), self.pattern)

    def _arrive(self, place: Place) -> None:
        n = self.geometry.count
        before, after = self.place.rate[n : 2 * n], place.rate[n : 2 * n]
        for body in np.flatnonzero(before * after < 0):  # it was greatest on the way
            part = before[body] / (before[body] - after[body])
            between = self._settle(self.place.hand + part * (place.hand - self.place.hand), self.place)
            self._peak(place if between is None else between)
        self._peak(place)
        self.place = place

    def _peak(self, place: Place) -> None:
        tilt = self._tilt(place)
        self.peak = np.where(np.abs(tilt) > np.abs(self.peak), tilt, self.peak)

    def _event(self, low: Place, high: Place) -> tuple[Place, int]:
        """The place between two, of the same pattern, where the first limit is reached, and which one it is."""
        spare = self.limits.all(low, self.pattern, self.sense)
        over = self.limits.all(high, self.pattern, self.sense)
        for look in range(_MOST_LOOKS):
            passed = np.flatnonzero(over < -_MEANT)
            left = spare[passed].clip(min=0)
            part = float((left / (left - over[passed])).min()) if look % 3 < 2 else 0.5
            found = self._settle(low.hand + part * (high.hand - low.hand), low)
            if found is None:
                break
            now = self.limits.all(found, self.pattern, self.sense)
            if now[passed].min() > _MEANT:
                low, spare = found, now
            else:
                high, over = found, now
            if over.min() >= -_MEANT or abs(high.hand - low.hand) < _EXACT:
                break
        return high, int(passed[over[passed].argmin()])

    # -- at an event ------------------------------------------------------------------------------------------------

    def _turn(self, sense: int) -> Ending | None:
        self.sense, self.long = sense, self.step
        return self._change()

    def _change(self) -> Ending | None:
        """The pattern from here on, with the events it brings."""
        was_steady = self.steady
        found = Deciding(self.geometry, self.limits, self.place, self.sense).decide(self.pattern)
        if found is None:
            return self._jump()
        before, (self.pattern, self.place) = self.pattern, found
        self._note(before)
        if self.steady and not was_steady:
            aim = self.setup.bodies[self.setup.aim]
            self.events.append(Event(self.place.hand, (*aim.loads, aim.name)[0], "steady"))
        return self._slack()

    def _slack(self) -> Ending | None:
        """The end of a trial in which a whole rope hangs slack: nothing tells then how its parts lie."""
        for rope, name in enumerate(self.setup.ropes):
            if all(off for span, off in zip(self.setup.spans, self.pattern.slack, strict=True) if span.rope == rope):
                return Ending("not determined", "rope-slack", (name,), self.place.hand)
        return None

    def _note(self, before: Pattern) -> None:
        """The events between a pattern and the present one."""
        now, hand = self.pattern, self.place.hand
        for wheel, flow, old, new in zip(self.setup.wheels, self.flows, before.slips, now.slips, strict=True):
            if old != new:
                forward: What = "turns" if new * (flow or 1.0) > 0 else "turns back"
                self.events.append(Event(hand, wheel.name, forward if new else "stops"))
        for body, old, new in zip(self.setup.bodies, before.stands, now.stands, strict=True):
            if old != new:
                self.events += [Event(hand, load, "meets floor" if new else "leaves floor") for load in body.loads]
        for span, old, new in zip(self.setup.spans, before.slack, now.slack, strict=True):
            if old != new:
                self.events.append(Event(hand, span.name, "slack" if new else "taut"))

    def _jump(self) -> Ending:
        return Ending("jump", "no-way-on", (), self.place.hand)
