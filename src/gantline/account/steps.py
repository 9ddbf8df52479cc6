"""Steps that several methods share: how an account opens, the price in rope, the work, real wheels."""

from collections.abc import Collection
from fractions import Fraction

from gantline.mechanics import Value
from gantline.quantity import Equation, Formula, Number, Product, Quotient, Sum, Symbol
from gantline.rig import Moving

from .facts import Body, Facts
from .numbers import numeral
from .phrases import en
from .tags import tags
from .writing import Writer

_FEW = 2  # loads beside another that are each named with their weight


def begin(facts: Facts, method: str, only: Collection[str] | None = None) -> Writer:
    """A writer that knows what is true of the rig, and the numbers every account may speak."""
    writer = Writer(facts, method, only)
    writer.tags |= tags(facts) | {method}
    ideal = facts.ideal
    writer.tell(
        F=ideal.effort, MA=ideal.mechanical_advantage, VR=facts.answer.velocity_ratio, W=facts.weight(facts.load),
        h=size(dict(facts.answer.travel).get(facts.load)), s=size(dict(facts.answer.travel).get("hand")),
    )  # fmt: skip
    if facts.aim is not None:
        writer.words |= count_words(facts.aim)
    if facts.answer.velocity_ratio is not None:
        writer.words["vr"] = multiple_word(facts.answer.velocity_ratio)
        writer.words["vrtimes"] = en.times(facts.answer.velocity_ratio.number or Fraction(0))
    writer.part_key[facts.load] = "W"
    others = [part.name for part in facts.rig.movers if part.name != facts.load]
    writer.part_key |= {name: f"w{n}" for n, name in enumerate(others, 1)}
    part = facts.rig.part(facts.load)
    mass = getattr(part, "mass", None)
    if mass is not None:
        writer.tell(m=Value(mass.number, "kg", Symbol(mass.symbol)))
    block = own_block(facts)
    writer.words |= _together(writer)
    if block is not None:
        writer.nouns["own"] = writer.nouns[block.name]
        writer.part_key[block.name] = "w"
        if len(facts.rig.moving) > 1 and "runner" in writer.nouns["own"].the:
            writer.tags.add("own-runner")
    writer.tell(**{key: facts.weight(name) for name, key in writer.part_key.items()})
    helper = next((name for name in facts.answer.helps), None)
    if helper is not None:
        writer.nouns["helper"] = writer.nouns[helper]
    plain_ratio(writer, "MA")
    return writer


def size(value: Value | None) -> Value | None:
    """A way without its sign: rope let out and rope taken in are both so long."""
    if value is None or value.number is None or value.number >= 0:
        return value
    return Value(-value.number, value.unit, value.formula)


def plain_ratio(writer: Writer, key: str) -> None:
    """Says a bare ratio with two digits where that is near enough: nearly 3.9 is a gain to remember, and said so."""
    number = writer.shown_number(key) if writer.knows(key) else None
    if number is not None and number.denominator != 1 and abs(numeral(number, 2).off) * 50 <= 1:
        writer.set_digits(key, 2)


def own_block(facts: Facts) -> Moving | None:
    """The block that carries the load asked about."""
    aim = facts.body(facts.load)
    parts = [facts.rig.part(name) for name in aim.parts] if aim else []
    return next((part for part in parts if isinstance(part, Moving)), None)


def count_words(body: Body) -> dict[str, str]:
    """The number of strands that hold a body, in the words frames need."""
    n = len(body.up)
    pairs = [en.count(k) for k in range(2, n + 1, 2)] + ([en.count(n)] if n % 2 else [])
    return {"n": en.count(n), "nth": en.ordinal(n), "n-1": en.count(n - 1), "pairs": ", ".join(pairs)}


def times(number: int, formula: Formula) -> Formula:
    return formula if number == 1 else Product((Number(Fraction(number)), formula))


def times_of(number: Fraction, formula: Formula) -> Formula:
    return formula if number == 1 else Product((Number(number), formula))


def total(terms: list[Formula]) -> Formula:
    return terms[0] if len(terms) == 1 else Sum(tuple(terms))


