"""What a trial takes, and what it finds: frozen nouns, all numbers floats in SI, angles in radians.

Right is positive across, up is positive; a tilt is positive where it lifts the right-hand side. A strand's `pull` on
what it touches is +1 where it pulls it up, -1 where it pulls it down.
"""

from typing import Literal

from msgspec import Struct

TrialWay = Literal["raising", "lowering", "second"]
What = Literal["turns", "turns back", "stops", "leaves floor", "meets floor", "steady", "slack", "taut"]
HAND_TRAVELS = (0.01, 0.02, 0.05, 0.1)  # m, where a ruler is read if nothing else is asked
FIXED = -1  # the body of what stays


class Assumed(Struct, frozen=True):
    """A measure the file does not give, and what is taken for it. `value` in `unit` (SI; "1" for a ratio, "" for none).

    `what`: efficiency, weight, radius, spacing, hook, becket, stiffness, drag, apart, lead. `parts` are whom it is
    about, in the order of the file; for apart "A and B".
    """

    what: str
    parts: tuple[str, ...]
    value: float | None = None
    unit: str = ""


class Touch(Struct, frozen=True):
    """One end of a strand: at a sheave, made fast, or in the hand.

    `body` is the place in `Setup.bodies`, FIXED for what stays. `x` (right of the block's middle) and `z` (above its
    sheave line) place the axle, or the end made fast; the strand runs at x + side r, side -1 left, +1 right, 0 an end.
    """

    part: str
    body: int
    pull: int
    x: float = 0.0
    z: float = 0.0
    side: int = 0
    radius: float = 0.0


class Span(Struct, frozen=True):
    """One strand: its name rope:index, its length at the start (m), its stiffness EA/L (N/m), and its two ends."""

    name: str
    rope: int
    length: float
    stiffness: float
    start: Touch
    end: Touch
    hauled: bool = False

    @property
    def touches(self) -> tuple[Touch, Touch]:
        return self.start, self.end


class Wheel(Struct, frozen=True):
    """A sheave with its rope. `before` and `after` are its strands along the path, by their place in `Setup.spans`;
    `side` is where `before` runs (-1 left). While rope runs, the pull it runs to is ratio x the other + drag (N)."""

    name: str
    block: str
    body: int
    x: float
    radius: float
    before: int
    after: int
    side: int
    over: bool
    ratio: float
    drag: float


class Body(Struct, frozen=True):
    """What travels as one: a block with what hangs on its hook, or a load by itself. Weights in N.

    `hook` is the depth of the pin below the sheave line (m). Only a body with a roved sheave `tilts`. A load that rises
    as the hand hauls `stands` on the floor at first; one that sinks then, a counterweight, hangs from the start.
    """

    name: str
    weight: float
    load: float
    hook: float
    tilts: bool
    loads: tuple[str, ...] = ()
    stands: bool = True


class Setup(Struct, frozen=True):
    """A rig made ready to be hauled: real rope, real blocks, loads on the floor, rope just taut.

    `aim` is the body whose rise is asked about. `tensions` (N, by span), `tilts` and `floors` (N, what the floor
    carries; both by body) are those of the start; `preload` is the share of each load that hangs on the rope then.
    """

    bodies: tuple[Body, ...]
    spans: tuple[Span, ...]
    wheels: tuple[Wheel, ...]
    ropes: tuple[str, ...]
    aim: int
    assumed: tuple[Assumed, ...]
    tensions: tuple[float, ...] = ()
    tilts: tuple[float, ...] = ()
    floors: tuple[float, ...] = ()
    preload: float = 0.0


class Ending(Struct, frozen=True):
    """Why a trial, or a part of it, has no answer, or where it stops.

    `kind` is "jump" (no way on at rest: the rig would leap) or "not determined" (the model does not reach so far).
    `why`: no-hand, rides, level, two-blocks, number-missing, no-load, too-large, freedoms, no-start, topples, idle,
    jams, runs-not-back, strand-slack, hook-slack, rope-slack, blocks-meet, no-way-on. `hand`: where it was met (m).
    """

    kind: Literal["jump", "not determined"]
    why: str
    parts: tuple[str, ...] = ()
    hand: float | None = None
    way: Literal["", "raising", "lowering"] = ""  # the steady state it is about, where it is about one


