"""Rigs of these tests, in our own notation, and one way from text to answer."""

from gantline.mechanics import Answer, solve
from gantline.notation import parse
from gantline.rig import Rig, read

PLANTER = """
fixed    upper    sheaves 2
moving   lower    sheaves 2, weight 12 N, carries planter
load     planter  weight 348 N
rope     fall: upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
raise    planter 0.5 m
"""

RUNNER = """
fixed    ring
moving   runner   sheaves 1, weight 16 N, carries sack
load     sack     weight 224 N
rope     fall: ring, under runner, hand
raise    sack 3 m
"""

BURTON = """
fixed    top      sheaves 1
moving   flyer    sheaves 1, weight 24 N
load     bell     weight 276 N
rope     long:    bell, over top, flyer
rope     short:   bell, over flyer, hand
raise    bell 0.5 m
"""

DOUBLE_ATWOOD = """
gravity  9.8 m/s2
fixed    top      sheaves 1
moving   swing    sheaves 1
load     crate    mass 6 kg
load     sack     mass 5 kg
load     bag      mass 1 kg
rope     long:    crate, over top, swing
rope     short:   sack, over swing, bag
"""


def rig(text: str) -> Rig:
    tree, problems = parse(text)
    found, more = read(tree)
    assert not problems, problems
    assert not more, more
    assert found is not None
    return found


def answer(text: str) -> Answer:
    return solve(rig(text))


def lossy(text: str, percent: str = "95 %") -> str:
    """The same rig with every block of that efficiency."""
    return "\n".join(
        f"{line}, efficiency {percent}" if "sheaves" in line and "load" not in line.split()[0] else line
        for line in text.splitlines()
    )
