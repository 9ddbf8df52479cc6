"""What is said while a rig is made: tags, spoken names of places, and the sentences of the live line."""

from .sketch import Going

_ORDER = ("First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth", "Ninth", "Tenth")
RIDER = "Someone who rides on it: a thought example only. Never try it with a person."
LEVEL = "a level run: it turns the rope and lifts nothing"


def counted(number: int, thing: str) -> str:
    return f"{number} {thing}{'' if number == 1 else 's'}"


def ordinal(number: int) -> str:
    """The first ten in words, then 11th as "Contact 11"."""
    return f"{_ORDER[number - 1]} contact" if number <= len(_ORDER) else f"Contact {number}"


def fastened(contact: str) -> str:
    """A contact of a rope already led, as it is told: made fast to upper, over upper.1, hand."""
    return contact if contact.startswith(("over ", "under ", "hand")) else f"made fast to {contact}"


def question(number: int, last: str, going: Going | None) -> str:
    """What is asked above the plate."""
    if not last:
        return "Where is the rope made fast?"
    came = {"up": f"The rope comes up from {last}.", "down": f"The rope comes down from {last}."}[going or "down"]
    return f"{ordinal(number)}. {came} Where next?"


def why_these(going: Going | None) -> str:
    """Why these places are offered and not others."""
    if going is None:
        return "A rope begins where it is made fast: aloft, at a load, or at a block."
    if going == "up":
        return "A rope coming up can turn over a wheel aloft, be made fast there, or be hauled up."
    return "A rope coming down can turn under a wheel below, be made fast there, or be hauled down."


def taken(block: str, sheave: str, rope: str) -> str:
    """Why a wheel is not offered: it has a rope."""
    return f"{sheave} already carries {rope}. A groove takes one rope: add a sheave to {block}, or take back to here."


def not_from_here(name: str, going: Going | None) -> str:
    """Why a place is not offered, whatever it is."""
    if going is None:
        return f"{name} cannot hold the end of a rope here."
    turn = "over" if going == "up" else "under"
    return f"A rope going {going} cannot reach {name} from here; it turns {turn} a free wheel, or ends."
