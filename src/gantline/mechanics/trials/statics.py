"""The steady state, in closed form: pulls by the law of the sheaves, then the tilt that balances each block."""

from math import asin, atan2, cos, hypot, radians, sin
from typing import Any, Literal

import numpy as np
from msgspec.structs import replace

from .nouns import FIXED, Ending, Setup, Steady, Touch

Array = np.ndarray[Any, np.dtype[Any]]

_NONE = 1e-9  # a share of the load, or of a metre per metre: less is none
FARTHEST = radians(60)  # leaning farther, strands that stay plumb are no picture of a block any more
_LIGHT, _LEANING, _TAUT = 1e-4, 0.1, 1.05  # shares of the load that hang on the rope at the start, see `start`


class Statics:
    """A rig's rope rows and balances. Rows of `lift` are bodies, columns spans: how many times a strand pulls it up."""

    def __init__(self, setup: Setup) -> None:
        self.setup = setup
        self.lift = np.zeros((len(setup.bodies), len(setup.spans)))
        for n, span in enumerate(setup.spans):
            for touch in span.touches:
                if touch.body != FIXED:
                    self.lift[touch.body, n] += touch.pull
        self.to_load = np.zeros_like(self.lift)  # of these, the strands made fast to what hangs on a block's hook
        for n, span in enumerate(setup.spans):
            for touch in span.touches:
                if touch.body != FIXED and on_pin(setup, touch):
                    self.to_load[touch.body, n] += touch.pull
        self.in_rope = np.zeros((len(setup.ropes), len(setup.spans)))
        for n, span in enumerate(setup.spans):
            self.in_rope[span.rope, n] = 1
        self.taken_up = self.in_rope @ [float(span.hauled) for span in setup.spans]
        self.growth = self.in_rope @ self.lift.T  # how a rope's strands together shorten as each body rises
        self.weights = np.array([body.weight for body in setup.bodies])
        self.loads = np.array([body.load for body in setup.bodies])

    @property
    def determined(self) -> bool:
        """Whether the hand's way settles the way of every body."""
        square = self.growth.shape[0] == self.growth.shape[1]
        return square and bool(np.linalg.matrix_rank(self.growth) == len(self.growth))

    def rates(self) -> Array:
        """Rise of each body for each metre of rope taken up, while all sheaves turn."""
        return np.linalg.solve(self.growth, self.taken_up)

    def flows(self) -> Array:
        """Rope over each sheave along its path, for each metre taken up, while all sheaves turn."""
        closing = self.lift.T @ self.rates() - [float(span.hauled) for span in self.setup.spans]
        flows = np.zeros(len(self.setup.wheels))
        passed: dict[int, float] = {}
        for n, wheel in enumerate(self.setup.wheels):
            flows[n] = passed.get(wheel.before, 0.0) + closing[wheel.before]
            passed[wheel.after] = flows[n]
        return flows

    def tensions(self, hanging: Array, sense: int, pinned: bool = False) -> Array:
        """The pull of each strand with `hanging` on each hook (N): sense 1 raising, -1 lowering, 0 without loss.

        Where a rope is fast to the load itself, the load's whole weight hangs on hook and rope together; `pinned` says
        that `hanging` is what the hook alone carries.
        """
        count = len(self.setup.spans)
        rows, right = np.zeros((count, count)), np.zeros(count)
        flows = self.flows()
        for n, wheel in enumerate(self.setup.wheels):
            ahead, behind = wheel.after, wheel.before
            if sense * flows[n] < 0:
                ahead, behind = behind, ahead
            rows[n, ahead] = 1
            rows[n, behind] = -wheel.ratio if sense else -1
            right[n] = wheel.drag if sense else 0
        rows[len(self.setup.wheels) :] = self.lift - self.to_load if pinned else self.lift
        right[len(self.setup.wheels) :] = self.weights + hanging
        try:
            return np.linalg.solve(rows, right)
        except np.linalg.LinAlgError:  # friction passes on exactly as much as it is given
            return np.full(count, np.inf)

    def longer(self, tensions: Array) -> Array:
        """How much each rope has stretched since the start (m)."""
        stiffness = np.array([span.stiffness for span in self.setup.spans])
        stretched: Array = self.in_rope @ ((tensions - np.array(self.setup.tensions)) / stiffness)
        return stretched

    def stretch(self, tensions: Array) -> float:
        """The hand travel that goes into stretching the ropes, as far as it is lost to the body asked about (m)."""
        aim = self.setup.aim
        return float(np.linalg.solve(self.growth, self.longer(tensions))[aim] / self.rates()[aim])

    def turning(self, tensions: Array, hanging: Array) -> list[tuple[float, float, float]]:
        """A, B, C of each body: it hangs still where A cos(tilt) + B = C sin(tilt) (N m)."""
        sums = [[0.0, 0.0, hang * body.hook] for body, hang in zip(self.setup.bodies, hanging, strict=True)]
        for span, tension in zip(self.setup.spans, tensions, strict=True):
            for touch in span.touches:
                if touch.body != FIXED:
                    _add(sums[touch.body], touch, touch.pull * tension)
        return [(a, b, c) for a, b, c in sums]


