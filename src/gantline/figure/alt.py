"""What a figure shows, in words, for those who do not see it: in reading order along each rope."""

from fractions import Fraction
from math import degrees

from gantline.mechanics import Answer, steady
from gantline.quantity import numeral, tenths
from gantline.rig import Contact, Fixed, Given, Moving, Rig, Rope, shown_unit

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")

# What each view adds to the rig, and what it adds that tells the answer.
SHOWS: dict[str, tuple[str, str]] = {
    "bare": ("", ""),
    "labelled": ("Each strand is labelled with its pull.", "pulls"),
    "numbered": ("Each strand has a number, counted from the standing end.", ""),
    "cut": ("A dashed line is drawn round what is held, and the strands that cross it are numbered.", "count"),
    "count": ("A dashed line is drawn round what is held, and the strands that cross it are numbered.", "count"),
    "free-body": ("Every part is drawn alone, with the forces on it as arrows to one scale.", "pulls"),
    "displacement": ("Two places are drawn over each other, with the ways of load and hand to scale.", "ways"),
    "tensions": ("Behind each strand a band shows its pull.", "pulls"),
    "motion": ("Three states stand side by side, with paint marks on the rope and a dot on each wheel.", "ways"),
    "as-built": ("Beside it the same rig stands as it is built, its wheels side by side on their axles.", ""),
    "tried": ("With perfect wheels at the left and as it is really seen at the right, at true tilt.", "tilts"),
    "tip": ("The moving block hangs at the tilt that real wheels give it, against a level line.", "tilts"),
    "ask": ("A hollow dashed arrow stands at the hand: how large the pull is, is asked.", ""),
    "equal": ("The same letter stands at every strand of one rope.", ""),
    "balance": ("The pulls that cross the dashed line are stacked beside the weights, to one scale.", "pulls"),
    "solve": ("Each strand is labelled with its pull.", "pulls"),
    "gain": ("Load and pull stand side by side as arrows to one scale.", "pulls"),
    "work": ("Two bars compare the work put in with the work got out.", "work"),
    "units": ("Each strand is labelled with its pull in terms of the hand's.", ""),
    "newton": ("An open arrow beside each part shows how it speeds up.", "speeds"),
}


def describe(rig: Rig, answer: Answer, view: str, reveal: bool = True) -> str:
    """The alternative text of a view; with `reveal` False nothing of it gives the answer away.

    Raises KeyError for a view it does not know.
    """
    shown, told = SHOWS[view]
    sentences = [*_parts(rig), *(_rope(rig, rope) for rope in rig.ropes), shown]
    if reveal and told:
        sentences.append(_TELLS[told](rig, answer))
    return " ".join(sentence for sentence in sentences if sentence)


def _parts(rig: Rig) -> list[str]:
    found = []
    for part in rig.parts:
        if isinstance(part, Fixed):
            found.append(f"{part.name.capitalize()} is fixed{_wheels(len(part.sheaves))}.")
        elif isinstance(part, Moving):
            carries = f" and carries {_listed(part.carries)}" if part.carries else ""
            weight = _weight(rig, part.weight or part.mass)
            wheels = _wheels(len(part.sheaves))
            found.append(f"{part.name.capitalize()} is a moving block{wheels}{carries}{weight}.")
        else:
            found.append(f"{part.name.capitalize()} is a load{_weight(rig, part.weight or part.mass)}.")
    return found


def _wheels(count: int) -> str:
    return f", with {_number(count)} wheel{'' if count == 1 else 's'}" if count else ""


def _weight(rig: Rig, given: Given | None) -> str:
    if given is None:
        return ""
    verb = "mass" if given.kind == "mass" else "weight"
    if given.number is None:
        return f", {verb} {given.symbol}"
    return f", {verb} {_amount(rig, given)}"


def _amount(rig: Rig, given: Given) -> str:
    unit = "kg" if given.kind == "mass" else "N"
    shown = shown_unit(rig, unit)
    number = given.number or Fraction(0)
    return f"{numeral(number / shown.factor if shown else number)} {shown.name if shown else unit}"


