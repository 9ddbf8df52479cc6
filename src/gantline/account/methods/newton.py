"""Newton for each part: pulls less weights move the masses, and the ropes tie the movements together."""

from fractions import Fraction

from gantline.mechanics import Answer, Value, acceleration_symbol
from gantline.quantity import Symbol
from gantline.rig import Rig

from ..account import Account, Refusal
from ..bodies import body_line, tell_masses, turn
from ..closing_moving import close_moving
from ..facts import Body, Facts
from ..phrases import en
from ..refusing import Yes, no
from ..steps import begin, meet, movers, path, size
from ..writing import Writer
from ..wrong_moving import pair_on_wheel, pull_at, pull_at_rest

NAME = "newton"
SHORT = frozenset(("meet", "beside", "newton", "solve", "others"))


def accepts(rig: Rig, answer: Answer) -> Yes | Refusal:
    """Valid always, and needed where something speeds up."""
    if answer.status != "accelerates":
        return no(Facts(rig, answer), NAME, "holds" if answer.status == "holds" else answer.status)
    return Yes()


def explain(rig: Rig, answer: Answer, short: bool = False) -> Account:
    """The account by Newton's law."""
    facts = Facts(rig, answer)
    writer = begin(facts, NAME, SHORT if short else None)
    tell_masses(writer)
    meet(writer)
    movers(writer)
    path(writer)
    lead = _lead(facts)
    writer.nouns["lead"] = _noun(writer, lead)
    if rig.effort is not None:
        writer.tell(F=facts.ideal.effort)
    _ask(writer)
    writer.tell(F_rest=pull_at_rest(facts))
    at_rest = {"at-rest"} if writer.knows("F_rest") else set()
    writer.step("no-count", "bare", lit=[name for body in facts.bodies for name in body.parts], true=at_rest)
    for rope in rig.ropes:
        heavy = {"turned"} if any(c.sheave in facts.heavy_sheaves for c in rope.contacts if c.sheave) else set()
        strands = [strand.name for strand in rope.strands]
        marks = [(s, facts.letters(rope.name)) for s in strands] if not heavy else []
        writer.step(
            "pull", "equal", lit=(rope.name, *strands), marks=marks, true=heavy, cites=(f"pull:{rope.name}",),
            formula=Symbol(facts.letters(rope.name)), words={"rope": writer.nouns[f"rope {rope.name}"]},
        )  # fmt: skip
    for rope in rig.ropes:
        _tie(writer, rope.name)
    for body in facts.bodies:
        said = any(
            step.id == "newton" and facts.weights.get(step.cites[0].partition(":")[2])
            for step in writer.steps
            if step.cites
        )
        body_line(writer, body, "newton", {"later"} if said else set())
    for sheave in facts.heavy_sheaves:
        turn(writer, sheave)
    _solve(writer, lead)
    return close_moving(writer, _accelerations(facts)[lead.name])


def _accelerations(facts: Facts) -> dict[str, Value]:
    return {m.name: m.acceleration for m in facts.ideal.motions if m.acceleration is not None}


def _lead(facts: Facts) -> Body:
    """The body asked about, else the first with a load that speeds up."""
    rates = _accelerations(facts)
    moving = [b for b in facts.bodies if b.name in rates and rates[b.name].number != 0]
    against_a_pair = pair_on_wheel(facts)
    if against_a_pair and (single := facts.body(against_a_pair[0])) and single.name in rates:
        return single  # whether it stays is the question there
    loaded = [b for b in moving if any(load.name in b.parts for load in facts.rig.loads)]
    return facts.aim if facts.aim in moving and facts.aim else (loaded or moving)[0]


def _noun(writer: Writer, body: Body) -> en.Noun:
    loads = [load.name for load in writer.facts.rig.loads if load.name in body.parts]
    return writer.nouns[loads[0] if loads else body.parts[0]]


