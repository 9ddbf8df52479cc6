"""Ropes led anyhow: whether they hold, and what they pull, against linear algebra on balances written here."""

import sys
from pathlib import Path

import sympy as sp
from hypothesis import given, reject, settings

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1] / "properties"))

from bodies import Bodies
from sketches import sketches, tangles

from gantline.mechanics import solve
from gantline.notation import parse
from gantline.rig import read


def right(bodies: Bodies, still: bool) -> tuple[str, dict[str, sp.Rational]]:
    """The status by the balances alone, and the pulls where there are any to tell.

    Where the pulls are settled, but not how something weightless moves, rest is one of the ways if all balances there:
    then it holds. Where it cannot rest, nothing tells how it goes: indeterminate.
    """
    rows, unknown = bodies.equations(still)
    solutions = list(sp.linsolve([row.subs(bodies.given) for row in rows], unknown))
    if not solutions:
        return "impossible", {}
    pulls = {s.name[2:]: v for s, v in zip(unknown, solutions[0], strict=True) if s.name.startswith("T_")}
    if any(pull.free_symbols for pull in pulls.values()):
        return "indeterminate", {}
    if any(pull < 0 for pull in pulls.values()):
        return "slack", {}
    moving = [v for s, v in zip(unknown, solutions[0], strict=True) if s.name.startswith("a_")]
    if any(v.free_symbols for v in moving):
        resting, calm = right(bodies, still=True)
        return (resting, calm) if resting != "impossible" else ("indeterminate", pulls)
    return ("accelerates" if any(v != 0 for v in moving) else "holds"), pulls


@settings(max_examples=250)
@given(tangles())
def test_tangles_agree_with_linear_algebra(sketch):
    compare(sketch)


@settings(max_examples=150)
@given(sketches)
def test_generated_rigs_agree_with_linear_algebra(sketch):
    compare(sketch.with_efficiency(None))


def compare(sketch) -> None:
    rig, problems = read(parse(sketch.text())[0])
    if rig is None or problems:
        reject()
    answer = solve(rig)
    status, pulls = right(Bodies(rig), still=rig.hand is not None and rig.effort is None)
    assert answer.status == status
    for pull in answer.ideal.strands if pulls else ():
        exact = pulls[pull.name]
        assert (pull.tension.number.numerator, pull.tension.number.denominator) == (exact.p, exact.q)
