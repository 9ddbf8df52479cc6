"""Why a method will not do for a rig: one sentence that points at a part of it."""

from msgspec import Struct

from gantline.mechanics import Value

from .account import Refusal, Step
from .facts import Facts
from .phrases import en
from .writing import Writer, fill, nouns
from .wrong import given


class Yes(Struct, frozen=True):
    """A method will do. `half` is set where it says only one side of the matter: how far, but not how hard."""

    half: bool = False


def no(facts: Facts, method: str, reason: str) -> Refusal:
    """The refusal for a reason, with the parts that stop the method, and what it would have said where it says that."""
    parts = _point(facts, reason)
    names = nouns(facts)
    own = en.REFUSALS.get(method, {})
    words = {"part": names[parts[0]].the, "other": names[parts[-1]].the, "n": en.count(len(parts))}
    words["ropes"] = en.things(len(_ropes(facts)), "rope", "ropes")
    would = _would(facts, method, reason) if f"{reason} said" in own else None
    if would is not None:
        said, right = would
        words["off"] = en.off(said.number, right.number) if said.number and right and right.number else ""
        say = _spoken(facts, method, fill(own[f"{reason} said"], words, names, facts.load), said, right)
    else:
        say = fill(own.get(reason) or en.REFUSALS["any"][reason], words, names, facts.load)
    return Refusal(method, en.METHOD_NAMES[method], say, parts)


def _ropes(facts: Facts) -> tuple[str, ...]:
    body = facts.body(facts.load)
    return body.ropes if body else ()


_WOULD = {"ropes": "M53", "several-ropes": "M53", "shared": "M07", "impossible": "M56", "indeterminate": "M55",
          "accelerates": "M39", "pulled": "M44"}  # fmt: skip


def _would(facts: Facts, method: str, reason: str) -> tuple[Value, Value | None] | None:
    """What a method would have said here, and what is true; None where it cannot be told, or is right by luck."""
    if reason == "slack":
        pull = facts.ideal.effort
        return (Value(-pull.number, "N", None), None) if pull and pull.number and pull.number < 0 else None
    return given(facts, _WOULD[reason]) if reason in _WOULD else None


def _spoken(facts: Facts, method: str, say: str, said: Value, right: Value | None) -> str:
    writer = Writer(facts, method)
    writer.tell(X=said, Y=right)
    if right is not None:
        writer.keep_apart("X", "Y")
    writer.steps.append(Step("no", "", say, "bare"))
    account = writer.account(None)
    return account.line(account.steps[0])


def unless_at_rest(facts: Facts, method: str) -> Refusal | None:
    """The refusal of a method that needs a rig at rest by its pulls alone, None where it is."""
    if facts.answer.status == "accelerates":
        return no(facts, method, "pulled" if facts.rig.effort else "accelerates")
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
        load = facts.body(facts.load)
        others = tuple(p for p in parts if load is None or p not in load.parts)
        return others or (facts.load,)
    return (facts.load,)
