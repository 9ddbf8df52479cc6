"""Rigs past the size that formulas are kept to are explained in numbers; with letters in them it is said why not."""

import pytest

from gantline import api
from gantline.account import METHODS, Account, Refusal
from gantline.quantity import Equation, text

HALF = 40


def tackle(weight: str) -> str:
    path = ", ".join(f"under lower.{n}, over upper.{n}" for n in range(1, HALF + 1))
    return (
        f"fixed upper sheaves {HALF}\nmoving lower sheaves {HALF}, weight 12 N, carries sack\n"
        f"load sack weight {weight}\nrope fall: upper, {path}, hand\nraise sack 0.5 m\n"
    )


def solved(weight: str) -> api.Solved:
    rig, problems = api.read(tackle(weight))
    assert rig is not None, problems
    found = api.solve(rig)
    assert found.answer.size_note
    return found


@pytest.mark.parametrize("method", METHODS)
def test_a_large_rig_is_explained_in_its_letters_and_numbers(method: str) -> None:
    account = api.explain(solved("348 N"), method)
    if isinstance(account, Account):
        equations = [step.formula for step in account.steps if isinstance(step.formula, Equation)]
        assert equations
        assert all(text(side) for equation in equations for side in equation.sides)
        assert account.result is not None


def test_letters_in_a_large_rig_are_refused_with_a_reason() -> None:
    found = solved("W")
    assert found.says == "It all hangs still: on every part the pulls balance the weights."
    for method in METHODS:
        refusal = api.explain(found, method)
        assert isinstance(refusal, Refusal)
    count = api.explain(found, "count")
    assert isinstance(count, Refusal)
    assert "a weight here is a letter" in count.reason
