"""Frames for how an account closes: a likely slip, real wheels, the rule in one breath, a turn."""

from .frame import Frame as F
from .frame import Frames

CLOSING: Frames = {
    "wrong": (
        F("stays", "If you said that it stays: [overlooked]", "a likely slip"),
        F(
            "whole",
            "If you wrote {X}, you gave your own strand everything. Count what holds [the load]: [n] strands, "
            "each as tight as yours.",
            "a likely slip",
        ),
        F(
            "merged shared carry",
            "If you wrote {X}, you shared the weight by [k]. But these ropes pull unequally: at [the load] they "
            "are [plain].",
            "a likely slip",
        ),
        F(
            "merged shared",
            "If you wrote {X}, you shared the weight by [k]. But these ropes pull unequally, so their strands "
            "cannot be counted alike.",
            "a likely slip",
        ),
        F(
            "merged ropes unit-gain",
            "If you wrote {X}, you shared the weight by [k]. But no wheel on the way to [the load] adds to your pull.",
            "a likely slip",
        ),
        F(
            "merged ropes count-right",
            "If you wrote {X}, you shared the weight by [k], and [k] is right. But each block counts by how far it "
            "goes, and which way.",
            "a likely slip",
        ),
        F(
            "merged ropes",
            "If you wrote {X}, you shared the weight by [k]. But follow the pull: by the time it reaches [the "
            "load] it is [vr] F.",
            "a likely slip",
        ),
        F(
            "merged N=1 rider",
            "If you wrote {X}, you shared the weight by [k]. But only one strand holds you.",
            "a likely slip",
        ),
        F(
            "merged N=1",
            "If you wrote {X}, you shared the weight by [k]. But only one strand goes up from it.",
            "a likely slip",
        ),
        F(
            "merged rider",
            "If you wrote {X}, you shared the weight by [k]. But look at what holds you: it is [n] strands.",
            "a likely slip",
        ),
        F(
            "merged",
            "If you wrote {X}, you shared the weight by [k]. But look at what holds [the load]: it is [n] strands.",
            "a likely slip",
        ),
        F("", "If you wrote {X}, [overlooked]", "a likely slip"),
    ),
    "really": (
        F("symbolic", ""),
        F(
            "lossy lowering-first",
            "These are not perfect wheels: [loss]. While it comes down you hold {F_down_rough}; raising it "
            "would take {F_up_bare}.",
            "what really happens",
        ),
        F(
            "lossy",
            "So much for perfect wheels: [loss]. Raising takes {F_up_rough}, and while it comes down you hold "
            "{F_down_bare}.",
            "what really happens",
        ),
        F(
            "one-wheel",
            "That was a perfect wheel. If this one loses 5 per cent, raising takes {F_up_rough} and lowering "
            "holds with {F_down_bare}.",
            "what really happens",
        ),
        F(
            "",
            "Those were perfect wheels. If each loses 5 per cent, raising takes {F_up_rough}, and while it "
            "comes down you hold {F_down_bare}.",
            "what really happens",
        ),
    ),
    "still": (
        F("symbolic", ""),
        F(
            "",
            "Stop on the way, and any pull between those two will hold it. That is why a reading at rest tells "
            "so little.",
            "at rest",
        ),
    ),
    "tilt": (
        F("symbolic", ""),
        F("lowers", ""),
        F(
            "assumed-sizes",
            "And [the block] will not hang level: the strands nearest your hand pull hardest, so that side rides "
            "higher. With wheels and hook of a usual size it tips {tilt}.",
            "the block tips",
        ),
        F(
            "",
            "And [the block] will not hang level: the strands nearest your hand pull hardest, so that side rides "
            "higher. It tips {tilt}.",
            "the block tips",
        ),
    ),
    "recap": (F("", ""),),
    "twist": (
        F(
            "friend",
            "Last thing: let a friend on the ground take the end you held. How hard must the friend pull?",
            "one thing changed",
        ),
        F(
            "let-go",
            "How light would [the load] have to be before you could let go of the rope altogether?",
            "one thing changed",
        ),
        F(
            "hand-inside N=2",
            "Same wheel, same rope, turned over: the wheel stays up there, and [the load] hangs on the rope's "
            "end. How many strands hold it now?",
            "one thing changed",
        ),
        F(
            "hand-inside",
            "Turn the whole tackle over, so that you haul down from the block that stays. How many strands pass "
            "through the bag now?",
            "one thing changed",
        ),
        F(
            "N=1",
            "Turn it over: let the wheel ride on [the load], with the rope's end made fast above. How many "
            "strands hold it now?",
            "one thing changed",
        ),
        F(
            "",
            "Turn the whole tackle over, so that you haul on the block that moves. How many strands pass "
            "through the bag now?",
            "one thing changed",
        ),
    ),
    "answer": (
        F(
            "friend",
            "The friend needs {F_friend}: the strand to the ground no longer lifts you, so one holder fewer "
            "shares the weight.",
            "and the answer",
        ),
        F(
            "let-go",
            "Down to {W_free}. Then what sinks and what rises balance by themselves, and your rope hangs slack.",
            "and the answer",
        ),
        F(
            "hand-inside",
            "[after]: the strand in your hand comes from the block that stays, and so it lifts nothing itself.",
            "and the answer",
        ),
        F(
            "own-none",
            "[after]: the strand in your hand now comes off the wheel on [the load], so it pulls up as well.",
            "and the answer",
        ),
        F(
            "",
            "[after]: the strand in your hand now comes off [the own], so it pulls up as well.",
            "and the answer",
        ),
    ),
}
