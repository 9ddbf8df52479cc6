"""What is put in comes out: from simulated readings the lab finds the sheaves again, with intervals that mean 95 %."""

from collections.abc import Sequence
from fractions import Fraction

import numpy as np
import pytest
from msgspec.structs import replace
from tackles import BURTON, FOUR, GUN, LOADS, QUIET, RUNNER, SINGLE, SIX, measured, pull, rig, shares_of, simulated

from gantline.bench import Limits, Settings, report
from gantline.bench.measured.budget import budget, correlations, coverage
from gantline.bench.measured.draws import monte_carlo
from gantline.bench.measured.fit import Fit, fit
from gantline.bench.measured.means import Mean
from gantline.bench.measured.measuring import Measured
from gantline.bench.measured.model import UNKNOWNS, Model
from gantline.bench.measured.ratio import Ratio
from gantline.bench.measured.readings import Row
from gantline.mechanics import Shares

TRUTH = (0.94, 0.5, 0.03, 0.05)
WEIGHED = Row(90, block=(Fraction("0.5"),))
ZERO = Row(91, zero=(Fraction("0.05"),))


def told(of: Measured) -> dict[str, float | None]:
    return {one.name: one.value for one in of.estimates}


@pytest.mark.parametrize(
    "text", [SINGLE, RUNNER, GUN, FOUR, SIX, BURTON], ids=["single", "runner", "gun", "four", "six", "burton"]
)
def test_without_noise_the_truth_comes_back(text: str) -> None:
    of = shares_of(text)
    truth = TRUTH if of.block else (0.94, 0.0, 0.03, 0.05)
    found = measured(text, simulated(of, truth, division=1e-9, times=1, extra=ZERO), QUIET)
    for name, value, right in zip(UNKNOWNS, [told(found).get(name, 0.0) for name in UNKNOWNS], truth, strict=True):
        assert value == pytest.approx(right, abs=2e-7), name


# -- which can be told ------------------------------------------------------------------------------------------------


def test_block_drag_and_zero_are_not_told_apart_by_loads_alone() -> None:
    """Two intercepts, three unknowns: the efficiency is claimed, the rest is not, and one more reading is asked for."""
    found = measured(FOUR, simulated(shares_of(FOUR), TRUTH, noise=0.02))
    assert found.estimate("efficiency").value == pytest.approx(0.94, abs=0.01)
    for name in ("block", "drag", "zero"):
        one = found.estimate(name)
        assert one.value is None
        assert set(one.tied) == {"block", "drag", "zero"} - {name}
    first = found.advice[0]
    assert (first.kind, first.what, set(first.of)) == ("read", ("zero",), {"block", "drag", "zero"})


@pytest.mark.parametrize("extra", [ZERO, WEIGHED], ids=["zero", "block"])
def test_either_further_reading_tells_all(extra: Row) -> None:
    found = measured(FOUR, simulated(shares_of(FOUR), TRUTH, noise=0.005, extra=extra))
    for name, right in zip(UNKNOWNS, TRUTH, strict=True):
        one = found.estimate(name)
        assert one.value is not None
        assert one.interval is not None
        assert one.value == pytest.approx(right, abs=4 * one.combined.u)
    assert all(advice.kind == "better" for advice in found.advice)


def test_raising_alone_tells_the_efficiency_and_asks_for_more() -> None:
    found = measured(FOUR, simulated(shares_of(FOUR), TRUTH, noise=0.01, ways=("raising",)))
    assert found.estimate("efficiency").value == pytest.approx(0.94, abs=0.02)
    assert found.estimate("drag").value is None
    assert set(found.advice[0].what) == {"zero", "block"} or "lowering" in found.advice[0].what
    assert isinstance(found.ratio, str)


def test_one_load_alone_does_not_tell_the_efficiency() -> None:
    found = measured(FOUR, simulated(shares_of(FOUR), TRUTH, noise=0.01, loads=(8,)))
    assert found.estimate("efficiency").value is None
    assert found.advice[0].what == ("zero", "block"), "four unknowns, and two pulls that say something"
    assert isinstance(found.ratio, Ratio), "the ratio law needs one load only"


