"""Whether it fits under the stand: how low everything starts, how far the load can rise, when blocks meet."""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from msgspec import Struct

from gantline.mechanics import Answer
from gantline.rig import Contact, Fixed, Given, Load, Moving, Rig, Strand
from gantline.sources import HOOK, RADIUS, Constant

from .choosing import Hung
from .fitting import Taken, known, number
from .kit import Block

PAD = Constant(Fraction(4, 100), "m", "common practice: something soft under the load")
SHORT = Constant(Fraction(5, 100), "m", "common practice: stop a hand's breadth before blocks meet")
KNOT = Constant(Fraction(6, 100), "m", "common practice: what a knot and its loop take of the height")
SHELL = Constant(Fraction(8, 1000), "m", "assumed: the shell ends so far beyond the rim")
HEIGHT = Constant(Fraction(80, 1000), "m", "assumed height of a mass where the kit gives none")


class Size(Struct, frozen=True):
    """Of a part (m): `above` and `below` its sheave line, `radius` of its sheaves."""

    above: Fraction
    below: Fraction
    radius: Fraction


class Link(Struct, frozen=True):
    """A strand from a part to one below it (m). `least` is as short as it may be, `closing` by how much it shortens for
    each metre of the load's rise, `apart` how long it is at the start, where the file says so.
    """

    above: str
    below: str
    least: Fraction
    closing: Fraction
    apart: Fraction | None = None

    @property
    def start(self) -> tuple[Fraction, Fraction]:
        """The length at the start as what it is without a rise, and what each metre of rise asks for."""
        return (self.least, max(Fraction(0), self.closing)) if self.apart is None else (self.apart, Fraction(0))


class Room(Struct, frozen=True):
    """All in m. `needed` is the height for no rise at all; `rise` the most the load can rise, stopping SHORT of where
    parts meet; `meeting` the rise at which they would, `meets` which; `depths` how low each body starts below the hook.
    """

    height: Fraction
    needed: Fraction
    rise: Fraction
    meeting: Fraction
    meets: Link
    depths: tuple[tuple[str, Fraction], ...]


def sizes(rig: Rig, taken: tuple[Taken, ...]) -> dict[str, Size]:
    """The size of every block, from the kit, else from the file, else assumed."""
    return {part.name: _size(part, taken) for part in rig.parts if not isinstance(part, Load)}


def _size(part: Fixed | Moving, taken: tuple[Taken, ...]) -> Size:
    block = next((each.block for each in taken if each.part == part.name), None)
    if not part.sheaves:
        return Size(Fraction(0), Fraction(0), Fraction(0))
    given = next((sheave.radius for sheave in part.sheaves if sheave.radius and sheave.radius.number), None)
    radius = number(given) if given else RADIUS.value
    reach = number(block.reach) if block and block.reach else radius + SHELL.value
    own = part.hook if part.hook and part.hook.number else None
    hook = number(block.hook) if block and block.hook else number(own) if own else HOOK.value
    return Size(reach, hook, radius) if isinstance(part, Moving) else Size(hook, reach, radius)


def assumed(rig: Rig, taken: tuple[Taken, ...], hung: Hung) -> tuple[tuple[str, Constant], ...]:
    """Which measures neither kit nor file gives, and what is taken for them."""
    blocks = [part for part in rig.parts if not isinstance(part, Load) and part.sheaves]
    kit = {each.part: each.block for each in taken}
    bare = {
        "sheave radius": (RADIUS, any(not known(part.sheaves[0].radius) for part in blocks)),
        "sheave line to hook": (HOOK, any(not (_kit_hook(kit, part) or known(part.hook)) for part in blocks)),
        "rim to end of shell": (SHELL, any(part.name not in kit or kit[part.name].reach is None for part in blocks)),
        "each mass": (HEIGHT, any(mass.height is None for _, mass in hung.pieces)),
    }
    return tuple((what, constant) for what, (constant, missing) in bare.items() if missing)


def _kit_hook(kit: Mapping[str, Block], part: Fixed | Moving) -> Given | None:
    return kit[part.name].hook if part.name in kit else None


def rates(rig: Rig, answer: Answer) -> dict[str, Fraction] | None:
    """How far each part rises for each metre of the load's rise; None where the ropes leave that open."""
    found = {m.name: m.per_hand.number if m.per_hand else None for m in answer.ideal.motions}
    own = found.get(rig.loads[0].name)
    known = {name: rate / own for name, rate in found.items() if rate is not None} if own else {}
    return known if known and len(known) == len(found) else None


