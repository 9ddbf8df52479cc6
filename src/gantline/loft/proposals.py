"""What would have to change where a rig has no answer: every proposal is solved before it is made."""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from math import floor, log10
from typing import Any

from msgspec import Struct

from gantline import api
from gantline.mechanics import Answer, Counted, contradiction
from gantline.notation import parse
from gantline.output import mathml
from gantline.output.record import written
from gantline.quantity import UNITS
from gantline.rig import Given, Part, Rig, read

from .answering import result
from .asked import WhatIf
from .making import GIVEN, edit
from .reading import Reading, changed

MOST = 4  # proposals that are shown
TRIED = 16  # that are solved at most
LARGE = 64  # sheaves past which nothing is proposed: each try would take too long
_PLACES = 7  # decimals from which a fraction is plainer
LONG = 12  # characters of a value past which it is no proposal
STEP = Fraction(10)  # N, by which a weight is changed to see what a pull does


class Proposal(Struct, frozen=True):
    """`words` name it; it is a value to try (`what_if`), or a change of the build (`action`, for an edit)."""

    words: str
    what_if: WhatIf = {}
    action: dict[str, Any] | None = None


def proposals(reading: Reading, what_if: WhatIf) -> list[dict[str, Any]]:
    """At most MOST changes after which the rig holds, each with what then comes of it; and what helps no more than it
    was, where a learner is sure to think of it. Empty where there is an answer."""
    if reading.answer.status in ("holds", "accelerates") or len(reading.rig.sheaves) > LARGE:
        return []
    found, vain = [], []
    for proposal, _ in zip(_thought_of(reading), range(TRIED), strict=False):
        tried = _solved(reading.text, {**what_if, **proposal.what_if}, proposal.action)
        if tried is not None and tried[1].status == "holds":
            found.append(_record(proposal, *tried))
        elif tried is not None and proposal.action and proposal.action["how"] == "from-floor":
            vain.append({**_record(proposal, *tried), "then": "", "spoken": "still none", "helps": False})
    return [*found[:MOST], *vain[:1]]


def _record(proposal: Proposal, rig: Rig, answer: Answer) -> dict[str, Any]:
    equation = result(rig, answer)
    then, spoken = (str(mathml.write(equation)), written(equation)) if equation else ("", "it holds")
    return {
        "words": proposal.words, "what_if": proposal.what_if, "action": proposal.action, "helps": True, "then": then,
        "spoken": spoken,
    }  # fmt: skip


def _solved(text: str, what_if: WhatIf, action: dict[str, Any] | None) -> tuple[Rig, Answer] | None:
    """The rig as it would be, None where it would not even read."""
    if action:
        done = edit(text, action)
        if done.refused:
            return None
        text = done.text
    tree, problems = parse(text)
    rig, problems = read(tree, problems)
    rig = changed(tree, rig, what_if) if rig else None
    return (rig, api.solve(rig).answer) if rig else None


# -- what one thinks of -------------------------------------------------------------------------------------------


def _thought_of(reading: Reading) -> Iterator[Proposal]:
    rig, answer = reading.rig, reading.answer
    if answer.status == "impossible":
        clash = contradiction(rig)
        yield from _balanced(rig, clash)
        yield from _rebuilt(rig, clash)
    elif answer.status == "slack":
        yield from _outweighed(reading)
    else:
        yield from _settled(rig, answer)


def _balanced(rig: Rig, clash: tuple[Counted, ...]) -> Iterator[Proposal]:
    """The weight of one part with which the balances agree."""
    total = sum((one.times * one.weight for one in clash), Fraction(0))
    for one in clash:
        yield from _weighing(rig, one.part, one.weight - total / one.times)


