"""The second route sees a planted fault in any number of an answer."""

from fractions import Fraction

import pytest
from msgspec.structs import replace
from texts import BURTON, DOUBLE_ATWOOD, PLANTER, RUNNER, lossy, rig

from gantline.mechanics import Regime, Value, solve
from gantline.mechanics.certify import certify
from gantline.mechanics.numbers import numbers


def off(value: Value | None) -> Value:
    assert value is not None
    assert value.number is not None
    return replace(value, number=value.number + Fraction(1, 1000))


def faults(regime: Regime) -> list[Regime]:
    """The regime with one number moved, for every number that is checked."""
    found = []
    if regime.effort is not None:
        found.append(replace(regime, effort=off(regime.effort)))
    for group in ("strands", "supports", "motions"):
        field = {"strands": "tension", "supports": "force", "motions": "acceleration"}[group]
        members = getattr(regime, group)
        for n, member in enumerate(members):
            wrong = replace(member, **{field: off(getattr(member, field))})
            found.append(replace(regime, **{group: (*members[:n], wrong, *members[n + 1 :])}))
    return found


@pytest.mark.parametrize("text", [PLANTER, RUNNER, BURTON, DOUBLE_ATWOOD, lossy(PLANTER), lossy(BURTON)])
def test_every_fault_is_seen(text: str) -> None:
    machine = rig(text)
    answer = solve(machine)
    of = numbers(machine).of
    assert answer.certificate.largest_residual == 0
    for regime in answer.regimes:
        for wrong in faults(regime):
            blind = replace(wrong)  # formulas would give it away at once: the other checks have to see it too
            checks = [c for c in certify(machine, (blind,), of).checks if c.name != "formulas"]
            assert any(check.residual != 0 for check in checks)


def test_a_formula_that_does_not_give_its_number_is_seen() -> None:
    machine = rig(PLANTER)
    answer = solve(machine)
    wrong = replace(answer.ideal, mechanical_advantage=off(answer.ideal.mechanical_advantage))
    checks = certify(machine, (wrong,), numbers(machine).of).checks
    assert [check.name for check in checks if check.residual != 0] == ["formulas"]


def test_a_wrong_travel_is_seen() -> None:
    machine = rig(PLANTER)
    answer = solve(machine)
    motions = tuple(replace(motion, per_hand=off(motion.per_hand)) for motion in answer.ideal.motions)
    checks = certify(machine, (replace(answer.ideal, motions=motions),), numbers(machine).of).checks
    assert {"length", "work"} <= {check.name for check in checks if check.residual != 0}
