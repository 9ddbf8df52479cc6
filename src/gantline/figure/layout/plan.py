"""The nouns of a layout: where everything of a rig stands on the page, in units of one sheave radius, y downward."""

from msgspec import Struct


class NotDrawable(Exception):
    """The rig has no legal figure (of this view). `sentence` says why, `parts` which parts it is about."""

    def __init__(self, sentence: str, parts: tuple[str, ...] = ()) -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.parts = parts


class Wheel(Struct, frozen=True):
    """A sheave where a rope turns. `sense` 1: the rope's path passes from left to right. `up`: its strands go up.

    `before` and `after` are the strands on either side along the path; `level` says which of the two are level.
    """

    sheave: str
    block: str
    body: str
    rope: str
    before: str
    after: str
    up: bool
    x: float
    y: float
    r: float
    sense: int
    level: tuple[bool, bool] = (False, False)


class Straight(Struct, frozen=True):
    """A straight run from its start to its end along the path; `ends` are the names of what it runs between."""

    rope: str
    name: str
    ends: tuple[str, str]
    x1: float
    y1: float
    x2: float
    y2: float

    @property
    def plumb(self) -> bool:
        return self.x1 == self.x2

    @property
    def low(self) -> float:
        return max(self.y1, self.y2)

    @property
    def high(self) -> float:
        return min(self.y1, self.y2)


class Fast(Struct, frozen=True):
    """A rope's end made fast at (x, y) to a body; `up` where the rope leaves upward. `post`: it stands on a post."""

    part: str
    body: str
    rope: str
    strand: str
    up: bool
    x: float
    y: float
    post: bool


class Grip(Struct, frozen=True):
    """The hand, at (x, y) on its strand; `up` where it pulls up, so that the rope leaves it downward.

    `body` is the rider's, empty where nobody rides.
    """

    rope: str
    strand: str
    up: bool
    x: float
    y: float
    body: str = ""


class Body(Struct, frozen=True):
    """What moves, or stays, as one piece: blocks joined by the loads they carry, a load, or a fixed part.

    `y` is the line of its bar (or strap's end), `x` its hook; the bar runs from `left` to `right`, and `bar` says
    whether there is one. `loads` hang one under the other. `rider` is the load that is a person, if any. `side` is
    ceiling, floor or moving. `level` is False where the bar could not be hung in balance.
    """

    name: str
    parts: tuple[str, ...]
    loads: tuple[str, ...]
    side: str
    x: float
    y: float
    left: float
    right: float
    bar: bool
    rider: bool = False
    level: bool = True


class Layout(Struct, frozen=True):
    """A rig's places. The beam's under side is y = 0; `floor` is the floor's line where a fixed part stands on it."""

    bodies: tuple[Body, ...]
    wheels: tuple[Wheel, ...]
    runs: tuple[Straight, ...]
    ends: tuple[Fast, ...]
    grip: Grip | None
    floor: float | None
    left: float
    top: float
    right: float
    bottom: float

    def body(self, name: str) -> Body:
        """The body that has this part, or None's KeyError."""
        for body in self.bodies:
            if name in body.parts:
                return body
        raise KeyError(name)

    def run(self, name: str) -> Straight:
        for run in self.runs:
            if run.name == name:
                return run
        raise KeyError(name)
