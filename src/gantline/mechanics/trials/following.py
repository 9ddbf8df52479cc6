"""Steady states and trials of a rig."""

from collections.abc import Sequence
from math import isfinite, sin
from typing import Any

import numpy as np
from msgspec.structs import replace

from gantline.rig import Rig

from .geometry import Array, Geometry, Place, Unsettled
from .meeting import meeting
from .nouns import FIXED, HAND_TRAVELS, Body, Ending, Moment, Steady, Trial, TrialWay, Wheel
from .path import Path
from .setting_up import set_up
from .statics import Statics, at_rest, landing, start

MOST_SHEAVES = 64  # past this only the steady states are told, as the way there would take too long
_STEPS = 64  # of the stretch before the rise: so long is a first step
_SHORT = 2e-4  # m, steps that need not be shorter while looking for where it lands
_SLACKENED = 0.4  # of the load: so much the floor carries again before a second pull


def steady(rig: Rig) -> Trial:
    """The steady states of a rig, raising and lowering; no events and no history."""
    statics = _ready(rig)
    return Trial(None, endings=(statics,)) if isinstance(statics, Ending) else _steady(rig, statics)


def trial(
    rig: Rig,
    hand: Sequence[float] = HAND_TRAVELS,
    way: TrialWay = "raising",
    top: float | None = None,
    low: float | None = None,
) -> Trial:
    """What is seen at each hand travel (m, from the start, load on the floor and rope just taut).

    `raising` hauls from the start. `lowering` hauls to `top` (else the largest of `hand`) unseen, then lets out: the
    history goes down from there. `second` hauls to `top`, lets out to `low` (else to where the load stands on the floor
    again, the rope still taut), and hauls a second time. Readings that do not lie on the way are left out.
    ValueError for a hand travel below 0 or not finite.
    """
    if not all(isfinite(each) and each >= 0 for each in (*hand, top or 0.0, low or 0.0)):
        raise ValueError("a hand travel is a length from the start, not below 0")
    statics = _ready(rig)
    if isinstance(statics, Ending):
        return Trial(None, way, endings=(statics,))
    if len(statics.setup.wheels) > MOST_SHEAVES:
        known = _steady(rig, statics)
        return replace(known, way=way, endings=(*known.endings, Ending("not determined", "too-large")))
    try:
        return _Following(statics, way, top, low).trial(hand, _steady(rig, statics))
    except Unsettled:
        return Trial(None, way, endings=(Ending("not determined", "no-start"),))


def _ready(rig: Rig) -> Statics | Ending:
    """The rig set up with its start; or why it has none."""
    setup = set_up(rig)
    if isinstance(setup, Ending):
        return setup
    if setup.bodies[setup.aim].load == 0:
        return Ending("not determined", "no-load", (setup.bodies[setup.aim].name,))
    statics = Statics(setup)
    if not statics.determined:
        return Ending("not determined", "freedoms")
    stands = [body.load > 0 and bool(rate > 0) for body, rate in zip(setup.bodies, statics.rates(), strict=True)]
    bodies = tuple(replace(body, stands=on) for body, on in zip(setup.bodies, stands, strict=True))
    begun = start(Statics(replace(setup, bodies=bodies)))
    return begun if isinstance(begun, Ending) else Statics(begun)


def _steady(rig: Rig, statics: Statics) -> Trial:
    up, down = at_rest(statics, "raising"), at_rest(statics, "lowering")
    endings = tuple(state for state in (up, down) if isinstance(state, Ending))
    return Trial(
        statics.setup,
        raising=up if isinstance(up, Steady) else None,
        lowering=down if isinstance(down, Steady) else None,
        endings=tuple(dict.fromkeys(endings)),
        meets=meeting(rig, statics),
    )


