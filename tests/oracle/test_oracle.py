"""The engine against a general computer-algebra library: symbolic formulas and exact numbers, at rest and in motion."""

import sys
from pathlib import Path

import pytest
import sympy as sp

sys.path.insert(0, str(Path(__file__).parent))

from bodies import Bodies, as_sympy

from gantline.mechanics import solve
from gantline.notation import parse
from gantline.rig import read

HERE = Path(__file__).parent
SHELF = HERE.parents[1] / "src" / "gantline" / "shelf"
BY_HAND = HERE.parent / "rigs"
TEXTS = {path.stem: path.read_text("utf-8") for folder in (SHELF, BY_HAND) for path in sorted(folder.glob("*.rig"))}

ATWOOD = """
fixed    top      sheaves 1
load     a        mass m1 = 3 kg
load     b        mass m2 = 2 kg
rope     line:    a, over top, b
"""
HEAVY_WHEEL = ATWOOD.replace("sheaves 1", "sheaves 1, radius r = 8 cm, inertia I = 0.006 kg m2")
DISC = ATWOOD.replace("sheaves 1", "sheaves 1, radius 8 cm, disc d = 1.2 kg")
DOUBLE = """
fixed    top      sheaves 1
moving   swing    sheaves 1, mass m_s = 0.5 kg
load     a        mass m1 = 7 kg
load     b        mass m2 = 4 kg
load     c        mass m3 = 2 kg
rope     long:    a, over top, swing
rope     short:   b, over swing, c
"""
TRIPLE = """
fixed    top      sheaves 1
moving   west     sheaves 1
moving   east     sheaves 1
load     a        mass m1 = 1 kg
load     b        mass m2 = 2 kg
load     c        mass m3 = 3 kg
load     d        mass m4 = 5 kg
rope     long:    west, over top, east
rope     one:     a, over west, b
rope     two:     c, over east, d
"""
LADDER = """
fixed    top      sheaves 1
moving   first    sheaves 1
moving   second   sheaves 1, mass m_k = 1 kg
load     a        mass m1 = 9 kg
load     b        mass m2 = 5 kg
load     c        mass m3 = 2 kg
load     d        mass m4 = 1 kg
rope     one:     a, over top, first
rope     two:     b, over first, second
rope     three:   c, over second, d
"""
FALLING = {
    2: "rope fall: upper, under lower.1, over upper.1, iron",
    3: "rope fall: lower, over upper.1, under lower.1, over upper.2, iron",
    4: "rope fall: upper, under lower.1, over upper.1, under lower.2, over upper.2, iron",
}
FALLING_RIG = """
fixed    upper    sheaves 2
moving   lower    sheaves 2, mass m_b = 0.3 kg, carries tub
load     tub      mass M = 1 kg
load     iron     mass m = 0.6 kg
"""
BURTON = """
fixed    top      sheaves 1
moving   flyer    sheaves 1, mass m_f = 1 kg
load     crate    mass M = 3 kg
load     iron     mass m = 2 kg
rope     long:    crate, over top, flyer
rope     short:   crate, over flyer, iron
"""
HAULED = """
fixed    upper    sheaves 2
moving   lower    sheaves 2, mass m_b = 2 kg, carries safe
load     safe     mass M = 40 kg
rope     fall:    upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
effort   F = 130 N
"""
HAULED_HEAVY = HAULED.replace("sheaves 2, mass", "sheaves 2, disc d = 0.4 kg, radius 6 cm, mass").replace(
    "upper    sheaves 2", "upper    sheaves 2, inertia I = 0.004 kg m2, radius r = 5 cm"
)
HAND_AND_IRON = """
fixed    top      sheaves 1
fixed    floor    sheaves 1
load     crate    mass M = 9 kg
load     iron     mass m = 4 kg
rope     line:    crate, over top, iron
rope     down:    iron, under floor, hand
effort   F = 60 N
"""
HAND_ON_DOUBLE = """
fixed    top      sheaves 1
moving   swing    sheaves 1, mass m_s = 1 kg
load     a        mass m1 = 3 kg
load     b        mass m2 = 2 kg
rope     long:    swing, over top, hand
rope     short:   a, over swing, b
effort   F = 70 N
"""
RIDER_MOVING = """
fixed    top      sheaves 1
load     seat     mass M = 60 kg
rope     line:    seat, over top, hand at seat
effort   F = 320 N
"""
LEVEL_MOVING = """
fixed    near-wheel sheaves 1, disc d = 1 kg, radius 10 cm
fixed    far-wheel  sheaves 1
load     a        weight W1 = 30 N
load     b        weight W2 = 50 N
rope     line:    a, over near-wheel, over far-wheel, b
"""
MOVING = {
    "atwood": ATWOOD, "heavy wheel": HEAVY_WHEEL, "disc": DISC, "double": DOUBLE, "triple": TRIPLE, "ladder": LADDER,
    **{f"falling through {n}": FALLING_RIG + rope for n, rope in FALLING.items()},
    "burton": BURTON, "hauled": HAULED, "hauled over heavy wheels": HAULED_HEAVY, "hand and iron": HAND_AND_IRON,
    "hand on a double": HAND_ON_DOUBLE, "rider": RIDER_MOVING, "level lead": LEVEL_MOVING,
}  # fmt: skip