def test_what_is_advised_does_tell_it() -> None:
    """The reading asked for is added, and nothing is left untold."""
    first = simulated(shares_of(FOUR), TRUTH, noise=0.01, loads=(8,))
    wanted = measured(FOUR, first).advice[0].what
    loads = (8, 12) if any("loads" in what for what in wanted) else (8,)
    extra = Row(90, block=(Fraction("0.5"),) if "block" in wanted else (),
                zero=(Fraction("0.05"),) if "zero" in wanted else ())  # fmt: skip
    found = measured(FOUR, simulated(shares_of(FOUR), TRUTH, noise=0.01, loads=loads, extra=extra))
    assert all(one.value is not None for one in found.estimates)


def test_what_is_taken_is_said_and_not_claimed() -> None:
    settings = Settings(draws=10_000, taken=("drag",))
    found = measured(FOUR, simulated(shares_of(FOUR), (0.94, 0.5, 0.0, 0.05), noise=0.005), settings)
    drag = found.estimate("drag")
    assert (drag.value, drag.held, drag.combined) == (0.0, True, None)
    assert found.estimate("block").value == pytest.approx(0.5, abs=0.1)
    assert found.estimate("zero").value == pytest.approx(0.05, abs=0.03)


def test_the_files_own_block_weight_can_be_taken() -> None:
    found = measured(FOUR, simulated(shares_of(FOUR), TRUTH, noise=0.002), Settings(draws=10_000, taken=("block",)))
    assert found.estimate("block").held
    assert found.estimate("block").value == 0.5
    assert found.estimate("drag").value == pytest.approx(0.03, abs=0.01)


def test_a_rig_without_a_moving_block_has_no_block_to_weigh() -> None:
    found = measured(SINGLE, simulated(shares_of(SINGLE), (0.94, 0, 0.03, 0.05), noise=0.01, extra=ZERO))
    assert [one.name for one in found.estimates] == ["efficiency", "drag", "zero"]


# -- the ratio law ----------------------------------------------------------------------------------------------------


def test_the_ratio_law_needs_neither_load_nor_block() -> None:
    """F_up 5.66, F_down 4.40 on four strands and four sheaves: e 0.951, u .003."""
    of = shares_of(FOUR)
    found = measured(FOUR, simulated(of, (0.95, 3.0, 0, 0), noise=0.0, division=1e-6))
    assert isinstance(found.ratio, Ratio)
    assert found.ratio.power == 5
    assert found.ratio.efficiency == pytest.approx(0.95, abs=1e-6)


def test_rows_without_a_load_still_say_the_ratio() -> None:
    rows = tuple(Row(n, None, (Fraction("5.66"),), (Fraction("4.40"),)) for n in (2, 3))
    readings = simulated(shares_of(FOUR), TRUTH, times=1)
    found = measured(FOUR, replace(readings, rows=rows))
    assert isinstance(found.ratio, Ratio)
    assert f"{found.ratio.efficiency:.3f}" == "0.951"
    assert all(one.value is None for one in found.estimates)
    assert found.advice[0].what == ("loads",)
    assert found.residuals == ()


def test_a_gain_error_cancels_in_the_ratio_and_a_zero_does_not() -> None:
    of = shares_of(FOUR)
    plain = measured(FOUR, simulated(of, (0.95, 0.5, 0, 0), division=1e-6)).ratio
    zero = measured(FOUR, simulated(of, (0.95, 0.5, 0, 0.1), division=1e-6)).ratio
    assert isinstance(plain, Ratio)
    assert isinstance(zero, Ratio)
    assert zero.efficiency > plain.efficiency
    assert zero.pairs[0].efficiency > zero.pairs[-1].efficiency
    heavier = {load: (pull(of, "raising", load, .95, .5, 0, 0) * 1.05, pull(of, "lowering", load, .95, .5, 0, 0) * 1.05)
               for load in LOADS}  # fmt: skip
    for pair, (up, down) in zip(plain.pairs, heavier.values(), strict=True):
        assert pair.ratio == pytest.approx(up / down, rel=1e-5)


