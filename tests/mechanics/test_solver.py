"""Answers against numbers worked by hand; the comments say how."""

from fractions import Fraction

import pytest
from texts import BURTON, DOUBLE_ATWOOD, PLANTER, RUNNER, answer, lossy, rig

from gantline.mechanics import Regime, carry, solve
from gantline.quantity.formula import text
from gantline.rig import with_efficiency


def pull(regime: Regime, strand: str) -> Fraction:
    tension = regime.tension(strand)
    assert tension is not None
    assert tension.number is not None
    return tension.number


def number(value: object) -> Fraction:
    found = value.number  # type: ignore[attr-defined]
    assert isinstance(found, Fraction)
    return found


def accelerations(text_: str, way: str = "ideal") -> dict[str, Fraction]:
    regime = answer(text_).regime(way)  # type: ignore[arg-type]
    assert regime is not None
    return {motion.name: number(motion.acceleration) for motion in regime.motions}


def test_a_tackle_of_four_strands() -> None:
    found = answer(PLANTER)
    ideal = found.ideal
    assert found.status == "holds"
    assert number(ideal.effort) == 90  # (348 + 12)/4
    assert text(ideal.effort.formula) == "(W + w)/4"  # type: ignore[union-attr, arg-type]
    assert [number(p.tension) for p in ideal.strands] == [90] * 5
    assert number(ideal.supports[0].force) == 450  # five strands pull the upper block down
    assert number(ideal.mechanical_advantage) == Fraction(58, 15)
    assert text(ideal.mechanical_advantage.formula) == "4*W/(W + w)"  # type: ignore[union-attr, arg-type]
    assert number(found.velocity_ratio) == 4
    assert {name: number(way) for name, way in found.travel} == {
        "hand": 2, "lower": Fraction(1, 2), "planter": Fraction(1, 2),
    }  # fmt: skip
    assert number(ideal.work.put_in) == 180  # type: ignore[union-attr]
    assert number(ideal.work.lost) == 0  # type: ignore[union-attr]
    assert {name: number(gain) for name, gain in ideal.work.shares} == {"planter": 174, "lower": 6}  # type: ignore[union-attr]


def test_loss_makes_raising_harder_and_lowering_easier() -> None:
    found = answer(lossy(PLANTER))
    e = Fraction(95, 100)
    raising, lowering = found.regime("raising"), found.regime("lowering")
    assert raising is not None
    assert lowering is not None
    # from the dead end each strand pulls 1/e more while raising: T (1 + 1/e + 1/e^2 + 1/e^3) = 360, and F is T/e^4
    first = 360 / (1 + 1 / e + 1 / e**2 + 1 / e**3)
    assert number(raising.effort) == first / e**4
    assert [number(p.tension) for p in raising.strands] == [first / e**k for k in range(5)]
    slack_first = 360 / (1 + e + e**2 + e**3)
    assert number(lowering.effort) == slack_first * e**4
    # F_up/F_down = K^(2S - N + 1) with S = N = 4
    assert number(raising.effort) / number(lowering.effort) == (1 / e) ** 5
    assert number(raising.work.lost) == number(raising.effort) * 2 - 180  # type: ignore[union-attr]
    assert number(lowering.work.lost) == 180 - number(lowering.effort) * 2  # type: ignore[union-attr]


def test_the_hand_that_hauls_from_the_moving_block_holds_a_strand() -> None:
    found = answer(RUNNER)
    assert number(found.ideal.effort) == 120
    assert number(found.ideal.supports[0].force) == 120
    up = solve(with_efficiency(rig(RUNNER), Fraction(95, 100)))
    assert round(float(number(up.regime("raising").effort)), 3) == 123.077  # type: ignore[union-attr]  # 240/1.95
    assert round(float(number(up.regime("lowering").effort)), 3) == 116.923  # type: ignore[union-attr]


def test_a_block_that_sinks_helps() -> None:
    found = answer(BURTON)
    assert number(found.ideal.effort) == 84  # (276 - 24)/3
    assert text(found.ideal.effort.formula) == "(W - w)/3"  # type: ignore[union-attr, arg-type]
    assert found.helps == ("flyer",)
    assert number(found.ideal.efficiency) == Fraction(23, 21)
    assert number(found.ideal.work.lost) == 0  # type: ignore[union-attr]
    assert number(found.ideal.supports[0].force) == 384
    up = solve(with_efficiency(rig(BURTON), Fraction(95, 100))).regime("raising")
    assert [round(float(number(p.tension)), 3) for p in up.strands] == [190.169, 200.178, 85.831, 90.348]  # type: ignore[union-attr]


