"""How an account closes: the wrong answer worth naming, real wheels, the rule in one breath, and a turn to think on."""

from fractions import Fraction

from msgspec.structs import replace

from gantline.mechanics import Value, solve
from gantline.quantity import Equation, Symbol
from gantline.rig import Given, Hand, Load, Rig

from .account import Account, WrongAnswer
from .facts import Facts
from .loss import really
from .phrases import en
from .steps import asked_letter, size
from .tipping import tips
from .writing import Writer
from .wrong import named


def close(writer: Writer, words: dict[str, str], idea: str) -> Account:
    """The wrong answer worth naming, real wheels, the rule in one breath, and a turn to think on."""
    facts = writer.facts
    mistake = wrong(writer, idea, words)
    really(writer)
    tips(writer)
    result = facts.ideal.load if facts.ideal.load is not None else facts.ideal.effort
    letter = asked_letter(facts) or Symbol(facts.rig.effort_symbol)
    formula = Equation((letter, result.formula)) if result is not None and result.formula is not None else None
    text = words.get("recap_formula", "")
    writer.step("recap", "solve", formula=None if text else formula, formula_text=text, words=words)
    twist(writer, words)
    return writer.account(result, mistake)


def wrong(writer: Writer, idea: str, words: dict[str, str]) -> WrongAnswer | None:
    """Names the commonest wrong answer of this rig, where one tells itself apart from every number said so far."""
    facts = writer.facts
    mistake = named(facts, idea, other_pulls(facts)) if writer.tells("wrong") else None
    if mistake is None:
        return None
    writer.tell(X=size(mistake.value))
    if writer.knows("F"):
        writer.keep_apart("F", "X")
    tag, more = _how(facts, mistake)
    ratio = facts.answer.velocity_ratio
    right = {"count-right"} if ratio and ratio.number and more.get("k") == en.count(int(ratio.number)) else set()
    hauled = (facts.hand_strand.name,) if facts.hand_strand else ()
    struck = hauled if mistake.look_at[-1:] == ("hand",) else mistake.look_at[-1:]
    writer.step(
        "wrong", "count", lit=(*mistake.look_at, *struck), struck=struck if tag == "single" else (),
        formula=mistake.formula, true={tag} | right, words=words | more,
    )  # fmt: skip
    return mistake


def other_pulls(facts: Facts) -> set[Fraction]:
    """The pulls of this rig that are true of something else: strands, supports, and raising or lowering with loss."""
    forces = [s.tension for r in facts.answer.regimes for s in r.strands]
    forces += [s.force for s in facts.ideal.supports] + [r.effort for r in facts.answer.regimes]
    return {abs(force.number) for force in forces if force and force.number is not None}


def _how(facts: Facts, mistake: WrongAnswer) -> tuple[str, dict[str, str]]:
    """Whether a wrong answer has one story or several that only share the number of shares."""
    say = mistake.overlooked[:1].lower() + mistake.overlooked[1:]
    whole = (
        sum((v.number or Fraction(0) for _, v in facts.body_weights(facts.aim)), Fraction(0))
        if facts.aim
        else Fraction(0)
    )
    number = mistake.value.number
    shares = whole / number if number and mistake.what == "effort" else Fraction(0)
    if number == 0:
        return "stays", {"overlooked": say}
    if shares == 1 and facts.hand_inside and len(facts.rig.ropes) == 1:
        return "whole", {"overlooked": say}
    if mistake.same_as and shares.denominator == 1 and shares > 1:
        return "merged", {"k": en.count(int(shares)), "overlooked": say}
    return "single", {"overlooked": say}


def twist(writer: Writer, words: dict[str, str]) -> None:
    """A last question that changes one thing, and its answer."""
    facts = writer.facts
    if facts.ideal.load is not None or not facts.numeric:
        return
    if facts.rides and facts.hand_from in {part.name for part in facts.rig.fixed}:
        _friend(writer)
    elif facts.rides:
        return
    elif facts.answer.helps and facts.ideal.effort and facts.ideal.effort.number:
        _let_go(writer)
    elif _turns_over(facts):
        _turned_over(writer, words)


def _turns_over(facts: Facts) -> bool:
    """Whether a tackle can be turned over whole: one rope, one moving body, no wheel beyond those that hold it."""
    if len(facts.rig.ropes) > 1 or len(facts.bodies) > 1 or facts.aim is None or not facts.sheaves:
        return False
    return len(facts.sheaves) == len(facts.aim.up) - (1 if facts.hand_inside else 0)


def _turned_over(writer: Writer, words: dict[str, str]) -> None:
    facts = writer.facts
    assert facts.aim is not None
    after = len(facts.aim.up) + (-1 if facts.hand_inside else 1)
    writer.step("twist", "bare", formula_text="N = ?", pause=5.0, words=words)
    writer.step("answer", "bare", formula_text=f"N = {after}", words=words | {"after": en.cardinal(after)})


def _friend(writer: Writer) -> None:
    """The same rope in the hands of someone on the ground."""
    facts = writer.facts
    hand = facts.rig.hand
    assert hand is not None
    other = solve(replace(facts.rig, hand=Hand(hand.place, None))).ideal.effort
    if other is None or other.number is None:
        return
    writer.tell(F_friend=other)
    letter = Symbol(facts.rig.effort_symbol)
    writer.step("twist", "bare", formula_text=f"{facts.rig.effort_symbol} = ?", pause=5.0, true={"friend"})
    writer.step("answer", "bare", formula=writer.equation(letter, key="F_friend"), true={"friend"})


def _let_go(writer: Writer) -> None:
    """How light the load would have to be for the sinking blocks alone to hold it."""
    found = light_load(writer.facts.rig)
    if found is None or found.number is None or found.number <= 0:
        return
    writer.tell(W_free=found)
    writer.step("twist", "ask", lit=(writer.facts.load,), formula_text="F = 0", pause=6.0, true={"let-go"})
    writer.step("answer", "solve", formula=Equation((Symbol("W"), writer.number("W_free"))), true={"let-go"})


def light_load(rig: Rig) -> Value | None:
    """The load that is held with no pull at all."""
    nothing = Given(rig.effort_symbol, Fraction(0), "force", "N", rig.gravity.place)
    parts = tuple(
        Load(p.name, p.place, Given("_load", None, "force", "N", p.place)) if p.name == rig.aim else p
        for p in rig.parts
    )
    return solve(replace(rig, effort=nothing, parts=parts)).ideal.load
