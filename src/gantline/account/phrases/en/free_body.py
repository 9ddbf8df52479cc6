"""Frames for balancing each body, and for rigs that will not balance."""

from .frame import Frame as F
from .frame import Frames

FREE_BODY: Frames = {
    "apart": (
        F(
            "several-bodies",
            "Take each part that can move out of the rig by itself. At rest, what pulls it up and what pulls it "
            "down are equal.",
            "bodies apart",
        ),
        F(
            "rider",
            "Take yourself out of the rig, with all you hang on. At rest, what pulls up and what pulls down are equal.",
            "the body apart",
        ),
        F(
            "",
            "Take [the load] out of the rig, with all that moves along. At rest, what pulls up and what pulls "
            "down are equal.",
            "the body apart",
        ),
    ),
    "ask": (
        F(
            "impossible",
            "How hard must you pull to hold [the load]? Put down a number before we go on.",
            "your guess",
        ),
        F(
            "indeterminate",
            "How hard does each of these ropes pull? Put down a number for each before we go on.",
            "your guess",
        ),
    ),
    "body": (
        F("self !carried", "You are pulled up by [up], and down by your own [weights].", "one body"),
        F("self", "You are pulled up by [up], and down by [weights].", "one body"),
        F(
            "down falls weighs",
            "[the body] is pulled down by [down] and its own [weights], and nothing holds it up.",
            "one body",
        ),
        F("down falls", "[the body] is pulled down by [down], and nothing holds it up.", "one body"),
        F("down weighs", "[the body] is pulled up by [up], and down by [down] and its own [weights].", "one body"),
        F(
            "down",
            "[the body] is pulled up by [up], and down by [down]. It weighs nothing, so nothing may be left over.",
            "one body",
        ),
        F("light", "[the body] weighs nothing here, so [up] has nothing to hold.", "one body"),
        F(
            "company carried",
            "[the body], with all that hangs with it, is pulled up by [up], and down by [weights].",
            "one body",
        ),
        F("carried", "[the body], with what it hangs from, is pulled up by [up], and down by [weights].", "one body"),
        F("", "[the body] is pulled up by [up], and down by its [weights].", "one body"),
    ),
    "solve": (
        F("load-asked", "With {F} in your hand the sums leave one answer: [the load] weighs {W_near}.", "the answer"),
        F("symbolic", "The rope in your hand pulls as you do, and so the sums give {F}.", "the answer"),
        F("single", "The rope in your hand is that same rope, so your pull is {F_near}.", "the answer"),
        F(
            "",
            "As many sums as pulls: they leave just one answer, and the pull in your hand is {F_near}.",
            "the answer",
        ),
    ),
    "clash": (
        F(
            "asks none",
            "So [the first] asks [rope] for {T1}, and [the second] for none at all. One rope cannot do both: no pull "
            "holds them.",
            "where it fails",
        ),
        F(
            "asks pushes",
            "So [the first] asks [rope] for {T1}, and [the second] asks it to push. One rope cannot do both: no pull "
            "holds them.",
            "where it fails",
        ),
        F(
            "asks",
            "So [the first] asks [rope] for {T1}, and [the second] for {T2_bare}. One rope cannot do both: no pull "
            "holds them.",
            "where it fails",
        ),
        F(
            "pair",
            "Each of the two asks for another pull, and it is the same rope. So no pull at all can hold them both.",
            "where it fails",
        ),
        F(
            "",
            "The two sides cannot be made equal, however hard the rope is pulled. So no pull can hold it.",
            "where it fails",
        ),
    ),
    "wrong": (F("", "If you wrote {X}, [overlooked]", "a likely slip"),),
    "undecided": (
        F(
            "two-ways more-ropes",
            "{T_even} in every strand would fit this sum. So would {T_more_bare} in [the one] and {T_less_bare} in "
            "[the another], the rest as before.",
            "what is open",
        ),
        F(
            "two-ways",
            "{T_even} in every strand would fit this sum. But {T_more_bare} in [the one] and {T_less_bare} in [the "
            "another] fit it as well.",
            "what is open",
        ),
        F(
            "bodies",
            "The sums end here: more is unknown than balance can tell, so the file does not say what happens.",
            "what is open",
        ),
        F(
            "",
            "One sum, and more pulls than it can settle: one strand may hold more if another holds less.",
            "what is open",
        ),
    ),
    "held": (
        F(
            "",
            "With free wheels [the load] would not stay. But the wheels drag, and here that is enough to hold it.",
            "what holds it",
        ),
    ),
    "push": (
        F(
            "so-much",
            "These sums come out only if [rope] pushes with {T_push}, and ropes do not push: it hangs slack, and the "
            "rest runs.",
            "what goes slack",
        ),
        F(
            "",
            "These sums come out only if [rope] pushes, and ropes do not push: it hangs slack, and the rest runs.",
            "what goes slack",
        ),
    ),
    "mend": (
        F(
            "held both-sides",
            "At rest each side pulls with what hangs on it: [pulls]. What is between them, the dragging wheel takes "
            "up.",
            "what each side pulls",
        ),
        F(
            "impossible asks weight-fits",
            "Let go, and one goes down and the other up. If [the second] weighed {W_fit}, both could be held.",
            "the smallest mend",
        ),
        F(
            "indeterminate two-ways",
            "One sum cannot settle [ropes] pulls; stretch does: the stiffer and the shorter rope takes more. Or take "
            "away all but one.",
            "what settles it",
        ),
        F(
            "held",
            "How much each side really pulls depends on how it came to rest; only the limits can be told.",
            "what is left open",
        ),
        F(
            "impossible ropes",
            "Let go, and one goes down and the other up. Only with weights that fit can both be held.",
            "the smallest mend",
        ),
        F(
            "impossible",
            "Let go, and it runs until something stops it. Make [the second] fast above, and it can be held.",
            "the smallest mend",
        ),
        F(
            "indeterminate bodies",
            "Say how heavy each part is, or leave the pull to be found, and there is one answer.",
            "the smallest mend",
        ),
        F(
            "indeterminate",
            "On the bench the stiffer and the shorter strand takes more. Take one rope away, and there is one answer.",
            "the smallest mend",
        ),
        F(
            "helper-lighter load-heavier",
            "Make [the helper] lighter, or [the load] heavier, and the rope is taut again.",
            "the smallest mend",
        ),
        F(
            "helper-heavier load-lighter",
            "Make [the helper] heavier, or [the load] lighter, and the rope is taut again.",
            "the smallest mend",
        ),
        F("load-heavier", "Make [the load] heavier, and the rope is taut again.", "the smallest mend"),
        F("load-lighter", "Make [the load] lighter, and the rope is taut again.", "the smallest mend"),
        F("helper-heavier", "Make [the helper] heavier, and the rope is taut again.", "the smallest mend"),
        F("helper-lighter", "Make [the helper] lighter, and the rope is taut again.", "the smallest mend"),
        F("", "Another weight, or another way for the rope, would have to be found.", "the smallest mend"),
    ),
    "recap": (
        F(
            "several-bodies",
            "One body, one balance: what pulls up is what pulls down, on every part that rests.",
            "in one breath",
        ),
        F("", "What pulls up is what pulls down: on a body at rest that is all there is to know.", "in one breath"),
    ),
}