def on_pin(setup: Setup, touch: Touch) -> bool:
    """Whether a strand is fast to a load that hangs on a block's hook."""
    body = setup.bodies[touch.body]
    return body.tilts and touch.part in body.loads


def _add(sums: list[float], touch: Touch, pull: float) -> None:
    sums[0] += pull * touch.x
    sums[1] += pull * touch.side * touch.radius
    sums[2] += pull * touch.z


def lean(across: float, bearing: float, restoring: float, scale: float) -> float | None:
    """The tilt with across cos + bearing = restoring sin that is stable; None where the block would topple.

    `scale` is a moment that counts (N m): where all three are nothing beside it the block stays level.
    """
    size = hypot(across, restoring)
    if max(size, abs(bearing)) < _NONE * scale:
        return 0.0
    if size < _NONE * scale or abs(bearing) >= size or restoring <= 0:
        return None
    return atan2(across, restoring) + asin(bearing / size)


def landing(statics: Statics, state: Steady) -> float:
    """The hand travel at which the steady state has the body asked about on the floor (m)."""
    body = statics.setup.bodies[statics.setup.aim]
    drop = body.hook * (cos(statics.setup.tilts[statics.setup.aim]) - cos(state.tilt.get(body.name, 0.0)))
    return -(state.rise_at_zero[body.name] + drop) / state.rise_per_hand[body.name]


def start(statics: Statics) -> Setup | Ending:
    """The setup with its start: rope just taut, loads on the floor, no friction at work yet.

    "Just taut" is a rope that carries the blocks and nothing of the loads. Where that would leave a strand slack or a
    block leaning over, a tenth of each load hangs on the rope already, or a little more than makes every strand taut;
    where it would leave no pull at all, or a block on free wheels that any breath tilts, a ten-thousandth.
    """
    setup = statics.setup
    hanging = np.where([body.stands for body in setup.bodies], 0.0, statics.loads)
    bare = statics.tensions(hanging, 0, pinned=True)
    each = statics.tensions(statics.loads, 0, pinned=True) - bare
    none = _NONE * _scale(setup)
    lacking = bare < -none
    if (lacking & (each <= none)).any():
        return Ending("not determined", "no-start", _named(setup, lacking & (each <= none)))
    needed = max((-bare[lacking] / each[lacking]).tolist(), default=0.0)
    share = max(_LEANING, _TAUT * needed) if needed or _leans(statics, bare, hanging) else 0.0
    free = any(wheel.body != FIXED and wheel.ratio == 1 and wheel.drag == 0 for wheel in setup.wheels)
    share = share or (_LIGHT if free or (bare <= none).any() else 0.0)
    if share >= 1:
        return Ending("not determined", "no-start", _named(setup, lacking))
    tensions = bare + share * each
    hanging = np.where(hanging > 0, hanging, share * statics.loads) + statics.to_load @ tensions
    tilts, floors = poses(statics, tensions, hanging), statics.loads - hanging
    if isinstance(tilts, Ending):
        return tilts
    if (floors < 0).any():
        return Ending("not determined", "no-start")
    return replace(setup, tensions=tuple(tensions.tolist()), tilts=tilts, floors=tuple(floors.tolist()), preload=share)


