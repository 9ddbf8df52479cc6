"""Counting the strands through a cut: one rope, one bag around the load, so many equal pulls."""

from fractions import Fraction

from gantline.mechanics import Answer
from gantline.quantity import Equation, Formula, Number, Quotient, Symbol
from gantline.rig import Rig

from ..account import Account, Refusal
from ..closing import close
from ..facts import Body, Facts
from ..price import beam, pay
from ..refusing import Yes, no, unless_at_rest
from ..steps import (
    ask,
    asked_letter,
    begin,
    count_words,
    gain,
    meet,
    path,
    tell_total,
    times,
    total,
    weight_formulas,
    work,
)
from ..writing import Writer

NAME = "count"
SHORT = frozenset(("meet", "beside", "cross", "balance", "solve"))


def accepts(rig: Rig, answer: Answer) -> Yes | Refusal:
    """Valid where one rope alone crosses the cut around the load and its block, at rest, with free wheels."""
    facts = Facts(rig, answer)
    if (refusal := unless_at_rest(facts, NAME)) is not None:
        return refusal
    if not facts.asks or facts.aim is None:
        return no(facts, NAME, "no-hand" if rig.hand is None else "given")
    if len(rig.ropes) > 1:
        return no(facts, NAME, "ropes" if len(facts.aim.ropes) > 1 else "several-ropes")
    if answer.freedoms > 1:
        return no(facts, NAME, "freedoms")
    if facts.aim.down or not facts.aim.up:
        return no(facts, NAME, "down")
    return Yes()


def explain(rig: Rig, answer: Answer, short: bool = False) -> Account:
    """The account by counting."""
    facts = Facts(rig, answer)
    writer = begin(facts, NAME, SHORT if short else None)
    body = facts.aim
    assert body is not None
    words = count_words(body) | _places(writer)
    meet(writer)
    path(writer)
    ask(writer)
    strands = [strand.name for strand in body.up]
    writer.step("cut", "cut", lit=body.parts, words=words)
    writer.step(
        "cross", "count", lit=(*strands, *body.parts), marks=_discs(strands), formula_text=f"N = {len(strands)}",
        pause=1.0, words=words,
    )  # fmt: skip
    _balance(writer, body, words)
    gain(writer)
    beam(writer)
    pay(writer, body)
    work(writer)
    return close(writer, words | {"recap_formula": f"N = {len(strands)}"}, "strands")


def _discs(strands: list[str]) -> list[tuple[str, str]]:
    return [(strand, str(n)) for n, strand in enumerate(strands, 1)]


def _places(writer: Writer) -> dict[str, str]:
    """Where the hand's strand comes from, and where the rope is made fast."""
    facts = writer.facts
    start = next(
        c.part for c in facts.rig.ropes[0].contacts[:: -1 if facts.rig.ropes[0].contacts[0].part == "hand" else 1]
    )
    found = {"anchor": writer.nouns[start].the if start in writer.nouns else ""}
    found |= {"holder": _holder(writer)}
    return found | ({"from": writer.nouns[facts.hand_from].the} if facts.hand_from in writer.nouns else {})


def _holder(writer: Writer) -> str:
    """What the first strand that holds the load comes down from."""
    facts = writer.facts
    if facts.aim is None:
        return ""
    strand = facts.aim.up[0]
    ends = [contact.sheave.block if contact.sheave else contact.part for contact in (strand.start, strand.end)]
    above = next((end for end in ends if end not in facts.aim.parts), "")
    return writer.nouns[above].the if above in writer.nouns else ""


def _balance(writer: Writer, body: Body, words: dict[str, str]) -> None:
    """Equal pulls, the sum, and what it gives."""
    facts, n = writer.facts, len(body.up)
    rope = facts.rig.ropes[0]
    letter = Symbol(facts.letters(rope.name))
    strands = [strand.name for strand in body.up]
    weights = weight_formulas(facts, body)
    writer.step(
        "same", "equal", lit=(rope.name, *(s.name for s in rope.strands)), marks=[(s, letter.name) for s in strands],
        formula=letter, cites=(f"pull:{rope.name}",), words=words,
    )  # fmt: skip
    writer.step(
        "balance", "balance", lit=(*strands, *body.parts), formula=Equation((times(n, letter), total(weights))),
        cites=(f"balance:{body.name}",), words=words,
    )  # fmt: skip
    tell_total(writer, body)
    asks_load = facts.ideal.load is not None
    effort = Symbol(facts.rig.effort_symbol)
    result: tuple[Formula, ...] = (effort, Quotient(total(weights), Number(Fraction(n))) if n > 1 else total(weights))
    letter_asked = asked_letter(facts)
    if letter_asked is not None and facts.ideal.load is not None and facts.ideal.load.formula is not None:
        result = (letter_asked, facts.ideal.load.formula)
    writer.step(
        "solve", "solve", lit=(*strands, "hand"), marks=[(s, writer.mark(facts.ideal.tension(s))) for s in strands],  # type: ignore[arg-type]
        formula=writer.equation(*result, key="W" if asks_load else "F"),
        cites=("result:load" if asks_load else "result:effort",), pause=2.0, words=words,
    )  # fmt: skip
