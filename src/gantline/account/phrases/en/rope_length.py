"""Frames for keeping account of the rope."""

from .frame import Frame as F
from .frame import Frames

ROPE_LENGTH: Frames = {
    "keep": (
        F(
            "one-rope",
            "The rope is as long as ever: what some strands give up, another stretch must take up.",
            "ropes keep their length",
        ),
        F(
            "",
            "Each rope is as long as ever: what it gives up on one side, it must take up on the other.",
            "ropes keep their length",
        ),
    ),
    "tie": (
        F(
            "two",
            "[the rope] ties [the first] to [the second]: whatever one gives up, the other takes.",
            "one rope, one tie",
        ),
        F(
            "",
            "[the rope] ties all that hang on it together: what some give up, the others take.",
            "one rope, one tie",
        ),
    ),
    "half": (
        F(
            "moves",
            "That is how the movements belong together. How fast they are, the rope does not say: that is for "
            "the masses.",
            "what it leaves open",
        ),
        F("", "It says how far, not how hard: the weights come in with the work.", "what it leaves open"),
    ),
}
