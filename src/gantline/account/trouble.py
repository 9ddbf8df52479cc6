"""Accounts of rigs that no pull can hold, whose pulls are undecided, where a rope goes slack, or that friction holds.

Each begins where a reader would, with the load, whose own balance may well come out; then what does not, with the sum
that shows it; then what would have to change.
"""

from fractions import Fraction

from gantline.mechanics import Counted, Value, contradiction
from gantline.quantity import Symbol

from .account import Account, WrongAnswer
from .bodies import body_line
from .facts import Body, Facts
from .hops import pulls_on
from .phrases import en
from .phrases.en import Noun
from .status import about, body_name
from .steps import ask
from .writing import Writer
from .wrong import wrong_answers
from .wrong_stuck import sharing

_STEPS = {"impossible": "clash", "indeterminate": "undecided", "slack": "push", "holds": "held"}


def trouble(writer: Writer) -> Account:
    """What can be said by balance, and where it stops."""
    facts = writer.facts
    true, words = about(writer)
    concerned = _concerned(facts)
    _ask(writer)
    for body in _locally_right_first(facts, concerned):
        body_line(writer, body, "body")
    more, names, formula = _proof(writer)
    true, words = true | more, words | names
    parts = [name for body in concerned for name in body.parts] or [facts.load]
    writer.step(
        _STEPS[facts.answer.status], "free-body", lit=parts, true=true, words=words, pause=2.0, formula_text=formula
    )
    mistake = _wrong(writer, parts)
    writer.step("mend", "bare", lit=parts, true=true, words=words)
    return writer.account(None, mistake)


def _concerned(facts: Facts) -> list[Body]:
    finding = set(facts.answer.finding.parts)
    return [b for b in facts.bodies if set(b.parts) & finding or {s.name for s in b.strands} & finding]


def _locally_right_first(facts: Facts, bodies: list[Body]) -> list[Body]:
    """The body a reader would begin with, where all is well, then the one out of balance."""
    return sorted(bodies, key=lambda body: body != facts.body(facts.load))


def _ask(writer: Writer) -> None:
    """A guess before the sums, where there is a pull to guess."""
    facts = writer.facts
    if facts.answer.status == "impossible" and facts.rig.hand is not None and facts.rig.effort is None:
        ask(writer)
    elif facts.numeric and (body := sharing(facts)):
        letters = [f"{facts.letters(rope)} = ?" for rope in body.ropes]
        writer.step("ask", "bare", lit=[s.name for s in body.up], formula_text=", ".join(letters), pause=5.0)


def _wrong(writer: Writer, parts: list[str]) -> WrongAnswer | None:
    """The number that a learner would name where there is none."""
    found = wrong_answers(writer.facts.rig, writer.facts.answer) if writer.tells("wrong") else ()
    mistake = next((one for one in found if one.rule in ("M55", "M56")), None)
    if mistake is None:
        return None
    writer.tell(X=mistake.value)
    say = mistake.overlooked[:1].lower() + mistake.overlooked[1:]
    writer.step("wrong", "bare", lit=mistake.look_at or parts, formula=mistake.formula, words={"overlooked": say})
    return mistake


# -- the sum that shows it ------------------------------------------------------------------------------------------

Proof = tuple[set[str], dict[str, Noun | str], str]


def _proof(writer: Writer) -> Proof:
    """What is true of the sums besides, the names it takes, and the false or open sum as it stands."""
    facts = writer.facts
    if not facts.numeric:
        return set(), {}, ""
    if facts.answer.status == "impossible":
        return _demands(writer)
    if facts.answer.status == "indeterminate":
        return _two_ways(writer)
    if facts.held:
        return _both_sides(writer)
    if facts.answer.status == "slack":
        return _pushed(writer)
    return set(), {}, ""


