"""How an account goes on after its answer: who holds the rest, the price in rope, the wrong answer, the turn at the end."""

from fractions import Fraction

from msgspec.structs import replace

from gantline.mechanics import Value, solve
from gantline.quantity import Equation, Symbol
from gantline.rig import Given, Hand, Load, Rig, with_efficiency

from .account import Account, WrongAnswer
from .facts import Body, Facts
from .hops import hops
from .phrases import en
from .steps import (
    ASSUMED_LOSS,
    asked_letter,
    count_words,
    loss_text,
    loss_words,
    multiple_word,
    really,
    rise_letter,
    size,
    times,
    times_of,
)
from .writing import Writer
from .wrong import named
from .wrong_rules import pair_on_wheel


def beam(writer: Writer) -> None:
    """What hangs on the fixed part, where one alone has ropes on it."""
    facts = writer.facts
    supports = [s for s in facts.ideal.supports if s.force and s.force.number is not None and facts.strands_at(s.name)]
    upward = [s for s in supports if s.force and (s.force.number or 0) < 0]
    supports = upward or supports
    load = facts.weight(facts.load)
    if len(supports) != 1 or load is None or load.number is None or facts.ideal.effort is None:
        return
    found = supports[0]
    force, effort = found.force, facts.ideal.effort.number
    assert force is not None and force.number is not None
    writer.tell(R=size(force))
    held = len(facts.aim.up) if facts.aim else 0
    if upward:
        true = "pulled-up"
    elif facts.hand_inside and not facts.rides:
        true = "half" if force.number == effort and held == 2 else "rest"
    else:
        true = "twice" if force.number == 2 * load.number else "more" if force.number > load.number else "plain"
    writer.step(
        "beam", "solve", lit=(found.name, *(s.name for s in facts.strands_at(found.name))),
        marks=[(found.name, writer.mark(force))], cites=(f"support:{found.name}",), true={true},
        formula_text=f"{writer.mark(force)}", words=(count_words(facts.aim) if facts.aim else {}) | {"anchor": writer.nouns[found.name]},
    )  # fmt: skip


def pay(writer: Writer, body: Body) -> None:
    """The price in rope for the strands of one rope that hold a body."""
    facts, n = writer.facts, len(body.up)
    haul, rise = Symbol(facts.rig.haul_symbol), Symbol(rise_letter(facts))
    words = count_words(body)
    strands = [strand.name for strand in body.up]
    asked = "asked" in writer.tags
    whole = n <= 2 or not asked
    equation = writer.equation(haul, times(n, rise), key="s" if asked else "")
    writer.step(
        "pay", "displacement", lit=(*body.parts, *strands), formula=equation if whole else rise,
        cites=("length:" + body.ropes[0],), pause=2.0 if whole else 0.0, words=words,
    )  # fmt: skip
    if not whole:
        writer.step(
            "pay-hand", "displacement", lit=("hand", *strands), formula=equation, cites=("result:haul",), pause=2.0,
            words=words,
        )  # fmt: skip


def help_(writer: Writer) -> None:
    """What sinks as the load rises is on the hauler's side."""
    helpers = writer.facts.answer.helps
    heavy = [name for name in helpers if writer.facts.weight(name)]
    if not heavy:
        return
    true = {"many-help"} if len(heavy) > 1 else set()
    writer.step("help", "displacement", lit=(writer.facts.load, *helpers), true=true, words={"helper": writer.nouns[heavy[0]]})


def who_pays(writer: Writer) -> None:
    """How much of each heavy block the hand carries, where several rise at different speeds."""
    facts = writer.facts
    rates = {m.name: m.per_hand.number for m in facts.ideal.motions if m.per_hand and m.per_hand.number}
    blocks = [b.name for b in facts.rig.moving if b.name in rates and facts.weight(b.name)]
    if len(blocks) < 2 or any(rates[name] < 0 for name in blocks) or len({rates[name] for name in blocks}) < 2:
        return
    dearest = sorted(blocks, key=lambda name: -rates[name])[:3]
    shares = en.joined([f"{writer.nouns[name].the} you carry {en.share(rates[name])}" if n == 0 else f"of {writer.nouns[name].the} {en.share(rates[name])}" for n, name in enumerate(dearest)])
    writer.step("who-pays", "units", lit=dearest, words={"shares": shares})


