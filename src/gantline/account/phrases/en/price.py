"""Frames for what is gained and what is paid: advantage, beam, rope and work."""

from .frame import Frame as F
from .frame import Frames

PRICE: Frames = {
    "help": (
        F(
            "light",
            "So [the helper] works on your side: it goes down as [the load] comes up, and turns the pull to your good.",
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
    "gain": (
        F("load-asked", ""),
        F(
            "symbolic",
            "Load over pull is the mechanical advantage. With all but [the load] weightless it would be [vr].",
            "what is gained",
        ),
        F(
            "company",
            "You pull {F_bare} and {lifted_bare} goes up, {W_bare} of it [the load]. For [the load] alone, load over "
            "pull is {MA_near}: the mechanical advantage.",
            "what is gained",
        ),
        F("unit-gain ma=1 rider", "You pull as hard as you weigh: nothing is gained.", "what is gained"),
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
            "ma>vr helpers",
            "You pull {F_bare} and {W_bare} goes up. Load over pull, the mechanical advantage, is {MA_near}: "
            "more than [vr], thanks to the blocks that sink.",
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
            "one-load own-wheel several-bodies",
            "You pull {F_bare} and {W_bare} goes up. Load over pull is {MA_near}, the mechanical advantage; "
            "weightless wheels would make it [vr].",
            "what is gained",
        ),
        F(
            "one-load own-wheel",
            "You pull {F_bare} and {W_bare} goes up. Load over pull, {MA_near}, is the mechanical advantage; a "
            "weightless wheel would make it [vr].",
            "what is gained",
        ),
        F(
            "one-load",
            "You pull {F_bare} and {W_bare} goes up: a mechanical advantage of {MA_near}. A weightless block "
            "would make it [vr].",
            "what is gained",
        ),
        F(
            "",
            "You pull {F_bare} and {W_bare} goes up. Load over pull, the mechanical advantage, is {MA_near}.",
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
        F("N=1 rider", "Now the price. For you to rise {h} you take in the same length of rope, {s}.", "the price"),
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
        F(
            "asked unit-gain",
            "And [the rope] keeps its length too, so your hand takes in {s} as well.",
            "rope taken in",
        ),
        F(
            "unit-gain",
            "And [the rope] keeps its length too, so your hand goes as far as [the load].",
            "rope taken in",
        ),
        F("asked lowers", "What the others give up runs out through your hand: {s}.", "rope paid out"),
        F(
            "asked",
            "And [the rope] keeps its length too. What goes spare comes to your hand: {s}, [vrtimes] the rise.",
            "rope taken in",
        ),
        F("", "And [the rope] keeps its length too: your hand takes in [vrtimes] the rise.", "rope taken in"),
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
            "Your {F} over {s} make {E_in}. [the second] gives {E_2_bare} more, and [the load] gains all {E_1_bare}.",
            "work in, work out",
        ),
        F(
            "gives",
            "Your {F} over {s} make {E_in}; what sinks adds its own. All of it goes into what rises: nothing is lost.",
            "work in, work out",
        ),
        F(
            "E=2 rider",
            "Your {F} over {s} make {E_in}. You gain {E_1_bare}, what you hang from {E_2_bare}. Nothing is lost.",
            "work in, work out",
        ),
        F(
            "E=2",
            "Your {F} over {s} make {E_in}. [the load] gains {E_1_bare}, [the second] {E_2_bare}. Nothing is lost.",
            "work in, work out",
        ),
        F(
            "company",
            "Your {F} over {s} make {E_in}: {E_1_bare} for [the load], the rest for all that hangs with it. Nothing "
            "is lost.",
            "work in, work out",
        ),
        F(
            "",
            "Your {F} over {s} make {E_in}: {E_1_bare} for [the load], the rest for the blocks. Nothing is "
            "saved, nothing is lost.",
            "work in, work out",
        ),
    ),
}
