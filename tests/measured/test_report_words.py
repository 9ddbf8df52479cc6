"""The report in words: what it claims, what it leaves open, what it warns of, and what it says to do next."""

from fractions import Fraction

import pytest
from msgspec.structs import replace
from tackles import BURTON, FOUR, SINGLE, from_table, measured, rig, shares_of, simulated

from gantline.bench import Settings, report
from gantline.bench.measured.readings import Row
from gantline.bench.measured.reporting import Report

ZERO = Row(91, zero=(Fraction("0.05"),))
TRUTH = (0.94, 0.5, 0.03, 0.05)


def said(text: str, **how: object) -> Report:
    readings = simulated(shares_of(text), how.pop("truth", TRUTH), **how)  # type: ignore[arg-type]
    return report(measured(text, readings), rig(text))


def test_the_first_sentence_is_the_result() -> None:
    found = said(FOUR, noise=0.01, extra=ZERO)
    assert found.lead.startswith("Each sheave passes on 9")
    assert "of the pull while it runs (95" in found.lead
    assert found.notes == ()


def test_what_is_not_told_is_not_claimed() -> None:
    found = said(FOUR, noise=0.01)
    rows = {row[0]: row[1:] for row in found.results.rows}
    assert rows["Weight of lower, w"] == ("not told", "not apart from drag and zero", "", "")
    assert found.improve[0] == (
        "To tell block weight, drag and zero: read the scale with nothing hung on it (a column `zero`). Or take one as "
        "it stands, with `--take block`, `--take drag` or `--take zero`: drag and zero as none, the block as the file "
        "has it."
    )


def test_where_only_the_ratio_speaks_it_says_on_what_condition() -> None:
    table = "raise (N),lower (N)\n5.66,4.40\n5.64,4.40\n"
    found = report(from_table(FOUR, table), rig(FOUR))
    assert "if drag and zero are nothing" in found.lead
    assert found.improve == (
        "To tell efficiency, block weight, drag and zero: write down the loads (a column `load`).",
    )
    assert found.plots == ()
    assert found.lines is None


def test_nothing_told_at_all() -> None:
    found = report(from_table(BURTON, "load (N),raise (N)\n10,3.5\n"), rig(BURTON))
    assert found.lead == "These readings do not tell what the sheaves pass on."
    assert found.pairs is None
    assert found.ratio.startswith("Not here")


def test_wheels_that_seem_to_give_are_doubted() -> None:
    found = said(SINGLE, truth=(1.004, 0.0, 0.0, 0.05), noise=0.0005, ways=("raising",), extra=ZERO)
    assert any("above 1 cannot be" in note for note in found.notes)


def test_what_may_be_nothing_is_said_to_be() -> None:
    found = said(FOUR, truth=(0.94, 0.5, 0.0, 0.05), noise=0.02, extra=ZERO)
    assert "Drag in each sheave: the interval holds zero, so there may be none." in found.notes


def test_what_is_below_nothing_is_doubted() -> None:
    found = said(FOUR, truth=(0.94, 0.5, -0.05, 0.05), noise=0.002, extra=ZERO)
    assert any(note.startswith("Drag in each sheave: below zero, which cannot be") for note in found.notes)


def test_what_was_taken_is_a_condition_of_all_else() -> None:
    readings = simulated(shares_of(FOUR), (0.94, 0.5, 0.0, 0.0), noise=0.01)
    found = report(measured(FOUR, readings, Settings(draws=10_000, taken=("drag", "zero"))), rig(FOUR))
    assert found.notes[-1].startswith("Taken as it stands: drag and zero. If that is wrong")


def test_a_model_that_does_not_fit_says_so() -> None:
    readings = simulated(shares_of(FOUR), TRUTH, noise=0.005, extra=ZERO)
    rows = tuple(
        replace(row, load=row.load * (Fraction(11, 10) if n % 6 < 3 else 1)) if row.load is not None else row
        for n, row in enumerate(readings.rows)
    )
    found = report(measured(FOUR, replace(readings, rows=rows)), rig(FOUR))
    assert any("Something is not in the model" in note for note in found.notes)


def test_a_ratio_that_drifts_with_the_load_is_a_sign() -> None:
    found = said(FOUR, truth=(0.94, 0.5, 0.0, 0.2), noise=0.002, extra=replace(ZERO, zero=(Fraction("0.2"),)))
    assert "it is not the same at every load: a sign of drag or of a zero" in found.ratio
    assert "the law leaves drag and zero out, the fit does not" in found.ratio


def test_the_budget_names_what_was_not_stated() -> None:
    found = said(FOUR, noise=0.01, extra=ZERO)
    assert "Not stated, so not counted: errors of the masses and an error of the scale's gain." in found.budget.note
    assert [row[0] for row in found.budget.rows][-2:] == ["together", "degrees of freedom"]


def test_the_machines_own_efficiency_is_that_of_its_line() -> None:
    found = said(FOUR, truth=(0.95, 0.5, 0.0, 0.0), noise=0.0, division=1e-6, extra=replace(ZERO, zero=(Fraction(0),)))
    pull = 12.5 * (1 / 0.95 - 1) / (1 - 0.95**4) * 0.95**4 / 0.95**4
    assert found.lines is not None
    assert f"gives back {100 * 12 / (4 * pull):.2f}"[:-1] in found.lines.note


@pytest.mark.parametrize("text", [FOUR, SINGLE, BURTON], ids=["four", "single", "burton"])
def test_every_report_has_its_cautions_and_rates_nothing(text: str) -> None:
    found = said(text, truth=(0.94, 0.5 if text != SINGLE else 0.0, 0.0, 0.05), noise=0.01, extra=ZERO)
    assert any("Never a person" in caution.says for caution in found.cautions)
    assert "not a rating" in found.general