def weight_formulas(facts: Facts, body: Body) -> list[Formula]:
    """The weights of a body in the rig's own letters."""
    asked = asked_letter(facts)
    return [
        asked if asked is not None and name == facts.load else value.formula
        for name, value in facts.body_weights(body)
        if value.formula is not None
    ]


def asked_letter(facts: Facts) -> Symbol | None:
    """The letter of the load that a given pull is asked to hold."""
    if facts.ideal.load is None:
        return None
    part = facts.rig.part(facts.load)
    given = part.weight or part.mass
    return Symbol(given.symbol) if given else None


def tell_total(writer: Writer, body: Body) -> None:
    """The weights in the bag together."""
    weights = writer.facts.body_weights(body)
    numbers = [value.number for _, value in weights if value.number is not None]
    if len(numbers) < len(weights) or not weights:
        return
    writer.tell(total=Value(sum(numbers, Fraction(0)), "N", total(weight_formulas(writer.facts, body))))
    writer.add_up([writer.part_key[name] for name, _ in weights], "total")


# -- how an account opens -------------------------------------------------------------------------------------------


def meet(writer: Writer) -> None:
    """The load, what it hangs from, and what that weighs."""
    facts = writer.facts
    body = facts.body(facts.load)
    parts = body.parts if body else (facts.load,)
    beside = _beside(facts)
    shown = [name for name in parts if name not in beside]
    givens = [(name, value) for name in shown if (value := facts.weights.get(name)) and value.number != 0]
    writer.step(
        "meet", "bare", lit=(*shown, *(s.name for s in (body.up if body else ()))),
        formula_text=", ".join(given_text(writer, name) for name, _ in givens), words=_words(writer, body),
    )  # fmt: skip
    _company(writer, beside)


def _beside(facts: Facts) -> tuple[str, ...]:
    """The other loads on the hook of the load asked about."""
    body = facts.body(facts.load)
    return tuple(name for name in facts.loads_of(body) if name != facts.load) if body else ()


def _company(writer: Writer, beside: tuple[str, ...]) -> None:
    """What hangs on the same hook, each by name with its weight; of many the weight they have together."""
    if not beside:
        return
    keys = [_amount(writer, name) for name in beside]
    numbers = [value.number for name in beside if (value := writer.facts.weight(name)) and value.number is not None]
    few = len(beside) <= _FEW or len(numbers) < len(beside)
    writer.tell(others=None if few else Value(sum(numbers, Fraction(0)), "N", None))
    last = len(beside) - 1
    of = "that weighs" if "symbolic" in writer.tags else "of"
    each = [
        f"{writer.nouns[name].a} {of} {{{key}{'_bare' if n else ''}}}"
        for n, (name, key) in enumerate(zip(beside, keys, strict=True))
    ]
    writer.step(
        "beside", "bare", lit=beside, true={"pair" if last else "one"} | (set() if few else {"many"}),
        formula_text=", ".join(filter(None, (given_text(writer, name) for name in beside))),
        words={"others": en.joined(each if few else [writer.nouns[name].the for name in beside])},
    )  # fmt: skip


def _together(writer: Writer) -> dict[str, str]:
    """What hangs in the bag by name: the loads alone, and with their block; of many only the one asked about."""
    facts = writer.facts
    body = facts.body(facts.load)
    if body is None:
        return {}
    held = facts.loads_of(body) or (facts.load,)  # a block may hang there by itself
    loads = ["you" if facts.rides and name == facts.load else writer.nouns[name].the for name in held]
    blocks = [writer.nouns[name].the for name in body.parts if name not in held]
    heavy = [writer.nouns[name].the for name, _ in facts.body_weights(body) if name not in held]
    rest = f"{loads[0]} and all that hangs with it"
    few = len(loads) <= _FEW + 1
    if len(blocks) > 1:
        blocks, heavy = [f"its {_blocks(writer, body)}"], [f"its {_blocks(writer, body)}"] if heavy else []
    return {
        "loads": en.joined(loads) if few else rest,
        "weights": en.joined([*loads, *heavy]) if few else rest,
        "bagged": en.joined([*loads, *blocks]) if few else rest,
    }