class Steady(Struct, frozen=True):
    """The steady state of one way, raising or lowering: every sheave turns, nothing else changes.

    `tensions` (N) by strand, `tilt` (rad) by block. A body's rise at the middle of its sheave line is rise_at_zero +
    rise_per_hand x hand travel from the start (m); the first differs from 0 by stretch and tilt. `stretch` is the hand
    travel that goes into stretching the rope.
    """

    way: Literal["raising", "lowering"]
    effort: float
    tensions: dict[str, float]
    tilt: dict[str, float]
    rise_at_zero: dict[str, float]
    rise_per_hand: dict[str, float]
    stretch: float


class Moment(Struct, frozen=True):
    """The rig at rest at one hand travel.

    `hand` rope taken up since the start (m); `effort` (N); by strand: `tensions` (N), `shortened` (m, ruler length
    lost); by block: `tilt` (rad); by body: `rises` (m, at the middle of its sheave line), `floor` (N, what the floor
    still carries); by sheave: `axles` (m, rise of each moving axle), `slips` (m, rope handed on along the path, against
    its own block), `turns` (rad, as the room sees it, counter-clockwise positive); by load: `load` (m, its rise).
    """

    hand: float
    effort: float
    tensions: dict[str, float]
    shortened: dict[str, float]
    tilt: dict[str, float]
    rises: dict[str, float]
    axles: dict[str, float]
    slips: dict[str, float]
    turns: dict[str, float]
    load: dict[str, float]
    floor: dict[str, float]


class Event(Struct, frozen=True):
    """Something begins or ends at a hand travel (m). A sheave turns, or turns back, as its own block sees it: the way
    of hauling, or against it."""

    hand: float
    part: str
    what: What


class Meeting(Struct, frozen=True):
    """Two parts that meet before the way asked for is done: block to block.

    `load` is to rise `asked` and can rise `rise` (m); `parts` stand `apart` at the start (m), given or `assumed`.
    """

    load: str
    asked: float
    rise: float
    parts: tuple[str, str]
    apart: float
    assumed: bool


class Trial(Struct, frozen=True):
    """What is seen when a rig is tried.

    `setup` is None where the rig is outside the model, `ending` then says why. `raising` and `lowering` are the steady
    states, None where there is none. `events` and `history` follow the way asked for from the hand travel `begins` on;
    after an ending with a hand travel they stop there: `stopped` is how all stands then, and `unread` are the hand
    travels asked for that were not reached, or do not lie on the way (m). `peak` is the largest tilt met on the way, by
    block (rad). `meets` says that the rise the file asks for is longer than its parts are apart.
    """

    setup: Setup | None
    way: TrialWay = "raising"
    raising: Steady | None = None
    lowering: Steady | None = None
    events: tuple[Event, ...] = ()
    history: tuple[Moment, ...] = ()
    peak: dict[str, float] = {}
    begins: float = 0.0
    endings: tuple[Ending, ...] = ()
    stopped: Moment | None = None
    unread: tuple[float, ...] = ()
    meets: Meeting | None = None

    @property
    def ending(self) -> Ending | None:
        """Why the way asked for has no answer, or stops; None where it was followed to its end."""
        way = "lowering" if self.way == "lowering" else "raising"
        stops = [one for one in self.endings if one.hand is not None]
        return next(iter((*stops, *(one for one in self.endings if one.way in ("", way)))), None)

    @property
    def leaves_floor(self) -> float | None:
        """The hand travel at which the load asked about leaves the floor, None where it was not seen to."""
        return self._first("leaves floor")

    @property
    def all_turning(self) -> float | None:
        """The hand travel from which on every sheave turns and nothing changes but the height."""
        return self._first("steady")

    def _first(self, what: What) -> float | None:
        return next((event.hand for event in self.events if event.what == what), None)