def test_where_something_else_hangs_there_is_no_ratio_law() -> None:
    found = measured(BURTON, simulated(shares_of(BURTON), TRUTH, division=1e-6))
    assert isinstance(found.ratio, str)
    assert "alone" in found.ratio


# -- how sure ---------------------------------------------------------------------------------------------------------


def drawn(of: Shares, random: np.random.Generator, truth: Sequence[float], noise: float, division: float,
          times: int, loads: Sequence[float]) -> tuple[Mean, ...]:  # fmt: skip
    """The means of one lesson's readings, on a scale that shows whole divisions."""
    found = []
    for way in ("raising", "lowering"):
        for load in loads:
            read = pull(of, way, load, *truth) + random.normal(0, noise, times)
            read = np.round(read / division) * division
            mean = float(read.mean())
            found.append(Mean(way, float(load), mean, times, float(((read - mean) ** 2).sum())))
    zero = np.round((truth[3] + random.normal(0, noise, times)) / division) * division
    return (*found, Mean("zero", 0.0, float(zero.mean()), times, float(((zero - zero.mean()) ** 2).sum())))


def covered(text: str, truth: Sequence[float], noise: float, division: float, runs: int, seed: int) -> np.ndarray:
    """How often the 95 % interval of each unknown holds the truth."""
    of, random, hits = shares_of(text), np.random.default_rng(seed), np.zeros(4)
    for _ in range(runs):
        means = drawn(of, random, truth, noise, division, 3, LOADS)
        found = fit(Model(of, means), division, 0.001, {}, {})
        widths = budget(found, Limits())
        for n, name in enumerate(UNKNOWNS):
            hits[n] += abs(found.at[n] - truth[n]) <= widths[name].half
    return hits / runs


def test_intervals_hold_the_truth_as_often_as_they_say() -> None:
    """2,000 lessons on four strands: 95 % intervals that hold it in 93 to 97 of a hundred, for each unknown."""
    share = covered(FOUR, TRUTH, noise=0.03, division=0.01, runs=2000, seed=11)
    assert (share >= 0.93).all(), share
    assert (share <= 0.97).all(), share


def test_a_coarse_scale_is_not_trusted_more_than_it_can_show() -> None:
    """Divisions larger than the scatter are the same each time: intervals may be too wide, never too narrow."""
    share = covered(GUN, TRUTH, noise=0.02, division=0.1, runs=400, seed=12)
    assert (share >= 0.92).all(), share


def fitted(seed: int = 5) -> Fit:
    """A fit with many repeats, and a zero that was read once, at rest."""
    of, random = shares_of(FOUR), np.random.default_rng(seed)
    *means, _ = drawn(of, random, TRUTH, 0.03, 0.001, 4, LOADS)
    return fit(Model(of, (*means, Mean("zero", 0.0, 0.05, 1, 0.0))), 0.001, 0.001, {}, {})


def test_monte_carlo_agrees_with_propagation_where_things_are_straight() -> None:
    found, limits = fitted(), Limits(0.01, 0.01)
    whole = budget(found, limits)
    spread, many = monte_carlo(found, limits, 200_000)
    assert many == 200_000
    for n, name in enumerate(UNKNOWNS):
        freedom = whole[name].freedom
        wider = (freedom / (freedom - 2)) ** 0.5 if np.isfinite(freedom) else 1.0  # Student's t scatters more
        assert spread[name].u == pytest.approx(whole[name].u * wider, rel=0.03), name
        assert spread[name].mean == pytest.approx(found.at[n], abs=0.02 * whole[name].u)
        assert spread[name].high - spread[name].low == pytest.approx(2 * whole[name].half, rel=0.06), name


