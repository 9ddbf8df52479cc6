"""Numbers as they are said: exact in four figures, else three digits, halves in words, sums that add up."""

from fractions import Fraction as Fr

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gantline.account.numbers import adds_up, numeral
from gantline.account.phrases import en
from gantline.quantity import UNITS, exactly, telling_digits, tenths, value_of


@pytest.mark.parametrize(
    ("number", "text"),
    [
        (Fr(9996, 1000), "9.996"), (Fr(99961, 10000), "10"), (Fr(90), "90"), (Fr(100, 3), "33.3"),
        (Fr(58, 15), "3.87"), (Fr(2940), "2940"), (Fr(1, 10), "0.1"), (Fr(123456), "123,456"), (Fr(2, 3), "0.667"),
        (Fr(0), "0"), (Fr(-14, 5), "−2.8"), (Fr(3485, 10), "348.5"), (Fr(84366, 1000), "84.4"), (Fr(3477, 3), "1159"),
        (Fr(34777, 30), "1159"), (Fr(79039, 1000), "79"), (Fr(1, 16), "0.0625"), (Fr(10**12), "1e+12"),
        (Fr(1, 30000000), "3.33e-8"),
    ],
)  # fmt: skip
def test_exact_in_four_figures_else_three_digits(number, text):
    assert numeral(number).text == text


@pytest.mark.parametrize(
    ("number", "text"), [(Fr(84366, 1000), "84.366"), (Fr(58, 15), "58/15"), (Fr(90), "90"), (Fr(-1, 3), "−1/3")]
)
def test_an_exact_number_loses_nothing(number, text):
    assert exactly(number) == text
    assert value_of(text) == number


@pytest.mark.parametrize(("number", "text"), [(2.06, "2.1"), (-0.04, "0.0"), (-0.06, "−0.1"), (12.0, "12.0")])
def test_what_a_ruler_tells(number, text):
    assert tenths(number) == text


@pytest.mark.parametrize(
    ("number", "unit", "said"),
    [
        (Fr(1, 2), "m", "half a metre"), (Fr(3, 2), "m", "a metre and a half"), (Fr(1, 4), "m", "a quarter of a metre"),
        (Fr(1, 10), "m", "10 centimetres"), (Fr(6), "m", "6 metres"), (Fr(1), "kg", "1 kilogram"),
        (Fr(90), "N", "90 newtons"), (Fr(5, 2), "m", "two and a half metres"),
        (Fr(3, 4), "m", "three quarters of a metre"),
    ],
)  # fmt: skip
def test_units_in_words(number, unit, said):
    assert en.measured(numeral(number), number, UNITS[unit]) == said


@pytest.mark.parametrize(
    ("text", "words"),
    [("224", 5), ("T is 90 newtons.", 4), ("It is 9.81.", 6), ("one, two and three", 4), ("1,440 joules", 7)],
)
def test_length_is_counted_as_spoken(text, words):
    assert en.spoken_words(text) == words


@pytest.mark.parametrize(
    ("terms", "holds"),
    [((Fr(348), Fr(12)), True), ((Fr(84366, 1000), Fr(11772, 1000)), False), ((Fr(3485, 10), Fr(12)), True)],
)
def test_a_sum_is_taken_as_its_terms_are_written(terms, holds):
    assert adds_up(terms, sum(terms, Fr(0))) is holds


@given(st.fractions(min_value="0.001", max_value=99999))
def test_rounding_is_small(number):
    assert abs(numeral(number).off) <= Fr(1, 180)


def test_near_numbers_are_told_apart():
    assert telling_digits([Fr(120), Fr(123083, 1000), Fr(116923, 1000)]) == 3
    assert telling_digits([Fr(100), Fr(100037, 1000)]) == 5


@pytest.mark.parametrize(
    ("number", "digits", "word"),
    [(Fr(58, 15), 2, "nearly "), (Fr(100, 3), 3, "a little over "), (Fr(90), 3, ""), (Fr(28, 15), 1, "about ")],
)
def test_the_word_for_the_rounding(number, digits, word):
    assert en.hedge(numeral(number, digits)) == word
