"""Sentences for what is seen when a rig is tried, and for where the model of it ends.

`{parts}` are the parts concerned, `{hand}` the hand travel there.
"""

FOLLOWED = {
    "leaves": "The floor lets go of the {load} after {off} of rope.",
    "stays": "After {hand} of rope the floor still carries the {load}.",
    "not-lifted": "Hauled to {hand} the {load} has not left the floor, so there is nothing to let down.",
    "second": "Hauled a second time from {low} of rope on, the floor lets go of the {load} at {off}.",
    "hangs": "The {load} hangs free all the way.",
    "steady": "From {all} on all goes on steadily: every sheave turns.",
    "raising": "Going up steadily, the pull is {effort}.",
    "lowering": "Let down steadily, the pull is {effort}.",
    "tilt": "Block {block} then hangs {tilt} askew, its {side}-hand side higher.",
    "level": "Block {block} then hangs level.",
    "meets": (
        "A rise of {asked} is asked for, but {parts} stand {apart} apart: block to block, they meet after {rise} of "
        "it. Set them farther apart, or raise less."
    ),
    "meets-assumed": (
        "A rise of {asked} is asked for, but {parts} are taken to stand {apart} apart: block to block, they would "
        "meet after {rise} of it. A line of the file says how far apart they are: apart {names}, and the length."
    ),
    "unread": "Not read at {hands} of rope: {why}.",
    "unread-stopped": "it stops at {hand}, and the last row is how all stands there",
    "unread-stopped-at-once": "it stops before",
    "unread-way": "that does not lie on the way",
}

ENDINGS = {
    "no-hand": "no hand hauls a rope here, and a trial begins with one",
    "rides": "the hand rides on {parts}; a trial is hauled from the ground",
    "level": "the trial knows plumb strands only, and not {parts}",
    "two-blocks": "a load on two blocks, here {parts}, may lean between them, and the trial does not know how",
    "number-missing": "the trial reckons with numbers, and there is none for {parts}",
    "no-load": "{parts} weighs nothing, so no floor carries it and no rope lifts it",
    "too-large": "past 64 sheaves only the steady states are told, not the way there",
    "freedoms": "the way of the hand does not settle the way of every part",
    "no-start": "with the load on the floor, the rope cannot be taut everywhere",
    "topples": "block {parts} would lean past 60 degrees or topple, where strands run plumb no more",
    "idle": "rope over {parts} stands still while all else runs, and how it pulls depends on what went before",
    "jams": "friction jams it: no pull on the rope makes it run",
    "runs-not-back": "the rope would have to push at {parts}: the rig does not run back by itself",
    "strand-slack": "{parts} would have to push, so the rope hangs slack there; only the readings tell what is left",
    "hook-slack": "from {hand} of rope on, block {parts} no longer hangs on to its load, and nothing tells how it lies",
    "rope-slack": "from {hand} of rope on, the whole rope {parts} is slack, and nothing tells how its parts lie",
    "blocks-meet": "at {hand} of rope {parts} meet, block to block",
    "no-way-on": "at {hand} of rope there is no way on at rest, and the rig would leap to another place",
}

KINDS = {"jump": "Jump", "not determined": "Not determined"}

ASSUMED = {
    "efficiency": "efficiency of the sheaves of {parts}: {value}",
    "weight": "weight of {parts}: {value}",
    "radius": "radius of the sheaves of {parts}: {value}",
    "spacing": "spacing in {parts}: {value}",
    "hook": "hook of {parts}: {value} below the sheave line",
    "becket": "becket of {parts}: in the middle",
    "stiffness": "stiffness of the cord of {parts}: {value}",
    "drag": "drag on {parts}: {value}",
    "apart": "apart, {parts}: {value}",
    "lead": "lead of {parts}: {value}, as long as the longest strand",
    "start": "start: load on the floor, no tilt, rope just taut",
    "start-leaning": "start: load on the floor, {value} of it on the rope, every strand taut, the block in balance",
}