def test_monte_carlo_solves_what_a_whole_new_fit_would() -> None:
    """Means with fresh errors, fitted anew by the library, scatter as the draws do."""
    found, random, of = fitted(), np.random.default_rng(6), shares_of(FOUR)
    spread, _ = monte_carlo(found, Limits(), 100_000)
    ats = []
    for _ in range(300):
        values = found.model.values + found.deviations * random.standard_normal(len(found.deviations))
        means = tuple(Mean(m.what, m.load, float(v), m.many, m.squares)
                      for m, v in zip(found.model.means, values, strict=True))  # fmt: skip
        ats.append(fit(Model(of, means), 0.001, 0.001, {}, {}).at)
    again = np.array(ats).std(axis=0)
    for n, name in enumerate(UNKNOWNS):
        assert again[n] == pytest.approx(spread[name].u, rel=0.15), name


def test_four_rectangular_divisions_make_a_narrower_tail() -> None:
    """JCGM 101, 9.2.3: the mean of four rectangular errors has u a/sqrt(12) and 95 % within 1.94 u, not 1.96."""
    of = shares_of(FOUR)
    means = tuple(Mean("raising", load, pull(of, "raising", load, *TRUTH), 1, 0.0) for load in (2.0, 4.0, 6.0, 8.0))
    taken = {"efficiency": TRUTH[0], "block": TRUTH[1], "drag": TRUTH[2]}
    found = fit(Model(of, means), 0.1, 0.001, taken, {})
    spread, _ = monte_carlo(found, Limits(), 400_000)
    u = 0.1 / 12**0.5 / 2
    assert found.at[3] == pytest.approx(TRUTH[3], abs=1e-12)
    assert spread["zero"].u == pytest.approx(u, rel=0.005)
    assert (spread["zero"].high - spread["zero"].low) / 2 / u == pytest.approx(3.88 / 2, abs=0.012)


def test_the_same_file_gives_the_same_draws() -> None:
    found = fitted()
    assert monte_carlo(found, Limits(0.01), 20_000) == monte_carlo(found, Limits(0.01), 20_000)


def test_readings_too_few_for_draws_say_so() -> None:
    readings = simulated(shares_of(FOUR), TRUTH, noise=0.2, times=1, loads=(2, 12), extra=ZERO)
    found = measured(FOUR, readings)
    assert found.draws == 0 or found.estimate("efficiency").spread is not None


def test_more_scatter_than_repeats_explain_is_said_and_widens_all() -> None:
    """Loads that are not what they say: repeats agree with each other, and not with the model."""
    readings = simulated(shares_of(FOUR), TRUTH, noise=0.005, extra=ZERO)
    rows = tuple(
        replace(row, load=row.load * (Fraction(11, 10) if n % 6 < 3 else 1)) if row.load is not None else row
        for n, row in enumerate(readings.rows)
    )
    found = measured(FOUR, replace(readings, rows=rows))
    assert found.fitted is not None
    assert found.fitted.goodness.lacking
    assert found.fitted.goodness.birge > 2
    plain = measured(FOUR, readings)
    assert plain.fitted is not None
    assert not plain.fitted.goodness.lacking
    assert found.estimate("efficiency").u > 2 * plain.estimate("efficiency").u


def test_each_stated_limit_adds_to_the_budget() -> None:
    readings = simulated(shares_of(FOUR), TRUTH, noise=0.01, extra=ZERO)
    names = []
    for limits in (Limits(), Limits(0.02), Limits(0.02, 0.02)):
        found = measured(FOUR, readings, Settings(limits=limits, draws=10_000)).estimate("efficiency").combined
        names.append({part.source for part in found.parts})
        assert found.u == pytest.approx(sum(part.u**2 for part in found.parts) ** 0.5, rel=1e-6)
    assert "masses" not in names[0]
    assert names[1] - names[0] == {"masses"}
    assert names[2] - names[1] == {"gain"}


