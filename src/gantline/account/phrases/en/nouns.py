"""English names for the roles parts play."""

from msgspec import Struct

from ...naming import KINDS_OF_LOAD, Role
from .words import article, count, joined, ordinal

# Stuff that is not counted: "a load of flour", afterwards "the load".
_STUFF = frozenset((
    "flour", "sand", "water", "coal", "grain", "hay", "straw", "gravel", "cement", "furniture", "timber", "wood",
    "luggage", "ballast", "cargo", "freight", "equipment", "wheat", "corn", "rice", "salt", "sugar", "oil", "paint",
    "oats", "barley", "stone", "iron", "steel", "lead", "earth", "soil", "snow", "ice", "mud", "milk", "beer",
    "wine", "tar", "peat", "firewood", "brick", "rubble", "machinery", "gear", "kit", "stuff",
))  # fmt: skip
# Fixed things a wheel is hung on, rather than words for where it is.
_THINGS = frozenset((
    "ring", "beam", "hook", "rafter", "girder", "post", "davit", "bracket", "branch", "pole", "tree", "boom", "arm",
    "jib", "gantry",
))  # fmt: skip


class Noun(Struct, frozen=True):
    """A name in its forms: first mention, afterwards, and as a load's own (its wheel)."""

    a: str
    the: str
    its: str = ""
    kind: str = ""  # the kind of role it names

    @property
    def bare(self) -> str:
        return self.the.removeprefix("the ")


def noun(role: Role, alone: bool, of: "Noun | None" = None, stays: bool = False) -> Noun:
    """The noun for a role. `alone` says that no other load, or moving wheel or block, could be meant; `stays` that
    there are wheels which stay, so that the one that moves has to be told from them."""
    found = _noun(role, alone, of, stays)
    return Noun(found.a, found.the, found.its, role.kind)


def _noun(role: Role, alone: bool, of: "Noun | None", stays: bool) -> Noun:
    match role.kind:
        case "you":
            return Noun("you", "you", "your")
        case "load":
            return _load(role, alone)
        case "own":
            return _own(role, alone, of, stays)
        case "runner" | "flyer" | "loose" | "hanging" | "middle":
            return _mover(role)
        case _:
            return _fixed(role)


def _load(role: Role, alone: bool) -> Noun:
    if not role.name:
        return _numbered("load", role.place)
    if role.name in KINDS_OF_LOAD:
        return Noun(f"a {role.name} load", f"the {role.name} load")
    if role.name in _STUFF or (role.name.endswith("s") and not role.name.endswith("ss")):
        return Noun(f"a load of {role.name}", "the load") if alone else Noun(role.name, f"the {role.name}")
    return Noun(f"{article(role.name)} {role.name}", f"the {role.name}")


def _own(role: Role, alone: bool, of: Noun | None, stays: bool) -> Noun:
    thing = "wheel" if role.wheels == 1 else "block" if role.wheels else "hook"
    first = {1: "a single wheel", 0: "a hook"}.get(role.wheels, f"a block with {count(role.wheels)} wheels")
    if role.name:
        return Noun(first, f"the {role.name} {thing}", f"its {thing}")
    if role.place:
        return Noun(
            first, f"the {of.bare if of else ''}'s {ordinal(role.place)} {thing}", f"its {ordinal(role.place)} {thing}"
        )
    return Noun(
        first,
        f"the {'moving ' if stays else ''}{thing}" if alone else f"the {of.bare if of else 'load'}'s {thing}",
        f"its {thing}",
    )


def _mover(role: Role) -> Noun:
    things = {"flyer": "flying block", "loose": "loose block", "hanging": "hanging wheel", "middle": "middle block"}
    thing = things.get(role.kind, role.kind)
    if role.kind == "hanging" and role.wheels != 1:
        thing = "hanging block"
    return _numbered(thing, role.place)


def _numbered(thing: str, place: int) -> Noun:
    if not place:
        return Noun(f"{article(thing)} {thing}", f"the {thing}")
    return Noun(f"the {ordinal(place)} {thing}", f"the {ordinal(place)} {thing}")


def _fixed(role: Role) -> Noun:
    """A place to make fast, a wheel or a block that stays."""
    which = f"{ordinal(role.place)} " if role.place else ""
    if role.kind == "anchor":
        name = role.name or ("floor ring" if role.below else "beam")
        return Noun(f"{article(which or name)} {which}{name}", f"the {which}{name}")
    thing = "wheel" if role.kind == "wheel" else "block"
    where = role.name or ("floor" if role.below else "fixed")
    if role.name in _THINGS:
        return Noun(f"{article(which or thing)} {which}{thing} at the {where}", f"the {which}{thing} at the {where}")
    first = f"{article(which or where)} {which}{where} {thing}"
    if role.kind == "block" and role.wheels:
        first += f" with {count(role.wheels)} wheels"
    return Noun(first, f"the {which}{where} {thing}")


def wheel(index: int, block: Noun, of: int) -> str:
    """One wheel of a block: the block itself where it has no other."""
    return block.the if of == 1 else f"wheel {index} of {block.the}"


_ROPE_WORDS = frozenset((
    "long", "short", "first", "second", "third", "fourth", "upper", "lower", "middle", "high", "low", "left",
    "right", "inner", "outer", "main",
))  # fmt: skip


def rope_nouns(names: list[str], in_hand: str | None) -> dict[str, Noun]:
    """Ropes by the file's words where all of those are plain, else the hand's as yours and the others counted."""
    if len(names) == 1:
        return {names[0]: Noun("one rope", "the rope")}
    if set(names) <= _ROPE_WORDS:
        return {name: Noun(f"a {name} rope", f"the {name} rope") for name in names}
    others = [name for name in names if name != in_hand]
    found = {name: Noun("another rope", f"the {ordinal(n)} rope") for n, name in enumerate(others, 1)}
    if len(others) == 1:
        found = {others[0]: Noun("another rope", "the other rope")}
    return found | ({in_hand: Noun("a rope in your hand", "your rope")} if in_hand else {})


def pulls(found: list[tuple[Noun, int]]) -> str:
    """Ropes with how often each pulls: the long rope, and the short rope twice."""
    said = [
        f"{rope.the}{'' if times == 1 else ' twice' if times == 2 else f' {count(times)} times'}"
        for rope, times in found
    ]
    return joined(said) if said else "nothing"


def motions(found: list[tuple[Noun, bool, str]]) -> str:
    """What other bodies do, three of them at most: the sack sinks at 5.6, and the bag rises at 11.2; one without a
    speed of its own goes as fast as the one before."""
    said = [
        f"{body.the} {'rises' if up else 'sinks'} {f'at {speed}' if speed else 'just as fast'}"
        for body, up, speed in found[:3]
    ]
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])}, and {said[-1]}"
