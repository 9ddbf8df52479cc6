"""The demonstration step by step."""

from fractions import Fraction

from gantline.rig import Contact, Rope

from .plan import Plan, Reading
from .scales import Held
from .words import fixed, kilograms, listed, metres

PEEK = Fraction(2, 100)  # how far to lift first, and wait


def steps(plan: Plan) -> tuple[str, ...]:
    """What to do, in order."""
    return (
        "Clamp the stand, lay the pad under its hook, and keep everyone out of where the load could fall or swing.",
        f"Reeve as the figure is numbered: {_reeved(plan)}. Take the turns out of the cord first.",
        "Tape the marks on with the masses standing on the pad and the rope just taut.",
        _scale(plan.choice.held),
        f"Say {kilograms(plan.choice.hung.mass)} aloud, hang them, lift {metres(PEEK)}, wait, and look at every knot.",
        f"Haul slowly and evenly, {metres(plan.haul)} in all, for {metres(plan.rise)}. Read while it moves: "
        f"{_expect(plan, 'raising')}.",
        f"Let down hand over hand at the same pace, and read: {_expect(plan, 'lowering')}. Do both three times.",
        "Measure how far each mark has moved, and set the masses back on the pad before anything is untied.",
    )


def _reeved(plan: Plan) -> str:
    return listed(_path(rope, len(plan.rig.ropes)) for rope in plan.rig.ropes)


def _path(rope: Rope, ropes: int) -> str:
    name = f"{rope.name}: " if ropes > 1 else ""
    return name + ", ".join(_contact(contact) for contact in rope.contacts)


def _contact(contact: Contact) -> str:
    if contact.part == "hand":
        return "your hand"
    return f"{contact.side} {contact.name}" if contact.sheave else f"made fast to {contact.part}"


def _scale(held: Held) -> str:
    name = held.scale.name
    match held.way:
        case "tared":
            return f"Hold {name} as it will be pulled, and set it to zero so."
        case "up":
            return f"Hang {name} up empty, hook down, and set it to zero."
        case "case":
            return f"Hang {name} up empty, hook down, and set it to zero; then turn it over and hook it to the rope."
        case _:
            return f"Hang {name} up empty, hook down, and set it to zero; then tie its ring to the rope."


def _expect(plan: Plan, way: str) -> str:
    reading = next((each for each in plan.readings if each.way == way), None)
    return "it will not run back by itself" if reading is None else _shown(plan, reading)


def _shown(plan: Plan, reading: Reading) -> str:
    low, high = map(plan.choice.held.marked, reading.shows)
    return f"{fixed(low)} to {fixed(high)}\u00a0{plan.choice.held.unit}"
