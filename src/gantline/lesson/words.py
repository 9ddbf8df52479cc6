"""The sentences of the page round the accounts, in English. Frames are chosen by what is true of the rig."""

OPENINGS = {
    "holds": "You will find the pull that holds {load}{ropes}",
    "load": "You will find how heavy a load a given pull holds{ropes}",
    "balance": "You will see that nothing here moves, and why{ropes}",
    "accelerates": "You will find how fast everything speeds up{ropes}, and what the ropes carry meanwhile",
    "impossible": "You will see why no pull at all can hold this rig still, and which part gives it away",
    "indeterminate": "You will see why weights alone do not settle how the ropes share the load",
    "slack": "You will see where a rope would have to push, and what happens because it cannot",
}
LOOKS = {
    "count": "which strands hold it, and why they pull alike",
    "free-body": "what pulls on each part, one part at a time",
    "carry": "how one unit of pull grows along the ropes",
    "rope-length": "how much rope each move costs",
    "work": "what goes in as work and what comes out",
    "stages": "how one tackle hauls on the next",
    "newton": "what each part's weight and inertia ask of the rope",
}
PRICE = "what the smaller pull costs in rope"
CLOSING = "At the end you see where real wheels differ from perfect ones."

COUNTS = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}

WRONG_COUNTS = {  # by wrong rule, the commonest first
    "M01": "Counting the wheels",
    "M02": "Counting the strand in your hand as well",
    "M03": "Counting only the wheels that move",
    "M05": "Halving the pull at every wheel that moves",
    "M04": "Halving the pull at every wheel",
}
COUNT_LUCKY = "{wrong} for the {load}, right by luck"
COUNT_NEAR = "{wrong} for the {load}, near {right} by luck"
COUNT_WRONG = "{wrong} for the {load}, where {right} hold it"

WAY_STEPS_LEFT_OUT = {
    "meet", "path", "ask", "gain", "beam", "pay", "pay-hand", "work", "wrong", "really", "still", "tilt", "recap",
    "twist", "answer", "where", "room",
}  # fmt: skip
ELSEWHERE = {  # a rig of the shelf where the method works
    "count": "planter", "free-body": "planter", "carry": "burton-heavy", "rope-length": "planter",
    "work": "planter", "stages": "luff-upon-luff", "newton": "atwood",
}  # fmt: skip

REASONS = {
    "pull": "{a rope} over free wheels pulls alike all along",
    "balance": "{parts}: no speeding up, so up equals down",
    "newton": "{parts}: what is left over speeds it up",
    "length": "{a rope} keeps its length",
    "support": "{parts} stays where it is",
    "effort": "From {cited}",
    "load": "From {cited}",
    "advantage": "Mechanical advantage: load over pull",
    "haul": "Rope that comes to the hand",
    "work": "Work in, work out",
    "acceleration": "From {cited}",
}

CHECKS = {
    "forces": "Forces on {parts}",
    "whole": "The whole rig from outside",
    "sheave": "Pull on both sides of {parts}",
    "length": "Length of {parts}, by moving its strands",
    "work": "Work in less work out, for a metre of rope",
    "formulas": "Numbers against their formulas",
}
WAYS = {"ideal": "Perfect", "raising": "Raising", "lowering": "Lowering", "holding": "Holding"}

TAKEN = "The ropes neither stretch nor weigh."
TAKEN_WHEELS = "Wheels turn freely."
TAKEN_LOSS = "Worked for perfect wheels; the losses of the file come in under “If you try it”."
TAKEN_STILL = "Nothing speeds up."
TAKEN_FIXED = "The weight of a fixed part is left out where the file gives none."
