"""Balancing each free body: one sentence a body, and a rig that cannot be balanced says so in the same way."""

from gantline.mechanics import Answer
from gantline.quantity import Symbol
from gantline.rig import Rig

from ..account import Account, Refusal
from ..bodies import body_line
from ..closing import close
from ..facts import Facts
from ..price import beam
from ..refusing import Yes, no
from ..steps import ask, asked_letter, begin, gain, meet, movers, path, tell_total
from ..trouble import trouble

NAME = "free-body"
SHORT = frozenset(("meet", "beside", "body", "solve", "support", "clash", "undecided", "push", "held", "mend"))


def accepts(rig: Rig, answer: Answer) -> Yes | Refusal:
    """Valid for whatever is at rest; for what cannot rest or is undecided it says why."""
    if answer.status == "accelerates":
        return no(Facts(rig, answer), NAME, "pulled" if rig.effort else "accelerates")
    return Yes(half=answer.status != "holds" or Facts(rig, answer).held)


def explain(rig: Rig, answer: Answer, short: bool = False) -> Account:
    """The account by balance of each body."""
    facts = Facts(rig, answer)
    writer = begin(facts, NAME, SHORT if short else None)
    meet(writer)
    movers(writer)
    if not short:
        path(writer)
    if answer.status != "holds" or facts.held:
        return trouble(writer)
    if facts.asks:
        ask(writer)
    writer.step("apart", "free-body", lit=[part for body in facts.bodies for part in body.parts])
    ordered = sorted(facts.bodies, key=lambda body: body == facts.aim)
    for body in ordered:
        body_line(writer, body, "body")
    if facts.aim is not None:
        tell_total(writer, facts.aim)
    letter = asked_letter(facts)
    found = facts.ideal.load if letter else facts.ideal.effort
    if found is not None and found.formula is not None and (rig.effort is None or letter):
        symbol = letter or Symbol(rig.effort_symbol)
        marks = [(s.name, writer.mark(s.tension)) for s in facts.ideal.strands if s.tension]
        writer.step(
            "solve", "free-body", lit=("hand",), pause=2.0, marks=marks, true={"single"} if len(ordered) == 1 else (),
            formula=writer.equation(symbol, found.formula, key="W" if letter else "F"),
            cites=("result:load" if letter else "result:effort",),
        )  # fmt: skip
    gain(writer)
    beam(writer)
    return close(writer, {}, "strands" if len(rig.ropes) == 1 else "share")
