"""Where on the figure each place of a rope stands, in px of the figure."""

from typing import Literal

from msgspec import Struct

from gantline.figure import Body, Wheel

from .draft import UNIT, Draft, End
from .wishes import Place

NEW_ASIDE = 3.3  # radii from a block's last wheel to one that is not there yet
ALOFT_DOWN = 2.75  # radii from the beam to the axle of a block that is not there yet
ON_LOAD = 2.35  # radii from a load's ring up to the axle of a block that is not there yet
EYE_ON_LOAD = 1.6  # radii from a load's ring up to the eye of a block that is not there yet
HAND_OFF = 3.4  # radii of rope from the last wheel to a hand
ASIDE = 2.9  # radii from everything drawn to something new beside it


class Spot(Struct, frozen=True):
    """A place on the figure: a wheel's centre and radius with the side the rope would take, or a point with r 0.

    `new` where nothing is drawn there yet; `of` the part it belongs to, `bar` where the bar of its block ends (x, y).
    """

    x: float
    y: float
    r: float = 0.0
    side: Literal["over", "under", ""] = ""
    new: bool = False
    of: str = ""
    bar: tuple[float, float] | None = None


class Spots:
    """The figure of a rig in the making, asked for places."""

    def __init__(self, drawn: Draft, rope: str) -> None:
        self.layout = drawn.layout
        self.free_end: End | None = next((end for end in drawn.ends if end.rope == rope), None)
        self.wheels = {wheel.sheave: wheel for wheel in self.layout.wheels}
        self.bodies = {part: body for body in self.layout.bodies for part in body.parts}

    def end(self) -> Spot | None:
        return Spot(self.free_end.x, self.free_end.y) if self.free_end else None

    def of(self, place: Place) -> Spot | None:
        """Where a place stands, None where the figure has no point for it."""
        contact = place.contact
        if contact.part is None:
            return self._hand(contact.at.text if contact.at else "")
        name = contact.part.text
        if contact.side is None:
            return self._fast(name, place)
        side: Literal["over", "under"] = "over" if contact.side.text == "over" else "under"
        wheel = self.wheels.get(f"{name}.{contact.sheave}")
        if wheel is not None:
            return Spot(wheel.x * UNIT, wheel.y * UNIT, wheel.r * UNIT, side, of=name)
        return self._beside(name, side) if name in self.bodies else self._new_block(side, place.carries)

    def _beside(self, name: str, side: Literal["over", "under"]) -> Spot:
        """A wheel that its block has not got yet: to the right of its last one."""
        body = self.bodies[name]
        own = [wheel for wheel in self.layout.wheels if wheel.body == body.name]
        last = max(own, key=lambda wheel: wheel.x, default=None)
        x = (last.x + (last.r - 1.0) + NEW_ASIDE) if last else body.x + NEW_ASIDE
        y = last.y if last else body.y + (-1.42 if body.loads else 1.42)
        x = self._clear(x, y)
        bar = (max(body.right, body.x) * UNIT, body.y * UNIT)
        return Spot(x * UNIT, y * UNIT, UNIT, side, True, name, bar)

    def _clear(self, x: float, y: float) -> float:
        """Moved to the right until it meets no other wheel and no strand."""
        for _ in range(8):
            met = [w.x for w in self.layout.wheels if abs(w.x - x) < w.r + 1.3 and abs(w.y - y) < w.r + 1.3]
            met += [r.x1 for r in self.layout.runs if r.plumb and abs(r.x1 - x) < 1.3 and r.high < y < r.low]
            if not met:
                break
            x = max(met) + 2.6
        return x

    def _new_block(self, side: Literal["over", "under"], load: str) -> Spot:
        if load and load in self.bodies:
            body = self.bodies[load]
            x, y = self._clear(body.x, body.y - ON_LOAD), body.y - ON_LOAD
            return Spot(x * UNIT, y * UNIT, UNIT, side, True, load)
        if side == "over":
            return Spot((self.layout.right + 1.6) * UNIT, ALOFT_DOWN * UNIT, UNIT, side, True, "beam")
        return Spot((self.layout.right + 1.6) * UNIT, (self.layout.bottom - 1.5) * UNIT, UNIT, side, True, "floor")

    def _hand(self, rider: str) -> Spot | None:
        if rider:
            return self._point(self.bodies.get(rider), rider)
        if self.free_end is None:
            return None
        way = HAND_OFF if self.free_end.going == "down" else -HAND_OFF
        return Spot(self.free_end.x, self.free_end.y + way * UNIT, of="hand", new=True)

    def _fast(self, name: str, place: Place) -> Spot:
        if name in self.bodies:
            spot = self._point(self.bodies[name], name)
            assert spot is not None
            return spot
        if place.carries and place.carries in self.bodies:
            body = self.bodies[place.carries]
            return Spot(body.x * UNIT, (body.y - EYE_ON_LOAD) * UNIT, 0.0, "", True, place.carries)
        if place.adds == "moving" and self.free_end:
            return Spot(self.free_end.x, self.free_end.y + HAND_OFF * UNIT, 0.0, "", True, name)
        aside = 0.0 if name == "beam" else ASIDE
        middle = (self.layout.left + self.layout.right) / 2
        return Spot((middle + aside) * UNIT, 0.42 * UNIT, 0.0, "", True, "beam")

    def _point(self, body: Body | None, name: str) -> Spot | None:
        if body is None:
            return None
        if name in body.loads:
            hook = 1.35 if body.bar or self._wheeled(body) else 0.0
            return Spot(body.x * UNIT, (body.y + hook) * UNIT, of=name)
        return Spot((body.left if body.bar else body.x) * UNIT, body.y * UNIT, of=name)

    def _wheeled(self, body: Body) -> list[Wheel]:
        return [wheel for wheel in self.layout.wheels if wheel.body == body.name]