def pay_ropes(writer: Writer) -> None:
    """The price in rope, from the load to the hand, one body at a time."""
    facts = writer.facts
    way = hops(facts)
    if way is None or facts.answer.velocity_ratio is None or facts.answer.velocity_ratio.number is None:
        return
    if len(way) == 1:
        pay(writer, way[0].body)
        return
    travel, asked = dict(facts.answer.travel), facts.rig.asked is not None
    bodies = list(reversed(way[:-1]))
    first = {"first"}
    for n, hop in enumerate(bodies):
        name = hop.body.parts[0]
        rate = facts.rise(name)
        if rate is None:
            return
        key = f"d{n}"
        found = size(travel.get(name)) if asked else Value(abs(rate), "m", None)
        writer.tell(**{key: found})
        words = {"rope": writer.nouns[f"rope {hop.onto}"], "body": writer.nouns[name], "d": f"{{{key}}}"}
        writer.step(
            "pay-rope", "displacement", lit=(facts.load, name, hop.onto), true=first | ({"rises"} if rate > 0 else set()),
            words=words, cites=(f"length:{hop.onto}",), formula=_length(facts, hop.onto),
        )  # fmt: skip
        first = set()
    rope = facts.hand_rope
    ratio = facts.answer.velocity_ratio.number
    writer.step(
        "pay-all", "displacement", lit=("hand", rope.name if rope else "hand"), pause=2.0, cites=("result:haul",),
        formula=writer.equation(Symbol(facts.rig.haul_symbol), times_of(ratio, Symbol(rise_letter(facts))), key="s" if asked else ""),
        words={"rope": writer.nouns[f"rope {rope.name}"] if rope else "", "ratio": multiple_word(facts.answer.velocity_ratio)},
    )  # fmt: skip


def _length(facts: Facts, rope: str) -> Equation | None:
    relation = facts.answer.relation(f"length:{rope}")
    return relation.holds if relation else None


def room(writer: Writer) -> None:
    """A body that moves farther than the load, or toward it, ends the haul."""
    facts = writer.facts
    if facts.rig.asked is None or facts.aim is None:
        return
    touching = [b for b in facts.bodies if b != facts.aim and set(b.ropes) & set(facts.aim.ropes)]
    toward = [b for b in touching if (facts.rise(b.name) or 0) < 0 and len(facts.aim.ropes) > 1]
    farther = [b for b in facts.bodies if b != facts.aim and abs(facts.rise(b.name) or 0) > 1]
    body = next(iter(toward or farther), None)
    if body is None:
        return
    writer.step(
        "room", "displacement", lit=(facts.load, *body.parts), true={"meet"} if toward else set(),
        words={"body": writer.nouns[body.parts[0]]},
    )  # fmt: skip


def close(writer: Writer, words: dict[str, str], idea: str) -> Account:
    """The wrong answer worth naming, real wheels, the rule in one breath, and a turn to think on."""
    facts = writer.facts
    mistake = wrong(writer, idea, words)
    really(writer)
    result = facts.ideal.load if facts.ideal.load is not None else facts.ideal.effort
    letter = asked_letter(facts) or Symbol(facts.rig.effort_symbol)
    formula = Equation((letter, result.formula)) if result is not None and result.formula is not None else None
    text = words.get("recap_formula", "")
    writer.step("recap", "solve", formula=None if text else formula, formula_text=text, words=words)
    twist(writer, words)
    return writer.account(result, mistake)


def close_moving(writer: Writer, result: Value) -> Account:
    """How an account of a rig that speeds up closes."""
    facts = writer.facts
    supports = [s for s in facts.ideal.supports if s.force and s.force.number is not None and facts.strands_at(s.name)]
    weights = [value.number for part in facts.rig.movers if (value := facts.weights.get(part.name)) and value.number]
    if len(supports) == 1 and supports[0].force and supports[0].force.number is not None:
        hangs = sum(weights, Fraction(0))
        writer.tell(R=size(supports[0].force), hangs=Value(hangs, "N", None))
        less = {"less"} if supports[0].force.number < hangs and facts.rig.hand is None else set()
        writer.step(
            "beam", "solve", lit=(supports[0].name,), true=less, cites=(f"support:{supports[0].name}",),
            marks=[(supports[0].name, writer.mark(supports[0].force))], words={"anchor": writer.nouns[supports[0].name]},
            formula_text=writer.mark(supports[0].force),
        )  # fmt: skip
    mistake = wrong(writer, "motion", {})
    _really_moving(writer)
    writer.step("recap", "newton", lit=[name for body in facts.bodies for name in body.parts])
    _even_pair(writer)
    return writer.account(result, mistake)


