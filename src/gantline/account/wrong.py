"""Wrong answers of a rig: what each named mistaken law gives here, which agree by luck, and the one to name."""

from collections.abc import Iterator
from fractions import Fraction

from msgspec.structs import replace

from gantline.mechanics import Answer, Value
from gantline.quantity import Formula, value
from gantline.rig import Rig

from .account import WrongAnswer
from .facts import Facts
from .phrases import en
from .writing import fill, nouns
from .wrong_rules import RULES, What, WrongRule

WRONG_RULES: dict[str, WrongRule] = {rule.id: rule for rule in RULES}
NEAR = Fraction(5, 100)  # answers closer than this cannot be told apart by a question
_UNITS = {"effort": "N", "load": "N", "haul": "m", "work": "J", "support": "N", "tension": "N", "acceleration": "m/s²"}


def wrong_answers(rig: Rig, answer: Answer) -> tuple[WrongAnswer, ...]:
    """Every rule that can be committed on this rig, those within 5 % told together under the most frequent.

    A rule that gives the right number, as near as a question can tell, is there too, marked as right by luck. Empty
    where the rig has a bare symbol.
    """
    facts = Facts(rig, answer)
    if not facts.numeric:
        return ()
    return _merged(list(_each(facts)))


def _each(facts: Facts) -> Iterator[WrongAnswer]:
    numbers = {symbol: known.number for symbol, known in facts.answer.givens if known.number is not None}
    names = nouns(facts)
    for rule in RULES:
        law = rule.law(facts)
        right = right_value(facts, rule.what)
        if law is None or right is None or right.number is None:
            continue
        number = value(law, numbers)
        lucky = _close(number, right.number, NEAR)
        says, look = en.WRONG[rule.id]
        say = fill(says, _words(facts), names, facts.load)
        yield WrongAnswer(rule.id, Value(number, _UNITS[rule.what], law), law, say, _parts(facts, look), (), lucky)


def _words(facts: Facts) -> dict[str, str]:
    count = len(facts.aim.up) if facts.aim else 0
    return {"n": en.count(count)}


def _parts(facts: Facts, look: str) -> tuple[str, ...]:
    """The parts to look at: the strands that hold the load, the hand, or the block that sinks."""
    strands = tuple(s.name for s in facts.aim.strands) if facts.aim else ()
    return {
        "strands": strands, "hand": ("hand",), "load": (facts.load,), "helper": facts.answer.helps,
        "supports": tuple(s.name for s in facts.ideal.supports),
    }[look] or (facts.load,)  # fmt: skip


def right_value(facts: Facts, what: What) -> Value | None:
    """The true answer to what a rule mistakes."""
    ideal, travel = facts.ideal, dict(facts.answer.travel)
    if what == "effort":
        return ideal.effort
    if what == "load":
        return ideal.load
    if what == "haul":
        return travel.get("hand")
    if what == "work":
        return ideal.work.put_in if ideal.work else None
    if what == "support":
        forces = [s.force for s in ideal.supports if s.force and facts.strands_at(s.name)]
        return forces[0] if len(forces) == 1 else None
    if what == "tension":
        return ideal.strands[0].tension if ideal.strands else None
    return next((m.acceleration for m in ideal.motions if m.name == facts.load), None)


def _close(first: Fraction, second: Fraction, within: Fraction) -> bool:
    return abs(first - second) <= within * abs(second)


def _merged(found: list[WrongAnswer]) -> tuple[WrongAnswer, ...]:
    """Answers of one kind within 5 % of each other become one, told by the most frequent rule."""
    kept: list[WrongAnswer] = []
    for answer in sorted(found, key=lambda a: (-WRONG_RULES[a.rule].prior, a.rule)):
        twin = next((n for n, other in enumerate(kept) if _same(answer, other)), None)
        if twin is None:
            kept.append(answer)
        else:
            kept[twin] = replace(kept[twin], same_as=(*kept[twin].same_as, answer.rule))
    return tuple(kept)


def _same(first: WrongAnswer, second: WrongAnswer) -> bool:
    if WRONG_RULES[first.rule].what != WRONG_RULES[second.rule].what or first.right_by_luck != second.right_by_luck:
        return False
    a, b = first.value.number, second.value.number
    return a is not None and b is not None and (a == b or _close(a, b, NEAR))


def named(facts: Facts, idea: str, others: set[Fraction]) -> WrongAnswer | None:
    """The wrong answer an account names: the most frequent that goes against its idea and is no other true number.

    `others` are the numbers the account says besides. None where the favourite wrong rules happen to be right.
    """
    what: What = "effort" if facts.answer.status == "holds" else "acceleration"
    open_ = [
        answer
        for answer in wrong_answers(facts.rig, facts.answer)
        if WRONG_RULES[answer.rule].what in (what, "tension" if what == "acceleration" else what)
        and not answer.right_by_luck
        and answer.value.number not in others
    ]
    right = right_value(facts, what)
    if not open_ or right is None or right.number is None:
        return None
    key = right.number

    def order(answer: WrongAnswer) -> tuple[bool, int, Fraction]:
        rule = WRONG_RULES[answer.rule]
        ideas = {rule.idea, *(WRONG_RULES[other].idea for other in answer.same_as)}
        assert answer.value.number is not None
        return idea in ideas, rule.prior, abs(answer.value.number - key)

    return max(open_, key=order)


__all__ = ["WRONG_RULES", "Formula", "named", "right_value", "wrong_answers"]
