"""One unit of pull carried along the ropes: F in the hand, and from wheel to wheel what it has become."""

from fractions import Fraction

from gantline.mechanics import Answer, Value, carry
from gantline.quantity import Equation, Formula, Sum, Symbol
from gantline.rig import Load, Rig

from ..account import Account, Refusal
from ..closing import close
from ..facts import Body, Facts
from ..hops import Hop, hops
from ..phrases import en
from ..price import beam, help_, pay_ropes, room, who_pays
from ..refusing import Yes, no, unless_at_rest
from ..steps import ask, asked_letter, begin, gain, meet, movers, path, size, tell_total, total, weight_formulas, work
from ..writing import Writer

NAME = "carry"
Letters = dict[str, tuple[Formula, Value, Value]]
SHORT = frozenset(("meet", "beside", "hand", "hop", "add", "solve"))


def accepts(rig: Rig, answer: Answer) -> Yes | Refusal:
    """Valid at rest with free wheels, where the ropes lead one by one from the hand to the load."""
    facts = Facts(rig, answer)
    if (refusal := unless_at_rest(facts, NAME)) is not None:
        return refusal
    if not facts.asks or not isinstance(rig.part(facts.load), Load):
        return no(facts, NAME, "no-hand" if rig.hand is None else "open")
    if hops(facts) is None or not carry(rig):
        return no(facts, NAME, "open")
    return Yes()


def explain(rig: Rig, answer: Answer, short: bool = False) -> Account:
    """The account by carrying the pull."""
    facts = Facts(rig, answer)
    way = hops(facts)
    assert way is not None
    writer = begin(facts, NAME, SHORT if short else None)
    letters = _letters(facts)
    units = _tell_units(writer, letters)
    meet(writer)
    movers(writer)
    path(writer)
    ask(writer)
    writer.step("no-count", "units", lit=way[-1].body.parts)
    _hand(writer, units)
    for n, hop in enumerate(way[:-1]):
        _hop(writer, hop, units, letters, {"later"} if n else set())
    _add(writer, way[-1], units, letters)
    help_(writer)
    who_pays(writer)
    gain(writer)
    beam(writer)
    pay_ropes(writer)
    work(writer)
    room(writer)
    plain = [
        en.units(letters[rope][1].number or Fraction(0), Fraction(0), "")
        for rope, times in way[-1].known
        for _ in range(times)
    ]
    words = {"plain": en.joined(plain)}
    return close(writer, words, "share" if len(way[-1].known) > 1 else "chain")


def _letters(facts: Facts) -> Letters:
    """Each rope's pull as a formula of F, its multiple of F, and what it has besides."""
    found: Letters = {}
    for carried in carry(facts.rig):
        rope = carried.strand.rpartition(":")[0]
        found.setdefault(rope, (carried.formula, carried.multiple, carried.extra))
    return found


def _tell_units(writer: Writer, letters: Letters) -> dict[str, str]:
    """Each rope's pull in words with live numbers: two F plus 24."""
    found = {}
    for n, (rope, (_, multiple, extra)) in enumerate(letters.items()):
        writer.tell(**{f"x{n}": size(extra)})
        found[rope] = en.units(multiple.number or Fraction(0), extra.number or Fraction(0), f"x{n}")
    return found


def _hand(writer: Writer, units: dict[str, str]) -> None:
    rope = writer.facts.hand_rope
    assert rope is not None
    strands = [strand.name for strand in rope.strands]
    letter = Symbol(writer.facts.rig.effort_symbol)
    writer.step(
        "hand", "units", lit=("hand", rope.name, *strands), marks=[(s, letter.name) for s in strands], formula=letter,
        cites=(f"pull:{rope.name}",), words={"rope": writer.nouns[f"rope {rope.name}"]},
    )  # fmt: skip


def _hop(writer: Writer, hop: Hop, units: dict[str, str], letters: Letters, true: set[str]) -> None:
    """What a body on the way hands on to the next rope."""
    facts = writer.facts
    block = hop.body.parts[0]
    ((rope, times), *more) = hop.known
    key = writer.part_key.get(block, "")
    heavy = {"heavy"} if facts.weight(block) else set()
    true |= {"above" if hop.above else "below", "alone" if not more and hop.turns == 1 else "many"} | heavy
    words: dict[str, str | en.Noun] = {
        "block": writer.nouns[block], "rope": writer.nouns[f"rope {rope}"], "onto": writer.nouns[f"rope {hop.onto}"],
        "times": en.times(Fraction(abs(times))) if abs(times) > 1 else "with one strand", "result": units[hop.onto],
        "weight": f"{{{key}_bare}}", "several": en.joined([writer.nouns[f"rope {r}"].the for r, _ in hop.known]),
    }  # fmt: skip
    strands = hop.body.strands
    writer.step(
        "hop", "units", lit=(*hop.body.parts, *(s.name for s in strands)),
        marks=[(s.name, writer.formula_text(letters[s.rope][0])) for s in strands],
        formula=Equation((Symbol(facts.letters(hop.onto)), letters[hop.onto][0])), cites=(f"balance:{hop.body.name}",),
        true=true, words=words,
    )  # fmt: skip


