"""Why a method will not do, in one sentence: the method, what in this rig stops it, a thing to point at."""

REFUSALS: dict[str, dict[str, str]] = {
    "any": {
        "impossible": "No reckoning of pulls will do before [the part] can be held at all.",
        "indeterminate": "What holds [the part] can share the load in many ways, so no sum settles it.",
        "slack": "A rope would have to push [the part], and ropes only pull.",
        "friction": (
            "Friction alone holds [the load], so the two sides of a wheel may pull differently, and no sum says "
            "how much."
        ),
        "given": "The pull is given and so is [the load]: nothing is left to ask.",
        "letters": (
            "With so many wheels only numbers are reckoned, and a weight here is a letter: nothing can be said of "
            "[the load] before every weight has its number."
        ),
        "no-hand": "Nobody hauls here: [the load] hangs on ropes alone, so there is no pull to ask for.",
    },
    "count": {
        "accelerates": (
            "Counting strands will not do: [the load] picks up speed, so the pulls on it need not balance its weight."
        ),
        "ropes": (
            "Counting strands will not do: more than one rope holds [the part], and they do not pull equally hard."
        ),
        "several-ropes": (
            "Counting strands will not do: the rope at [the load] is not the rope in your hand, so its strands "
            "say nothing of your pull."
        ),
        "freedoms": (
            "Counting strands will not do: [the part] and [the other] can move one without the other, so one bag "
            "is not enough."
        ),
        "down": (
            "Counting strands will not do: one strand pulls [the load] down, so not all that cross the bag hold it up."
        ),
        "letters": (
            "With so many wheels only numbers are reckoned, and a weight here is a letter: nothing can be said of "
            "[the load] before every weight has its number."
        ),
        "no-hand": (
            "Counting strands will not do: nobody hauls here, so a share of [the load] would be nobody's pull."
        ),
    },
    "free-body": {
        "accelerates": (
            "Balance will not do: [the load] is out of balance by just its mass times the speed it gathers."
        ),
    },
    "carry": {
        "accelerates": (
            "Carrying one pull along the ropes is half the way here: it compares the pulls at [the load], but "
            "what drives them is the masses."
        ),
        "letters": (
            "With so many wheels only numbers are reckoned, and a weight here is a letter: nothing can be said of "
            "[the load] before every weight has its number."
        ),
        "no-hand": "There is no hand to begin from: [the load] hangs on ropes that nobody hauls.",
        "open": (
            "Carrying the pull along does not arrive: from your hand the ropes do not lead all the way to [the load]."
        ),
    },
    "rope-length": {
        "freedoms": "The ropes alone leave it open here: [the part] and [the other] can move one without the other.",
        "still": "No rope runs here: [the load] can go neither up nor down, so there is no way to keep account of.",
    },
    "work": {
        "accelerates": (
            "Work in and work out do not settle it: [the load] gathers speed, and part of the work goes into that."
        ),
        "freedoms": "One sum of energy cannot settle two motions: [the part] and [the other] can each move alone.",
        "friction": (
            "Friction alone holds [the load], so the two sides of a wheel may pull differently, and no sum says "
            "how much."
        ),
        "given": "The pull is given and so is [the load]: nothing is left to ask.",
        "letters": (
            "With so many wheels only numbers are reckoned, and a weight here is a letter: nothing can be said of "
            "[the load] before every weight has its number."
        ),
        "no-hand": "Nobody puts work in here: [the load] hangs on ropes that no hand hauls.",
        "still": "Nothing at [the load] can move here, so no work is done that one could compare.",
    },
    "stages": {
        "accelerates": "Stages multiply pulls that are at rest, and [the load] picks up speed.",
        "one-rope": "There is only one rope at [the load] here, one single stage, so there is nothing to multiply.",
        "single": (
            "Only one of the ropes between your hand and [the load] gains anything, so there is nothing to multiply."
        ),
        "shared": (
            "The stages do not follow one another: more than one rope holds [the load], and so their pulls add."
        ),
        "friction": (
            "Friction alone holds [the load], so the two sides of a wheel may pull differently, and no sum says "
            "how much."
        ),
        "given": "The pull is given and so is [the load]: nothing is left to ask.",
        "letters": (
            "With so many wheels only numbers are reckoned, and a weight here is a letter: nothing can be said of "
            "[the load] before every weight has its number."
        ),
        "no-hand": "Nobody hauls at [the load], so there is no gain for stages to multiply.",
        "other": "The ropes do not form a chain from your hand to [the load], so there are no stages to multiply.",
    },
    "newton": {
        "holds": (
            "Nothing speeds up, neither [the load] nor a wheel, so Newton's law says no more here than balance does."
        ),
    },
}
