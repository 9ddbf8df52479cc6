"""A rig taken apart for drawing: bodies with what pulls at them. No place yet."""

from fractions import Fraction

from msgspec import Struct

from gantline.mechanics import Answer
from gantline.quantity import symbols, value
from gantline.rig import Contact, Fixed, Load, Moving, Rig, Strand

from .plan import NotDrawable


class Pull(Struct):
    """One end of a strand at a body. `up`: the strand leaves upward. `tension` weighs it in the moment rule."""

    strand: int
    up: bool
    tension: float


class Turn(Struct):
    """A wheel to place: the strands before and after it by number, and which of them are level."""

    sheave: str
    block: str
    body: int
    rope: int
    before: int
    after: int
    up: bool
    level: tuple[bool, bool]
    tension: float


class Tie(Struct):
    """A rope's end made fast, or a rider's grip, to place."""

    part: str
    body: int
    strand: int
    up: bool
    tension: float
    grip: bool = False


class Piece(Struct):
    """A body to place. `single`: one wheel or one end, so that it needs no bar."""

    name: str
    parts: list[str]
    loads: list[str]
    side: str
    heavy: bool
    turns: list[Turn]
    ties: list[Tie]
    rider: bool = False

    @property
    def grips(self) -> list[Tie]:
        return [tie for tie in self.ties if tie.grip]

    @property
    def fasts(self) -> list[Tie]:
        return [tie for tie in self.ties if not tie.grip]

    @property
    def bare_anchor(self) -> bool:
        """A fixed part without wheels: every end has its own eye on beam or floor."""
        return self.side != "moving" and not self.turns

    @property
    def bar(self) -> bool:
        turns, ties = self.turns, self.fasts
        if self.bare_anchor or len(turns) + len(ties) == 1:
            return False
        lone = len(turns) == 1 and len(ties) == 1 and ties[0].up != turns[0].up
        return not (lone and not self.loads and self.side == "moving")


class Frame(Struct):
    rig: Rig
    strands: list[Strand]
    pieces: list[Piece]
    turns: list[Turn]
    grip: Tie | None  # the hand of someone on firm ground
    grip_strand: int | None  # the hauled strand, whoever hauls


def take_apart(rig: Rig, answer: Answer) -> Frame:
    """The bodies of a rig. Raises NotDrawable where it has no rope."""
    strands = list(rig.strands)
    if not strands:
        raise NotDrawable("There is no rope in this rig, so there is nothing to draw.")
    pieces = _bodies(rig)
    owner = {part: number for number, piece in enumerate(pieces) for part in piece.parts}
    frame = Frame(rig, strands, pieces, [], None, None)
    pulls = _tensions(rig, answer)
    first = 0
    for number, rope in enumerate(rig.ropes):
        for place, contact in enumerate(rope.contacts):
            _attach(frame, owner, pulls, contact, number, first + place, place, len(rope.contacts))
        first += len(rope.strands)
    used = [piece for piece in pieces if piece.turns or piece.ties]
    _renumber(frame, used)
    return frame


def _bodies(rig: Rig) -> list[Piece]:
    """Fixed parts, moving blocks joined through the loads they carry, and loads that hang on ropes alone."""
    pieces: list[Piece] = []
    carried: dict[str, Piece] = {}
    for part in rig.parts:
        if isinstance(part, Fixed):
            pieces.append(Piece(part.name, [part.name], [], "fixed", False, [], []))
        elif isinstance(part, Moving):
            piece = next((carried[load] for load in part.carries if load in carried), None)
            if piece is None:
                piece = Piece(part.name, [], [], "moving", False, [], [])
                pieces.append(piece)
            piece.parts.append(part.name)
            piece.loads.extend(load for load in part.carries if load not in piece.loads)
            piece.heavy = piece.heavy or bool(part.carries or part.weight or part.mass)
            carried.update(dict.fromkeys(part.carries, piece))
    for piece in pieces:
        piece.parts.extend(piece.loads)
    pieces.extend(
        Piece(part.name, [part.name], [part.name], "moving", True, [], [])
        for part in rig.parts
        if isinstance(part, Load) and part.name not in carried
    )
    return pieces


def _attach(
    frame: Frame, owner: dict[str, int], pulls: list[float], contact: Contact, rope: int, at: int, place: int, last: int
) -> None:
    """One contact of a rope: a wheel, an end made fast, or the hand. `at` is the strand after it."""
    if contact.sheave:
        before, after = frame.strands[at - 1], frame.strands[at]
        body = owner[contact.sheave.block]
        level = (before.course == "level", after.course == "level")
        tension = (pulls[at - 1] * (not level[0])) + (pulls[at] * (not level[1]))
        turn = Turn(
            contact.sheave.name, contact.sheave.block, body, rope, at - 1, at, contact.side == "under", level, tension
        )
        frame.pieces[body].turns.append(turn)
        frame.turns.append(turn)
        return
    strand = at if place == 0 else at - 1
    up = (frame.strands[strand].course == "up") == (place == 0)
    rides = frame.rig.hand.rides if frame.rig.hand else None
    if contact.part == "hand" and not rides:
        frame.grip = Tie("hand", -1, strand, up, pulls[strand], True)
        frame.grip_strand = strand
        return
    grip = contact.part == "hand"
    body = owner[rides if grip and rides else contact.part]
    frame.pieces[body].ties.append(Tie(contact.part, body, strand, up, pulls[strand], grip))
    if grip:
        frame.pieces[body].rider = True
        frame.grip_strand = strand


def _renumber(frame: Frame, used: list[Piece]) -> None:
    for number, piece in enumerate(used):
        for turn in piece.turns:
            turn.body = number
        for tie in piece.ties:
            tie.body = number
        if piece.side == "fixed":
            down = not (all(turn.up for turn in piece.turns) and all(tie.up for tie in piece.ties))
            piece.side = "ceiling" if down else "floor"
    frame.pieces = used


def _tensions(rig: Rig, answer: Answer) -> list[float]:
    """A number for each strand's pull, to weigh the moment rule with. Symbols without a number count as stand-ins."""
    stand_in = _StandIns(rig)
    found: list[float] = []
    for strand in rig.strands:
        tension = answer.ideal.tension(strand.name) if answer.regimes else None
        if tension is None:
            found.append(1.0)
        elif tension.number is not None:
            found.append(max(float(tension.number), 0.0))
        elif tension.formula is not None:
            names = symbols(tension.formula)
            found.append(float(value(tension.formula, {name: stand_in[name] for name in names})))
        else:
            found.append(1.0)
    return found


class _StandIns(dict[str, Fraction]):
    """Numbers for symbols where only the proportions of the picture need one: the given number, else 100 for a load."""

    def __init__(self, rig: Rig) -> None:
        super().__init__()
        for part in rig.parts:
            for given in (part.weight, part.mass):
                if given:
                    size = Fraction(100) if isinstance(part, Load) else Fraction(5)
                    self[given.symbol] = given.number if given.number is not None else size
        self[rig.gravity.symbol] = rig.gravity.number or Fraction(10)

    def __missing__(self, name: str) -> Fraction:
        return Fraction(1)