def room(rig: Rig, taken: tuple[Taken, ...], hung: Hung, height: Fraction, rise: Mapping[str, Fraction]) -> Room | None:
    """The room under a hook at `height` (m) over the table. None where nothing can rise there at all."""
    stack = _Stack(rig, sizes(rig, taken), hung, rise)
    lows = [*stack.lows()]
    needed = max(start for start, _ in lows)
    limits = [(height - start) / grows for start, grows in lows if grows > 0]
    limits += [(link.apart - link.least) / link.closing for link in stack.links if link.apart and link.closing > 0]
    meeting = min(limits, default=Fraction(0))
    if needed > height or meeting <= SHORT.value:
        return None
    depths = {name: max(start + grows * meeting for start, grows in pairs) for name, pairs in stack.depths.items()}
    first = min(
        (link for link in stack.links if link.closing > 0 and link.below in depths),
        key=lambda link: (depths[link.below] - depths[link.above] - link.least) / link.closing,
    )
    return Room(height, needed, meeting - SHORT.value, meeting, first, tuple(depths.items()))


def stacked(hung: Hung) -> Fraction:
    """The height of masses hung one below the other (m)."""
    return sum((count * (number(m.height) if m.height else HEIGHT.value) for count, m in hung.pieces), Fraction(0))


_Pairs = frozenset[tuple[Fraction, Fraction]]  # depths as start + grows * (the load's rise), of which the largest holds


class _Stack:
    """What hangs from what, and how low, as a function of the rise there is to be room for."""

    def __init__(self, rig: Rig, size: Mapping[str, Size], hung: Hung, rise: Mapping[str, Fraction]) -> None:
        self.rig, self.size, self.rise = rig, size, rise
        self.body = bodies(rig)
        self.floor = {part.name for part in rig.fixed if self._on_floor(part)}
        self.stack = stacked(hung)
        self.links = [link for strand in rig.strands if (link := self._link(strand))]
        self.depths: dict[str, _Pairs] = {}
        for part in rig.parts:
            if part.name not in self.floor:
                self._depth(self.body[part.name])

    def lows(self) -> Iterator[tuple[Fraction, Fraction]]:
        """The lowest point of everything, over the whole way: start + grows * rise."""
        for name, pairs in self.depths.items():
            sinks = max(Fraction(0), -self._rate(name))
            for start, grows in pairs:
                yield start + self._below(name), grows + sinks
        for link in self.links:
            if link.below in self.floor:
                for start, grows in self.depths[link.above]:
                    yield start + link.least, grows + max(Fraction(0), -self._rate(link.above))

    def _on_floor(self, part: Fixed) -> bool:
        """Whether every strand on a fixed part comes from above."""
        ends = [
            (strand.course == "down") == (contact is strand.end)
            for strand in self.rig.strands for contact in (strand.start, strand.end)
            if owner(contact) == part.name and strand.course != "level"
        ]  # fmt: skip
        return bool(ends) and all(ends)

    def _link(self, strand: Strand) -> Link | None:
        if strand.course == "level" or "hand" in (strand.start.part, strand.end.part):
            return None
        ends = (strand.start, strand.end) if strand.course == "down" else (strand.end, strand.start)
        above, below = (self.body[owner(end)] for end in ends)
        apart = self._apart(*(owner(end) for end in ends))
        return Link(above, below, self._clear(*ends), self._rate(below) - self._rate(above), apart)

    def _apart(self, first: str, second: str) -> Fraction | None:
        given = (a.distance.number for a in self.rig.aparts if {a.first, a.second} == {first, second})
        return next(given, None)

    def _rate(self, name: str) -> Fraction:
        return self.rise.get(name, Fraction(0))

    def _clear(self, above: Contact, below: Contact) -> Fraction:
        """How near the two ends of a strand may come: shells on both sides, or the knot at a made-fast load."""
        over, under = self.size.get(owner(above)), self.size.get(owner(below))
        return (over.below if over else Fraction(0)) + (under.above if under else KNOT.value)

    def _below(self, name: str) -> Fraction:
        """From a body's sheave line, or its hook, to the pad under what hangs on it."""
        load = self.rig.loads[0].name
        size = self.size.get(name)
        hook = size.below if size else Fraction(0)
        return hook + (self.stack + PAD.value if self.body[load] == name else Fraction(0))

    def _depth(self, name: str) -> _Pairs:
        """How low a body starts at the least: below everything it hangs from, with room to rise towards it."""
        if name in self.depths:
            return self.depths[name]
        hangs = [link for link in self.links if link.below == name]
        size = self.size.get(name)
        if not hangs:
            self.depths[name] = frozenset({(size.above if size else Fraction(0), Fraction(0))})
            return self.depths[name]
        found = {
            (start + link.start[0], grows + link.start[1])
            for link in hangs for start, grows in self._depth(link.above)
        }  # fmt: skip
        self.depths[name] = frozenset(found)
        return self.depths[name]


def bodies(rig: Rig) -> dict[str, str]:
    """Of each part, the block that stands for what moves with it: for a load its block, for blocks of one load the
    first."""
    return {part.name: _body(rig, part) for part in rig.parts}


def _body(rig: Rig, part: Fixed | Moving | Load) -> str:
    name = rig.bearer(part.name)
    carried = next((set(block.carries) for block in rig.moving if block.name == name), set())
    return next((block.name for block in rig.moving if carried & set(block.carries)), name)


def owner(contact: Contact) -> str:
    return contact.sheave.block if contact.sheave else contact.part