def _leans(statics: Statics, tensions: Array, hanging: Array) -> bool:
    tilts = poses(statics, tensions, hanging + statics.to_load @ tensions)
    return isinstance(tilts, Ending) or any(abs(tilt) > _NONE for tilt in tilts)


def poses(statics: Statics, tensions: Array, hanging: Array) -> tuple[float, ...] | Ending:
    """The tilt of each body (rad), 0 for those that do not tilt."""
    tilts = []
    scale = max(_scale(statics.setup), float(np.abs(tensions).max()))
    for body, moments in zip(statics.setup.bodies, statics.turning(tensions, hanging), strict=True):
        tilt = lean(*moments, scale * 1e-3) if body.tilts else 0.0
        if tilt is None or abs(tilt) > FARTHEST:
            return Ending("not determined", "topples", (body.name,))
        tilts.append(tilt)
    return tuple(tilts)


def _scale(setup: Setup) -> float:
    return sum(body.weight + body.load for body in setup.bodies) or 1.0


def _named(setup: Setup, which: Array) -> tuple[str, ...]:
    return tuple(span.name for span, said in zip(setup.spans, which, strict=True) if said)


def at_rest(statics: Statics, way: Literal["raising", "lowering"]) -> Steady | Ending:
    """The steady state of one way."""
    setup = statics.setup
    idle = tuple(
        wheel.name
        for wheel, flow in zip(setup.wheels, statics.flows(), strict=True)
        if abs(flow) < _NONE and (wheel.ratio > 1 or wheel.drag > 0)
    )
    if idle:
        return Ending("not determined", "idle", idle, way=way)
    tensions = statics.tensions(statics.loads, 1 if way == "raising" else -1)
    if not np.isfinite(tensions).all():
        return Ending("not determined", "jams", way=way)
    if (tensions < -_NONE * _scale(setup)).any():
        why = "strand-slack" if way == "raising" else "runs-not-back"
        return Ending("not determined", why, _named(setup, tensions < 0), way=way)
    tilts = poses(statics, tensions, statics.loads)
    if isinstance(tilts, Ending):
        return replace(tilts, way=way)
    names = [body.name for body in setup.bodies]
    hauled = next(n for n, span in enumerate(setup.spans) if span.hauled)
    return Steady(
        way, float(tensions[hauled]),
        dict(zip((span.name for span in setup.spans), tensions.tolist(), strict=True)),
        {body.name: tilt for body, tilt in zip(setup.bodies, tilts, strict=True) if body.tilts},
        dict(zip(names, _at_zero(statics, tensions, tilts).tolist(), strict=True)),
        dict(zip(names, statics.rates().tolist(), strict=True)), statics.stretch(tensions),
    )  # fmt: skip


def _at_zero(statics: Statics, tensions: Array, tilts: tuple[float, ...]) -> Array:
    """Where the steady state, drawn back to no hand travel, would have each body: ropes keep their length."""
    setup = statics.setup
    leaning = np.array([_turned(span.touches, tilts) - _turned(span.touches, setup.tilts) for span in setup.spans])
    rises: Array = -np.linalg.solve(statics.growth, statics.longer(tensions) + statics.in_rope @ leaning)
    return rises


def _turned(touches: tuple[Touch, Touch], tilts: tuple[float, ...]) -> float:
    """How much shorter a strand is for the tilt of what its ends are on (m)."""
    return sum(
        touch.pull * (touch.x * sin(tilt) + touch.side * touch.radius * tilt + touch.z * (cos(tilt) - 1))
        for touch in touches
        if touch.body != FIXED
        for tilt in (tilts[touch.body],)
    )
