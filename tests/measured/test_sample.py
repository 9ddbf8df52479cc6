"""The sample readings: made by the tool that says so, and read as what they were made with."""

import sys
from pathlib import Path

import pytest

from gantline import api

ROOT = Path(__file__).parents[2]
SHELF = ROOT / "src" / "gantline" / "shelf"
sys.path.insert(0, str(ROOT / "tools"))
import readings  # noqa: E402 - from tools/


@pytest.fixture(scope="module")
def found() -> api.Measurement:
    rig, _ = api.load(SHELF / "planter.rig")
    measured, problems = api.measure(rig, (SHELF / "readings.csv").read_bytes())
    assert measured is not None, problems
    return measured


def test_the_file_is_what_the_tool_makes() -> None:
    assert (SHELF / "readings.csv").read_bytes() == readings.table()


def test_it_says_that_it_is_simulated() -> None:
    assert "Simulated, no real lesson" in (SHELF / "readings.csv").read_text("utf-8-sig").splitlines()[0]


@pytest.mark.parametrize("name", readings.TRUTH)
def test_what_it_was_made_with_lies_in_the_intervals(found: api.Measurement, name: str) -> None:
    low, high = found.measured.estimate(name).interval
    assert low < readings.TRUTH[name] < high


def test_the_two_mistakes_are_named(found: api.Measurement) -> None:
    assert [one.code for one in found.measured.readings.refused] == ["lowering-above-raising", "travel"]
    assert found.measured.division == readings.DIVISION
