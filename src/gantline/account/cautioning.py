"""Which cautions fit a rig, each with where it comes from. They rate nothing, and local rules come first."""

from collections.abc import Callable
from fractions import Fraction

from msgspec import Struct

from gantline.mechanics import Answer
from gantline.rig import Rig

from .facts import Facts
from .measuring import measure
from .writing import nouns

OWN = "follows from the mechanics; worked out for this rig"
PRACTICE = "common practice"
INSPECT = (
    "common practice; 29 CFR 1926.251(a) asks for inspection before each use and forbids more than the marked load"
)

_SMALL = 25  # newtons: about what a classroom tackle is for
Says = Callable[[Rig, Answer], str]


class Caution(Struct, frozen=True):
    """One caution. `source` says where it comes from."""

    id: str
    says: str
    source: str


class _Rule(Struct, frozen=True):
    """`says` gives the sentence for a rig, or nothing where the caution does not fit."""

    id: str
    says: Says
    source: str


def cautions(rig: Rig, answer: Answer) -> tuple[Caution, ...]:
    """The cautions for trying this rig, the gravest first. `answer` has the loss that is expected."""
    found = ((rule, rule.says(rig, answer)) for rule in _RULES)
    return tuple(Caution(rule.id, says, rule.source) for rule, says in found if says)


def _rider(rig: Rig, answer: Answer) -> str:
    if rig.hand is None or rig.hand.rides is None:
        return ""
    return "The person in this rig stays on paper. Nobody tries it: show it with a small weight and a hand beside it."


def _person(rig: Rig, answer: Answer) -> str:
    return "" if _rider(rig, answer) else "Never a person as the load, and nobody holding on to what goes up."


def _small(rig: Rig, answer: Answer) -> str:
    heavy = max((weight for weight in _weights(rig)), default=Fraction(0))
    stand_in = ", not with the loads of this page" if heavy > _SMALL else ""
    return f"Show it small, with 0.5 to 2 kg{stand_in}, and say the mass aloud before it leaves the floor."


def _weights(rig: Rig) -> list[Fraction]:
    g = rig.gravity.number or Fraction(0)
    weights = [load.weight.number for load in rig.loads if load.weight and load.weight.number is not None]
    return weights + [load.mass.number * g for load in rig.loads if load.mass and load.mass.number is not None]


def _under(rig: Rig, answer: Answer) -> str:
    if len(rig.loads) > 1:
        both = "both loads" if len(rig.loads) == 2 else "the loads"
        return f"Nobody stands or reaches under {both}, or where they would swing and fall; lay something soft below."
    return "Nobody stands or reaches under the load, or where it would swing and fall; lay something soft below."


def _beam(rig: Rig, answer: Answer) -> str:
    """What the most heavily pulled fixed part carries, and one that is pulled up: while raising where that is known."""
    regime = answer.regime("raising") or answer.regime("ideal")
    forces = [(s.force.number, s.name) for s in regime.supports if s.force and s.force.number] if regime else []
    if regime is None or not forces or max(forces)[0] <= 0:
        return "What it all hangs from must be made to carry: no screw hook in a ceiling tile, no door frame, no shelf."
    facts = Facts(rig, answer)
    names = nouns(facts)
    (most, name), (least, other) = max(forces), min(forces)
    when = " while raising" if regime.way == "raising" else ""
    up = f"; and {names[other].the} is pulled upward, with {measure(rig, -least, 'N').near}" if least < 0 else ""
    return (
        f"The fixing carries {_carried(facts)}: {measure(rig, most, 'N').near} at {names[name].the}{when}{up}. Lift a "
        "few centimetres first, and wait. No screw hook in a ceiling tile, no door frame, no shelf."
    )


def _carried(facts: Facts) -> str:
    """What comes together at what all hangs from."""
    if facts.rig.hand is None or facts.rides:
        return "all that hangs there"
    alone = len(facts.rig.fixed) == 1
    return "what your hand does not" if facts.pulls_up and alone else "load, blocks and pull together"


def _hold(rig: Rig, answer: Answer) -> str:
    if rig.hand is None:
        return "Once let go, both sides run: stop them with a hand line or a rest before the floor does."
    return "A tackle does not hold itself: keep a second line or a rest ready, let down hand over hand, never let go."


def _fingers(rig: Rig, answer: Answer) -> str:
    return "Keep fingers, hair and sleeves away from wheels and blocks about to meet. Never wrap the rope round a hand."


def _tilt(rig: Rig, answer: Answer) -> str:
    wide = any(len(block.sheaves) > 1 for block in rig.moving)
    return "Stop where a block tips, the rope rides over itself, or the tackle twists." if wide else ""


def _inspect(rig: Rig, answer: Answer) -> str:
    return "Look over rope, hooks, wheels and knots each time. The weakest part with a marking sets the limit."


_RULES = (
    _Rule("rider", _rider, PRACTICE),
    _Rule("person", _person, PRACTICE),
    _Rule("small", _small, PRACTICE),
    _Rule("under", _under, "common practice; construction rules on suspended loads (OSHA)"),
    _Rule("beam", _beam, OWN),
    _Rule("hold", _hold, PRACTICE),
    _Rule("fingers", _fingers, PRACTICE),
    _Rule("tilt", _tilt, "naval and maritime rigging manuals (N14251, DYER, SPON)"),
    _Rule("inspect", _inspect, INSPECT),
)
