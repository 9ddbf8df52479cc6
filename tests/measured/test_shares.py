"""The pull as shares of weights and drag: against the solver, against the published K-model, and by hand."""

from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from tackles import BURTON, FOUR, GUN, RUNNER, SINGLE, SIX, pull, rig, shares_of

from gantline.mechanics import NoShares, shares, solve
from gantline.notation import parse
from gantline.rig import read, with_efficiency

SHELF = Path(__file__).parents[2] / "src" / "gantline" / "shelf"


def steady(name: str):
    found, _ = read(parse((SHELF / f"{name}.rig").read_text("utf-8"))[0])
    return found


def lendable() -> list[str]:
    """Every ready rig whose pull is a sum of shares."""
    names = []
    for path in sorted(SHELF.glob("*.rig")):
        try:
            shares(steady(path.stem))
        except NoShares:
            continue
        names.append(path.stem)
    return names


LENDABLE = lendable()


def test_most_ready_rigs_with_a_hand_can_be_measured() -> None:
    assert len(LENDABLE) > 20, LENDABLE


@pytest.mark.parametrize("name", LENDABLE)
def test_the_shares_add_up_to_the_solvers_own_pull(name: str) -> None:
    """Exactly, for another efficiency than the one the shares were found with."""
    of, machine, e = shares(steady(name)), steady(name), Fraction(93, 100)
    answer = solve(with_efficiency(machine, e, "eta_", every=True))
    weights = {part: value.number for part, value in answer.weights}
    for way, branch in (("raising", of.raising), ("lowering", of.lowering)):
        regime = answer.regime(way)
        if branch is None or regime is None or regime.effort is None or regime.effort.number is None:
            continue
        load, block, _, rest = branch.at(e)
        found = load * weights[machine.aim] + block * weights.get(of.block, Fraction(0)) + rest
        assert found == regime.effort.number, way


@pytest.mark.parametrize(("text", "strands", "sheaves"), [
    (SINGLE, 1, 1), (RUNNER, 2, 1), (GUN, 2, 2), (FOUR, 4, 4), (SIX, 6, 6),
], ids=["single", "runner", "gun", "four", "six"])  # fmt: skip
def test_a_tackle_is_the_k_model(text: str, strands: int, sheaves: int) -> None:
    """F = W (K - 1) K^S / (K^N - 1) raising, 1/K for K lowering; raising over lowering is K^(2S - N + 1)."""
    of = shares_of(text)
    for e in (Fraction(98, 100), Fraction(95, 100), Fraction(9, 10), Fraction(8, 10)):
        for branch, k in ((of.raising, 1 / e), (of.lowering, e)):
            assert branch.load.at(e) == (k - 1) * k**sheaves / (k**strands - 1)
    assert of.law is not None
    assert of.law.power == -(2 * sheaves - strands + 1)
    assert of.velocity_ratio == strands


@pytest.mark.parametrize(("drag", "effort"), [(0.0, "2.979"), (0.02, "3.031"), (0.05, "3.107"), (0.1, "3.236")])
def test_drag_in_four_sheaves(drag: float, effort: str) -> None:
    """Ten newtons on four strands at .95, as an event-driven rope model and a stiff solver of its motion have it."""
    assert f"{pull(shares_of(FOUR), 'raising', 10, 0.95, 0.5, drag, 0):.3f}" == effort


def test_lowering_against_raising() -> None:
    of = shares_of(FOUR)
    up, down = (pull(of, way, 10, 0.95, 0.5, 0, 0) for way in ("raising", "lowering"))
    assert f"{down:.3f}" == "2.305"
    assert up / down == pytest.approx((1 / 0.95) ** 5, rel=1e-14)


def test_drag_by_hand_on_one_sheave() -> None:
    """Over one fixed sheave: W/e + c up; down the load is the tight side, W = F/e + c."""
    of, e, c = shares_of(SINGLE), 0.9, 0.03
    assert pull(of, "raising", 5, e, 0, c, 0) == pytest.approx(5 / e + c)
    assert pull(of, "lowering", 5, e, 0, c, 0) == pytest.approx(e * (5 - c))


def test_drag_by_hand_on_a_runner() -> None:
    """Up: T from the beam, F = T/e + c, T + F = W + w. Down: T = F/e + c."""
    of, e, c, w = shares_of(RUNNER), 0.9, 0.03, 0.5
    assert pull(of, "raising", 5, e, w, c, 0) == pytest.approx(((5 + w) / e + c) / (1 + 1 / e))
    assert pull(of, "lowering", 5, e, w, c, 0) == pytest.approx((5 + w - c) / (1 + 1 / e))


def test_drag_by_hand_on_a_burton() -> None:
    """Two ropes; the flyer sinks and helps. Up: L from the load over the top, L' = L/e + c at the flyer, whose rope has
    P at the load and F = P/e + c in the hand: L + P = W, L' = w + P + F."""
    of, e, c, w, load = shares_of(BURTON), 0.9, 0.03, 0.4, 5.0
    at_load, at_hand = np.linalg.solve([[1, 1], [1 / e, -(1 + 1 / e)]], [load, w])
    assert at_load + at_hand == pytest.approx(load)
    assert pull(of, "raising", load, e, w, c, 0) == pytest.approx(at_hand / e + c)
    assert of.block == "flyer"
    assert of.law is None, "the flyer's weight does not hang with the load"


def test_the_derivative_is_that_of_the_function() -> None:
    of, step = shares_of(SIX), 1e-7
    for branch in (of.raising, of.lowering):
        for share in (branch.load, branch.drag):
            for e in (0.7, 0.95):
                near = (share.at(e + step) - share.at(e - step)) / (2 * step)
                assert share.slope(e) == pytest.approx(near, rel=1e-6)


def test_an_array_at_once() -> None:
    share, e = shares_of(FOUR).raising.load, np.linspace(0.5, 1.0, 7)
    assert share.at(e) == pytest.approx([share.at(float(one)) for one in e])


@pytest.mark.parametrize(("text", "reason"), [
    ("fixed top sheaves 1\nload a mass 2 kg\nload b mass 1 kg\nrope r: a, over top, b\n", "no hand"),
    (FOUR + "effort 3 N\n", "pull is given"),
    ("fixed beam\nload bag weight 5 N\nrope r: bag, hand\n", "no sheave"),
    ("fixed top sheaves 2\nload a weight 5 N\nload b weight 4 N\nrope r: a, over top.1, hand\n"
     "rope q: b, over top.2, a\n",
     "which load"),
    (BURTON.replace("weight 0.4 N", "weight w"), "letter without a number"),
])  # fmt: skip
def test_a_rig_that_cannot_be_measured_says_why(text: str, reason: str) -> None:
    with pytest.raises(NoShares, match=reason):
        shares(rig(text))
