"""How it stands with a rig, in one sentence."""

from fractions import Fraction

from gantline.mechanics import Answer, Motion, Value
from gantline.quantity import value as evaluated
from gantline.rig import Rig

from .facts import Facts
from .phrases import en
from .phrases.en import Noun
from .steps import begin, size
from .writing import Writer
from .wrong_moving import pair_on_wheel


def verdict(rig: Rig, answer: Answer) -> str:
    """The sentence for the status of an answer, with its numbers as they are written."""
    writer = begin(Facts(rig, answer), "verdict")
    true, words = about(writer)
    writer.step("verdict", "bare", true=true, words=words)
    account = writer.account(None)
    return account.line(account.steps[0], spoken=False)


def about(writer: Writer) -> tuple[set[str], dict[str, Noun | str]]:
    """What is true of a rig's status, and the names the sentence needs."""
    facts = writer.facts
    finding = facts.answer.finding
    names = writer.nouns
    match facts.answer.status:
        case "impossible":
            parts = [name for name in finding.parts if name in names] or [facts.load]
            first, second = parts[-1], parts[0]
            return ({"pair"} if len(parts) > 1 else set()), {
                "first": body_name(writer, first),
                "second": body_name(writer, second),
            }
        case "indeterminate":
            return _undecided(writer)
        case "slack":
            rope = finding.parts[0].partition(":")[0]
            return _tautening(facts), {"rope": names[f"rope {rope}"].the}
        case "accelerates":
            return _moving(writer)
        case _:
            free = facts.ideal.effort is not None and facts.ideal.effort.number == 0
            return ({"held"} if facts.answer.regime("holding") else set()) | ({"free"} if free else set()), {}


def _tautening(facts: Facts) -> set[str]:
    """Which change of the load's weight, and of what sinks as it rises, would make the slack rope pull.

    A pull at rest follows each weight in a straight line, so two points of its formula say how.
    """
    slack = next(pull.tension for pull in facts.ideal.strands if pull.name == facts.answer.finding.parts[0])
    if slack is None or slack.formula is None or not facts.numeric:
        return set()
    true = set()
    for who, name in (("load", facts.load), *(("helper", name) for name in facts.answer.helps[:1])):
        part = facts.rig.part(name)
        given = getattr(part, "weight", None) or getattr(part, "mass", None)
        if given is None:
            continue
        of = {symbol: value.number for symbol, value in facts.answer.givens if value.number is not None}
        without, with_one = (evaluated(slack.formula, {**of, given.symbol: Fraction(n)}) for n in (0, 1))
        if with_one > without:
            true.add(f"{who}-heavier")
        elif with_one < without and without > 0:
            true.add(f"{who}-lighter")
    return true


def _undecided(writer: Writer) -> tuple[set[str], dict[str, Noun | str]]:
    facts = writer.facts
    strands = [strand for strand in facts.rig.strands if strand.name in facts.answer.finding.parts]
    if not strands:
        part = next((name for name in facts.answer.finding.parts if name in writer.nouns), facts.load)
        given = {"pull-given"} if facts.rig.effort is not None else set()
        return {"bodies"} | given, {"first": body_name(writer, part)}
    body = next((body for body in facts.bodies if set(strands) & set(body.strands)), None)
    crossing = [strand for strand in (body.strands if body else ()) if strand in strands]
    return set(), {"first": body_name(writer, body.name if body else facts.load), "k": en.count(len(crossing))}


def _moving(writer: Writer) -> tuple[set[str], dict[str, Noun | str]]:
    """The load asked about, else the first body that speeds up."""
    facts = writer.facts
    rates = {m.name: m.acceleration for m in lossy_or_ideal(facts) if m.acceleration and m.acceleration.number != 0}
    pair = pair_on_wheel(facts)
    if pair is not None and pair[0] not in rates and any(name in rates for name in pair[1]):
        sinking = next(name for name in pair[1] if (rates[name].number or 0) < 0)
        writer.tell(a=size(rates[sinking]))
        return {"rests"}, {"first": writer.nouns[pair[0]], "second": writer.nouns[sinking]}
    loads = [name for name in (facts.load, *(load.name for load in facts.rig.loads)) if name in rates]
    name = next(iter((*loads, *rates)), facts.load)
    rate = rates.get(name, Value(None, "m/s²", None))
    writer.tell(a=size(rate))
    return ({"up"} if rate.number is not None and rate.number > 0 else set()), {"first": body_name(writer, name)}


def lossy_or_ideal(facts: Facts) -> tuple[Motion, ...]:
    """The motions as they really are: with loss where the file gives it."""
    return facts.answer.regimes[-1].motions


def body_name(writer: Writer, part: str) -> Noun:
    """The name of a body: of its load where it carries one."""
    body = writer.facts.body(part)
    loads = [load.name for load in writer.facts.rig.loads if body and load.name in body.parts]
    return writer.nouns[loads[0] if loads else part]
