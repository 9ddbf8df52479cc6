"""Frames for how an account opens: what hangs there, where the rope runs, what is asked."""

from .frame import Frame as F
from .frame import Frames

_MEET = "what hangs there"

OPENING: Frames = {
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
        F("block-alone !rider", "[a load] [of W] hangs in the rope by itself, with nothing on its hook.", _MEET),
        F("load-asked own-none N>2", "[a load] hangs on [n] ropes' ends. How heavy it is we do not know yet.", _MEET),
        F("load-asked own-none shared", "[a load] hangs on two ropes. How heavy it is we do not know yet.", _MEET),
        F("load-asked own-none", "[a load] hangs on the end of a rope. How heavy it is we do not know yet.", _MEET),
        F("load-asked own-heavy", "[a load] of unknown weight hangs from [a own]. That alone weighs {w}.", _MEET),
        F("load-asked", "[a load] of unknown weight hangs from [a own], so light that we leave it out.", _MEET),
        F(
            "own-several own-heavy numeric",
            "[a load] [of W] hangs from [blocks] at once, and those weigh {w_all_bare} more.",
            _MEET,
        ),
        F("own-several", "[a load] [of W] hangs from [blocks] at once.", _MEET),
        F("own-none N>2", "[a load] [of W] hangs on [n] ropes' ends.", _MEET),
        F("own-none shared N=2", "[a load] [of W] hangs on two ropes.", _MEET),
        F("own-none N=2 !rider", "[a load] [of W] hangs on both ends of one rope.", _MEET),
        F("own-none", "[a load] [of W] hangs on the end of a rope.", _MEET),
        F(
            "own-runner own-heavy",
            "[a load] [of W] hangs from [the own], and that wheel weighs [more] more.",
            _MEET,
        ),
        F("own-runner", "[a load] [of W] hangs from [the own], so light that we leave it out.", _MEET),
        F("own-wheel own-heavy", "[a load] [of W] hangs from [a own]. The wheel itself weighs [more] more.", _MEET),
        F("own-wheel", "[a load] [of W] hangs from [a own], so light that we leave its weight out.", _MEET),
        F("own-block own-heavy", "[a load] [of W] hangs from [a own]; the block itself adds [more].", _MEET),
        F("own-block", "[a load] [of W] hangs from [a own], so light that we leave it out.", _MEET),
        F("own-heavy", "[a load] [of W] hangs from a hook, and the hook weighs [more] more.", _MEET),
        F("", "[a load] [of W] hangs from a hook on the rope.", _MEET),
    ),
    "beside": (
        F("many symbolic", "On the same hook hang [others] as well.", "what hangs with it"),
        F("many", "On the same hook hang [others] as well, {others} in all.", "what hangs with it"),
        F("one", "On the same hook hangs [others].", "what hangs with it"),
        F("", "On the same hook hang [others].", "what hangs with it"),
    ),
    "movers": (
        F("load one at-end", "At the rope's other end hangs [a body] of [weight].", "what else hangs"),
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
            "Between the ropes a wheel hangs free: riggers call it a flying block. It weighs [weight]; remember that.",
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
            "runner one heavy !own-runner",
            "Above it a wheel moves as well, a runner; it weighs [weight].",
            "what else moves",
        ),
        F(
            "runner one !own-runner",
            "Above it a wheel moves as well, a runner, so light that we leave it out.",
            "what else moves",
        ),
        F(
            "runner one heavy own-runner",
            "Above it hangs [the body], holding the first rope's end. It weighs [weight] too.",
            "what else moves",
        ),
        F(
            "runner one own-runner",
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
            "Its rope does not come to your hand: it ends at a second block, a loose one, that we count as weightless.",
            "what else moves",
        ),
        F("pair heavy alike", "And there are [bodies], [weight] each.", "what else moves"),
        F("pair heavy", "And there are [bodies], of [weights].", "what else moves"),
        F("heavy", "And [the body] moves as well; it weighs [weight].", "what else moves"),
        F("pair", "And [bodies] move as well, so light that we leave them out.", "what else moves"),
        F("", "And [the body] moves as well, so light that we leave it out.", "what else moves"),
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
            "helpers",
            "How hard must you pull to hold [the load]? And do the blocks between the ropes help or hinder you? Write "
            "both down.",
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
}
