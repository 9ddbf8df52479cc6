"""Work in and work out: move first by a little, weigh afterwards."""

from fractions import Fraction

from gantline.mechanics import Answer
from gantline.quantity import Equation, Formula, Product, Symbol
from gantline.rig import Rig

from ..account import Account, Refusal
from ..closing import close
from ..facts import Facts
from ..phrases import en
from ..refusing import Yes, no, unless_at_rest
from ..steps import ask, begin, gain, meet, movers, rise_letter, times_of, total, weight_gain, work
from ..writing import Writer

NAME = "work"
SHORT = frozenset(("meet", "beside", "move", "trade", "solve"))


def accepts(rig: Rig, answer: Answer) -> Yes | Refusal:
    """Valid for one motion without gain of speed: what the hand puts in, the weights gain."""
    facts = Facts(rig, answer)
    if (refusal := unless_at_rest(facts, NAME)) is not None:
        return refusal
    if facts.ideal.load is not None:
        return no(facts, NAME, "load-asked")
    if rig.hand is None or facts.ideal.effort is None or rig.effort is not None:
        return no(facts, NAME, "no-hand" if rig.hand is None else "given")
    if answer.freedoms > 1:
        return no(facts, NAME, "freedoms")
    if answer.velocity_ratio is None or not answer.velocity_ratio.number:
        return no(facts, NAME, "still")
    return Yes()


def explain(rig: Rig, answer: Answer, short: bool = False) -> Account:
    """The account by work."""
    facts = Facts(rig, answer)
    writer = begin(facts, NAME, SHORT if short else None)
    meet(writer)
    movers(writer)
    ask(writer)
    haul = times_of(_ratio(answer), Symbol(rise_letter(facts)))
    writer.step(
        "move", "displacement", lit=(facts.load, "hand"), formula=Equation((Symbol(rig.haul_symbol), haul)),
        cites=("result:haul",),
    )  # fmt: skip
    for body in facts.bodies:
        if body != facts.aim and facts.weight(body.parts[0]) and facts.rise(body.name):
            _other(writer, body.parts[0])
    _trade(writer, haul)
    gain(writer)
    work(writer)
    return close(writer, {}, "strands" if len(rig.ropes) == 1 else "share")


def _ratio(answer: Answer) -> Fraction:
    ratio = answer.velocity_ratio
    return ratio.number if ratio and ratio.number else Fraction(1)


def _other(writer: Writer, name: str) -> None:
    rate = writer.facts.rise(name) or Fraction(0)
    writer.step(
        "move-other", "displacement", lit=(name,), true={"rises" if rate > 0 else "falls"},
        words={"body": writer.nouns[name], "way": en.multiple(abs(rate))},
    )  # fmt: skip


def _trade(writer: Writer, haul: Formula) -> None:
    """The pull times its way against every weight times its own."""
    facts, rig = writer.facts, writer.facts.rig
    bodies = sorted(facts.bodies, key=lambda body: body != facts.aim)
    rates = [(name, facts.rise(name)) for body in bodies for name, _ in facts.body_weights(body)]
    gained = [(f"{{{writer.part_key[n]}_bare}}", rate) for n, rate in rates if rate and rate > 0]
    given = [(f"{{{writer.part_key[n]}_bare}}", -rate) for n, rate in rates if rate and rate < 0]
    letter = Symbol(rig.effort_symbol)
    push = Product((letter, *(haul.factors if isinstance(haul, Product) else (haul,))))
    sides: tuple[Formula, ...] = (push, total([weight_gain(facts, name) for name, rate in rates if rate]))
    writer.step(
        "trade", "work", lit=("hand", *(name for name, _ in rates)), formula=Equation(sides), cites=("result:work",),
        true={"gives"} if given else set(), words={"gained": en.moved(gained), "given": en.moved(given)},
    )  # fmt: skip
    effort = facts.ideal.effort
    writer.step(
        "solve", "solve", lit=("hand",), pause=2.0, cites=("result:effort",),
        formula=writer.equation(letter, *((effort.formula,) if effort and effort.formula else ()), key="F"),
    )  # fmt: skip
