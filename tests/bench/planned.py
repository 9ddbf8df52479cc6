"""What the tests of the bench share: kits in few words, plans of ready rigs, and the way of every part."""

from fractions import Fraction
from pathlib import Path

from gantline import api
from gantline.bench import Declined, Kit, Plan, plan, read_kit
from gantline.rig import Rig

SHELF = Path(__file__).resolve().parents[2] / "src" / "gantline" / "shelf"
NAMES = sorted(path.stem for path in SHELF.glob("*.rig"))
SMALL = """\
title = "Small kit"
[stand]
height = "1.6 m"
[[mass]]
name = "bag"
mass = "500 g"
count = 4
[[cord]]
name = "line"
diameter = "2 mm"
[[scale]]
name = "ten"
span = "10 N"
division = "0.2 N"
weight = "0.5 N"
"""


def rig_of(text: str) -> Rig:
    rig, problems = api.read(text)
    assert rig is not None, problems
    return rig


def ready(name: str) -> Rig:
    return rig_of((SHELF / f"{name}.rig").read_text(encoding="utf-8"))


def kit_of(text: str) -> Kit:
    kit, problems = read_kit(text.encode())
    assert kit is not None, problems
    return kit


def planned(rig: Rig, kit: Kit | None = None) -> Plan:
    made = plan(rig, kit or api.sample_kit())
    assert isinstance(made, Plan), made
    return made


def declined(rig: Rig, kit: Kit | None = None) -> Declined:
    made = plan(rig, kit or api.sample_kit())
    assert isinstance(made, Declined)
    return made


def rates(made: Plan) -> dict[str, Fraction]:
    """How far each part rises for each metre of the load's rise, read off the answer; 0 for fixed parts."""
    own = {motion.name: motion.per_hand.number for motion in made.answer.ideal.motions}
    load = own[made.rig.loads[0].name]
    return {part.name: own.get(part.name, Fraction(0)) / load for part in made.rig.parts}


PLANNED = [name for name in NAMES if isinstance(plan(ready(name), api.sample_kit()), Plan)]
