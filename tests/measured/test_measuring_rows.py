"""Rows that cannot be are set aside, each with its reason in its own numbers."""

from fractions import Fraction

import pytest
from tackles import BURTON, FOUR, QUIET, SINGLE, from_table, measured, simulated

from gantline.bench import Settings
from gantline.bench.measured.readings import Refused, Row
from gantline.bench.measured.reporting import accounting, refused

HEAD = "load (N),raise (N),lower (N),hand travel (mm),load travel (mm)\n"
GOOD = "10,3.0,2.3,400,100\n6,1.8,1.4,400,100\n4,1.3,1.0,,\n"


def set_aside(row: str, text: str = FOUR) -> list[Refused]:
    found = from_table(text, f"{HEAD}{GOOD}{row}\n", QUIET)
    return [one for one in found.readings.refused if one.line == 5]


@pytest.mark.parametrize(("row", "code", "more"), [
    ("10,2.0,2.3,,", "lowering-above-raising", "2.3 N above 2 N"),
    ("10,2.2,,,", "efficiency-above-one", "efficiency 1.136: 2.2 N for 10 N"),
    ("10,0,,,", "efficiency-above-one", "no pull at all: 0 N for 10 N"),
    ("10,3.0,2.3,300,100", "travel", "3 times, not 4"),
    ("10,3.0,2.3,413,100", "travel", "4.13 times, not 4"),
    ("10,3.0,2.3,100,0", "travel", "a rise of nothing, not 4"),
    ("-10,3.0,2.3,,", "negative", ""),
])  # fmt: skip
def test_an_impossible_row_is_named(row: str, code: str, more: str) -> None:
    assert set_aside(row) == [Refused(5, code, more)]


@pytest.mark.parametrize("row", [
    "10,3.0,3.0,,", "10,3.0,3.1,,", "10,2.45,,,", "10,3.0,2.3,411,100", "10,3.0,2.3,400,", "0,0.2,0.1,,",
])  # fmt: skip
def test_what_instruments_allow_stays(row: str) -> None:
    """Lowering above raising by a division, 3 % of the travel, masses off by 3 %: no proof that a row is wrong."""
    assert set_aside(row) == []


def test_where_a_part_sinks_and_helps_no_pull_is_too_small() -> None:
    assert set_aside("10,2.9,2.2,,", BURTON) == []


def test_the_velocity_ratio_is_the_rigs_own() -> None:
    assert from_table(SINGLE, f"{HEAD}10,11,9,100,100\n", QUIET).readings.refused == ()
    table = f"{HEAD}10,11,9,,\n10,11,9,400,100\n"
    assert [one.code for one in from_table(SINGLE, table, QUIET).readings.refused] == ["travel"]


def test_every_row_is_accounted_for() -> None:
    found = from_table(FOUR, f"{HEAD}{GOOD},,,,\n10,2.0,2.3,,\none,2,1,,\n", QUIET)
    assert accounting(found.readings) == "6 rows read: 3 used, 2 refused, 1 empty."
    table = refused(found.readings)
    assert table is not None
    assert table.rows[0] == (
        "Row 6",
        "The pull while lowering is above the pull while raising: friction takes, it never gives (2.3 N above 2 N).",
    )
    assert table.rows[1] == ("Row 7", "A cell that should be a number is none.")


def test_a_scale_of_coarse_division_is_given_its_due() -> None:
    """What is refused at a division of 0.01 N is allowed where the scale has 0.5 N, by the readings' own last digit."""
    fine, coarse = "10,3.00,3.05,,", "10,3.0,3.5,,"
    assert [one.code for one in from_table(FOUR, f"{HEAD}{fine}\n8,2.40,2.00,,\n").readings.refused] == [
        "lowering-above-raising"
    ]
    rows = "".join(f"{load},{load / 2 - 1:.1f},0.5,,\n" for load in range(6, 20))
    assert from_table(FOUR, f"{HEAD}{coarse}\n{rows}").readings.refused == ()


def test_refused_rows_change_no_result() -> None:
    truth = (0.95, 0.5, 0.02, 0.0)
    clean = simulated(from_shares(), truth, noise=0.02)
    spoilt = simulated(from_shares(), truth, noise=0.02, extra=Row(99, Fraction(8), (Fraction(1),), (Fraction(2),)))
    settings = Settings(draws=10_000, taken=("zero",))
    assert measured(FOUR, spoilt, settings).estimates == measured(FOUR, clean, settings).estimates


def from_shares():
    from tackles import shares_of

    return shares_of(FOUR)
