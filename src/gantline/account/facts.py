"""What is true of a solved rig, in the terms an explanation chooses its words by. No quantity is computed here."""

from collections import Counter
from fractions import Fraction
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from gantline.mechanics import Answer, Value
from gantline.quantity import Formula, Product, Symbol
from gantline.rig import Fixed, Load, Moving, Rig, Rope, Sheave, Strand

HAND = "hand"


class Body(Struct, frozen=True):
    """What moves as one: blocks with the loads they carry. `name` is the part that stands for it in the answer.

    `up`, `down` and `level` are the strands that pull it so, each once for every end on it.
    """

    name: str
    parts: tuple[str, ...]
    up: tuple[Strand, ...]
    down: tuple[Strand, ...]
    level: tuple[Strand, ...] = ()

    @property
    def strands(self) -> tuple[Strand, ...]:
        return (*self.up, *self.down, *self.level)

    @property
    def ropes(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(strand.rope for strand in self.strands))


class Facts:
    """A rig with its answer, and what is asked of the two by the words."""

    def __init__(self, rig: Rig, answer: Answer) -> None:
        self.rig = rig
        self.answer = answer
        self.ideal = answer.ideal

    # -- bodies and cuts --------------------------------------------------------------------------------------------

    @cached_property
    def bodies(self) -> tuple[Body, ...]:
        """Every moving body, in the order of the file."""
        groups: dict[str, list[str]] = {}
        for part in self.rig.movers:
            groups.setdefault(self._lead[part.name], []).append(part.name)
        return tuple(self._body(name, tuple(parts)) for name, parts in groups.items())

    @cached_property
    def _lead(self) -> dict[str, str]:
        """Each moving part's body, by the name of its first block (blocks that share a load are one body)."""
        lead: dict[str, str] = {}
        for block in self.rig.moving:
            shared = [lead[load] for load in block.carries if load in lead]
            lead[block.name] = shared[0] if shared else block.name
            for load in block.carries:
                lead.setdefault(load, lead[block.name])
        for load_part in self.rig.loads:
            lead.setdefault(load_part.name, load_part.name)
        return lead

    def _body(self, name: str, parts: tuple[str, ...]) -> Body:
        up: list[Strand] = []
        down: list[Strand] = []
        level: list[Strand] = []
        for strand in self.rig.strands:
            for at_end, contact in ((False, strand.start), (True, strand.end)):
                if self.holder(contact.sheave.block if contact.sheave else contact.part) in parts:
                    rises = strand.course == ("down" if at_end else "up")
                    (level if strand.course == "level" else up if rises else down).append(strand)
        twice = {n for n, times in Counter(s.name for s in (*up, *down, *level)).items() if times > 1}
        keep = [tuple(s for s in side if s.name not in twice) for side in (up, down, level)]
        return Body(name, parts, *keep)

    def holder(self, part: str) -> str:
        """The part itself, or for the hand of a rider what it rides on."""
        return self.rig.hand.rides if part == HAND and self.rig.hand and self.rig.hand.rides else part

    def body(self, part: str) -> Body | None:
        """The body a part moves with, None for a fixed part and the hand of one who stands."""
        lead = self._lead.get(self.holder(part))
        return next((body for body in self.bodies if body.name == lead), None)

    @cached_property
    def aim(self) -> Body | None:
        """The body asked about."""
        return self.body(self.answer.aim) if self.answer.aim else None

    @property
    def load(self) -> str:
        """The load asked about, else that of a rider, else the first, else the first thing that moves."""
        ridden = self.body(HAND) if self.rides else None
        loads = [load.name for load in self.rig.loads]
        own = [name for name in loads if ridden and name in ridden.parts]
        return self.answer.aim or next(iter((*own, *loads)), self.rig.movers[0].name)

    # -- ropes, sheaves, hand ----------------------------------------------------------------------------------------

    @cached_property
    def hand_rope(self) -> Rope | None:
        return next((rope for rope in self.rig.ropes if any(c.part == HAND for c in rope.contacts)), None)

    @cached_property
    def hand_strand(self) -> Strand | None:
        strands = self.hand_rope.strands if self.hand_rope else ()
        return next((s for s in strands if HAND in (s.start.part, s.end.part)), None)

    @cached_property
    def hand_from(self) -> str | None:
        """The part that the hand's strand comes from."""
        strand = self.hand_strand
        if strand is None:
            return None
        contact = strand.start if strand.end.part == HAND else strand.end
        return contact.sheave.block if contact.sheave else contact.part

    @property
    def rides(self) -> bool:
        return self.rig.hand is not None and self.rig.hand.rides is not None

    @property
    def hand_inside(self) -> bool:
        """Whether the hand's strand goes through the cut around the body asked about."""
        return self.aim is not None and self.hand_strand is not None and self.hand_strand in self.aim.strands

    @property
    def pulls_up(self) -> bool:
        """Whether the hand pulls upward."""
        strand = self.hand_strand
        return strand is not None and strand.course == ("up" if strand.end.part == HAND else "down")

    @cached_property
    def sheaves(self) -> tuple[Sheave, ...]:
        return self.rig.sheaves

    @property
    def moving_sheaves(self) -> tuple[Sheave, ...]:
        return tuple(sheave for sheave in self.sheaves if self.body(sheave.block))

    def strands_at(self, part: str) -> tuple[Strand, ...]:
        """The strands that touch a part, in the order of the ropes."""
        return tuple(
            strand
            for strand in self.rig.strands
            if part in {c.sheave.block if c.sheave else c.part for c in (strand.start, strand.end)}
        )

    # -- numbers of the answer ---------------------------------------------------------------------------------------

    @cached_property
    def weights(self) -> dict[str, Value]:
        """The weight of every part that has one."""
        return dict(self.answer.weights)

    def body_weights(self, body: Body) -> tuple[tuple[str, Value], ...]:
        """What a body weighs, part by part, the loads first; a load that is asked for weighs what the answer says."""
        loads = self.loads_of(body)
        ordered = (*loads, *(name for name in body.parts if name not in loads))
        return tuple((name, value) for name in ordered if (value := self.weight(name)) and value.number != 0)

    def loads_of(self, body: Body) -> tuple[str, ...]:
        """The loads of a body, the one asked about first."""
        loads = [name for name in body.parts if isinstance(self.rig.part(name), Load)]
        return tuple(sorted(loads, key=lambda name: name != self.load))

    def weight(self, name: str) -> Value | None:
        if name == self.answer.aim and self.ideal.load is not None:
            return self.ideal.load
        value = self.weights.get(name)
        return value if value is None or value.formula is not None else replace(value, formula=self._own_letters(name))

    def _own_letters(self, name: str) -> Formula | None:
        """A weight in the file's own letters, where the answer is past the size that formulas are kept to."""
        part = self.rig.part(name)
        if part.weight is not None:
            return Symbol(part.weight.symbol)
        return Product((Symbol(part.mass.symbol), Symbol(self.rig.gravity.symbol))) if part.mass is not None else None

    def letters(self, rope: str) -> str:
        """The letter of a rope's pull."""
        return dict(self.answer.tension_symbols)[rope]

    def rise(self, name: str) -> Fraction | None:
        """How far a part rises for each unit the load asked about rises, None where that is open."""
        part, aim = self._per_hand.get(name), self._per_hand.get(self.answer.aim or "")
        return part / aim if part is not None and aim else None

    @cached_property
    def _per_hand(self) -> dict[str, Fraction]:
        return {m.name: m.per_hand.number for m in self.ideal.motions if m.per_hand and m.per_hand.number is not None}

    @property
    def numeric(self) -> bool:
        """Whether every given has a number."""
        return all(value.number is not None for _, value in self.answer.givens)

    @property
    def reckoned(self) -> bool:
        """Whether every given has a number but the load that is asked for and found."""
        asked = {given.symbol for load in self.rig.loads if self.ideal.load and load.name == self.load
                 for given in (load.weight, load.mass) if given}  # fmt: skip
        return all(value.number is not None for symbol, value in self.answer.givens if symbol not in asked)

    @property
    def lossy(self) -> bool:
        """Whether the file gives loss."""
        return any(s.efficiency is not None and s.efficiency.number != 1 for s in self.sheaves)

    @property
    def held(self) -> bool:
        """Whether friction alone holds what free wheels would let run."""
        return self.answer.regime("holding") is not None

    @property
    def asks(self) -> bool:
        """Whether a pull, or the load for a given pull, is asked for."""
        return self.rig.hand is not None and (self.rig.effort is None or self.ideal.load is not None)

    @property
    def heavy_sheaves(self) -> tuple[Sheave, ...]:
        return tuple(sheave for sheave in self.sheaves if sheave.disc or sheave.inertia)

    def fixed(self, name: str) -> Fixed | None:
        part = self.rig.part(name)
        return part if isinstance(part, Fixed) else None

    def sinks(self, block: Moving) -> bool:
        """Whether a block goes down while the load asked about goes up."""
        rate = self.rise(block.name)
        return rate is not None and rate < 0