def _ask(writer: Writer) -> None:
    true = {"pull-given"} if writer.facts.rig.effort is not None else set()
    writer.step("ask", "ask", lit=(writer.facts.load,), formula_text="a = ?", pause=6.0, true=true)


def _tie(writer: Writer, rope: str) -> None:
    """What one rope says of the movements at its ends."""
    facts = writer.facts
    bodies = [body for body in facts.bodies if rope in body.ropes]
    relation = facts.answer.relation(f"length:{rope}")
    if len(bodies) < 2:
        return
    rates = _accelerations(facts)
    first, second = bodies[0], bodies[-1]
    a, b = rates[first.name].number, rates[second.name].number
    alone = facts.answer.freedoms == 1 and a and b
    ratio = abs(b / a) if alone and a and b else None
    true = {"ratio"} if ratio is not None and ratio != 1 else {"equal"} if ratio == 1 or len(bodies) == 2 else {"three"}
    words: dict[str, str | en.Noun] = {
        "first": _noun(writer, first),
        "second": _noun(writer, second),
        "rope": writer.nouns[f"rope {rope}"],
    }
    wheel = next((body for body in bodies if not facts.weights.get(body.parts[0])), bodies[0])
    words |= {"ratio": en.times(ratio) if ratio else "", "wheel": _noun(writer, wheel)}
    ends = [body for body in bodies if body is not wheel]
    words |= {"one": _noun(writer, ends[0]), "other": _noun(writer, ends[-1])}
    writer.step(
        "tie", "bare", lit=(rope, *(body.parts[-1] for body in bodies)), true=true, cites=(f"length:{rope}",),
        formula=relation.holds if relation else None, words=words,
    )  # fmt: skip


def _solve(writer: Writer, lead: Body) -> None:
    """What the lines leave for every body and rope."""
    facts = writer.facts
    rates = _accelerations(facts)
    tension = pull_at(facts, lead)
    writer.tell(a=size(rates[lead.name]), a_up=rates[lead.name], T=tension)
    letter = Symbol(acceleration_symbol(facts.rig, lead.name))
    number = rates[lead.name].number
    formula = rates[lead.name].formula
    marks = [(body.parts[-1], writer.mark(rates[body.name])) for body in facts.bodies if body.name in rates]
    writer.step(
        "solve", "newton", lit=lead.parts, marks=marks, pause=3.0, true={_way(number)},
        formula=writer.equation(letter, *((formula,) if formula else ()), key="a_up"),
        cites=(f"result:acceleration:{lead.name}",), words={"lines": en.count(len(facts.bodies))},
    )  # fmt: skip
    others = [b for b in facts.bodies if b != lead and rates.get(b.name) and rates[b.name].number]
    said = []
    for n, body in enumerate(others):
        writer.tell(**{f"a{n}": size(rates[body.name])})
        up = (rates[body.name].number or 0) > 0
        same = n > 0 and abs(rates[body.name].number or 0) == abs(rates[others[n - 1].name].number or 0)
        said.append((_noun(writer, body), up, "" if same else f"{{a{n}{'' if n == 0 else '_bare'}}}"))
    if said:
        writer.step(
            "others", "newton", lit=[name for body in others for name in body.parts], marks=marks,
            true=_as_fast(writer, lead, others), words={"others": en.motions(said), "other": said[0][0]},
        )  # fmt: skip


def _way(number: Fraction | None) -> str:
    return "up" if number and number > 0 else "rests" if number == 0 else "sinks"


def _as_fast(writer: Writer, lead: Body, others: list[Body]) -> set[str]:
    """Whether one other body moves, as fast as the first and the other way; and how hard its side of the rope pulls,
    where a heavy wheel makes that different."""
    rates = _accelerations(writer.facts)
    (first, second), alone = (rates[body.name].number for body in (lead, others[0])), len(others) == 1
    if not alone or not first or second != -first:
        return set()
    writer.tell(T_other=pull_at(writer.facts, others[0]))
    return {"as-fast", "up" if second > 0 else "sinks"}
