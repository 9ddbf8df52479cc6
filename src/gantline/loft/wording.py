"""The words of the notation for the slip: what may begin a line, be said of a part, or stand in a rope's way."""

from typing import Any

from gantline.notation import ATTRIBUTES, STATEMENTS
from gantline.quantity import UNITS
from gantline.rig import KINDS

PATH = ("over", "under", "hand", "at")

SAYS = {
    "title": "what the rig is called",
    "gravity": "where it is not 9.81 m/s2",
    "fixed": "a beam, a hook, a block that stays",
    "moving": "a block that travels",
    "load": "what is lifted",
    "rope": "its way, from one end to the other",
    "cord": "what a rope is made of",
    "apart": "how far two blocks hang apart at the start",
    "lead": "how long the run to the hand is",
    "raise": "how far it is to rise",
    "lower": "how far it is to come down",
    "effort": "the pull, where it is given",
    "sheaves": "how many wheels",
    "weight": "how heavy",
    "mass": "how much of it",
    "carries": "the load on its hook",
    "radius": "of each of its wheels",
    "disc": "each wheel a disc of this mass",
    "inertia": "of each of its wheels",
    "efficiency": "the share of the pull a turning wheel passes on",
    "spacing": "how far its wheels stand apart",
    "hook": "how deep its hook hangs",
    "becket": "where the rope's end is held",
    "stiffness": "of the rope, against stretching",
    "diameter": "of the rope",
    "drag": "what every wheel takes",
    "over": "past the upper side of a wheel",
    "under": "past the lower side of a wheel",
    "hand": "where it is hauled",
    "at": "the one who hauls rides on that part",
}
EXAMPLES = {
    "title": "title Flour sacks to the upper floor",
    "gravity": "gravity 9.81 m/s2",
    "fixed": "fixed upper sheaves 2",
    "moving": "moving lower sheaves 2, weight 12 N, carries sack",
    "load": "load sack weight 348 N",
    "rope": "rope fall: upper, under lower, over upper, hand",
    "cord": "cord fall stiffness 2 kN, diameter 3 mm",
    "apart": "apart upper lower 0.8 m",
    "lead": "lead 2 m",
    "raise": "raise sack 0.5 m",
    "lower": "lower sack 0.5 m",
    "effort": "effort 90 N",
    "sheaves": "sheaves 2",
    "weight": "weight 12 N",
    "mass": "mass 5 kg",
    "carries": "carries sack",
    "radius": "radius 18 mm",
    "disc": "disc 0.2 kg",
    "inertia": "inertia 0.01 kg m2",
    "efficiency": "efficiency 95 %",
    "spacing": "spacing 50 mm",
    "hook": "hook 60 mm",
    "becket": "becket 10 mm",
    "stiffness": "stiffness 2 kN",
    "diameter": "diameter 3 mm",
    "drag": "drag 0.02 N",
    "over": "over upper.1",
    "under": "under lower.1",
    "hand": "hand",
    "at": "hand at seat",
}


def words() -> dict[str, Any]:
    """Every word, what it says, an example, and which units fit behind it."""
    return {
        "statements": STATEMENTS, "attributes": ATTRIBUTES, "path": PATH, "says": SAYS, "examples": EXAMPLES,
        "units": {key: [unit.name for unit in UNITS.values() if unit.kind == kind] for key, kind in KINDS.items()},
    }  # fmt: skip
