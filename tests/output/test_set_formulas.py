"""Formulas as they are set: for the page as MathML Core, and on one line."""

from fractions import Fraction

import pytest
from lxml import etree

from gantline.output import mathml
from gantline.quantity import Equation, Formula, Number, Power, Product, Quotient, Sum, Symbol, plain, set_out

W, w, F, T1 = Symbol("W"), Symbol("w"), Symbol("F"), Symbol("T1")
CORE = {"math", "mrow", "mi", "mn", "mo", "mtext", "mfrac", "msub", "msup"}


def n(value: int | str, shown: str = "") -> Number:
    return Number(Fraction(value), shown)


CASES: list[tuple[Equation | Formula | str, str]] = [
    (W, "<mi>W</mi>"),
    (T1, "<msub><mi>T</mi><mn>1</mn></msub>"),
    (Symbol("m_a"), "<msub><mi>m</mi><mtext>a</mtext></msub>"),
    (Symbol("MA"), "<mi>MA</mi>"),
    (n("58/15"), "<mfrac><mrow><mn>58</mn></mrow><mrow><mn>15</mn></mrow></mfrac>"),
    (n(90, "90 N"), "<mn>90</mn><mtext>\u00a0N</mtext>"),
    (n(-2, "-2 m/s²"), '<mo form="prefix">−</mo><mn>2</mn><mtext>\u00a0m/s²</mtext>'),
    (Product((n(4), T1)), "<mn>4</mn><mo>\u2062</mo><msub><mi>T</mi><mn>1</mn></msub>"),
    (Product((n(-1), W)), '<mo form="prefix">−</mo><mi>W</mi>'),
    (Product((n(2), n(3))), "<mn>2</mn><mo>×</mo><mn>3</mn>"),
    (Product((F, Sum((W, w)))),
     '<mi>F</mi><mo>\u2062</mo><mo stretchy="false">(</mo><mi>W</mi><mo>+</mo><mi>w</mi><mo stretchy="false">)</mo>'),
    (Sum((W, Product((n(-2), w)))), "<mi>W</mi><mo>−</mo><mn>2</mn><mo>\u2062</mo><mi>w</mi>"),
    (Quotient(Sum((W, w)), n(4)),
     "<mfrac><mrow><mi>W</mi><mo>+</mo><mi>w</mi></mrow><mrow><mn>4</mn></mrow></mfrac>"),
    (Power(Sum((W, w)), 2),
     '<msup><mrow><mo stretchy="false">(</mo><mi>W</mi><mo>+</mo><mi>w</mi><mo stretchy="false">)</mo></mrow>'
     "<mn>2</mn></msup>"),
    ("F = ?", "<mi>F</mi><mo>=</mo><mi>?</mi>"),
    ("N = 4", "<mi>N</mi><mo>=</mo><mn>4</mn>"),
    ("a1 = -2.8 m/s²",
     '<msub><mi>a</mi><mn>1</mn></msub><mo>=</mo><mo form="prefix">−</mo><mn>2.8</mn><mtext>\u00a0m/s²</mtext>'),
    ("450 − 5 × 90", "<mn>450</mn><mo>−</mo><mn>5</mn><mo>×</mo><mn>90</mn>"),
    ("W = 348 N", "<mi>W</mi><mo>=</mo><mn>348</mn><mtext>\u00a0N</mtext>"),
]  # fmt: skip


def wellformed(made: str) -> str:
    return f"<p>{made}</p>".replace("<wbr>", "<wbr/>")


@pytest.mark.parametrize(("formula", "inner"), CASES, ids=[plain(formula) for formula, _ in CASES])
def test_formula_is_set_as_in_a_book(formula: Equation | Formula | str, inner: str) -> None:
    alt = plain(formula).replace("<", "&lt;")
    assert mathml.write(formula) == (f'<math displaystyle="true" alttext="{alt}"><mrow>{inner}</mrow></math>')


def test_long_equation_may_part_before_each_equals_sign() -> None:
    equation = Equation((F, Quotient(Sum((W, w)), n(4)), n(90, "90 N")))
    pieces = etree.fromstring(wellformed(mathml.write(equation)))
    assert [piece.get("alttext") for piece in pieces.iter("math")] == ["F", "= (W + w)/4", "= 90 N"]
    assert plain(equation) == "F = (W + w)/4 = 90 N"


def test_only_elements_of_mathml_core() -> None:
    for formula, _ in CASES:
        made = etree.fromstring(f"<p>{mathml.write(formula)}</p>")
        assert {node.tag for node in made.iter()} - {"p"} <= CORE


def test_classes_colour_letters_by_kind() -> None:
    made = mathml.write(Equation((T1, W)), {"T1": "is-pull"})
    assert '<msub class="is-pull">' in made
    assert "<mi>W</mi>" in made


def test_two_givens_are_two_pieces() -> None:
    made = etree.fromstring(wellformed(mathml.write("w = 12 N, W = 348 N")))
    assert [piece.get("alttext") for piece in made.iter("math")] == ["w = 12 N,", "W = 348 N"]


def test_hostile_letters_stay_text() -> None:
    made = mathml.write(Symbol("<b>"))
    assert "<b>" not in made
    assert set_out("a <b> c").parts
