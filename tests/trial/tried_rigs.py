"""The machines of the trial's tests as texts: W = 10 N, block 0.5 N, spacing 40 mm, radius 15 mm, hook 40 mm,
strands of 0.8 m.
The hauled side is on the right. Everything is invented.
"""

from functools import cache

import numpy as np
from msgspec.structs import replace

from gantline.mechanics import Trial, steady, trial
from gantline.mechanics.trials.geometry import Geometry
from gantline.mechanics.trials.path import Path
from gantline.mechanics.trials.statics import Statics
from gantline.notation import parse
from gantline.rig import Rig, read

CORD, STRING = "2 kN", "200 N"
SIZES = "radius 15 mm, spacing 40 mm, hook 40 mm"


def runner(e: float, stiffness: str = CORD, more: str = "") -> str:
    return f"""fixed beam
moving lower sheaves 1, weight 0.5 N, efficiency {e} %, {SIZES}, carries bag
load bag weight 10 N
rope fall: beam, under lower.1, hand
cord fall stiffness {stiffness}{more}
apart beam lower 0.8 m
"""


def gun(e: float, stiffness: str = CORD, more: str = "") -> str:
    return f"""fixed beam
fixed upper sheaves 1, efficiency {e} %, {SIZES}
moving lower sheaves 1, weight 0.5 N, efficiency {e} %, {SIZES}, carries bag
load bag weight 10 N
rope fall: beam, under lower.1, over upper.1, hand
cord fall stiffness {stiffness}{more}
apart beam lower 0.8 m
apart upper lower 0.8 m
"""


def three(e: float, stiffness: str = CORD, more: str = "", becket: float = 0) -> str:
    return f"""fixed upper sheaves 2, efficiency {e} %, {SIZES}
moving lower sheaves 1, weight 0.5 N, efficiency {e} %, {SIZES}, becket {becket} mm, carries bag
load bag weight 10 N
rope fall: lower, over upper.1, under lower.1, over upper.2, hand
cord fall stiffness {stiffness}{more}
apart upper lower 0.8 m
"""


def tackle(e: float, stiffness: str = CORD, more: str = "", order: tuple[int, ...] = (1, 2)) -> str:
    """Twice as many strands as sheaves in `order`, the order in which they are rove; dead end at the fixed block."""
    path = ", ".join(f"under lower.{n}, over upper.{n}" for n in order)
    return f"""fixed upper sheaves {len(order)}, efficiency {e} %, {SIZES}
moving lower sheaves {len(order)}, weight 0.5 N, efficiency {e} %, {SIZES}, carries bag
load bag weight 10 N
rope fall: upper, {path}, hand
cord fall stiffness {stiffness}{more}
apart upper lower 0.8 m
"""


def burton(e: float, stiffness: str = CORD, more: str = "") -> str:
    return f"""fixed top sheaves 1, efficiency {e} %, {SIZES}
moving flyer sheaves 1, weight 0.5 N, efficiency {e} %, {SIZES}
load bag weight 10 N
rope long: bag, over top.1, flyer
rope short: bag, over flyer.1, hand
cord long stiffness {stiffness}{more}
cord short stiffness {stiffness}{more}
apart top bag 0.8 m
apart top flyer 0.8 m
apart flyer bag 0.8 m
"""


def ends_on_load(e: float, stiffness: str = CORD, more: str = "") -> str:
    """The dead end is fast to the load, beside the block's hook."""
    return three(e, stiffness, more).replace("rope fall: lower,", "rope fall: bag,")


def two_runners(e: float, stiffness: str = CORD, more: str = "") -> str:
    """One runner hangs on the hook of another."""
    return f"""fixed beam
moving first sheaves 1, weight 0.5 N, efficiency {e} %, {SIZES}
moving second sheaves 1, weight 0.5 N, efficiency {e} %, {SIZES}, carries bag
load bag weight 10 N
rope fall: beam, under first, hand
rope pendant: beam, under second, first
cord fall stiffness {stiffness}{more}
cord pendant stiffness {stiffness}{more}
apart beam first 0.8 m
apart beam second 0.8 m
apart first second 0.8 m
"""


def named(machine: str, e: float, rope: str = "cord", more: str = "") -> str:
    """A machine of the tables by its name."""
    stiffness = {"cord": CORD, "string": STRING}.get(rope, rope)
    orders = {"four": (1, 2), "six": (1, 2, 3), "six-mid": (1, 3, 2), "ten": (1, 2, 3, 4, 5)}
    if machine in orders:
        return tackle(e, stiffness, more, orders[machine])
    if machine == "three-off":
        return three(e, stiffness, more, becket=-25)
    return {
        "runner": runner, "gun": gun, "three": three, "burton": burton, "on-load": ends_on_load, "two": two_runners,
    }[machine](e, stiffness, more)  # fmt: skip


@cache
def rig(text: str) -> Rig:
    tree, unread = parse(text)
    found, problems = read(tree, unread)
    assert found is not None, problems
    return found


@cache
def tried(text: str, hand: tuple[float, ...] = (), way: str = "raising", top: float | None = None,
          low: float | None = None) -> Trial:  # fmt: skip
    """A trial; `hand`, `top` and `low` in mm. Made once for all tests that ask."""
    return trial(rig(text), [each / 1000 for each in hand], way, *(None if x is None else x / 1000 for x in (top, low)))


@cache
def standing(text: str) -> Trial:
    return steady(rig(text))


def preloaded(text: str, newtons: list[float]) -> Path:
    """A way that begins with that much of each load on the rope, frictionless and without tilt."""
    setup = standing(text).setup
    statics = Statics(setup)
    hanging = np.array(newtons)
    tensions = statics.tensions(hanging, 0)
    setup = replace(setup, tensions=tuple(tensions.tolist()), floors=tuple((statics.loads - hanging).tolist()))
    return Path(Geometry(setup), statics.flows(), 1e-4)