def _words(writer: Writer, body: Body | None) -> dict[str, str]:
    of = "that weighs {W}" if "symbolic" in writer.tags else "of {W}"
    if "mass" in writer.tags and "numeric" in writer.tags:
        of = "of {m}" if "accelerates" in writer.tags else "of {m}, which weighs {W},"
    if writer.nouns[writer.facts.load].a.startswith("a load of ") and "symbolic" not in writer.tags:
        of = "that weighs {W}" if "mass" not in writer.tags else f"that comes to {of.removeprefix('of ')}"
    return (count_words(body) if body else {}) | {"W": of, "more": _more(writer), "blocks": _blocks(writer, body)}


def _blocks(writer: Writer, body: Body | None) -> str:
    """The blocks a load hangs from, counted, and what they weigh together is told."""
    facts = writer.facts
    blocks = [part for name in (body.parts if body else ()) if isinstance(part := facts.rig.part(name), Moving)]
    numbers = [value.number for block in blocks if (value := facts.weight(block.name)) and value.number is not None]
    writer.tell(w_all=Value(sum(numbers, Fraction(0)), "N", None))
    wheels = all(len(block.sheaves) == 1 for block in blocks)
    return en.things(len(blocks), "wheel" if wheels else "block", "wheels" if wheels else "blocks")


def _more(writer: Writer) -> str:
    """What the load's own block weighs besides: in kilograms where the load is given so and things speed up."""
    block = own_block(writer.facts)
    if block is None or block.mass is None or "mass" not in writer.tags or "accelerates" not in writer.tags:
        return "{w_bare}"
    writer.tell(m_w=Value(block.mass.number, "kg", Symbol(block.mass.symbol)))
    return "{m_w}"


def given_text(writer: Writer, name: str) -> str:
    """A given as it is written beside the figure: W = 348 N, or the letter alone."""
    part = writer.facts.rig.part(name)
    given = part.mass if part.weight is None else part.weight
    if given is None:
        return ""
    if given.number is None:
        return given.symbol
    key = f"given_{name}"
    writer.tell(**{key: Value(given.number, "kg" if given.kind == "mass" else "N", Symbol(given.symbol))})
    return f"{given.symbol} = {writer.number(key).shown}"


def path(writer: Writer) -> None:
    """Where each rope runs, from its fast end to the hand."""
    for n, rope in enumerate(writer.facts.rig.ropes):
        route = en.route(rope, writer.nouns, alone=len(writer.facts.rig.ropes) == 1, first=n == 0)
        lit = (rope.name, *(s.name for s in rope.strands), *(c.name for c in rope.contacts))
        writer.step("path", "bare", lit=lit, words={"route": route})


def movers(writer: Writer) -> None:
    """The other bodies that move, each with its name and its weight, those alike together."""
    facts = writer.facts
    groups: dict[tuple[str, bool], list[str]] = {}
    for body in facts.bodies:
        if body != facts.body(facts.load):
            name = next((load.name for load in facts.rig.loads if load.name in body.parts), body.parts[0])
            groups.setdefault((writer.nouns[name].kind, facts.weight(name) is not None), []).append(name)
    for (kind, heavy), names in groups.items():
        keys = [_amount(writer, name) for name in names]
        alike = len({writer.exact(key) for key in keys}) == 1
        true = (
            {kind, "pair" if len(names) > 1 else "one"}
            | ({"heavy"} if heavy else set())
            | ({"alike"} if alike else set())
            | ({"at-end"} if _at_other_end(facts, names[0]) else set())
        )
        last = len(keys) - 1
        words: dict[str, str | en.Noun] = {
            "body": writer.nouns[names[0]], "bodies": en.joined([writer.nouns[name].the for name in names]),
            "weight": f"{{{keys[0]}}}", "k": en.count(len(names)),
            "weights": en.joined([f"{{{key}{'' if n == last else '_bare'}}}" for n, key in enumerate(keys)]),
        }  # fmt: skip
        writer.step(
            "movers", "bare", lit=names, true=true, words=words,
            formula_text=", ".join(filter(None, (given_text(writer, name) for name in names))),
        )  # fmt: skip


def _at_other_end(facts: Facts, name: str) -> bool:
    """Whether a load hangs on the end of the one rope there is, and nobody hauls at the other."""
    contacts = facts.rig.ropes[0].contacts
    return len(facts.rig.ropes) == 1 and facts.rig.hand is None and name in (contacts[0].part, contacts[-1].part)


