"""What each part is called, by the role it plays: two parts never share a role, and so never a name."""

import re
from typing import Literal

from msgspec import Struct

from gantline.rig import Fixed, Moving

from .facts import Facts

RoleKind = Literal["load", "own", "runner", "flyer", "loose", "hanging", "middle", "block", "wheel", "anchor", "you"]

# Words a file likes as names that say where a thing is, or nothing, and so are no nouns for the ear.
_NOT_NOUNS = frozenset((
    "load", "weight", "mass", "body", "thing", "object", "item", "part", "low", "high", "top", "upper", "lower",
    "left", "right", "first", "second", "third", "middle", "centre", "center", "heavy", "light", "big", "small",
    "bottom", "above", "below", "inner", "outer", "main", "aux", "tmp", "test", "foo", "bar", "baz",
))  # fmt: skip

# Names that tell one load from another without being nouns: "the heavy load".
KINDS_OF_LOAD = frozenset((
    "heavy", "light", "big", "small", "left", "right", "upper", "lower", "first", "second", "third",
))  # fmt: skip


# Words that say where a wheel or a block is: "the upper block", "the lower wheel".
_PLACES = frozenset((
    "top", "upper", "lower", "high", "low", "left", "right", "first", "second", "third", "middle", "outer", "inner",
    "bottom",
))  # fmt: skip


class Role(Struct, frozen=True):
    """A part's role. `name` is the file's name where it is a plain noun; `place` counts within the kind from 1 (0: the
    only one); `wheels` are its sheaves; `of` names the load a block belongs to; `below` says that ropes pull it up."""

    kind: RoleKind
    name: str = ""
    place: int = 0
    wheels: int = 0
    of: str = ""
    below: bool = False


def plain_noun(name: str) -> bool:
    """Whether a file's name may be spoken as it stands: a plain lower-case word that can be read aloud."""
    word = name.lower()
    if not re.fullmatch(r"[a-z]{3,16}", word) or word in _NOT_NOUNS:
        return False
    return bool(re.search(r"[aeiouy]", word)) and not re.search(r"[^aeiouy]{5}", word)


def roles(facts: Facts) -> dict[str, Role]:
    """The role of every part, and of the hand."""
    found: dict[str, Role] = {"hand": Role("you")}
    found |= _loads(facts)
    found |= _moving(facts, found)
    found |= _fixed(facts)
    return found


def _loads(facts: Facts) -> dict[str, Role]:
    """Loads go by their own names; those without a speakable one are counted."""
    bare = [load.name for load in facts.rig.loads if not plain_noun(load.name) and load.name not in KINDS_OF_LOAD]
    return {
        load.name: Role("load", load.name.lower())
        if load.name not in bare
        else Role("load", place=bare.index(load.name) + 1 if len(bare) > 1 else 0)
        for load in facts.rig.loads
    }


def _moving(facts: Facts, loads: dict[str, Role]) -> dict[str, Role]:
    """A block that carries a load is that load's own; the others are named by what they do as the load rises."""
    found: dict[str, Role] = {}
    kinds: dict[str, RoleKind] = {block.name: _kind(facts, block) for block in facts.rig.moving}
    if any(kind == "runner" for kind in kinds.values()):
        kinds |= {name: "runner" for name, kind in kinds.items() if kind == "own" and _is_runner(facts, name)}
    owners = {block.name: block.carries[0] if block.carries else "" for block in facts.rig.moving}
    alike = {name: (kind, owners[name] if kind == "own" else "") for name, kind in kinds.items()}
    for kind, owner in dict.fromkeys(alike.values()):
        names = _from_the_load(facts, [name for name, other in alike.items() if other == (kind, owner)])
        for place, name in enumerate(names, 1):
            block = facts.rig.part(name)
            assert isinstance(block, Moving)
            of = owners[name]
            where = name.lower() if kind == "own" and _says_where(facts, block) else ""
            found[name] = Role(kind, where, 0 if where or len(names) == 1 else place, len(block.sheaves), of)
    return found


def _says_where(facts: Facts, block: Moving) -> bool:
    """Whether a block that carries a load has a name of place that no other part could be meant by."""
    names = [part.name.lower() for part in facts.rig.parts]
    return block.name.lower() in _PLACES and names.count(block.name.lower()) == 1 and bool(block.sheaves)


def _kind(facts: Facts, block: Moving) -> RoleKind:
    if block.carries:
        return "own"
    if facts.rig.hand is None or facts.answer.status == "accelerates":
        return "hanging"
    if _hauls_the_first(facts, block):
        return "loose"
    if facts.sinks(block) or (facts.rise(block.name) is None and _carried_over(facts, block)):
        return "flyer"
    return "runner" if len(block.sheaves) == 1 else "middle"


def _carried_over(facts: Facts, block: Moving) -> bool:
    """Whether ropes run over its wheels only, and so pull it down."""
    sides = [c.side for rope in facts.rig.ropes for c in rope.contacts if c.sheave and c.sheave.block == block.name]
    return bool(sides) and set(sides) == {"over"}


def _is_runner(facts: Facts, name: str) -> bool:
    block = facts.rig.part(name)
    return isinstance(block, Moving) and len(block.sheaves) == 1


def _hauls_the_first(facts: Facts, block: Moving) -> bool:
    """Whether a block sits between two tackles: it sinks, and the rope in the hand does not reach the load."""
    reaches = facts.aim is not None and facts.hand_rope is not None and facts.hand_rope.name in facts.aim.ropes
    return facts.sinks(block) and not reaches


def _from_the_load(facts: Facts, names: list[str]) -> list[str]:
    """Blocks in the order in which their ropes lead away from the load."""
    seen = [facts.aim.name] if facts.aim else []
    reached = list(seen)
    while True:
        ropes = {s.rope for part in reached for s in facts.strands_at(part)}
        more = [
            b.name
            for b in facts.rig.moving
            if b.name not in reached and {s.rope for s in facts.strands_at(b.name)} & ropes
        ]
        if not more:
            break
        reached += more
    return sorted(names, key=lambda name: reached.index(name) if name in reached else len(reached))


def _fixed(facts: Facts) -> dict[str, Role]:
    """Fixed parts: a wheel, a block, or a place where a rope is made fast; above, or below where ropes pull it up."""
    found: dict[str, Role] = {}
    for part in facts.rig.fixed:
        kind: RoleKind = "anchor" if not part.sheaves else "wheel" if len(part.sheaves) == 1 else "block"
        name = part.name.lower() if re.fullmatch(r"[a-z]{3,12}", part.name.lower()) else ""
        found[part.name] = Role(kind, name, wheels=len(part.sheaves), below=_pulled_up(facts, part))
    alike: dict[tuple[str, str, bool], list[str]] = {}
    for key, role in found.items():
        alike.setdefault((role.kind, _sound(role), role.below), []).append(key)
    for names in alike.values():
        for place, key in enumerate(names, 1):
            role = found[key]
            found[key] = Role(role.kind, _sound(role), place if len(names) > 1 else 0, role.wheels, "", role.below)
    return found


def _sound(role: Role) -> str:
    """A fixed part's own name where a listener can use it: a noun, or for wheels and blocks a word of place."""
    return role.name if plain_noun(role.name) or (role.name in _PLACES and role.kind != "anchor") else ""


def _pulled_up(facts: Facts, part: Fixed) -> bool:
    support = next((s for s in facts.ideal.supports if s.name == part.name), None)
    if support is not None and support.force is not None and support.force.number is not None:
        return support.force.number < 0
    return False
