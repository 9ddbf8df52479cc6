"""Frames for what a learner will see when a rig is tried: what, why, and how to make it smaller.

Lengths are of rope through the hand unless said; `{load}` is a noun with its article.
"""

SEEING = {
    "first": "The wheel nearest your hand turns first; the far one only after {last} of rope.",
    "first-back": (
        "The wheel nearest your hand turns first. The far one first turns back a little in its block, and forwards "
        "only after {last} of rope."
    ),
    "dips": "The far axle even sinks at first, while the near one rises: the block tips before it lifts.",
    "off": "{load} leaves the floor after {off}; until then the rope only stretches and the block tips.",
    "off-level": "{load} leaves the floor after {off}; until then the rope only stretches.",
    "stays": "After {hand} of rope the floor still carries {load}.",
    "tips": "In the end the block hangs {up} askew, the side of your hand up; let down, it tips {down} the other way.",
    "tips-aside": "In the end the block hangs {up} askew, and {down} while it is let down.",
    "level": "The block hangs level.",
    "why": (
        "Each wheel keeps a share of the pull, so the strands nearest your hand pull hardest: they lift their side of "
        "the block first, and hold it higher."
    ),
    "why-level": "Each wheel keeps a share of the pull, so the strands nearest your hand pull hardest.",
    "pull": "Up you pull {up}, letting down you hold {down}; perfect wheels would need {perfect}.",
}

SMALLER = {
    "hook": "Hang the load twice as deep below the wheels, and the block tips {after} instead of {before}.",
    "wheels": "With wheels that lose half as much it tips {after}.",
    "middle": "Led over the middle wheel last, so that you haul from there, it tips {after}.",
    "cord": "With a cord ten times as stiff the load leaves the floor after {after} instead of {before}.",
}
