"""Every formula of every account, re-evaluated with exact numbers against the answer."""

from fractions import Fraction

import pytest
from saying import FILES, solved, told

from gantline.account import wrong_answers
from gantline.mechanics import acceleration_symbol, way_symbols
from gantline.quantity import Equation, symbols, value

WAYS = ("tie", "pay", "pay-rope", "pay-hand", "pay-all", "move")  # open where several parts move independently
each = pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)


def numbers(path):
    """What every letter of a rig stands for: what is given, and what the answer found."""
    rig, answer = solved(path)
    ideal = answer.ideal
    found = {symbol: known.number for symbol, known in answer.givens}
    rise = Fraction(1)
    if rig.asked and rig.asked.distance.number is not None:
        rise = rig.asked.distance.number
    for name, letter in way_symbols(rig).items():
        rates = {m.name: m.per_hand.number for m in ideal.motions if m.per_hand} | {"hand": Fraction(1)}
        aim = rates.get(answer.aim or "")
        if aim and rates.get(name) is not None:
            found[letter] = rise * rates[name] / aim
    for pull in ideal.strands:
        letter = dict(answer.tension_symbols)[pull.rope]
        if pull.tension:
            found |= {letter: pull.tension.number, f"{letter}_{pull.index}": pull.tension.number}
    for motion in ideal.motions:
        if motion.acceleration and rig.bearer(motion.name) == motion.name:
            found[acceleration_symbol(rig, motion.name)] = motion.acceleration.number
    if ideal.effort:
        found[rig.effort_symbol] = ideal.effort.number
    if ideal.load is not None:
        part = rig.part(answer.aim)
        found[(part.weight or part.mass).symbol] = ideal.load.number
    found["MA"] = ideal.mechanical_advantage.number if ideal.mechanical_advantage else None
    found["VR"] = answer.velocity_ratio.number if answer.velocity_ratio else None
    return {letter: number for letter, number in found.items() if number is not None}


@each
def test_all_sides_of_a_formula_are_equal(path):
    _, answer = solved(path)
    if answer.status not in ("holds", "accelerates") or answer.regime("holding"):
        pytest.skip("no one number satisfies these")
    known = numbers(path)
    symbolic = {symbol for symbol, given in answer.givens if given.number is None}
    for account in told(path):
        for step in account.steps:
            if not isinstance(step.formula, Equation) or step.id in ("twist", "answer", "beam"):
                continue
            if not all(symbols(side) <= known.keys() for side in step.formula.sides):
                assert symbolic or step.id in WAYS, step
                continue
            sides = {value(side, known) for side in step.formula.sides}
            assert len(sides) == 1, (account.method, step.id, step.formula, sides)


@each
def test_numbers_said_are_the_answers(path):
    """A number keyed with a letter of the rig is the answer's own, unrounded, with its rounding small."""
    _, answer = solved(path)
    for account in told(path):
        for said in account.values:
            if said.key in ("F", "F_near", "F_bare") and answer.ideal.effort:
                assert said.value.number == answer.ideal.effort.number
            if said.key in ("s", "h") and said.value.number is not None:
                assert said.value.number >= 0


@each
def test_wrong_answers_are_wrong_or_marked(path):
    for wrong in wrong_answers(*solved(path)):
        given = {symbol: known.number for symbol, known in solved(path)[1].givens}
        assert value(wrong.formula, given) == wrong.value.number
        assert wrong.overlooked.startswith("You ")
        assert wrong.look_at
