"""Stages multiplied: a tackle that hauls on another tackle's rope."""

from fractions import Fraction

from gantline.mechanics import Answer
from gantline.quantity import Equation, Number, Product, Symbol
from gantline.rig import Load, Rig

from ..account import Account, Refusal
from ..closing import close
from ..facts import Facts
from ..hops import Hop, hops
from ..phrases import en
from ..price import beam, help_, pay_ropes, who_pays
from ..refusing import Yes, no, unless_at_rest
from ..steps import ask, begin, gain, meet, movers, path, work
from ..writing import Writer

NAME = "stages"
SHORT = frozenset(("meet", "beside", "stage", "product", "solve"))


def accepts(rig: Rig, answer: Answer) -> Yes | Refusal:
    """Valid where each rope is hauled by the next alone, and only the first touches the load."""
    facts = Facts(rig, answer)
    if (refusal := unless_at_rest(facts, NAME)) is not None:
        return refusal
    if not facts.asks or facts.aim is None or not isinstance(rig.part(facts.load), Load):
        return no(facts, NAME, "no-hand" if rig.hand is None else "other")
    if len(rig.ropes) == 1:
        return no(facts, NAME, "one-rope")
    if len(facts.aim.ropes) > 1:
        return no(facts, NAME, "shared")
    way = hops(facts)
    if way is None or facts.ideal.load is not None or any(_gain(hop) is None for hop in way):
        return no(facts, NAME, "other")
    if sum(_gain(hop) != 1 for hop in way) < 2:
        return no(facts, NAME, "single")
    return Yes()


def _gain(hop: Hop) -> int | None:
    """How many strands a stage hauls with: those on its block for each one that it hands on."""
    if not hop.onto:
        return hop.known[0][1] if hop.known[0][1] > 0 else None
    (_, times), *more = hop.known
    return abs(times) if not more and hop.turns == 1 and (times < 0) == hop.above else None


def explain(rig: Rig, answer: Answer, short: bool = False) -> Account:
    """The account by stages, from the load to the hand."""
    facts = Facts(rig, answer)
    way = hops(facts)
    assert way is not None
    writer = begin(facts, NAME, SHORT if short else None)
    meet(writer)
    movers(writer)
    path(writer)
    ask(writer)
    ordered = [hop for hop in reversed(way) if _gain(hop) != 1]
    for n, hop in enumerate(ordered, 1):
        _stage(writer, hop, n)
    factors = [Fraction(_gain(hop) or 1) for hop in ordered]
    product = Product(tuple(Number(factor) for factor in factors))
    ratio = answer.velocity_ratio
    sides = (Symbol("VR"), product, *((Number(ratio.number),) if ratio and ratio.number is not None else ()))
    writer.step(
        "product", "gain", lit=(facts.load, "hand"), formula=Equation(sides),
        words={"product": " times ".join(en.count(int(factor)) for factor in factors)},
    )  # fmt: skip
    heavy = {"weighs"} if any(facts.weight(block.name) for block in rig.moving) else set()
    effort, letter = facts.ideal.effort, Symbol(rig.effort_symbol)
    writer.step(
        "solve", "solve", lit=("hand",), pause=2.0, true=heavy, cites=("result:effort",),
        formula=writer.equation(letter, *((effort.formula,) if effort and effort.formula else ()), key="F"),
    )  # fmt: skip
    help_(writer)
    who_pays(writer)
    gain(writer)
    beam(writer)
    pay_ropes(writer)
    work(writer)
    return close(writer, {}, "chain")


def _stage(writer: Writer, hop: Hop, place: int) -> None:
    rope = hop.known[0][0]
    block = hop.body.parts[0]
    strands = [s.name for s in hop.body.strands if s.rope == rope]
    writer.step(
        "stage", "count", lit=(*hop.body.parts, *strands), marks=[(s, str(n)) for n, s in enumerate(strands, 1)],
        formula_text=f"{_gain(hop)}", true={"first" if place == 1 else "later"}, cites=(f"balance:{hop.body.name}",),
        words={"k": en.count(_gain(hop) or 1), "rope": writer.nouns[f"rope {rope}"], "block": writer.nouns[block],
               "place": en.ordinal(place)},
    )  # fmt: skip
