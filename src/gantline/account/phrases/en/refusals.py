"""Why a method will not do, in one sentence: the method, what in this rig stops it, a thing to point at.

Where it can be reckoned what the method would have said, a second wording, `REASON said`, says that as well: {X} is
what it gives, {Y} what is true, [off] how far apart they are.
"""

_LETTERS = (
    "With so many wheels only numbers are reckoned, and a weight here is a letter: nothing can be said of "
    "[the load] before every weight has its number."
)
_GIVEN = "The pull is given and so is [the load]: nothing is left to ask."

REFUSALS: dict[str, dict[str, str]] = {
    "any": {
        "impossible": "No reckoning of pulls will do before [the part] can be held at all.",
        "indeterminate": "What holds [the part] can share the load in many ways, so no sum settles it.",
        "slack": "A rope would have to push [the part], and ropes only pull.",
        "friction": "Friction alone holds [the load], so the two sides of a wheel may pull differently.",
        "given": _GIVEN,
        "letters": _LETTERS,
        "no-hand": "Nobody hauls here: [the load] hangs on ropes alone, so there is no pull to ask for.",
    },
    "count": {
        "accelerates": (
            "Counting strands will not do: [the load] picks up speed, so the pulls on it need not balance its weight."
        ),
        "accelerates said": (
            "Counting strands will not do: it would have the rope pull on [the load] with {X}, but it pulls with "
            "{Y_bare}, and what is between moves it."
        ),
        "pulled": (
            "Counting strands will not do: [the load] picks up speed, so the pulls on it need not balance its weight."
        ),
        "pulled said": (
            "Counting strands will not do: it says {X}, the pull that just holds [the load]; but you pull with "
            "{Y_bare}."
        ),
        "ropes": "Counting strands will not do: [ropes] hold [the part], and they do not pull equally hard.",
        "ropes said": (
            "Counting strands will not do: [ropes] hold [the part], and not equally hard; counted as one they "
            "would say {X}, [off]."
        ),
        "several-ropes": (
            "Counting strands will not do: the rope at [the load] is not the rope in your hand, so its strands "
            "say nothing of your pull."
        ),
        "several-ropes said": (
            "Counting strands will not do: the rope at [the load] is not the rope in your hand; its strands would say "
            "{X}, [off]."
        ),
        "impossible said": (
            "Counting strands would say {X}, and [the load] would be content with that; but then [the part] would not "
            "be."
        ),
        "indeterminate said": (
            "Counting strands would give {X} to each of them, but they belong to [ropes] at [the load], and nothing "
            "says that those pull alike."
        ),
        "friction": (
            "Counting strands needs pulls that are alike, and while friction alone holds [the load] the two sides of "
            "a wheel may differ."
        ),
        "freedoms": (
            "Counting strands will not do: [the part] and [the other] can move one without the other, so one bag "
            "is not enough."
        ),
        "down": (
            "Counting strands will not do: one strand pulls [the load] down, so not all that cross the bag hold it up."
        ),
        "no-hand": (
            "Counting strands will not do: nobody hauls here, so a share of [the load] would be nobody's pull."
        ),
    },
    "free-body": {
        "accelerates": (
            "Balance will not do: [the load] is out of balance by just its mass times the speed it gathers."
        ),
        "accelerates said": (
            "Balance will not do: it asks the rope at [the load] for {X}, and that pulls with {Y_bare}; the rest goes "
            "into gathering speed."
        ),
        "pulled": "Balance will not do: [the load] is out of balance by just its mass times the speed it gathers.",
        "pulled said": (
            "Balance will not do: it asks you for {X} at [the load], and you pull with {Y_bare}; the rest goes into "
            "gathering speed."
        ),
    },
    "carry": {
        "accelerates": (
            "Carrying one pull along the ropes is half the way here: it compares the pulls at [the load], but "
            "what drives them is the masses."
        ),
        "pulled": (
            "Carrying your pull along the ropes brings it to [the load], but there it has a weight to hold and a mass "
            "to move besides."
        ),
        "impossible": "Whatever pull is carried along the ropes, [the part] is not content with it.",
        "indeterminate": (
            "A pull can be carried along its own rope and no farther: at [the part] the ropes hang side by side."
        ),
        "slack said": (
            "Carried along the ropes your pull would come out as a push of {X} at [the part], and ropes only pull."
        ),
        "friction": (
            "A pull carried over a wheel that sticks arrives changed, and by how much nobody can say: friction alone "
            "holds [the load]."
        ),
        "no-hand": "There is no hand to begin from: [the load] hangs on ropes that nobody hauls.",
        "open": (
            "Carrying the pull along does not arrive: from your hand the ropes do not lead all the way to [the load]."
        ),
    },
    "rope-length": {
        "impossible": "The ropes would tell how far, but [the part] cannot be held anywhere on the way.",
        "slack": "A slack rope keeps account of nothing: it gives up length, and [the part] need not move.",
        "freedoms": "The ropes alone leave it open here: [the part] and [the other] can move one without the other.",
        "still": "No rope runs here: [the load] can go neither up nor down, so there is no way to keep account of.",
    },
    "work": {
        "accelerates": (
            "Work in and work out do not settle it: [the load] gathers speed, and part of the work goes into that."
        ),
        "pulled": (
            "Work in and work out do not settle it: [the load] gathers speed, and part of your work goes into that."
        ),
        "impossible": (
            "Work in and work out need a rig that stays wherever it is stopped, and [the part] cannot be stopped."
        ),
        "indeterminate": (
            "Work in and work out know the ropes at [the part] only all together, and cannot tell one from another."
        ),
        "slack said": "By work your pull would come out as a push of {X} on [the part], and ropes only pull.",
        "freedoms": "One sum of energy cannot settle two motions: [the part] and [the other] can each move alone.",
        "friction": "Nothing moves, for friction alone holds [the load]: so no work is done that one could compare.",
        "load-asked": (
            "Work in and work out look for the pull in your hand; here that is given, and [the load] is what is looked "
            "for."
        ),
        "no-hand": "Nobody puts work in here: [the load] hangs on ropes that no hand hauls.",
        "still": "Nothing at [the load] can move here, so no work is done that one could compare.",
    },
    "stages": {
        "accelerates": "Stages multiply pulls that are at rest, and [the load] picks up speed.",
        "pulled": "Stages multiply pulls that are at rest, and [the load] picks up speed.",
        "impossible": "Stages multiply pulls that are at rest, and [the part] cannot be held at rest.",
        "indeterminate": ("Stages need ropes that haul one on the other, and those at [the part] hang side by side."),
        "one-rope": "There is only one rope at [the load] here, one single stage, so there is nothing to multiply.",
        "single": (
            "Only one of the ropes between your hand and [the load] gains anything, so there is nothing to multiply."
        ),
        "shared": ("The stages do not follow one another: [ropes] hold [the load], and so their pulls add."),
        "shared said": (
            "The stages do not follow one another: [ropes] hold [the load], so their pulls add; multiplied, they would "
            "say {X}, [off]."
        ),
        "friction": "Stages multiply pulls that are known, and while friction alone holds [the load] they are not.",
        "no-hand": "Nobody hauls at [the load], so there is no gain for stages to multiply.",
        "other": "The ropes do not form a chain from your hand to [the load], so there are no stages to multiply.",
    },
    "newton": {
        "impossible": "Once you let go, Newton's law tells how [the part] runs off, but not what pull would hold it.",
        "indeterminate": (
            "No more sums come from Newton's law than from balance, and those are too few for the ropes at [the part]."
        ),
        "holds": (
            "Nothing speeds up, neither [the load] nor a wheel, so Newton's law says no more here than balance does."
        ),
    },
}