def _demands(writer: Writer) -> Proof:
    """Two bodies on one rope: the pull that each of them asks of it."""
    facts = writer.facts
    asked = {}
    for body in _locally_right_first(facts, _counted(facts, contradiction(facts.rig))):
        pulls = {rope: times for rope, times in pulls_on(body).items() if times}
        weight = sum((value.number or Fraction(0) for _, value in facts.body_weights(body)), Fraction(0))
        if len(pulls) != 1:
            return set(), {}, ""
        ((rope, times),) = pulls.items()
        asked[body.name] = (rope, weight / times)
    if len(asked) != 2 or len({rope for rope, _ in asked.values()}) != 1:
        return set(), {}, ""
    (one, (_, first)), (other, (_, second)) = asked.items()
    if first < 0 or first == second:
        return set(), {}, ""
    writer.tell(T1=Value(first, "N", None), T2=Value(abs(second), "N", None))
    writer.keep_apart("T1", "T2")
    true = {"asks", "none" if second == 0 else "pushes" if second < 0 else "other"}
    fit = _fit(facts, other, first)
    writer.tell(W_fit=fit)
    true |= {"weight-fits"} if fit is not None else set()
    formula = f"{writer.number('T1').shown} = {'−' if second < 0 else ''}{writer.number('T2').shown}"
    names: dict[str, Noun | str] = {
        "first": body_name(writer, one), "second": body_name(writer, other),
        "rope": writer.nouns[f"rope {asked[one][0]}"].the,
    }  # fmt: skip
    return true, names, f"{formula}?"


def _counted(facts: Facts, clash: tuple[Counted, ...]) -> list[Body]:
    """The bodies whose balances contradict each other."""
    parts = {one.part for one in clash}
    return [body for body in facts.bodies if set(body.parts) & parts]


def _fit(facts: Facts, other: str, pull: Fraction) -> Value | None:
    """What the load of the second body would have to weigh to be content with the first one's pull."""
    body = facts.body(other)
    if body is None or len(loads := facts.loads_of(body)) != 1:
        return None
    besides = sum((v.number or Fraction(0) for name, v in facts.body_weights(body) if name not in loads), Fraction(0))
    weight = pull * sum(pulls_on(body).values()) - besides
    return Value(weight, "N", None) if weight > 0 else None


def _two_ways(writer: Writer) -> Proof:
    """Equal pulls, and another set of pulls that the one sum is as content with."""
    facts = writer.facts
    body = sharing(facts)
    if body is None:
        return set(), {}, ""
    times = {rope: n for rope, n in pulls_on(body).items() if n}
    weight = sum((value.number or Fraction(0) for _, value in facts.body_weights(body)), Fraction(0))
    (first, n), (second, k), *others = sorted(times.items(), key=lambda pair: pair[1])
    alike = weight / sum(times.values())
    more, less = alike * 3 / 2, alike - alike * n / (2 * k)
    writer.tell(T_even=Value(alike, "N", None), T_more=Value(more, "N", None), T_less=Value(less, "N", None))
    names: dict[str, Noun | str] = {
        "one": writer.nouns[f"rope {first}"], "another": writer.nouns[f"rope {second}"],
        "ropes": en.count(len(times)),
    }  # fmt: skip
    left = {"two-ways"} if not others else {"two-ways", "more-ropes"}
    letters = [f"{'' if n == 1 else n}{facts.letters(rope)}" for rope, n in times.items()]
    total = writer.mark(Value(weight, "N", Symbol("W")))
    return left, names, f"{' + '.join(letters)} = {total}"


def _both_sides(writer: Writer) -> Proof:
    """Two loads at the ends of one rope: at rest each side pulls with what hangs on it."""
    facts = writer.facts
    if len(facts.bodies) != 2 or any(len(body.strands) != 1 or not body.up for body in facts.bodies):
        return set(), {}, ""
    one, other = (writer.part_key[body.name] for body in _locally_right_first(facts, list(facts.bodies)))
    return {"both-sides"}, {"pulls": f"{{{one}}} on one and {{{other}_bare}} on the other"}, ""


def _pushed(writer: Writer) -> Proof:
    """With how much the slack rope would have to push."""
    pull = next((p.tension for p in writer.facts.ideal.strands if p.name in writer.facts.answer.finding.parts), None)
    if pull is None or pull.number is None or pull.number >= 0:
        return set(), {}, ""
    writer.tell(T_push=Value(-pull.number, "N", None))
    return {"so-much"}, {}, f"{writer.mark(pull)} < 0"
