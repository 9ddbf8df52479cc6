"""Frames for counting the strands through a cut."""

from .frame import Frame as F
from .frame import Frames

_LOOK = "and look only at what passes through the bag."

COUNT: Frames = {
    "cut": (
        F("N=1 own-none !rider", ""),
        F("rider", f"Draw an imaginary bag around yourself and all that you hang on, {_LOOK}", "the bag"),
        F("own-none", f"Draw an imaginary bag around [the load], {_LOOK}", "the bag"),
        F("block-alone", f"Draw an imaginary bag around [the load], {_LOOK}", "the bag"),
        F("company", f"Draw an imaginary bag around [bagged], {_LOOK}", "the bag"),
        F("", f"Draw an imaginary bag around [the load] and [its own], {_LOOK}", "the bag"),
    ),
    "cross": (
        F("rider N=1", "You are in the bag yourself, and one strand alone passes through it.", "what crosses"),
        F(
            "rider",
            "You are in the bag yourself, so the strand in your hands passes through it too: [n] strands in all.",
            "what crosses",
        ),
        F("N=1 hand-inside", "Only one strand holds [the load], and it is the one in your hand.", "what holds it"),
        F(
            "N=1",
            "Only one strand holds [the load]: the one that comes down from [holder]. Yours is the rope's other end, "
            "and lifts nothing by itself.",
            "what holds it",
        ),
        F(
            "N=2 hand-inside",
            "Two strands pass through it: one from [the anchor], one from your hand. Yours counts as well, "
            "because it pulls up on [the own].",
            "what crosses",
        ),
        F(
            "N>6 hand-inside",
            "Count in pairs, wheel by wheel: [pairs]. [n] strands pass through the bag, and the [nth] is in "
            "your own hand.",
            "what crosses",
        ),
        F(
            "N>6",
            "Count in pairs, wheel by wheel: [pairs]. [n] strands pass through the bag; yours comes down from "
            "[the from], outside.",
            "what crosses",
        ),
        F(
            "hand-inside dead-end-moving",
            "[n] strands pass through it. One has its end tied to [the own], and the [nth] is in your hand: "
            "both pull up, so both count.",
            "what crosses",
        ),
        F(
            "hand-inside",
            "[n] strands pass through it, and the [nth] is in your hand. It leaves [from] itself, so count it.",
            "what crosses",
        ),
        F(
            "dead-end-moving",
            "[n] strands pass through it, for the rope's own end is tied on inside. The strand in your hand "
            "hangs from [the from], outside.",
            "what crosses",
        ),
        F(
            "",
            "[n] strands pass through it. The one in your hand does not: it hangs from [the from], outside.",
            "what crosses",
        ),
    ),
    "same": (
        F("N=1 hand-inside", ""),
        F("N=1 rider", ""),
        F(
            "N=1",
            "The wheel turns freely: pulled harder on one side, it would start to spin. So the rope pulls alike "
            "on both, with T.",
            "one rope, one pull",
        ),
        F(
            "N=2 one-wheel",
            "One rope, one free wheel. A harder pull on one side would set it spinning; it rests, so both pull "
            "alike: T.",
            "one rope, one pull",
        ),
        F(
            "N=2",
            "Both pull alike: it is one rope, and a free wheel pulled harder on one side would start to spin. "
            "Call that pull T.",
            "one rope, one pull",
        ),
        F(
            "",
            "All [n] pull alike: it is one rope, and a free wheel pulled harder on one side would start to "
            "spin. Call that pull T.",
            "one rope, one pull",
        ),
    ),
    "balance": (
        F(
            "rider one-weight",
            "Nothing speeds up, so the [n] pulls upward balance all that hangs in the bag: your weight.",
            "up balances down",
        ),
        F(
            "N=1 one-weight",
            "Nothing speeds up, so that one pull upward balances the whole weight of [the load].",
            "up balances down",
        ),
        F(
            "N=1",
            "Nothing speeds up, so that one pull upward balances all that weighs in the bag: [weights].",
            "up balances down",
        ),
        F(
            "one-weight",
            "Nothing speeds up, so the [n] pulls upward balance one weight downward, that of [the load].",
            "up balances down",
        ),
        F(
            "two-weights !rider",
            "Nothing speeds up, so the [n] pulls upward balance the two weights: [the load] and [its own].",
            "up balances down",
        ),
        F(
            "",
            "Nothing speeds up, so the [n] pulls upward balance all that weighs in the bag: [weights].",
            "up balances down",
        ),
    ),
    "solve": (
        F(
            "load-asked hand-inside one-weight",
            "T is your own pull, {F}. [n] of them hold up {W_near}: that is your load.",
            "the answer",
        ),
        F(
            "load-asked one-weight",
            "The strand in your hand is the same rope, so T is {F}. [n] of them hold up {W_near}.",
            "the answer",
        ),
        F(
            "load-asked",
            "The strand in your hand is the same rope, so T is {F}. [n] of them hold {total_bare}; less [the "
            "own], that leaves {W_near}.",
            "the answer",
        ),
        F(
            "symbolic N=1",
            "So T is the whole of it, and the end in your hand is the same rope: you pull {F}.",
            "the answer",
        ),
        F(
            "symbolic",
            "So T is one of [n] equal shares, and the end in your hand is that same rope: you pull {F}.",
            "the answer",
        ),
        F("N=1", "So T is {F}. The end in your hand is the same rope, and that is what you pull.", "the answer"),
        F(
            "rider",
            "[n] T make {total_bare}, so T is {F_near}. One of those strands ends in your hands, and that is "
            "your pull.",
            "the answer",
        ),
        F(
            "hand-inside",
            "[n] T make {total_bare}, so T is {F_near}. One of those strands ends in your hand, and that is your pull.",
            "the answer",
        ),
        F(
            "",
            "[n] T make {total_bare}, so T is {F_near}. And the end in your hand is the same rope: that is your pull.",
            "the answer",
        ),
    ),
    "recap": (
        F("rider N=1", "One strand through the bag: whoever pulls on it carries everything.", "in one breath"),
        F(
            "rider",
            "[n] strands pass through the bag, and one is in your own hands: you lift yourself with one of [n] "
            "equal shares.",
            "in one breath",
        ),
        F(
            "N=1",
            "One strand through the bag: the wheel turns your pull round, and takes nothing off it.",
            "in one breath",
        ),
        F(
            "N=2 hand-inside",
            "Two strands through the bag, and yours is one of them: half of the weight to pull, twice the "
            "height in rope.",
            "in one breath",
        ),
        F(
            "hand-inside",
            "[n] strands through the bag, your own among them: so many share the weight, so many times the rise "
            "is your rope.",
            "in one breath",
        ),
        F(
            "",
            "Count the strands through the bag: so many share the weight, and so many times the rise is the "
            "rope you take in.",
            "in one breath",
        ),
    ),
}
