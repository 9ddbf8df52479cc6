"""The engine against published values. Where a source disagrees, the disagreement is asserted, not hidden."""

import functools
import re
import sys
from fractions import Fraction
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from cases import BASES, HERE, computed, half_a_digit, load_cases, load_not_yet, printed
from report import REPORT, written

from gantline import api

CASES = load_cases()
ASKED = [(name, n) for name, case in CASES.items() for n in range(len(case["asked"]))]


def own(text, unit):
    return printed(text, unit), half_a_digit(text) * printed("1", unit)


@functools.cache
def tried(text):
    """The record of a trial, where a case asks for what only real rope shows."""
    rig, problems = api.read(text)
    assert not problems
    return api.trial(rig).record()


@pytest.mark.parametrize(("name", "n"), ASKED, ids=[f"{name}-{n + 1}" for name, n in ASKED])
def test_published_value(name, n, record_from, look):
    case, asked = CASES[name], CASES[name]["asked"][n]
    record = {} if "rig" not in case else tried(case["rig"]) if "record" in case else record_from(case["rig"])
    value = computed([look(record, path) for path in asked.get("get", ())], asked)
    unit = asked.get("unit", "")
    published = printed(asked["published"], unit)
    within = Fraction(asked["tolerance"]) * printed("1", unit)
    if "own" in asked:
        right, exactness = own(asked["own"], unit)
        assert abs(value - right) <= exactness
        assert abs(value - published) > within, "the source agrees after all: take the disagreement out"
    else:
        assert abs(value - published) <= within


@pytest.mark.parametrize("name", CASES)
def test_case_says_where_it_comes_from(name):
    case = CASES[name]
    assert case["basis"] in BASES
    assert case["source"]
    assert all(len(source) > 10 for source in case["source"])
    assert case["title"]
    if case["basis"] == "own calculation":
        assert case["source"][0].startswith("own calculation")


@pytest.mark.parametrize(("name", "n"), ASKED, ids=[f"{name}-{n + 1}" for name, n in ASKED])
def test_tolerance_is_that_of_the_printed_digits(name, n):
    asked = CASES[name]["asked"][n]
    assert re.fullmatch(r"-?\d+(\.\d+)?", asked["published"])
    if Fraction(asked["tolerance"]) > half_a_digit(asked["published"]):
        assert asked["tolerance_why"]
    assert ("own" in asked) == ("disagreement" in asked)


def test_at_least_seventy_published_rows():
    assert len({case["row"] for case in CASES.values() if "row" in case}) >= 70


def test_at_least_twenty_five_rows_on_sheave_friction_measured_efficiencies_and_stretch():
    rows = {case["row"] for case in CASES.values() if case.get("row", "-")[0] in "BIJ"}
    assert len(rows) >= 25
    assert {"I01", "I03", "I04", "I05", "I08"} <= {row for row in rows if row[0] == "I"}


def test_no_row_is_both_checked_and_not_yet():
    later = {row for rows in load_not_yet().values() for row in rows}
    assert not later & {case.get("row") for case in CASES.values()}


def test_the_page_of_checked_values_is_up_to_date():
    assert REPORT.read_text("utf-8") == written(CASES, load_not_yet()), f"run {HERE.name}/report.py"