def test_a_gain_that_is_off_moves_the_result_as_the_budget_says() -> None:
    """The sensitivity, against fits of readings that are all too large by a thousandth."""
    of = shares_of(FOUR)
    random = np.random.default_rng(2)
    means = drawn(of, random, TRUTH, 0.0, 1e-9, 3, LOADS)
    base = fit(Model(of, means), 0.01, 0.01, {}, {})
    larger = tuple(Mean(m.what, m.load, m.value * 1.001, m.many, m.squares) for m in means)
    moved = fit(Model(of, larger), 0.01, 0.01, {}, {})
    parts = {part.source: part.u for part in budget(base, Limits(gain=0.001))["efficiency"].parts}
    assert abs(moved.at[0] - base.at[0]) == pytest.approx(parts["gain"] * 3**0.5, rel=0.01)


def test_coverage_factors() -> None:
    assert f"{coverage(float('inf')):.2f}" == "1.96"
    assert f"{coverage(10.9):.2f}" == "2.23", "GUM table G.2, at the whole degrees below"


def test_errors_that_go_together_are_told() -> None:
    """The correlations of the budget, against those of the draws' own fits."""
    found, random, of = fitted(), np.random.default_rng(8), shares_of(FOUR)
    ats = []
    for _ in range(300):
        values = found.model.values + found.deviations * random.standard_normal(len(found.deviations))
        means = tuple(Mean(m.what, m.load, float(v), m.many, m.squares)
                      for m, v in zip(found.model.means, values, strict=True))  # fmt: skip
        ats.append(fit(Model(of, means), 0.001, 0.001, {}, {}).at)
    seen = np.corrcoef(np.array(ats).T)
    for one, other, value in correlations(found, Limits()):
        assert seen[UNKNOWNS.index(one), UNKNOWNS.index(other)] == pytest.approx(value, abs=0.12)


def test_nothing_read_twice_takes_its_scatter_from_the_model() -> None:
    """Single readings: what lies between them and the model is the scatter, with the degrees of freedom left."""
    found = measured(FOUR, simulated(shares_of(FOUR), TRUTH, noise=0.03, times=1, extra=ZERO))
    assert found.scatter is not None
    assert found.scatter.freedom == found.fitted.goodness.left == 9
    assert 0.01 < found.scatter.deviation < 0.06
    (_, line), _ = found.fitted.lines
    assert line.u_slope == pytest.approx(line.scaled.u_slope), "the line is scaled by its own scatter already"


def test_a_scale_without_a_division_is_none() -> None:
    with pytest.raises(ValueError, match="above zero"):
        measured(FOUR, simulated(shares_of(FOUR), TRUTH), Settings(division=0.0))


def test_two_readings_of_one_load_among_many_do_not_decide_the_scatter() -> None:
    """One pair far apart by chance: the scatter comes from all that lies about the model, and is no larger for it."""
    readings = simulated(shares_of(FOUR), TRUTH, noise=0.02, times=1, extra=ZERO, loads=range(1, 21))
    first = readings.rows[9]
    twice = replace(first, line=99, raising=(first.raising[0] + Fraction("0.06"),), lowering=())
    found = measured(FOUR, replace(readings, rows=(*readings.rows, twice)))
    assert found.scatter is not None
    assert not found.scatter.repeated
    assert found.scatter.freedom == 37
    assert 0.01 < found.scatter.deviation < 0.03


def test_very_many_different_readings_are_fitted_and_not_drawn() -> None:
    loads = [2 + n / 200 for n in range(1100)]
    found = measured(FOUR, simulated(shares_of(FOUR), TRUTH, noise=0.02, times=1, extra=ZERO, loads=loads))
    one = found.estimate("efficiency")
    assert found.draws == 0
    assert one.spread is None
    assert one.value == pytest.approx(0.94, abs=4 * one.combined.u)
    assert len(report(found, rig(FOUR)).readings.rows) == 100