def _amount(writer: Writer, name: str) -> str:
    """The key of a part's mass where things speed up and the file gives it, else of its weight."""
    mass = writer.facts.rig.part(name).mass
    if mass is None or mass.number is None or writer.facts.answer.status != "accelerates":
        return writer.part_key[name]
    writer.tell(**{f"m_{writer.part_key[name]}": Value(mass.number, "kg", Symbol(mass.symbol))})
    return f"m_{writer.part_key[name]}"


def ask(writer: Writer) -> None:
    """The question, and time to answer it."""
    letter = asked_letter(writer.facts) or Symbol(writer.facts.rig.effort_symbol)
    writer.step(
        "ask", "ask", lit=("hand",), formula_text=f"{letter.name} = ?",
        pause=6.0 if "helps" in writer.tags else 5.0,
    )  # fmt: skip


# -- what is gained and paid ----------------------------------------------------------------------------------------


def gain(writer: Writer) -> None:
    facts = writer.facts
    ratio = facts.answer.velocity_ratio
    advantage = facts.ideal.mechanical_advantage
    if ratio is None or advantage is None:
        return
    lifted = [value.number for name in (*_beside(facts), facts.load) if (value := facts.weight(name)) and value.number]
    writer.tell(lifted=Value(sum(lifted, Fraction(0)), "N", None))
    sides: tuple[Formula, ...] = (Symbol("MA"),)
    weight = facts.weight(facts.load)
    if weight is not None and weight.formula is not None:
        sides = (*sides, Quotient(weight.formula, Symbol(facts.rig.effort_symbol)))
    if advantage.number is not None:
        sides = (*sides, Number(advantage.number))
    writer.step(
        "gain", "gain", lit=(facts.load, "hand"), formula=Equation(sides), cites=("result:advantage",),
        words={"vr": multiple_word(ratio)},
    )  # fmt: skip


def multiple_word(value: Value) -> str:
    """A multiple as a plain word: four, 2.5."""
    number = value.number
    if number is None:
        return en.spoken(value.formula) if value.formula is not None else ""
    return en.count(int(number)) if number.denominator == 1 else en.fraction(number) or numeral(number).text


def work(writer: Writer) -> None:
    """Work in and work out for the motion asked; left out where none is asked."""
    facts, found = writer.facts, writer.facts.ideal.work
    if found is None or found.put_in is None or facts.ideal.effort is None:
        return
    shares = sorted(found.shares, key=lambda share: share[0] != facts.load)
    writer.tell(E_in=size(found.put_in), E_out=size(found.out))
    keys = [f"E_{n}" for n in range(1, len(shares) + 1)]
    writer.tell(**{key: size(value) for key, (_, value) in zip(keys, shares, strict=True)})
    given = [share for _, share in shares[1:] if share.number is not None and share.number < 0]
    true = {f"E={len(shares)}"} | ({"gives"} if given else set())
    if len(keys) > 1 and facts.numeric and "lowers" not in writer.tags:
        if given and len(keys) == 2:
            writer.add_up(("E_in", "E_2"), "E_1")
        elif not given:
            writer.add_up(keys, "E_in")
    letters = [weight_gain(facts, name) for name, _ in shares]
    push = Product((Symbol(facts.rig.effort_symbol), Symbol(facts.rig.haul_symbol)))
    parts = [name for name, _ in shares]
    writer.step(
        "work", "work", lit=("hand", *parts), formula=writer.equation(push, total(list(letters)), key="E_in"),
        cites=("result:work",), true=true, words={"second": writer.nouns[parts[-1]]},
    )  # fmt: skip


def weight_gain(facts: Facts, name: str) -> Formula:
    """What a weight gains as the load rises by h: its weight times its own way."""
    value, rate = facts.weight(name), facts.rise(name)
    factors = [Number(rate)] if rate is not None and rate != 1 else []
    if value is not None and value.formula is not None:
        inner = value.formula.factors if isinstance(value.formula, Product) else (value.formula,)
        return Product((*factors, *inner, Symbol(rise_letter(facts))))
    return Number(Fraction(0))


def rise_letter(facts: Facts) -> str:
    return facts.rig.asked.distance.symbol if facts.rig.asked else facts.rig.rise_symbol
