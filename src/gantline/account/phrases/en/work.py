"""Frames for work in and work out."""

from .frame import Frame as F
from .frame import Frames

WORK: Frames = {
    "ask": (
        F(
            "rider",
            "How hard must you pull to hold yourself? This time we move first, and weigh afterwards.",
            "your guess",
        ),
        F(
            "",
            "How hard must you pull to hold [the load]? This time we move first, and weigh afterwards.",
            "your guess",
        ),
    ),
    "move": (
        F(
            "rider unit-gain",
            "Let yourself rise by 1 centimetre. The rope gives up as much, so your hands take in 1 as well.",
            "move a little",
        ),
        F(
            "rider",
            "Let yourself rise by 1 centimetre. The ropes keep their length, so your hands must take in [vr].",
            "move a little",
        ),
        F(
            "unit-gain",
            "Let [the load] rise by 1 centimetre. The rope keeps its length, so your hand takes in 1 as well.",
            "move a little",
        ),
        F(
            "one-rope N=2",
            "Let [the load] rise by 1 centimetre. Then both strands are 1 centimetre too long, and your hand takes in "
            "[vr].",
            "move a little",
        ),
        F(
            "one-rope",
            "Let [the load] rise by 1 centimetre. Then all [n] strands are 1 centimetre too long, and your hand "
            "takes in [vr].",
            "move a little",
        ),
        F(
            "",
            "Let [the load] rise by 1 centimetre. The ropes keep their length, and the last one brings [vr] to "
            "your hand.",
            "move a little",
        ),
    ),
    "move-other": (
        F("rises", "[the body] rises by [way] in the same time.", "what else moves"),
        F("", "[the body] goes down by [way] in the same time.", "what else moves"),
    ),
    "trade": (
        F("symbolic", "Nothing is lost: your pull times its way is every weight times its own.", "an even trade"),
        F(
            "gives",
            "Nothing is lost. Your pull over [vr], with the [given], is just enough to lift [gained].",
            "an even trade",
        ),
        F("", "Nothing is lost. So your pull, over [vr], is just enough to lift [gained].", "an even trade"),
    ),
    "solve": (
        F("symbolic", "So your pull is {F}.", "the answer"),
        F("helps", "That leaves {F_near} for your pull: what sinks stands on your side of the sum.", "the answer"),
        F("unit-gain", "So your pull is {F_near}: the same way, and so the same force.", "the answer"),
        F(
            "",
            "So your pull is {F_near}. The ways alone gave the gain; the weights only had to be put in.",
            "the answer",
        ),
    ),
    "recap": (
        F(
            "",
            "Move it a little and compare the ways: what you save in force you pay in way, exactly.",
            "in one breath",
        ),
    ),
}