class _Following:
    """One trial: the legs that lead to its way, and the readings on it."""

    def __init__(self, statics: Statics, way: TrialWay, top: float | None, low: float | None) -> None:
        self.statics, self.setup, self.way, self.top, self.low = statics, statics.setup, way, top, low
        self.stretch = abs(statics.stretch(statics.tensions(statics.loads, 0)))
        self.path = Path(Geometry(self.setup), statics.flows(), self.stretch / _STEPS)

    def trial(self, hand: Sequence[float], known: Trial) -> Trial:
        """What is seen at each hand travel, added to what is known of the steady states."""
        ending = self._unseen(max(hand, default=0.0) if self.top is None else self.top)
        self.path.begin_leg()
        begins, history, stopped = self.path.place.hand, [], None
        for each in self._readings(hand, begins) if ending is None else ():
            ending = self.path.go(each)
            if ending is not None:
                stopped = self.moment(self.path.place)
                break
            history.append(self.moment(self.path.place))
        read = {moment.hand for moment in history}
        peak = {body.name: float(tilt) for body, tilt in self._bodies(self.path.peak) if body.tilts}
        return replace(
            known, way=self.way, begins=begins, events=tuple(self.path.events), history=tuple(history), peak=peak,
            endings=(*known.endings, *([ending] if ending else [])), stopped=stopped,
            unread=tuple(each for each in dict.fromkeys(hand) if each not in read),
        )  # fmt: skip

    def _readings(self, hand: Sequence[float], begins: float) -> list[float]:
        """The readings in their order, of those that lie on the way."""
        if self.way == "lowering":
            return [each for each in sorted(hand, reverse=True) if each <= begins]
        return [each for each in sorted(hand) if each >= begins]

    def _unseen(self, top: float) -> Ending | None:
        """What is done before the way asked for begins; why it ends there, if it does."""
        ending = None if self.way == "raising" else self.path.go(top)
        if ending is not None or self.way != "second":
            return ending
        return self._let_out() if self.low is None else self.path.go(min(self.low, top))

    def _let_out(self) -> Ending | None:
        """Down until the floor carries a good part of the load again; at most twice the stretch past the start."""
        down, aim, path = at_rest(self.statics, "lowering"), self.setup.aim, self.path
        enough, floor = _SLACKENED * self.setup.bodies[aim].load, 2 * len(self.setup.bodies) + aim
        step, ending = max(self.stretch / _STEPS, _SHORT), None
        while ending is None and path.place.unknown[floor] < enough and path.place.hand > -2 * self.stretch:
            # once steady it is known where it lands
            lands = landing(self.statics, down) if path.steady and isinstance(down, Steady) else np.inf
            ending = path.go(lands if lands < path.place.hand else path.place.hand - step)
        return ending

    def moment(self, place: Place) -> Moment:
        """A state at rest, told by the names of its parts."""
        setup, count = self.setup, len(self.setup.bodies)
        rise, tilt, floor, slips = np.split(place.unknown, (count, 2 * count, 3 * count))
        names = [span.name for span in setup.spans]
        geometry = self.path.geometry
        pin = geometry.hook * (np.cos(setup.tilts) - np.cos(tilt))
        rise = rise - geometry.first[:count]
        lost = geometry.shortened(place.unknown) - geometry.shortened(geometry.first)
        return Moment(
            hand=place.hand,
            effort=float(geometry.hauled @ place.tension),
            tensions=dict(zip(names, place.tension.tolist(), strict=True)),
            shortened=dict(zip(names, lost.tolist(), strict=True)),
            tilt={body.name: float(angle) for body, angle in self._bodies(tilt) if body.tilts},
            rises={body.name: float(way) for body, way in self._bodies(rise)},
            axles={
                w.name: float(rise[w.body] + w.x * (sin(tilt[w.body]) - sin(setup.tilts[w.body])))
                for w in setup.wheels
                if w.body != FIXED
            },
            slips={wheel.name: float(slip) for wheel, slip in zip(setup.wheels, slips, strict=True)},
            turns={w.name: _turned(w, slip, tilt) for w, slip in zip(setup.wheels, slips, strict=True)},
            load={load: float(way) for body, way in self._bodies(rise + pin) for load in body.loads},
            floor={body.name: float(force) for body, force in self._bodies(floor)},
        )

    def _bodies(self, values: Array) -> list[tuple[Body, Any]]:
        return list(zip(self.setup.bodies, values, strict=True))


def _turned(wheel: Wheel, slip: float, tilt: Array) -> float:
    """The angle of a sheave as the room sees it, counter-clockwise: its turn against the block and the block's tilt."""
    against_block = -wheel.side * (-1 if wheel.over else 1) * slip / wheel.radius
    return float(against_block + (0.0 if wheel.body == FIXED else tilt[wheel.body]))
