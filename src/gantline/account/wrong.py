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
from .tags import tags
from .writing import fill, nouns
from .wrong_backwards import backwards
from .wrong_rules import RULES
from .wrong_terms import What, WrongRule

WRONG_RULES: dict[str, WrongRule] = {rule.id: rule for rule in RULES}
NEAR = Fraction(5, 100)  # answers closer than this cannot be told apart by a question
_UNITS = {
    "effort": "N", "load": "N", "haul": "m", "work": "J", "support": "N", "tension": "N", "acceleration": "m/s²",
    "raising": "N", "lowering": "N",
}  # fmt: skip


def wrong_answers(rig: Rig, answer: Answer) -> tuple[WrongAnswer, ...]:
    """Every rule that can be committed on this rig, those within 5 % told together under the most frequent.

    A rule that gives the right number, as near as a question can tell, is there too, marked as right by luck. Empty
    where the rig has a bare symbol.
    """
    facts = Facts(rig, answer)
    if not facts.reckoned:
        return ()
    return _merged(list(_each(facts)))


def _each(facts: Facts) -> Iterator[WrongAnswer]:
    names, true = nouns(facts), tags(facts)
    for rule in RULES:
        found = _committed(facts, rule)
        if found is None:
            continue
        what, law, number, known = found
        slip = next(slip for slip in en.WRONG[rule.id] if slip.holds(true))
        say = fill(slip.say, _words(facts), names, facts.load)
        lucky = known is not None and _close(number, known, NEAR)
        given = Value(number, _UNITS[what], law)
        yield WrongAnswer(rule.id, what, given, law, say, _parts(facts, slip.look), (), lucky)


Committed = tuple[What, Formula, Fraction, Fraction | None]


def _committed(facts: Facts, rule: WrongRule) -> Committed | None:
    """What a rule mistakes, its law, the number it gives and the right one (None where there is none); None where
    nobody commits it. Where a pull is given and its load asked for, a law of pulls is read backwards."""
    back = facts.ideal.load is not None and rule.what == "effort"
    what: What = "load" if back else rule.what
    law = backwards(facts, rule) if back else rule.law(facts)
    right = None if rule.open else rule.right(facts) if rule.right else right_value(facts, what)
    if law is None or (not rule.open and (right is None or right.number is None)):
        return None
    numbers = {symbol: known.number for symbol, known in facts.answer.givens if known.number is not None}
    return what, law, value(law, numbers), right.number if right else None


def given(facts: Facts, rule: str) -> tuple[Value, Value | None] | None:
    """What one rule gives, and the right value (None where there is none); None where nobody can commit it, or where
    it is right as near as a question can tell."""
    known = WRONG_RULES[rule]
    found = _committed(facts, known) if facts.reckoned else None
    if found is None:
        return None
    what, law, number, right = found
    if right is not None and (not right or _close(number, right, NEAR)):
        return None
    return Value(number, _UNITS[what], law), None if right is None else Value(right, _UNITS[what], None)


def _words(facts: Facts) -> dict[str, str]:
    count = len(facts.aim.up) if facts.aim else 0
    return {"n": en.count(count)}


def _parts(facts: Facts, look: str) -> tuple[str, ...]:
    """The parts to look at: the strands that hold the load, the hand, or the block that sinks."""
    body = facts.aim or facts.body(facts.load)
    strands = tuple(s.name for s in body.strands) if body else ()
    wheels = tuple(dict.fromkeys(sheave.block for sheave in facts.sheaves))
    return {
        "strands": strands, "hand": ("hand",), "load": (facts.load,), "helper": facts.answer.helps,
        "supports": tuple(s.name for s in facts.ideal.supports), "wheels": wheels,
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
    if what == "raising" or what == "lowering":
        regime = facts.answer.regime(what)
        return regime.effort if regime else None
    if what == "tension":
        return None  # each rule of pulls says which strand it means
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
    if first.what != second.what or first.right_by_luck != second.right_by_luck:
        return False
    a, b = first.value.number, second.value.number
    return a is not None and b is not None and (a == b or _close(a, b, NEAR))


def named(facts: Facts, idea: str, others: set[Fraction]) -> WrongAnswer | None:
    """The wrong answer an account names: the most frequent that goes against its idea and is no other true number.

    `others` are the numbers the account says besides. None where the favourite wrong rules happen to be right.
    """
    what: What = "acceleration"
    if facts.answer.status == "holds":
        what = "load" if facts.ideal.load is not None else "effort"
    open_ = [
        answer
        for answer in wrong_answers(facts.rig, facts.answer)
        if answer.what in (what, "tension" if what == "acceleration" else what)
        and not answer.right_by_luck
        and answer.value.number not in others
    ]
    right = right_value(facts, what)
    if right is None or right.number is None:
        return None
    key = right.number

    def order(answer: WrongAnswer) -> tuple[bool, int, Fraction]:
        rule = WRONG_RULES[answer.rule]
        ideas = {rule.idea, *(WRONG_RULES[other].idea for other in answer.same_as)}
        assert answer.value.number is not None
        return idea in ideas, rule.prior, abs(answer.value.number - key) if answer.what == what else Fraction(0)

    open_ = [answer for answer in open_ if answer.value.number != key]  # true of light and free wheels, so said before

    return max(open_, key=order, default=None)


__all__ = ["WRONG_RULES", "Formula", "named", "right_value", "wrong_answers"]