def _rope(rig: Rig, rope: Rope) -> str:
    """The rope's way from one end to the other, in words."""
    first, *between, last = rope.contacts
    name = "The rope" if len(rig.ropes) == 1 else f"Rope {rope.name}"
    start = f"{name} begins at {_end(rig, first)}"
    turns = [f"goes {contact.side} {_contact(contact)}" for contact in between]
    finish = f"and ends in {_hand(rig)}" if last.part == "hand" else f"and ends at {last.part}"
    return ", ".join([start, *turns, finish]) + "."


def _end(rig: Rig, contact: Contact) -> str:
    return _hand(rig) if contact.part == "hand" else contact.part


def _hand(rig: Rig) -> str:
    return f"the hand of the person on {rig.hand.rides}" if rig.hand and rig.hand.rides else "the hand"


def _contact(contact: Contact) -> str:
    assert contact.sheave
    return f"wheel {contact.sheave.index} of {contact.sheave.block}"


def _pulls(rig: Rig, answer: Answer) -> str:
    if not answer.regimes:
        return ""
    found = []
    for rope in rig.ropes:
        pulls = [p.tension.number for p in answer.ideal.strands if p.rope == rope.name and p.tension]
        shown = dict.fromkeys(_newtons(rig, number) for number in pulls if number is not None)
        if shown:
            which = "each strand" if len(rig.ropes) == 1 else f"each strand of {rope.name}"
            found.append(f"With free wheels {which} pulls {' or '.join(shown)}.")
    return " ".join(found)


def _newtons(rig: Rig, number: Fraction) -> str:
    shown = shown_unit(rig, "N")
    return f"{numeral(number / shown.factor if shown else number)} {shown.name if shown else 'N'}"


def _ways(rig: Rig, answer: Answer) -> str:
    ratio = answer.velocity_ratio.number if answer.velocity_ratio else None
    return f"The hand takes up {numeral(abs(ratio))} times the way of the load." if ratio is not None else ""


def _count(rig: Rig, answer: Answer) -> str:
    ratio = answer.velocity_ratio.number if answer.velocity_ratio else None
    whole = ratio is not None and ratio.denominator == 1 and len(rig.ropes) == 1
    return f"{_number(int(abs(ratio))).capitalize()} strands hold it." if whole and ratio and ratio > 1 else ""


def _work(rig: Rig, answer: Answer) -> str:
    work = answer.ideal.work if answer.regimes else None
    if work is None or work.put_in is None or work.put_in.number is None or work.out.number is None:
        return ""
    return f"{numeral(work.put_in.number)} J are put in and {numeral(work.out.number)} J gained."


def _speeds(rig: Rig, answer: Answer) -> str:
    moving = [m for m in answer.ideal.motions if m.acceleration and m.acceleration.number] if answer.regimes else []
    words = []
    for motion in moving:
        number = motion.acceleration.number if motion.acceleration else None
        if number is not None:
            words.append(
                f"{motion.name} speeds up {'upward' if number > 0 else 'downward'} at {numeral(abs(number))} m/s2"
            )
    return ", ".join(words).capitalize() + "." if words else ""


def _tilts(rig: Rig, answer: Answer) -> str:
    """The steady tilt of every block that tips, raising."""
    found = steady(rig).raising
    tilts = found.tilt if found else {}
    said = []
    for name, tilt in tilts.items():
        angle, side = tenths(abs(degrees(tilt))), "right" if tilt > 0 else "left"
        said += [f"While raising, {name} tips {angle} degrees, its {side} side up."] if float(angle) else []
    return " ".join(said)


_TELLS = {"pulls": _pulls, "ways": _ways, "count": _count, "work": _work, "tilts": _tilts, "speeds": _speeds}


def _number(count: int) -> str:
    return NUMBERS[count] if count < len(NUMBERS) else str(count)


def _listed(names: tuple[str, ...]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
