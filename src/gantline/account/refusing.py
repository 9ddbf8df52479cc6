"""Why a method will not do for a rig: one sentence that points at a part of it."""

from msgspec import Struct

from .account import Refusal
from .facts import Facts
from .phrases import en
from .writing import fill, nouns


class Yes(Struct, frozen=True):
    """A method will do. `half` is set where it says only one side of the matter: how far, but not how hard."""

    half: bool = False


def no(facts: Facts, method: str, reason: str) -> Refusal:
    """The refusal for a reason, with the parts that stop the method."""
    parts = _point(facts, reason)
    names = nouns(facts)
    words = {"part": names[parts[0]].the, "other": names[parts[-1]].the, "n": en.count(len(parts))}
    words["heavy"] = next((names[s.block].the for s in facts.heavy_sheaves), "")
    say = en.REFUSALS.get(method, {}).get(reason) or en.REFUSALS["any"][reason]
    return Refusal(method, en.METHOD_NAMES[method], fill(say, words, names, facts.load), parts)


def unless_at_rest(facts: Facts, method: str) -> Refusal | None:
    """The refusal of a method that needs a rig at rest by its pulls alone, None where it is."""
    if facts.answer.status != "holds":
        return no(facts, method, facts.answer.status)
    return no(facts, method, "friction") if facts.held else None


def _point(facts: Facts, reason: str) -> tuple[str, ...]:
    """The parts a refusal is about, one at least."""
    rig = facts.rig
    if reason == "freedoms":
        return tuple(dict.fromkeys((facts.load, *(body.parts[-1] for body in facts.bodies))))
    if reason in ("impossible", "slack", "indeterminate"):
        found = facts.answer.finding
        known = {part.name for part in rig.parts}
        parts = tuple(p for p in ((found.at,) if found.at else ()) + found.parts if p in known)
        return parts or (facts.load,)
    return (facts.load,)