def same(value, expression, bodies) -> bool:
    """Equal as formulas (where the answer has one) and, put in numbers, exactly equal."""
    assert value is not None
    in_letters = bool(sp.sympify(expression).free_symbols)
    if in_letters and value.formula is not None and sp.cancel(as_sympy(value.formula) - expression) != 0:
        return False
    number = sp.sympify(expression).subs(bodies.given)
    return value.number is None or sp.Rational(value.number.numerator, value.number.denominator) == number


@pytest.mark.parametrize("text", MOVING.values(), ids=MOVING)
def test_motion_agrees_with_lagrange(text, rig_from):
    rig = rig_from(text)
    bodies, regime = Bodies(rig), solve(rig).ideal
    accelerations, pulls = bodies.lagrange()
    for motion in regime.motions:
        assert same(motion.acceleration, accelerations[bodies.body[motion.name]], bodies), motion.name
    heavy = {at[0] for at, sheave in bodies.sheaves() if bodies.rim_inertia(sheave) != 0}
    for pull in regime.strands:
        if pull.rope not in heavy:
            assert same(pull.tension, pulls[pull.rope], bodies), pull.name


@pytest.mark.parametrize("text", MOVING.values(), ids=MOVING)
def test_motion_agrees_with_newton(text, rig_from):
    rig = rig_from(text)
    bodies, regime = Bodies(rig), solve(rig).ideal
    found = bodies.newton(still=False)
    for motion in regime.motions:
        assert same(motion.acceleration, found[sp.Symbol(f"a_{bodies.body[motion.name]}")], bodies), motion.name
    for pull in regime.strands:
        assert same(pull.tension, found[sp.Symbol(f"T_{pull.name}")], bodies), pull.name
    for support in regime.supports:
        assert same(support.force, bodies.support(support.name, found), bodies), support.name


SOLVED = {name: (rig := read(parse(text)[0])[0], solve(rig)) for name, text in TEXTS.items()}
STILL = [
    name
    for name, (rig, answer) in SOLVED.items()
    if answer.status == "holds" and rig.effort is None and not answer.regime("holding")
]
LOSSY = [name for name in STILL if SOLVED[name][1].regime("raising")]
HAULED = [name for name, (rig, answer) in SOLVED.items() if rig.hand and answer.freedoms == 1]


@pytest.mark.parametrize("name", STILL)
def test_balance_agrees(name):
    rig, answer = SOLVED[name]
    bodies = Bodies(rig)
    found = bodies.newton(still=True)
    for pull in answer.ideal.strands:
        assert same(pull.tension, found[sp.Symbol(f"T_{pull.name}")], bodies), pull.name
    for support in answer.ideal.supports:
        assert same(support.force, bodies.support(support.name, found), bodies), support.name
    if bodies.hand_strand:
        assert same(answer.ideal.effort, found[sp.Symbol(f"T_{bodies.hand_strand}")], bodies)


@pytest.mark.parametrize("name", LOSSY)
def test_losses_agree(name):
    rig, answer = SOLVED[name]
    bodies = Bodies(rig)
    motion = bodies.motion()
    rises = motion[bodies.body[rig.aim or rig.loads[0].name]]
    for regime in (regime for regime in answer.regimes if regime.way != "ideal"):
        sense = sp.sign(rises) * (1 if regime.way == "raising" else -1)
        found = bodies.newton(still=True, way={name: way * sense for name, way in motion.items()})
        for pull in regime.strands:
            assert same(pull.tension, found[sp.Symbol(f"T_{pull.name}")], bodies), (regime.way, pull.name)


@pytest.mark.parametrize("name", HAULED)
def test_ways_agree(name):
    rig, answer = SOLVED[name]
    bodies = Bodies(rig)
    motion = bodies.motion()
    for found in answer.ideal.motions:
        assert found.per_hand.number == motion[bodies.body[found.name]], found.name
