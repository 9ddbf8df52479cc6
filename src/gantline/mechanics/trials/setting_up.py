"""From a rig to what is tried: where each strand runs, how stiff it is, what each sheave takes."""

from fractions import Fraction
from math import copysign

from gantline.rig import Contact, Cord, Fixed, Given, Load, Moving, Rig, Rope, Sheave, Strand
from gantline.sources import Constant

from . import defaults
from .nouns import FIXED, Assumed, Body, Ending, Setup, Span, Touch, Wheel

Block = Fixed | Moving


def set_up(rig: Rig) -> Setup | Ending:
    """The rig ready for a trial, without its start tensions; or why it is outside the model."""
    return _outside(rig) or _SettingUp(rig).setup()


def _outside(rig: Rig) -> Ending | None:
    if rig.hand is None:
        return Ending("not determined", "no-hand")
    if rig.hand.rides:
        return Ending("not determined", "rides", (rig.hand.rides,))
    level = tuple(strand.name for strand in rig.strands if strand.course == "level")
    if level:
        return Ending("not determined", "level", level)
    carried = [name for block in rig.moving for name in block.carries]
    shared = tuple(dict.fromkeys(name for name in carried if carried.count(name) > 1))
    if shared:
        return Ending("not determined", "two-blocks", shared)
    bare = tuple(dict.fromkeys(given.symbol for given in _needed(rig) if given.number is None))
    return Ending("not determined", "number-missing", bare) if bare else None


def _needed(rig: Rig) -> list[Given]:
    """Every given that the trial reckons with."""
    found: list[Given | None] = [rig.lead, *(apart.distance for apart in rig.aparts)]
    masses = False
    for part in rig.movers:
        found += [part.weight, part.mass]
        masses = masses or part.mass is not None
    blocks: tuple[Block, ...] = (*rig.fixed, *rig.moving)
    for block in blocks:
        found += [block.spacing, block.hook, block.becket]
    for sheave in rig.sheaves:
        found += [sheave.radius, sheave.efficiency]
    for cord in rig.cords:
        found += [cord.stiffness, cord.drag]
    found += [rig.gravity] if masses else []
    return [given for given in found if given is not None]


