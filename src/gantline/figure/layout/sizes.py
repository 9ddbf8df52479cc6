"""Sizes that layout and glyphs share, in units of one sheave radius."""

BAR_TO_AXLE = 0.42  # from the line of the bar to the rim of the largest wheel on it
BEAM_TO_BAR = 1.33
EYE = 0.42  # from the line of the bar to a pin on its other side
BAR_TO_RING = 1.35  # down to the ring of the load on the hook
LOAD_TOP, LOAD_HEIGHT, LOAD_HALF = 0.25, 1.75, 1.0  # from the ring of a load
LOAD_PITCH = 2.35  # from one load's ring to the next one's under it
SEAT_DEPTH = 5.25  # from a rider's ring to below the words under the soles
GRIP_DEPTH = 1.05  # from a rider's ring to the hand on the rope
CLEAR, CLEAR_MOVING = 2.6, 2.2  # rope in sight between rims; the second between two moving bodies
HAND_BELOW, HAND_ABOVE, HAND_SHORT = 4.6, 5.2, 2.6
HAND_ROOF = 1.7  # no hand above this
HAND_LEFT, HAND_RIGHT, HAND_HIGH = 0.6, 1.75, 1.1
OVERHANG = 0.7  # of beam and floor past the last thing they hold
SPREAD = 3.2  # largest radius on the page
LEVEL_GAP = 2.0  # between the rims of two wheels joined by a level run


def load_depth(loads: int, rider: bool) -> float:
    """From the first load's ring to the lowest edge of what hangs."""
    if not loads:
        return 0.3
    last = SEAT_DEPTH if rider else LOAD_TOP + LOAD_HEIGHT
    return (loads - 1) * LOAD_PITCH + last