def test_two_freedoms_with_masses() -> None:
    found = answer(DOUBLE_ATWOOD)
    assert found.status == "accelerates"
    assert found.freedoms == 2
    assert [number(p.tension) for p in found.ideal.strands] == [42, 42, 21, 21]
    assert accelerations(DOUBLE_ATWOOD) == {
        "swing": Fraction(14, 5), "crate": Fraction(-14, 5), "sack": Fraction(-28, 5), "bag": Fraction(56, 5),
    }  # fmt: skip
    assert number(found.ideal.supports[0].force) == 84


def test_loss_and_motion_with_two_freedoms() -> None:
    # by hand: with t_a = e t_b over both wheels and the directions of the ideal motion
    found = accelerations(lossy(DOUBLE_ATWOOD), "lowering")
    assert {name: round(float(a), 3) for name, a in found.items()} == {
        "swing": 2.489, "crate": -2.489, "sack": -5.526, "bag": 10.503,
    }  # fmt: skip


def test_a_pair_that_is_even_stays() -> None:
    even = DOUBLE_ATWOOD.replace("mass 5 kg", "mass 3 kg").replace("mass 1 kg", "mass 3 kg")
    found = answer(even)
    assert found.status == "holds"
    assert number(found.ideal.supports[0].force) == Fraction(1176, 10)


@pytest.mark.parametrize(("wheel", "heavy"), [("disc 100 g", 0.05), ("inertia 0.0005 kg m2, radius 0.1 m", 0.05)])
def test_a_heavy_wheel_takes_its_share(wheel: str, heavy: float) -> None:
    text_ = f"""
fixed  top   sheaves 1, {wheel}
load   jar   mass 300 g
load   tin   mass 200 g
rope   line: jar, over top, tin
"""
    # (m1 - m2) g/(m1 + m2 + I/r^2)
    rate = 0.1 * 9.81 / (0.5 + heavy)
    found = answer(text_)
    assert float(accelerations(text_)["tin"]) == pytest.approx(rate, rel=1e-12)
    assert float(pull(found.ideal, "line:1")) == pytest.approx(0.3 * (9.81 - rate), rel=1e-12)
    assert float(pull(found.ideal, "line:2")) == pytest.approx(0.2 * (9.81 + rate), rel=1e-12)
    assert found.certificate.largest_residual == 0


@pytest.mark.parametrize("strands", [2, 3, 4])
def test_a_mass_that_falls_through_a_tackle(strands: int) -> None:
    # a_L = (N m - M) g/(N^2 m + M)
    path = {
        2: "beam, under lower, over top.1, mug",
        3: "lower, over top.1, under lower, over top.2, mug",
        4: "beam, under lower.1, over top.1, under lower.2, over top.2, mug",
    }[strands]
    sheaves = {2: 1, 3: 1, 4: 2}[strands]
    text_ = f"""
fixed   beam
fixed   top    sheaves 2
moving  lower  sheaves {sheaves}, carries chest
load    chest  mass 1 kg
load    mug    mass 600 g
rope    line: {path}
"""
    found = accelerations(text_)
    rate = (strands * Fraction(6, 10) - 1) * Fraction(981, 100) / (strands**2 * Fraction(6, 10) + 1)
    assert found["chest"] == rate
    assert found["mug"] == -strands * rate


def test_a_given_pull_says_what_it_holds_or_how_fast_it_goes() -> None:
    holds = answer(PLANTER.replace("weight 348 N", "weight W") + "effort 100 N")
    assert holds.status == "holds"
    assert number(holds.ideal.load) == 388  # 4 x 100 - 12
    moves = answer(
        PLANTER.replace("weight 348 N", "mass 35.4 kg").replace("weight 12 N", "mass 0.6 kg") + "effort 100 N"
    )
    assert moves.status == "accelerates"
    assert number(moves.ideal.motions[1].acceleration) == (400 - 36 * Fraction(981, 100)) / 36


def test_friction_can_hold_what_a_perfect_wheel_would_let_go() -> None:
    text_ = "fixed top sheaves 1, efficiency 80 %\nload a mass 10 kg\nload b mass 9 kg\nrope r: a, over top, b\n"
    found = answer(text_)
    assert found.status == "holds"
    held = found.regime("holding")
    assert held is not None
    assert [number(pull.tension) for pull in held.strands] == [number(found.weights[0][1]), number(found.weights[1][1])]
    assert number(held.supports[0].force) == sum(number(weight) for _, weight in found.weights)
    assert answer(text_.replace("9 kg", "7 kg")).status == "accelerates"


def test_between_two_sticking_wheels_a_pull_is_not_decided() -> None:
    """What is at rest by friction: balance says 98.1 N and 88.29 N (g = 9.81) at the ends, nothing says how it falls
    from one to the other over two wheels."""
    found = answer(
        "fixed top sheaves 1, efficiency 80 %\nfixed side sheaves 1, efficiency 60 %\n"
        "load a mass 10 kg\nload b mass 9 kg\nrope r: a, over top, over side, b\n"
    )
    held = found.regime("holding")
    assert held is not None
    assert [pull.tension and number(pull.tension) for pull in held.strands] == [
        Fraction("98.1"),
        None,
        Fraction("88.29"),
    ]
    assert all(check.residual == 0 for check in found.certificate.checks)


