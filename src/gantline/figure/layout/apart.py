"""Which things of a figure must keep clear of each other, and by how much."""

from .across import GAP, STRAND_GAP, Across, Thing
from .comb import evaluate

Pair = tuple[int, int, float]
TOUCH = 1e-6


def pairs(made: Across) -> list[Pair]:
    """Every two things that share a height and do not belong together, with the gap they need."""
    found = []
    order = sorted(range(len(made.things)), key=lambda n: made.things[n].top)
    for place, a in enumerate(order):
        one = made.things[a]
        for b in order[place + 1 :]:
            other = made.things[b]
            if other.top > one.bottom - TOUCH:
                break
            if not _together(one, other):
                found.append((a, b, STRAND_GAP if one.kind == other.kind == "strand" else GAP))
    return found


def _together(one: Thing, other: Thing) -> bool:
    if one.strands & other.strands and one.kind != "run" and other.kind != "run":
        return True
    if "run" in (one.kind, other.kind):
        return bool(one.strands & other.strands)
    return one.body == other.body >= 0 and {one.kind, other.kind} in ({"bar", "load"}, {"rod", "load"}, {"bar", "rod"})


def worst(made: Across, values: list[float], among: list[Pair]) -> tuple[Pair, float] | None:
    """The pair that overlaps most, and which of the two is further left (negative: the first); None if none does."""
    extents = [(evaluate(thing.left, values), evaluate(thing.right, values)) for thing in made.things]
    found, amount = None, TOUCH
    for pair in among:
        (left_a, right_a), (left_b, right_b) = extents[pair[0]], extents[pair[1]]
        overlap = min(right_a - left_b, right_b - left_a) + pair[2]
        if overlap > amount:
            amount = overlap
            found = (pair, left_a + right_a - left_b - right_b)
    return found
