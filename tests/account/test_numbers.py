"""Numbers as they are said: three digits, halves in words, sums that add up."""

from fractions import Fraction as Fr

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gantline.account.numbers import as_said, common_places, numeral, places_for, telling_places
from gantline.account.phrases import en
from gantline.quantity import UNITS


@pytest.mark.parametrize(
    ("number", "text"),
    [
        (Fr(9995, 1000), "10.0"), (Fr(90), "90"), (Fr(100, 3), "33.3"), (Fr(58, 15), "3.87"), (Fr(2940), "2940"),
        (Fr(1, 10), "0.1"), (Fr(123456), "123,456"), (Fr(2, 3), "0.667"), (Fr(0), "0"), (Fr(-14, 5), "-2.8"),
    ],
)  # fmt: skip
def test_three_digits_exact_if_no_longer(number, text):
    assert numeral(number).text == text


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


@given(st.lists(st.fractions(min_value=1, max_value=5000, max_denominator=60), min_size=2, max_size=4))
def test_sums_add_up_as_said(terms):
    places = common_places(terms, sum(terms, Fr(0)))
    if places is not None:
        assert sum(as_said(term, places) for term in terms) == as_said(sum(terms, Fr(0)), places)


@given(st.fractions(min_value="0.001", max_value=99999))
def test_rounding_is_small(number):
    assert abs(numeral(number).off) <= Fr(1, 180)


def test_near_numbers_are_told_apart():
    assert telling_places([Fr(120), Fr(12308, 100), Fr(11692, 100)]) == 0
    assert telling_places([Fr(100), Fr(1003, 10)]) == 1


@pytest.mark.parametrize(
    ("number", "digits", "word"),
    [(Fr(58, 15), 2, "nearly "), (Fr(100, 3), 3, "a little over "), (Fr(90), 3, ""), (Fr(28, 15), 1, "about ")],
)
def test_the_word_for_the_rounding(number, digits, word):
    assert en.hedge(numeral(number, places_for(number, digits))) == word
