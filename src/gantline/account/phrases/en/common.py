"""Frames that accounts share: how they open, what is paid, what is left out, how they close."""

from .frame import Frame as F
from .frame import Frames

_MEET = "what hangs there"

COMMON: Frames = {
    "meet": (
        F(
            "rider own-none",
            "On paper only: suppose you hang in this rig yourself, {W} in all, with the rope in your own hands.",
            _MEET,
        ),
        F(
            "rider own-heavy",
            "On paper only: suppose you hang in this rig yourself, {W} in all. What you hang from weighs "
            "{w_bare} more.",
            _MEET,
        ),
        F("rider", "On paper only: suppose you hang in this rig yourself, {W} in all, from [a own].", _MEET),
        F("load-asked own-none", "[a load] hangs on the end of a rope. How heavy it is we do not know yet.", _MEET),
        F("load-asked own-heavy", "[a load] of unknown weight hangs from [a own]. That alone weighs {w}.", _MEET),
        F("load-asked", "[a load] of unknown weight hangs from [a own], so light that we leave it out.", _MEET),
        F("own-none N>2", "[a load] [of W] hangs on [n] ropes' ends.", _MEET),
        F("own-none ropes N=2", "[a load] [of W] hangs on two ropes.", _MEET),
        F("own-none", "[a load] [of W] hangs on the end of a rope.", _MEET),
        F(
            "own-runner own-heavy",
            "[a load] [of W] hangs from [the own], and that wheel weighs {w_bare} more.",
            _MEET,
        ),
        F("own-runner", "[a load] [of W] hangs from [the own], so light that we leave it out.", _MEET),
        F("own-wheel own-heavy", "[a load] [of W] hangs from [a own]. The wheel itself weighs {w_bare} more.", _MEET),
        F("own-wheel", "[a load] [of W] hangs from [a own], so light that we leave its weight out.", _MEET),
        F("own-block own-heavy", "[a load] [of W] hangs from [a own]; the block itself adds {w_bare}.", _MEET),
        F("own-block", "[a load] [of W] hangs from [a own], so light that we leave it out.", _MEET),
        F("own-heavy", "[a load] [of W] hangs from a hook, and the hook weighs {w_bare} more.", _MEET),
        F("", "[a load] [of W] hangs from a hook on the rope.", _MEET),
    ),
    "movers": (
        F("load one", "And then there is [a body] of [weight].", "what else hangs"),
        F("load", "And then there are [bodies], of [weights].", "what else hangs"),
        F("hanging one heavy", "Between them a wheel moves as well; it weighs [weight].", "what else moves"),
        F(
            "hanging one",
            "Between the ropes a wheel hangs free, so light that we leave its weight out.",
            "what else moves",
        ),
        F(
            "flyer one heavy",
            "Between the ropes a wheel hangs free: riggers call it a flying block. It weighs [weight]; remember "
            "that.",
            "what else moves",
        ),
        F(
            "flyer one",
            "Between the ropes a wheel hangs free, a flying block, so light that we leave its weight out.",
            "what else moves",
        ),
        F(
            "flyer pair heavy alike",
            "Between the ropes hang [k] flying blocks, [weight] each; remember that.",
            "what else moves",
        ),
        F(
            "flyer pair heavy",
            "Between the ropes hang [k] flying blocks: they weigh [weights]. Remember that.",
            "what else moves",
        ),
        F(
            "flyer pair",
            "Between the ropes hang [k] flying blocks, so light that we leave them out.",
            "what else moves",
        ),
        F(
            "runner pair heavy alike",
            "Above it hang [bodies], each on the rope of the next. They weigh [weight] each.",
            "what else moves",
        ),
        F(
            "runner pair heavy",
            "Above it hang [bodies], each on the rope of the next. They weigh [weights].",
            "what else moves",
        ),
        F(
            "runner pair",
            "Above it hang [bodies], each on the rope of the next, so light that we leave them out.",
            "what else moves",
        ),
        F(
            "runner one heavy",
            "Above it hangs [the body], holding the first rope's end. It weighs [weight] too.",
            "what else moves",
        ),
        F(
            "runner one",
            "Above it hangs [the body], holding the first rope's end, and so light that we leave it out.",
            "what else moves",
        ),
        F(
            "loose one heavy",
            "Its rope does not come to your hand: it ends at a second block, a loose one, of [weight].",
            "what else moves",
        ),
        F(
            "loose one",
            "Its rope does not come to your hand: it ends at a second block, a loose one, that we count as "
            "weightless.",
            "what else moves",
        ),
        F("pair heavy alike", "And there are [bodies], [weight] each.", "what else moves"),
        F("pair heavy", "And there are [bodies], of [weights].", "what else moves"),
        F("heavy", "And [the body] moves as well; it weighs [weight].", "what else moves"),
        F("pair", "And [bodies] move as well, so light that we leave them out.", "what else moves"),
        F("", "And [the body] moves as well, so light that we leave it out.", "what else moves"),
    ),
    "help": (
        F(
            "light",
            "So [the helper] works on your side: it goes down as [the load] comes up, and turns the pull to "
            "your good.",
            "what helps",
        ),
        F(
            "many-help",
            "The blocks that sink help. They go down as [the load] comes up, so they are counterweights and not "
            "a burden.",
            "what helps",
        ),
        F(
            "",
            "So [the helper] helps. It goes down as [the load] comes up: a counterweight, and not a burden.",
            "what helps",
        ),
    ),
    "who-pays": (
        F(
            "",
            "Not every block costs you alike. Of [shares]: the nearer to your hand, the dearer.",
            "who pays for what",
        ),
    ),
    "pay-rope": (
        F(
            "first asked rises",
            "Now the price. [the rope] keeps its length, so for [the load] to rise {h}, [the body] must rise [d].",
            "the price",
        ),
        F(
            "first asked",
            "Now the price. [the rope] keeps its length, so as [the load] rises {h}, [the body] goes down [d].",
            "the price",
        ),
        F(
            "first rises",
            "Now the price. [the rope] keeps its length, so for every metre that [the load] rises, [the body] "
            "must rise [d].",
            "the price",
        ),
        F(
            "first",
            "Now the price. [the rope] keeps its length, so for every metre that [the load] rises, [the body] "
            "goes down [d].",
            "the price",
        ),
        F("rises", "In the same way [the rope] makes [the body] rise [d].", "and so on"),
        F("", "In the same way [the rope] lets [the body] down [d].", "and so on"),
    ),
    "pay-all": (
        F("asked lowers", "What the others give up runs out through your hand: {s}.", "rope paid out"),
        F(
            "asked",
            "And [the rope] keeps its length too. What goes spare comes to your hand: {s}, [ratio] times the rise.",
            "rope taken in",
        ),
        F("", "And [the rope] keeps its length too: your hand takes in [ratio] times the rise.", "rope taken in"),
    ),
    "room": (
        F(
            "meet",
            "Mind the headroom: [the body] and [the load] move toward each other, and when they meet, the haul "
            "is over.",
            "the room it needs",
        ),
        F(
            "",
            "Mind the room: [the body] moves farther than [the load], so it is the first to run out of rope.",
            "the room it needs",
        ),
    ),
    "path": (F("", "[route]", "the rope's way"),),
    "ask": (
        F(
            "load-asked",
            "You pull with {F}. How heavy a load will that hold? Write a number down before we count.",
            "your guess",
        ),
        F(
            "rider",
            "Before we count anything: how hard must you pull to hold yourself? Write a number down.",
            "your guess",
        ),
        F(
            "helps",
            "How hard must you pull to hold [the load]? And does [the helper] help or hinder you? Write both down.",
            "your guess",
        ),
        F("count", "Before we count anything: how hard must you pull to hold it? Write a number down.", "your guess"),
        F("", "How hard must you pull to hold [the load] there? Put down a number before we go on.", "your guess"),
    ),
    "gain": (
        F("load-asked", ""),
        F(
            "symbolic",
            "Load over pull is the mechanical advantage. With all but [the load] weightless it would be [vr].",
            "what is gained",
        ),
        F(
            "unit-gain ma=1",
            "You pull as hard as [the load] weighs. A fixed wheel takes nothing off; its use is to turn the "
            "pull round.",
            "what is gained",
        ),
        F(
            "ma=vr one-rope",
            "You pull {F_bare} and {W_bare} goes up: a mechanical advantage, load over pull, of exactly [vr], "
            "the number of strands.",
            "what is gained",
        ),
        F(
            "ma=vr",
            "You pull {F_bare} and {W_bare} goes up: load over pull, the mechanical advantage, is exactly [vr].",
            "what is gained",
        ),
        F(
            "ma>vr",
            "You pull {F_bare} and {W_bare} goes up. Load over pull, the mechanical advantage, is {MA_near}: "
            "more than [vr], thanks to [the helper].",
            "what is gained",
        ),
        F(
            "rider",
            "You pull {F_bare} and {W_bare} goes up. Load over pull, the mechanical advantage, is {MA_near}.",
            "what is gained",
        ),
        F(
            "own-wheel several-bodies",
            "You pull {F_bare} and {W_bare} goes up. Load over pull is {MA_near}, the mechanical advantage; "
            "weightless wheels would make it [vr].",
            "what is gained",
        ),
        F(
            "own-wheel",
            "You pull {F_bare} and {W_bare} goes up. Load over pull, {MA_near}, is the mechanical advantage; a "
            "weightless wheel would make it [vr].",
            "what is gained",
        ),
        F(
            "",
            "You pull {F_bare} and {W_bare} goes up: a mechanical advantage of {MA_near}. A weightless block "
            "would make it [vr].",
            "what is gained",
        ),
    ),
    "beam": (
        F(
            "half",
            "And the other {F_bare}? [the anchor] holds it. Half of the weight is not on you at all, and that "
            "end never tires.",
            "who holds the rest",
        ),
        F(
            "rest",
            "[the anchor] holds the other [n-1] strands, {R} in all. Only the last one is on you.",
            "who holds the rest",
        ),
        F(
            "pulled-up",
            "[the anchor] is pulled upward, with {R}: look well at how it is made fast.",
            "what the beam carries",
        ),
        F(
            "rider",
            "Up above, [the anchor] carries {R}, all that hangs there: pulling on your own rope adds nothing.",
            "what the beam carries",
        ),
        F(
            "twice",
            "[the anchor] carries {R}, twice what hangs there: one rope pulls it down on both sides.",
            "what the beam carries",
        ),
        F(
            "more",
            "[the anchor] carries {R}, more than [the load] weighs: your own pull hangs on it as well.",
            "what the beam carries",
        ),
        F("", "Up above, [the anchor] carries {R}.", "what the beam carries"),
    ),
    "pay": (
        F(
            "!asked unit-gain",
            "Now the price: for every metre that [the load] rises, a metre of rope comes to your hand.",
            "the price",
        ),
        F(
            "!asked",
            "Now the price. For every metre that [the load] rises, each of the [n] strands loses a metre: [n] "
            "metres come to your hand.",
            "the price",
        ),
        F(
            "lowers N=1",
            "Now the way back. For [the load] to go down {h}, you let the same length of rope run out.",
            "the price",
        ),
        F(
            "lowers",
            "Now the way back. For [the load] to go down {h}, each of the [n] strands must gain {h}.",
            "the price",
        ),
        F("N=1", "Now the price. For [the load] to rise {h} you take in the same length of rope, {s}.", "the price"),
        F(
            "N=2 rider",
            "Now the price. For you to rise {h}, both strands must lose {h}, and all of it passes through your "
            "hands: {s}.",
            "the price",
        ),
        F(
            "N=2",
            "Now the price. For [the load] to rise {h}, both strands must lose {h}, and all of it comes to your "
            "hand: {s}.",
            "the price",
        ),
        F("rider", "Now the price. For you to rise {h}, each of the [n] strands must lose {h}.", "the price"),
        F("", "Now the price. For [the load] to rise {h}, each of the [n] strands must lose {h}.", "the price"),
    ),
    "pay-hand": (
        F("!asked", ""),
        F("N=1", ""),
        F("N=2 !lowers", ""),
        F("lowers", "All of that rope runs out through your hand: {s}.", "rope paid out"),
        F("", "All of that rope comes to your hand: {s}.", "rope taken in"),
    ),
    "work": (
        F(
            "lowers",
            "The falling weights give {E_out}, and your hand takes up all of it: {F} held back over {s}.",
            "work in, work out",
        ),
        F(
            "symbolic",
            "Your pull times your way is what the weights gain: nothing is saved, and nothing is lost.",
            "work in, work out",
        ),
        F(
            "E=1 rider",
            "Your {F} over {s} make {E_in}, and you have gained just that. Less force, more way: nothing saved.",
            "work in, work out",
        ),
        F(
            "E=1 unit-gain",
            "Your {F} over {s} make {E_in}, and [the load] gains just that. Nothing is saved, nothing is lost.",
            "work in, work out",
        ),
        F(
            "E=1",
            "Your {F} over {s} make {E_in}, and [the load] gains just that. Less force, more way: nothing is saved.",
            "work in, work out",
        ),
        F(
            "gives E=2",
            "Your {F} over {s} make {E_in}. [the second] gives {E_2_bare} on its way down, and [the load] gains "
            "{E_1_bare}. Nothing is lost.",
            "work in, work out",
        ),
        F(
            "gives",
            "Your {F} over {s} make {E_in}; what sinks adds its own. All of it goes into what rises: nothing is "
            "lost.",
            "work in, work out",
        ),
        F(
            "E=2 rider",
            "Your {F} over {s} make {E_in}. You gain {E_1_bare}, what you hang from {E_2_bare}. Nothing is "
            "saved, nothing is lost.",
            "work in, work out",
        ),
        F(
            "E=2",
            "Your {F} over {s} make {E_in}. [the load] gains {E_1_bare}, [the second] {E_2_bare}. Nothing is "
            "saved, nothing is lost.",
            "work in, work out",
        ),
        F(
            "",
            "Your {F} over {s} make {E_in}: {E_1_bare} for [the load], the rest for the blocks. Nothing is "
            "saved, nothing is lost.",
            "work in, work out",
        ),
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
            "So much for perfect wheels. [loss], so raising takes {F_up_rough}, and while it comes down you "
            "hold {F_down_bare}.",
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
            "merged ropes",
            "If you wrote {X}, you shared the weight by [k]. But follow the pull: by the time it reaches [the "
            "load] it is [vr] F.",
            "a likely slip",
        ),
        F(
            "merged rider",
            "If you wrote {X}, you shared the weight by [k]. But look at what holds you: it is [n] strands.",
            "a likely slip",
        ),
        F(
            "merged N=1",
            "If you wrote {X}, you shared the weight by [k]. But only one strand holds [the load].",
            "a likely slip",
        ),
        F(
            "merged",
            "If you wrote {X}, you shared the weight by [k]. But look at what holds [the load]: it is [n] strands.",
            "a likely slip",
        ),
        F("", "If you wrote {X}, [overlooked]", "a likely slip"),
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
            "",
            "[after]: the strand in your hand now comes off the moving block, so it pulls up as well.",
            "and the answer",
        ),
    ),
}