def test_friction_holds_a_heavy_wheel_as_it_does_a_light_one() -> None:
    """At rest a wheel's mass bears on nothing: the pulls are the weights, and the certificate says so."""
    text_ = "fixed top sheaves 1, efficiency 80 %\nload a mass 10 kg\nload b mass 9 kg\nrope r: a, over top, b\n"
    light, heavy = answer(text_), answer(text_.replace("80 %", "80 %, disc 2 kg"))
    for found in (light, heavy):
        held = found.regime("holding")
        assert held is not None
        assert [number(pull.tension) for pull in held.strands] == [Fraction("98.1"), Fraction("88.29")]
        assert found.certificate.largest_residual == 0


def test_a_heavy_lossy_wheel_runs_the_way_it_is_driven() -> None:
    text_ = (
        "fixed top sheaves 1, efficiency 90 %, disc 2 kg\nload a mass 10 kg\nload b mass 5 kg\nrope r: a, over top, b\n"
    )
    found = answer(text_)
    (way,) = [r for r in found.regimes if r.way != "ideal"]
    assert way.way == "lowering"
    # bearing friction mu (Ta + Tb), mu = (1 - e)/(1 + e): the rim's 1 kg feels Ta - Tb - mu (Ta + Tb)
    a = -number(way.motions[0].acceleration)
    ta, tb = pull(way, "r:1"), pull(way, "r:2")
    mu = Fraction(1, 19)
    assert ta - tb - mu * (ta + tb) == a * 1
    assert 10 * Fraction(981, 100) - ta == 10 * a


def test_bare_symbols_give_formulas() -> None:
    found = answer(
        "fixed ring\nmoving runner sheaves 1, weight w, carries sack\nload sack\nrope r: ring, under runner, hand\n"
    )
    assert found.ideal.effort is not None
    assert found.ideal.effort.number is None
    assert text(found.ideal.effort.formula) == "(W + w)/2"  # type: ignore[arg-type]
    assert found.certificate.largest_residual == 0


@pytest.mark.parametrize(
    ("body", "status", "parts"),
    [
        # the moving pair cannot rest: the rope over it pulls both sides alike
        ("fixed top sheaves 1\nload a weight 5 N\nload b weight 4 N\nload c weight 3 N\nmoving p sheaves 1\n"
         "rope x: a, over top, p\nrope y: b, over p, c\n", "accelerates", ()),
        ("fixed beam\nload chest weight 80 N\nrope west: beam, chest\nrope east: beam, chest\n",
         "indeterminate", ("west:1", "east:1")),
        ("fixed top sheaves 1\nmoving f sheaves 1, weight 40 N\nload bell weight 30 N\n"
         "rope long: bell, over top, f\nrope short: bell, over f, hand\n", "slack", ("short:1", "short:2")),
    ],
)  # fmt: skip
def test_statuses(body: str, status: str, parts: tuple[str, ...]) -> None:
    found = answer(body)
    assert found.status == status
    assert found.finding.parts == parts
    assert found.certificate.largest_residual == 0


def test_impossible_names_the_bodies_at_odds() -> None:
    text_ = """
fixed  top  sheaves 1
moving flyer sheaves 1, weight 10 N
load   sack weight 90 N
rope   line: sack, over top, under flyer, hand
"""
    found = answer(text_)
    assert found.status == "impossible"
    assert set(found.finding.parts) <= {"sack", "flyer"}
    assert found.finding.parts


def test_a_level_lead_pulls_its_blocks_together() -> None:
    found = answer("fixed a sheaves 1\nfixed b sheaves 1\nload sack weight 50 N\nrope r: sack, over a, over b, hand\n")
    (first, second) = found.ideal.supports
    assert (number(first.force), number(first.sideways)) == (50, 50)
    assert (number(second.force), number(second.sideways)) == (50, -50)


def test_pull_carried_along_the_ropes() -> None:
    carried = {each.strand: (each.multiple.number, text(each.formula)) for each in carry(rig(BURTON))}
    assert carried == {
        "long:1": (2, "w + 2*F"), "long:2": (2, "w + 2*F"), "short:1": (1, "F"), "short:2": (1, "F"),
    }  # fmt: skip


def test_a_load_carried_by_two_blocks_is_one_body() -> None:
    found = answer(
        """
fixed  beam
moving west  sheaves 1, weight 4 N, carries chest
moving east sheaves 1, weight 6 N, carries chest
load   chest weight 90 N
rope   r: beam, under west, under east, hand
"""
    )
    assert found.freedoms == 1
    assert found.certificate.largest_residual == 0