def _really_moving(writer: Writer) -> None:
    """The same with loss in the wheels: the file's own, or an assumed one."""
    facts = writer.facts
    answer = facts.answer if facts.lossy else solve(with_efficiency(facts.rig, 1 - ASSUMED_LOSS))
    regime = next((r for r in answer.regimes if r.way in ("raising", "lowering")), None)
    lead = next((n for n, noun in writer.nouns.items() if n != "lead" and noun == writer.nouns["lead"]), "")
    rate = next((m.acceleration for m in (regime.motions if regime else ()) if m.name == lead), None)
    if rate is None or rate.number is None or not facts.sheaves:
        return
    writer.tell(a_loss=size(rate))
    writer.keep_apart("a", "a_loss")
    writer.step("really", "tensions", formula_text=loss_text(facts), words={"loss": loss_words(facts)})


def _even_pair(writer: Writer) -> None:
    """Where two hang on a moving wheel: what happens when they are made even."""
    facts = writer.facts
    found = pair_on_wheel(facts)
    if found is None:
        return
    masses = [facts.rig.part(name).mass for name in found[1]]  # type: ignore[union-attr]
    if any(mass is None or mass.number is None for mass in masses) or masses[0] == masses[1]:
        return
    half = sum((mass.number for mass in masses if mass and mass.number), Fraction(0)) / 2
    if half == masses[0].number:  # type: ignore[union-attr]
        return
    parts = tuple(replace(p, mass=replace(p.mass, number=half)) if p.name in found[1] and isinstance(p, Load) and p.mass else p for p in facts.rig.parts)
    even = solve(replace(facts.rig, parts=parts))
    rate = next((m.acceleration for m in even.ideal.motions if m.name == found[0]), None)
    if rate is None or rate.number is None:
        return
    writer.tell(half=Value(half, "kg", None), a_even=size(rate))
    true = {"still"} if rate.number == 0 else {"up" if rate.number > 0 else "sinks"}
    words = {"one": writer.nouns[found[1][0]], "other": writer.nouns[found[1][1]], "single": writer.nouns[found[0]]}
    writer.step("twist", "bare", lit=found[1], formula_text="a = ?", pause=6.0, true={"even"}, words=words)
    writer.step("answer", "newton", lit=(found[0],), true={"even"} | true, words=words, formula=writer.number("a_even"))


def wrong(writer: Writer, idea: str, words: dict[str, str]) -> WrongAnswer | None:
    """Names the commonest wrong answer of this rig, where one tells itself apart from every number said so far."""
    facts = writer.facts
    mistake = named(facts, idea, other_pulls(facts)) if writer.tells("wrong") else None
    if mistake is None:
        return None
    writer.tell(X=mistake.value)
    if writer.knows("F"):
        writer.keep_apart("F", "X")
    tag, more = _how(facts, mistake)
    writer.step(
        "wrong", "count", lit=mistake.look_at, struck=mistake.look_at[-1:] if tag == "single" else (),
        formula=mistake.formula, true={tag}, words=words | more,
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
    whole = sum((v.number or Fraction(0) for _, v in facts.body_weights(facts.aim)), Fraction(0)) if facts.aim else Fraction(0)
    number = mistake.value.number
    shares = whole / number if number and facts.answer.status == "holds" else Fraction(0)
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
    if facts.rides:
        _friend(writer)
    elif facts.answer.helps:
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
    writer.step("answer", "bare", formula_text=f"N = {after}", words=words | {"after": en.count(after)})


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
        Load(p.name, p.place, Given("_load", None, "force", "N", p.place)) if p.name == rig.aim else p for p in rig.parts
    )
    return solve(replace(rig, effort=nothing, parts=parts)).ideal.load