def _add(writer: Writer, hop: Hop, units: dict[str, str], letters: Letters) -> None:
    """At the load the pulls add up to its weight, and that gives F."""
    facts, body = writer.facts, hop.body
    multiple, extra = (_total(hop, letters, place) for place in (1, 2))
    tell_total(writer, body)
    writer.tell(extra=Value(abs(extra), "N", None), rest=_rest(writer, extra))
    if writer.knows("rest") and extra:
        terms = ("rest", "extra") if extra > 0 else ("total", "extra")
        writer.add_up(terms, "total" if extra > 0 else "rest")
    parts = [(en.units_times(times, units[rope]), times) for rope, times in hop.known]
    sign = "plus" if extra > 0 else "minus" if extra < 0 else "even"
    words: dict[str, str | en.Noun] = {
        "sum": en.joined([words for words, _ in parts]), "result": en.units(multiple, extra, "extra"),
        "multiple": en.units(multiple, Fraction(0), "extra"), "one": units[hop.known[0][0]],
        "times": en.count(hop.known[0][1]), "rope": writer.nouns[f"rope {hop.known[0][0]}"],
    }  # fmt: skip
    sign = f"{sign} one" if multiple == 1 else sign
    sign += " nothing-left" if facts.ideal.effort is not None and facts.ideal.effort.number == 0 else ""
    true = {*sign.split(), "several" if len(hop.known) > 1 else "single"} | (
        {"once"} if hop.known[0][1] == 1 else {"several-strands"}
    )
    pulled: list[Formula] = []
    for rope, times in hop.known:
        pulled += [letters[rope][0]] * times
    strands = [strand.name for strand in body.strands]
    writer.step(
        "add", "units", lit=(*body.parts, *strands), pause=1.0, true=true, words=words,
        marks=[(s.name, writer.formula_text(letters[s.rope][0])) for s in body.strands],
        formula=Equation((_flat(pulled), total(weight_formulas(facts, body)))), cites=(f"balance:{body.name}",),
    )  # fmt: skip
    _tell_made(writer, body, multiple, extra)
    letter = asked_letter(facts)
    found = facts.ideal.load if letter else facts.ideal.effort
    formula = found.formula if found else None
    symbol = letter or Symbol(facts.rig.effort_symbol)
    writer.step(
        "solve", "solve", lit=("hand", *strands), pause=2.0, true=true, words=words,
        cites=("result:load" if letter else "result:effort",),
        formula=writer.equation(symbol, *((formula,) if formula else ()), key="W" if letter else "F"),
        marks=[(s.name, writer.mark(s.tension)) for s in facts.ideal.strands if s.tension],
    )  # fmt: skip


def _tell_made(writer: Writer, body: Body, multiple: Fraction, extra: Fraction) -> None:
    """Where the pull is given: what it makes of itself at the load, and how much of that hangs there besides."""
    facts, pull = writer.facts, writer.facts.ideal.effort
    if facts.ideal.load is None or pull is None or pull.number is None:
        return
    besides = [value.number for name, value in facts.body_weights(body) if name != facts.load and value.number]
    writer.tell(
        made=Value(multiple * pull.number + extra, "N", None), besides=Value(sum(besides, Fraction(0)), "N", None)
    )


def _total(hop: Hop, letters: Letters, place: int) -> Fraction:
    """All pulls at a body added up: the multiples of F (1), or what comes besides (2)."""
    numbers = {1: lambda rope: letters[rope][1].number, 2: lambda rope: letters[rope][2].number}
    return sum((times * (numbers[place](rope) or Fraction(0)) for rope, times in hop.known), Fraction(0))


def _rest(writer: Writer, extra: Fraction) -> Value | None:
    """What the multiples of F have to hold: the weights less what comes free."""
    number = writer.exact("total")
    return Value(number - extra, "N", None) if number is not None else None


def _flat(pulls: list[Formula]) -> Formula:
    return pulls[0] if len(pulls) == 1 else Sum(tuple(pulls))