def _rebuilt(rig: Rig, clash: tuple[Counted, ...]) -> Iterator[Proposal]:
    names = list(dict.fromkeys([one.part for one in clash] + [rig.bearer(one.part) for one in clash]))
    blocks = [part for part in rig.moving if part.name in names]
    for part in blocks:
        if not part.carries:
            tied = any(part.name in (rope.contacts[0].part, rope.contacts[-1].part) for rope in rig.ropes)
            ends = " and its end of the rope" if tied else ""
            yield _build(f"Make {part.name}{ends} fast aloft", "fixed", part.name)
    for part in blocks:
        if part.sheaves:
            wheels = "wheel" if len(part.sheaves) == 1 else "wheels"
            yield _build(f"Hang the {wheels} of {part.name} from the beam", "wheel-aloft", part.name)
    if rig.hand and rig.hand.rides:
        yield _build("Haul from the floor", "from-floor", rig.hand.rides)


def _settled(rig: Rig, answer: Answer) -> Iterator[Proposal]:
    if rig.effort is not None:
        yield _build("Leave the pull to be found", "asked-pull", "")
    concerned = {name.partition(":")[0] for name in answer.finding.parts}
    for rope in rig.ropes:
        if rope.name in concerned:
            yield _build(f"Take rope {rope.name} away", "without", rope.name)
    for part in rig.movers:
        if part.name in answer.finding.parts and part.weight is None and part.mass is None:
            yield _build(f"Let {part.name} weigh {GIVEN}", "told-weight", part.name)


def _build(words: str, how: str, part: str) -> Proposal:
    return Proposal(words, action={"do": "mend", "how": how, "part": part})


# -- values ---------------------------------------------------------------------------------------------------------


def _outweighed(reading: Reading) -> Iterator[Proposal]:
    """For each weight a round one on the side of it where the slack rope pulls."""
    rig, strand = reading.rig, reading.answer.finding.parts[0]
    before = reading.answer.ideal.tension(strand)
    for part in rig.movers:
        weight = _weight(rig, part)
        given = part.weight or part.mass
        if not weight or given is None or before is None or before.number is None:
            continue
        value = _value(rig, given, weight + STEP)
        tried = _solved(reading.text, {f"{part.name}.{_key(part)}": value}, None) if value else None
        after = tried[1].ideal.tension(strand) if tried else None
        if after is None or after.number is None or after.number == before.number:
            continue
        even = weight - before.number * STEP / (after.number - before.number)  # where it just hangs taut
        if even > 0:
            yield from _weighing(rig, part.name, _past(even, up=even > weight))


def _weighing(rig: Rig, name: str, weight: Fraction) -> Iterator[Proposal]:
    """A part with another weight (N), in the unit and by the word that the file uses; nothing where it cannot be."""
    part = rig.part(name)
    given = part.weight or part.mass
    value = _value(rig, given, weight) if given and given.number is not None and weight > 0 else ""
    if value:
        verb = "weigh" if part.weight else "have a mass of"
        yield Proposal(f"Let {name} {verb} {value}", {f"{name}.{_key(part)}": value})


def _key(part: Part) -> str:
    return "weight" if part.weight else "mass"


def _weight(rig: Rig, part: Part) -> Fraction | None:
    """The weight given of a part, N."""
    given = part.weight or part.mass
    if given is None or given.number is None:
        return None
    gravity = rig.gravity.number
    return given.number if given.kind == "force" else given.number * gravity if gravity else None


def _value(rig: Rig, given: Given, weight: Fraction) -> str:
    """A weight as the file would write it, exactly: `90 N`, `4/3 kg`; empty where that is too long."""
    gravity = rig.gravity.number
    if given.kind == "mass" and not gravity:
        return ""
    number = (weight / gravity if given.kind == "mass" and gravity else weight) / UNITS[given.unit].factor
    places = next((n for n in range(_PLACES) if (number * 10**n).denominator == 1), None)
    text = str(number) if places is None else str(Decimal(int(number * 10**places)).scaleb(-places))
    return f"{text} {given.unit}" if len(text) <= LONG else ""


def _past(even: Fraction, up: bool) -> Fraction:
    """A tenth past a weight, up or down, and on to two figures."""
    weight = even * (Fraction(11, 10) if up else Fraction(9, 10))
    step = Fraction(10) ** (floor(log10(weight)) - 1)
    return -(-weight // step) * step if up else weight // step * step
