"""After the answer: what helps, who carries what, what hangs on the beam, and the price in rope."""

from fractions import Fraction

from gantline.mechanics import Value
from gantline.quantity import Equation, Symbol

from .facts import Body, Facts
from .hops import hops
from .phrases import en
from .steps import count_words, rise_letter, size, times, times_of
from .writing import Writer


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
    if force is None or force.number is None:
        return
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
        formula_text=writer.mark(force), words={"anchor": writer.nouns[found.name]},
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
    writer.step(
        "help", "displacement", lit=(writer.facts.load, *helpers), true=true, words={"helper": writer.nouns[heavy[0]]}
    )


def who_pays(writer: Writer) -> None:
    """How much of each heavy block the hand carries, where several rise at different speeds."""
    facts = writer.facts
    rates = {m.name: m.per_hand.number for m in facts.ideal.motions if m.per_hand and m.per_hand.number}
    blocks = [b.name for b in facts.rig.moving if b.name in rates and facts.weight(b.name)]
    if len(blocks) < 2 or any(rates[name] < 0 for name in blocks) or len({rates[name] for name in blocks}) < 2:
        return
    dearest = sorted(blocks, key=lambda name: -rates[name])[:3]
    shares = en.joined(
        [
            f"{writer.nouns[name].the} you carry {en.share(rates[name])}"
            if n == 0
            else f"of {writer.nouns[name].the} {en.share(rates[name])}"
            for n, name in enumerate(dearest)
        ]
    )
    writer.step("who-pays", "units", lit=dearest, words={"shares": shares})


def pay_ropes(writer: Writer) -> None:
    """The price in rope, from the load to the hand, one body at a time."""
    facts = writer.facts
    way = hops(facts)
    if way is None or facts.answer.velocity_ratio is None or facts.answer.velocity_ratio.number is None:
        return
    if len(way) == 1 and len(way[0].body.up) == facts.answer.velocity_ratio.number:
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
        words: dict[str, str | en.Noun] = {"body": writer.nouns[name], "d": f"{{{key}}}"}
        words["rope"] = writer.nouns[f"rope {hop.onto}"]
        writer.step(
            "pay-rope", "displacement", lit=(facts.load, name, hop.onto), words=words,
            true=first | ({"rises"} if rate > 0 else set()), cites=(f"length:{hop.onto}",),
            formula=_length(facts, hop.onto),
        )  # fmt: skip
        first = set()
    rope = way[0].known[0][0]
    haul = times_of(facts.answer.velocity_ratio.number, Symbol(rise_letter(facts)))
    writer.step(
        "pay-all", "displacement", lit=("hand", rope), pause=2.0, cites=("result:haul",),
        formula=writer.equation(Symbol(facts.rig.haul_symbol), haul, key="s" if asked else ""),
        words={"rope": writer.nouns[f"rope {rope}"]},
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
    farther = [b for b in facts.bodies if b != facts.aim and abs(facts.rise(b.name) or Fraction(0)) > 1]
    body = next(iter(toward or farther), None)
    if body is None:
        return
    writer.step(
        "room", "displacement", lit=(facts.load, *body.parts), true={"meet"} if toward else set(),
        words={"body": writer.nouns[body.parts[0]]},
    )  # fmt: skip
