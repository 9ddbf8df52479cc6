"""Frames for stages multiplied."""

from .frame import Frame as F
from .frame import Frames

STAGES: Frames = {
    "stage": (
        F(
            "first",
            "The first stage is at [the load]: [k] strands of [the rope] hold it, so that rope needs one pull in [k].",
            "the first stage",
        ),
        F(
            "",
            "The [place] stage hauls on that rope: [k] strands of [the rope] pull on [the block], one pull in "
            "[k] again.",
            "the next stage",
        ),
    ),
    "product": (
        F(
            "",
            "Each stage pulls only the rope of the one before, so their gains multiply: [product], that is [vr].",
            "gains multiply",
        ),
    ),
    "solve": (
        F("symbolic", "Take the blocks in from the load back to your hand, and your pull is {F}.", "the answer"),
        F(
            "weighs",
            "Weights of blocks do not multiply; each joins at its own stage. From the load back to your hand "
            "they leave {F_near}.",
            "the answer",
        ),
        F("", "So your pull is the weight by [vr]: {F_near}.", "the answer"),
    ),
    "recap": (
        F(
            "",
            "A tackle that hauls on a tackle multiplies, in force and in rope: [vr] times the one, [vr] times "
            "the other.",
            "in one breath",
        ),
    ),
}
