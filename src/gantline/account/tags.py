"""The facts of a rig as short tags, the words that frames are chosen by. KNOWN and STEP list every tag there is."""

from fractions import Fraction

from gantline.mechanics import Value
from gantline.rig import Load, Moving

from .facts import Body, Facts

# What may be true of a rig, and of one step of an account.
KNOWN = frozenset((
    "block-alone",
    "N=1", "N=2", "N>2", "N>6", "accelerates", "asked", "company", "dead-end-moving", "effort-asked", "effort-given",
    "hand-inside", "heavy-wheel", "helpers", "helps", "holds", "impossible", "indeterminate", "load-asked", "lossy",
    "lowers", "ma=1", "ma=vr", "ma>vr", "numeric", "one-load", "one-rope", "one-weight", "one-wheel", "own-block",
    "own-heavy", "own-none", "own-runner", "own-several", "own-wheel", "rider", "ropes", "several-bodies", "shared",
    "slack", "symbolic", "two-ropes", "two-weights", "unit-gain",
))  # fmt: skip
STEP = frozenset((
    "E=1", "E=2", "above", "alike", "alone", "as-fast", "asks", "assumed-sizes", "at-end", "at-rest", "below",
    "bodies", "both-sides", "carried", "count-right", "disc", "down", "equal", "even", "falls", "first", "flyer",
    "free", "friend", "gives", "half", "hanging", "heavy", "held", "helper-heavier", "helper-lighter", "later",
    "less", "let-go", "light", "load", "load-heavier", "load-lighter", "loose", "lowering-first", "many", "many-help",
    "massed", "meet", "merged", "minus", "more", "more-ropes", "moves", "none", "nothing-left", "once", "one",
    "other", "pair", "plus", "pull-given", "pulled-up", "pushes", "ratio", "rest", "rests", "rises", "runner", "self",
    "several", "several-strands", "single", "so-much", "stays", "still", "turned", "twice", "two", "two-ways", "up",
    "weighs", "weight-fits", "whole",
))  # fmt: skip


def tags(facts: Facts) -> set[str]:
    """Everything that is true of the rig as a whole."""
    found = {facts.answer.status, "numeric" if facts.numeric else "symbolic"}
    found |= _ropes(facts) | _hand(facts) | _question(facts) | _results(facts)
    body = facts.aim or facts.body(facts.load)
    if body is not None:
        found |= about(facts, body)
        found |= {"shared"} if len(body.ropes) > 1 else set()
    return found


def _ropes(facts: Facts) -> set[str]:
    found = {"one-rope"} if len(facts.rig.ropes) == 1 else {"ropes"}
    wheels = len(facts.sheaves)
    moving = len(facts.bodies)
    found |= {"two-ropes"} if len(facts.rig.ropes) == 2 else set()
    found |= {"one-wheel"} if wheels == 1 else set()
    found |= {"several-bodies"} if moving > 1 else set()
    found |= {"one-load"} if len(facts.rig.loads) == 1 else set()
    found |= {"lossy"} if facts.lossy else set()
    found |= {"heavy-wheel"} if facts.heavy_sheaves else set()
    found |= {"level"} if any(s.course == "level" for s in facts.rig.strands) else set()
    return found


def _hand(facts: Facts) -> set[str]:
    if facts.rig.hand is None:
        return {"no-hand"}
    found = {"pulls-up"} if facts.pulls_up else set()
    if facts.rides and facts.body("hand") == facts.body(facts.load):
        return found | {"rider"}
    return found | {"hand-inside" if facts.hand_inside else "hand-outside"}


def _question(facts: Facts) -> set[str]:
    rig = facts.rig
    found = {"asked"} if rig.asked else set()
    found |= {"lowers"} if rig.asked and rig.asked.sense < 0 else set()
    if rig.effort is not None:
        found |= {"effort-given"} | ({"load-asked"} if facts.ideal.load is not None else set())
    elif rig.hand is not None and not untold(facts.ideal.effort):
        found |= {"effort-asked"}
    part = rig.part(facts.load)
    if isinstance(part, Load) and part.mass is not None:
        found |= {"mass"}
    return found


def untold(value: Value | None) -> bool:
    """Whether a value has neither number nor formula: letters in a rig past the size that formulas are kept to."""
    return value is not None and value.number is None and value.formula is None


def _results(facts: Facts) -> set[str]:
    found = {"helps"} if facts.answer.helps else set()
    found |= {"helpers"} if len(facts.answer.helps) > 1 else set()
    gain, ratio = facts.ideal.mechanical_advantage, facts.answer.velocity_ratio
    if gain and ratio and gain.number is not None and ratio.number is not None:
        found |= {"ma<vr" if gain.number < ratio.number else "ma=vr" if gain.number == ratio.number else "ma>vr"}
        found |= {"ma=1"} if gain.number == 1 else set()
        found |= {"unit-gain"} if ratio.number == 1 else set()
    beam, load = beam_force(facts), facts.weight(facts.load)
    if beam is not None and load is not None and load.number is not None:
        found |= {"beam>load" if beam > load.number else "beam<load"}
    return found


def beam_force(facts: Facts) -> Fraction | None:
    """What the one fixed part with a rope on it carries, None where there are several or its force is open."""
    found = [
        s.force.number
        for s in facts.ideal.supports
        if s.force and s.force.number is not None and facts.strands_at(s.name)
    ]
    return found[0] if len(found) == 1 else None


def about(facts: Facts, body: Body) -> set[str]:
    """What is true of one body: how many strands hold it, what it hangs from, what weighs."""
    count = len(body.up)
    found = {f"N={count}" if count <= 2 else "N>2"} | ({"N>6"} if count > 6 else set())
    weights = len(facts.body_weights(body))
    found |= {("one-weight", "two-weights", "more-weights")[min(max(weights, 1), 3) - 1]}
    found |= {"block-alone"} if isinstance(facts.rig.part(facts.load), Moving) else set()
    found |= {"company"} if len(facts.loads_of(body)) > 1 else set()
    blocks = [part for name in body.parts if isinstance(part := facts.rig.part(name), Moving)]
    if not blocks:
        found |= {"own-none"}
    else:
        size = len(blocks[0].sheaves)
        found |= {"own-several"} if len(blocks) > 1 else set()
        found |= {"own-hook" if size == 0 else "own-wheel" if size == 1 else "own-block"}
        found |= {"own-heavy" if facts.weight(blocks[0].name) else "own-light"}
    if any(s.start.sheave is None and s.start.part in {b.name for b in blocks} for s in body.up) or any(
        s.end.sheave is None and s.end.part in {b.name for b in blocks} for s in body.up
    ):
        found |= {"dead-end-moving"}
    if len(facts.sheaves) == count:
        found |= {"P=N"}
    return found
