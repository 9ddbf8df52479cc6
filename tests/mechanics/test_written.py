"""Formulas are written as a book would, and mean what they were made from."""

import random
from fractions import Fraction

import pytest

from gantline.mechanics.ring import Functions, Ratio
from gantline.mechanics.written import written
from gantline.quantity.formula import text, value

RING = Functions(("W", "w", "e", "h"))
W, w, e, h = (RING.symbol(name) for name in ("W", "w", "e", "h"))
TWO, FOUR = RING.constant(2), RING.constant(4)


@pytest.mark.parametrize(
    ("ratio", "expected"),
    [
        ((W + w) / FOUR, "(W + w)/4"),
        (W * FOUR / (W + w), "4*W/(W + w)"),
        (w - W, "w - W"),
        (-(W + w) / TWO, "-(W + w)/2"),
        ((w - W) * h / TWO, "h*(w - W)/2"),
        (RING.zero, "0"),
        (RING.one, "1"),
        (-h * W, "-W*h"),
        (e * e * (W + w), "e**2*(W + w)"),
        ((W - w) * (W + w), "(W - w)*(W + w)"),
        ((W + w) * (W + w), "(W + w)**2"),
        (RING.one / W, "1/W"),
        (W / (w * h), "W/(w*h)"),
    ],
)
def test_written(ratio: Ratio, expected: str) -> None:
    assert text(written(ratio)) == expected


def test_the_text_and_the_tree_give_the_value() -> None:
    chance = random.Random(3)
    for _ in range(200):
        given = {name: Fraction(chance.randint(2, 19), chance.randint(1, 7)) for name in ("W", "w", "e", "h")}
        ratio, number = RING.one, Fraction(1)
        for _ in range(chance.randint(1, 6)):
            name = chance.choice(("W", "w", "e", "h"))
            factor, plain = RING.symbol(name), given[name]
            step = chance.choice("+-*/")
            if step == "+":
                ratio, number = ratio + factor, number + plain
            elif step == "-":
                ratio, number = ratio - factor, number - plain
            elif step == "*":
                ratio, number = ratio * factor, number * plain
            else:
                ratio, number = ratio / factor, number / plain
        formula = written(ratio)
        assert value(formula, given) == number
        names = {name: given[name] for name in given}
        assert eval(text(formula).replace("/", " / "), {}, names) == pytest.approx(float(number), rel=1e-9)