class _SettingUp:
    """What is read off a rig, and what had to be assumed on the way."""

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        self.taken: dict[tuple[str, float | None, str], list[str]] = {}
        heads = [part for part in rig.movers if rig.bearer(part.name) == part.name]
        self.heads = {part.name: n for n, part in enumerate(heads)}
        self.blocks = {part.name: part for part in rig.parts if not isinstance(part, Load)}
        self.lifts = {name: self._lift(name) for name in self.blocks}
        self.without_loss = not any(sheave.efficiency for sheave in rig.sheaves)

        self.bodies = tuple(self._body(name) for name in self.heads)
        self.lengths = self._lengths()

    def setup(self) -> Setup:
        rig = self.rig
        spans = tuple(span for n, rope in enumerate(rig.ropes) for span in self._spans(n, rope))
        wheels = tuple(wheel for rope in rig.ropes for wheel in self._wheels(rope))
        assumed = tuple(Assumed(what, tuple(parts), value, unit) for (what, value, unit), parts in self.taken.items())
        return Setup(self.bodies, spans, wheels, tuple(rope.name for rope in rig.ropes), self._aim(), assumed)

    # -- measures ---------------------------------------------------------------------------------------------------

    def _or(self, given: Given | None, what: str, part: str, default: Constant) -> float:
        """What is given, else the default, which is then noted."""
        if given is not None:
            return number(given)
        self._assume(what, part, default.value, default.unit)
        return float(default.value)

    def _assume(self, what: str, part: str, value: Fraction | float | None = None, unit: str = "") -> None:
        parts = self.taken.setdefault((what, None if value is None else float(value), unit), [])
        if part not in parts:
            parts.append(part)

    def _radius(self, sheave: Sheave) -> float:
        return self._or(sheave.radius, "radius", sheave.block, defaults.RADIUS)

    def _hook(self, name: str) -> float:
        return self._or(self.blocks[name].hook, "hook", name, defaults.HOOK)

    def _across(self, sheave: Sheave) -> float:
        """How far right of its block's middle a sheave stands."""
        block = self.blocks[sheave.block]
        if len(block.sheaves) == 1:
            return 0.0
        spacing = self._or(block.spacing, "spacing", block.name, defaults.SPACING)
        return (sheave.index - (len(block.sheaves) + 1) / 2) * spacing

    def _ratio(self, sheave: Sheave) -> float:
        if sheave.efficiency is not None:
            return 1 / number(sheave.efficiency)
        efficiency = defaults.EFFICIENCY.value if self.without_loss else Fraction(1)
        self._assume("efficiency", sheave.block, efficiency, "1")
        return float(1 / efficiency)

    def _weight(self, part: Moving | Load) -> float:
        if part.mass is not None:
            return number(part.mass) * number(self.rig.gravity)
        if part.weight is None:
            self._assume("weight", part.name, 0, "N")
            return 0.0
        return number(part.weight)

    # -- bodies -----------------------------------------------------------------------------------------------------

    def _body(self, name: str) -> Body:
        part = self.rig.part(name)
        if isinstance(part, Load):
            return Body(name, 0.0, self._weight(part), 0.0, False, (name,))
        assert isinstance(part, Moving)
        loads = tuple(dict.fromkeys(part.carries))
        hanging = sum(self._weight(load) for load in self.rig.loads if load.name in loads)
        tilts = any(sheave.block == name for sheave in self.rig.sheaves)
        hook = self._hook(name) if tilts and (loads or self._hangs(name)) else 0.0
        return Body(name, self._weight(part), hanging, hook, tilts, loads)

    def _hangs(self, name: str) -> bool:
        """Whether a rope's end pulls against a block's sheaves: then it is fast at the hook."""
        touches = ((contact, _pull(s, contact)) for s in self.rig.strands for contact in (s.start, s.end))
        return any(c.part == name and not c.sheave and pull == -self.lifts[name] for c, pull in touches)

    def _lift(self, name: str) -> int:
        """Whether the ropes over a block's sheaves pull it up (1) or down (-1)."""
        sides = [c.side for rope in self.rig.ropes for c in rope.contacts if c.sheave and c.part == name]
        balance = sides.count("under") - sides.count("over")
        return (balance > 0) - (balance < 0)

    def _aim(self) -> int:
        aim = self.rig.aim
        if aim is not None:
            return self.heads[self.rig.bearer(aim)]
        loads = [self.heads[self.rig.bearer(load.name)] for load in self.rig.loads]
        return loads[0] if loads else 0

    # -- ropes ------------------------------------------------------------------------------------------------------

    def _lengths(self) -> dict[str, float]:
        """How long each strand is at the start (m): as long as its blocks are apart; the hauled run as the longest."""
        said = {frozenset((a.first, a.second)): number(a.distance) for a in self.rig.aparts}
        found = {}
        for strand in self.rig.strands:
            if not _hauled(strand):
                found[strand.name] = self._apart(said, strand.start.part, strand.end.part)
        longest = max(found.values(), default=float(defaults.APART.value))
        for strand in filter(_hauled, self.rig.strands):
            if self.rig.lead is None:
                self._assume("lead", strand.rope, longest, "m")
            found[strand.name] = longest if self.rig.lead is None else number(self.rig.lead)
        return found

    def _apart(self, said: dict[frozenset[str], float], first: str, second: str) -> float:
        pairs = [(first, second), (self.rig.bearer(first), self.rig.bearer(second))]
        for pair in map(frozenset, pairs):
            if pair in said:
                return said[pair]
        names = sorted(pairs[1], key=[part.name for part in self.rig.parts].index)
        self._assume("apart", " and ".join(names), defaults.APART.value, defaults.APART.unit)
        return float(defaults.APART.value)

    def _spans(self, n: int, rope: Rope) -> list[Span]:
        cord = self.rig.cord(rope.name)
        stiffness = self._or(cord.stiffness if cord else None, "stiffness", rope.name, defaults.STIFFNESS)
        sides = self._sides(rope)
        spans = []
        for place, strand in enumerate(rope.strands):
            start = self._touch(strand.start, _pull(strand, strand.start), -sides[place])
            end = self._touch(strand.end, _pull(strand, strand.end), sides[place + 1])
            length = self.lengths[strand.name]
            spans.append(Span(strand.name, n, length, stiffness / length, start, end, _hauled(strand)))
        return spans

    def _sides(self, rope: Rope) -> list[int]:
        """The side of each contact on which the strand before it runs: -1 left, 1 right, 0 at an end.

        Seen on the way to the hand, a strand meets a sheave on the side it comes from: that of the sheave before, else
        the one away from the next. Where all stand at one place it goes from left to right. It leaves on the other.
        """
        across = [self._across(contact.sheave) if contact.sheave else None for contact in rope.contacts]
        if rope.contacts[0].part == "hand":
            return [-side for side in reversed(_met(across[::-1]))]
        return _met(across)

    def _touch(self, contact: Contact, pull: int, side: int) -> Touch:
        if contact.part == "hand":
            return Touch("hand", FIXED, pull)
        head = self.rig.bearer(contact.part)
        body = self.heads.get(head, FIXED)
        if contact.sheave is not None:
            return Touch(
                contact.name, body, pull, self._across(contact.sheave), 0.0, side, self._radius(contact.sheave)
            )
        if contact.part not in self.blocks:  # fast to a load, which hangs on its block's pin
            return Touch(contact.part, body, pull, 0.0, -self.bodies[body].hook)
        if body != FIXED and pull == -self.lifts[head]:
            return Touch(contact.part, body, pull, 0.0, pull * self.bodies[body].hook)
        return Touch(contact.part, body, pull, self._becket(contact.part))

    def _becket(self, name: str) -> float:
        becket = self.blocks[name].becket
        if becket is None:
            self._assume("becket", name, 0, "m")
            return 0.0
        return number(becket)

    def _wheels(self, rope: Rope) -> list[Wheel]:
        cord = self.rig.cord(rope.name)
        sides, wheels = self._sides(rope), []
        first = sum(len(other.strands) for other in self.rig.ropes[: self.rig.ropes.index(rope)])
        for place, contact in enumerate(rope.contacts):
            sheave = contact.sheave
            if sheave is not None:
                wheels.append(Wheel(
                    sheave.name, sheave.block, self.heads.get(sheave.block, FIXED), self._across(sheave),
                    self._radius(sheave), first + place - 1, first + place, sides[place], contact.side == "over",
                    self._ratio(sheave), self._drag(rope.name, cord),
                ))  # fmt: skip
        return wheels

    def _drag(self, rope: str, cord: Cord | None) -> float:
        if cord is None or cord.drag is None:
            self._assume("drag", rope, 0, "N")
            return 0.0
        return number(cord.drag)


def _met(across: list[float | None]) -> list[int]:
    """The side on which a rope that goes from place to place (None: no sheave) meets each."""
    sides = []
    for place, x in enumerate(across):
        before = [other - x for other in across[:place] if x is not None and other not in (None, x)]
        after = [x - other for other in across[place + 1 :] if x is not None and other not in (None, x)]
        way = before[-1:] or after[:1] or [-1.0]
        sides.append(0 if x is None else int(copysign(1, way[0])))
    return sides


def number(given: Given) -> float:
    """A given's number, which `set_up` has seen to be there."""
    assert given.number is not None
    return float(given.number)


def _hauled(strand: Strand) -> bool:
    return "hand" in (strand.start.part, strand.end.part)


def _pull(strand: Strand, contact: Contact) -> int:
    """Whether a strand pulls what it touches up (1) or down (-1)."""
    goes_down = strand.course == "down"
    return -1 if goes_down == (contact is strand.start) else 1
