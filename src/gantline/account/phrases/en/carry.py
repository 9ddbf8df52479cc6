"""Frames for carrying the pull along the ropes."""

from .frame import Frame as F
from .frame import Frames

CARRY: Frames = {
    "no-count": (
        F("one-rope", ""),
        F(
            "shared",
            "Counting strands will not do: several ropes hold [the load], and they do not pull equally hard. So "
            "we follow the pull.",
            "why not count",
        ),
        F(
            "",
            "Counting strands will not do: the rope at [the load] is not the one in your hand. So we follow the "
            "pull from rope to rope.",
            "why not count",
        ),
    ),
    "hand": (
        F(
            "one-rope",
            "Begin in your hand. You pull with F, the wheels turn freely, so every strand of the rope pulls with F.",
            "F in the hand",
        ),
        F(
            "",
            "Begin in your hand. You pull with F, and wheels that turn freely change nothing: all along [the "
            "rope] the pull is F.",
            "F in the hand",
        ),
    ),
    "hop": (
        F(
            "above alone heavy",
            "Look at [the block]: [the rope] pulls it down [times], and its own [weight] come on top. [the onto] must "
            "hold all that from above: [result].",
            "handed on",
        ),
        F(
            "above alone later heavy",
            "Next, [the block]: [the rope] pulls it down [times], and its own [weight] pull as well. [the onto] "
            "has all that to hold: [result].",
            "handed on",
        ),
        F(
            "above alone later",
            "Next, [the block]: [the rope] pulls it down [times], so [the onto] has just that to hold: [result].",
            "handed on",
        ),
        F(
            "above alone",
            "Look at [the block]. [the rope] pulls it down [times]. It rests, so [the onto] must hold that from "
            "above: [result].",
            "handed on",
        ),
        F(
            "below alone later heavy",
            "Next, [the block]: lifted [times], less its own [weight]. What is left pulls on by [the onto]: [result].",
            "handed on",
        ),
        F(
            "below alone later",
            "Next, [the block]: [the rope] lifts it [times], and [the onto] takes all of that on: [result].",
            "handed on",
        ),
        F(
            "below alone heavy",
            "Look at [the block]: [the rope] lifts it [times], and its own [weight] comes off that. [the onto] gets "
            "what is left: [result].",
            "handed on",
        ),
        F(
            "below alone",
            "Look at [the block]. [the rope] pulls it up [times], and all of that pulls on by [the onto]: [result].",
            "handed on",
        ),
        F(
            "",
            "Look at [the block]. What [several] and its weight do to it, [the onto] must balance: each strand "
            "of it pulls with [result].",
            "handed on",
        ),
    ),
    "add": (
        F(
            "rider one-rope several-strands",
            "Now count on yourself: you hang on [times] strands of F each. That makes [result].",
            "added at the load",
        ),
        F("several", "At [the load] the pulls add up. [sum] make [result].", "added at the load"),
        F("rider once", "So [the rope] brings [result] to you.", "added at the load"),
        F("once", "So [the rope] brings [result] to [the load].", "added at the load"),
        F(
            "one-rope",
            "Now count at [the load]: it hangs on [times] strands of F each. That makes [result].",
            "added at the load",
        ),
        F(
            "",
            "At [the load] it pulls up with [times] strands, each of [one]. That makes [result].",
            "added at the load",
        ),
    ),
    "solve": (
        F(
            "nothing-left",
            "[multiple] and {extra_bare} hold {total_bare}: nothing is left for your pull.",
            "the answer",
        ),
        F("load-asked one-weight", "Your F is {F}, so that comes to {W_bare}: so heavy is [the load].", "the answer"),
        F(
            "load-asked",
            "Your F is {F}, so that comes to {made_bare}. Less the {besides_bare} that hangs there besides, {W_near} "
            "is left for [the load].",
            "the answer",
        ),
        F("symbolic", "That must be all the weight there, so your pull is {F}.", "the answer"),
        F("plus one", "F and {extra_bare} together hold {total_bare}, so your pull is {F_near}.", "the answer"),
        F("minus one", "F less {extra_bare} holds {total_bare}, so your pull is {F_near}.", "the answer"),
        F(
            "plus",
            "[multiple] and {extra_bare} hold {total_bare}, so [multiple] alone make {rest_bare}: your pull is "
            "{F_near}.",
            "the answer",
        ),
        F(
            "minus",
            "[multiple] less {extra_bare} hold {total_bare}. So [multiple] make {rest_bare}, and your pull is "
            "{F_near}.",
            "the answer",
        ),
        F("one", "F has to hold all {total_bare}, so your pull is {F_near}.", "the answer"),
        F("", "[multiple] hold {total_bare}, so your pull is {F_near}.", "the answer"),
    ),
    "recap": (
        F(
            "one-rope",
            "Follow the pull: F in your hand, F in every strand, and at [the load] you add them up.",
            "in one breath",
        ),
        F(
            "shared",
            "Follow the pull from your hand, rope by rope; where ropes meet at [the load], their pulls add.",
            "in one breath",
        ),
        F(
            "",
            "Follow the pull from your hand: each rope hands on what its wheel has made of it, until [the load] "
            "has it all.",
            "in one breath",
        ),
    ),
}
