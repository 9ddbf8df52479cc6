"""The answer to a rig: every number exact, with its formula, and the checks it has passed."""

from fractions import Fraction
from typing import Literal

from msgspec import Struct

from gantline.quantity import Equation, Formula

Status = Literal["holds", "accelerates", "indeterminate", "impossible", "slack"]
Way = Literal["ideal", "raising", "lowering", "holding"]


class Value(Struct, frozen=True):
    """A computed quantity in SI. `number` is None where a symbol has none; `formula` is None past the size limit."""

    number: Fraction | None
    unit: str
    formula: Formula | None


class Pull(Struct, frozen=True):
    """The tension of one strand. `toward` points from `start` to `end`: x right, y up."""

    rope: str
    index: int
    start: str
    end: str
    tension: Value | None
    toward: tuple[int, int]

    @property
    def name(self) -> str:
        return f"{self.rope}:{self.index}"


class Support(Struct, frozen=True):
    """What a fixed part carries: `force` down positive, `sideways` to the right, None where no level run pulls."""

    name: str
    force: Value | None
    sideways: Value | None = None


class Motion(Struct, frozen=True):
    """How a moving part goes: rise for each metre of rope taken up, and acceleration (m/s2), up positive."""

    name: str
    per_hand: Value | None
    acceleration: Value | None
    freedom: str = "rise"


class Work(Struct, frozen=True):
    """Joules for the motion asked: put in by the hand, gained by all weights, lost to friction.

    put_in = out + lost, and + kinetic where things speed up. `shares` is the gain of each part with weight.
    """

    put_in: Value | None
    out: Value
    lost: Value | None
    shares: tuple[tuple[str, Value], ...]
    kinetic: Value | None = None  # energy of motion gained over the way asked, where things speed up


class Regime(Struct, frozen=True):
    """The forces for one way the ropes run. `load` is the weight held, where an effort is given and asks for it."""

    way: Way
    effort: Value | None
    mechanical_advantage: Value | None
    efficiency: Value | None
    strands: tuple[Pull, ...]
    supports: tuple[Support, ...]
    motions: tuple[Motion, ...]
    work: Work | None = None
    load: Value | None = None

    def tension(self, strand: str) -> Value | None:
        """The tension of the strand named rope:index. Raises KeyError."""
        for pull in self.strands:
            if pull.name == strand:
                return pull.tension
        raise KeyError(strand)


class Relation(Struct, frozen=True):
    """An equation of the system that steps can cite.

    `id` is kind:part: "balance:lower" (forces on a body, with the loads it carries), "length:fall" (a rope keeps its
    length), "pull:fall" (one pull along a rope), "support:upper", "result:effort", "result:haul", "result:work", ...
    `parts` are what it speaks of, part names and strands. `holds` is the equation in the rig's own symbols.
    """

    id: str
    kind: str
    parts: tuple[str, ...]
    holds: Equation
    unit: str = "N"


class Check(Struct, frozen=True):
    """One check of the certificate: the `terms` add up to `residual`, which is zero for a right answer.

    `name` is what is checked: forces (on a body), whole (the rig from outside), sheave (its law), length (a rope, by
    moving its strands), work, formulas (that they give the numbers). `way` is the regime it was done in.
    """

    name: str
    parts: tuple[str, ...]
    terms: tuple[Fraction, ...]
    residual: Fraction
    unit: str
    way: Way = "ideal"


class Certificate(Struct, frozen=True):
    checks: tuple[Check, ...]

    @property
    def largest_residual(self) -> Fraction:
        return max((abs(check.residual) for check in self.checks), default=Fraction(0))


class Finding(Struct, frozen=True):
    """Why the status is what it is, as data: the sentence is the account's.

    `parts` are the parts concerned: those whose equations contradict each other (impossible), strands that share
    undecided (indeterminate), strands that would have to push (slack). `at` is the body where it shows.
    """

    status: Status
    parts: tuple[str, ...] = ()
    at: str | None = None


class Answer(Struct, frozen=True):
    """A solved rig. `travel` is each part's way for the motion asked (m, up positive; the hand: rope taken up).

    `helps` are the parts that sink while the load rises. `freedoms` counts independent motions. `size_note` says that
    formulas are left out because the rig is past the stated size.
    """

    finding: Finding
    aim: str | None
    velocity_ratio: Value | None
    travel: tuple[tuple[str, Value], ...]
    regimes: tuple[Regime, ...]
    certificate: Certificate
    relations: tuple[Relation, ...]
    freedoms: int
    helps: tuple[str, ...] = ()
    tension_symbols: tuple[tuple[str, str], ...] = ()  # rope -> the letter of its (ideal) pull
    size_note: bool = False
    jams: tuple[Way, ...] = ()  # the ways that friction does not let it go, whatever the hand does with the rope
    weights: tuple[tuple[str, Value], ...] = ()  # of every part that has one, down positive
    givens: tuple[tuple[str, Value], ...] = ()  # every symbol given, its number (None: bare) and its unit

    @property
    def status(self) -> Status:
        return self.finding.status

    def regime(self, way: Way = "ideal") -> Regime | None:
        return next((regime for regime in self.regimes if regime.way == way), None)

    @property
    def ideal(self) -> Regime:
        return self.regimes[0]

    def relation(self, id: str) -> Relation | None:
        return next((relation for relation in self.relations if relation.id == id), None)
