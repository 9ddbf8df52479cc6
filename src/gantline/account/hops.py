"""The way of a pull from the hand to the load: body by body, each handing on to the next rope."""

from collections import Counter

from msgspec import Struct

from .facts import Body, Facts


class Hop(Struct, frozen=True):
    """A body on the way. `known` ropes pull it up (positive) or down so many times; `onto` is the rope it hands on to,
    which pulls it `turns` times, up where `above`. The last body hands on to none."""

    body: Body
    known: tuple[tuple[str, int], ...]
    onto: str = ""
    turns: int = 0
    above: bool = False


def pulls_on(body: Body) -> dict[str, int]:
    """How often each rope pulls a body up, less how often down."""
    found: Counter[str] = Counter()
    for strand in body.up:
        found[strand.rope] += 1
    for strand in body.down:
        found[strand.rope] -= 1
    return {rope: found[rope] for rope in body.ropes}


def hops(facts: Facts) -> tuple[Hop, ...] | None:
    """From the rope in the hand to the body asked about, None where the ropes do not lead there one by one."""
    if facts.hand_rope is None or facts.aim is None:
        return None
    known = {facts.hand_rope.name}
    waiting = [body for body in facts.bodies if body != facts.aim]
    found: list[Hop] = []
    while not set(facts.aim.ropes) <= known:
        step = next(((body, rope) for body in waiting if (rope := _next_rope(body, known))), None)
        if step is None:
            return None
        body, onto = step
        pulls = pulls_on(body)
        if pulls[onto] == 0:
            return None
        before = tuple((rope, times) for rope, times in pulls.items() if rope in known)
        found.append(Hop(body, before, onto, abs(pulls[onto]), pulls[onto] > 0))
        known.add(onto)
        waiting.remove(body)
    last = Hop(facts.aim, tuple(pulls_on(facts.aim).items()))
    return (*found, last) if not waiting else None


def _next_rope(body: Body, known: set[str]) -> str | None:
    """The one rope at a body that is not known yet, where some other there is."""
    unknown = [rope for rope in body.ropes if rope not in known]
    return unknown[0] if len(unknown) == 1 and len(body.ropes) > 1 else None
