"""The equations of a rig in its own symbols, one by one, for whoever explains the answer to cite."""

from fractions import Fraction

from gantline.quantity import Equation, Formula, Number, Product, Quotient, Sum, Symbol
from gantline.rig import Fixed, Load, Moving, Rig

from .answer import Regime, Relation, Value
from .numbers import asked_load
from .regime import Reader
from .system import System


def tension_symbols(rig: Rig) -> tuple[tuple[str, str], ...]:
    """The letter for the pull of each rope: T for one, T1, T2 ... for several, clear of the letters the file gives."""
    taken = {rig.effort_symbol, rig.rise_symbol, rig.haul_symbol, rig.gravity.symbol}
    taken |= {g.symbol for part in rig.parts for g in (part.weight, part.mass) if g}
    letter = next(letter for letter in ("T", "P", "Q", "Z", "T_") if letter not in taken)
    names = [rope.name for rope in rig.ropes]
    return tuple((name, letter if len(names) == 1 else f"{letter}{n}") for n, name in enumerate(names, 1))


def relations(rig: Rig, ideal: Regime, reader: Reader) -> tuple[Relation, ...]:
    """Pull along each rope, balance or Newton of each body, length of each rope, supports, and the results."""
    letters = dict(tension_symbols(rig))
    heavy = _heavy_ropes(rig)
    found = [*_pulls(rig, letters, heavy)]
    moving = any(m.acceleration is not None and m.acceleration.number != 0 for m in ideal.motions)
    found += _bodies(rig, reader.system, letters, heavy, moving)
    found += _lengths(rig, reader.system, reader)
    found += _supports(rig, reader.system, letters, heavy, ideal)
    found += _results(rig, ideal, reader)
    return tuple(found)


def _heavy_ropes(rig: Rig) -> set[str]:
    """Ropes over a sheave that has to be turned: their strands do not pull alike while things speed up."""
    return {r.name for r in rig.ropes for c in r.contacts if c.sheave and (c.sheave.disc or c.sheave.inertia)}


def pull_symbol(strand: str, letters: dict[str, str], heavy: set[str]) -> Symbol:
    """The letter of a strand's pull: its rope's, with the strand's number where the strands differ."""
    rope, index = strand.split(":")
    return Symbol(f"{letters[rope]}_{index}" if rope in heavy else letters[rope])


def _pulls(rig: Rig, letters: dict[str, str], heavy: set[str]) -> list[Relation]:
    found = []
    for rope in rig.ropes:
        if rope.name in heavy:
            continue
        ends = {rope.contacts[0].part, rope.contacts[-1].part}
        sides: tuple[Formula, ...] = (Symbol(letters[rope.name]),)
        if "hand" in ends:
            sides = (*sides, Symbol(rig.effort_symbol))
        parts = (rope.name, *(strand.name for strand in rope.strands), *(("hand",) if "hand" in ends else ()))
        found.append(Relation(f"pull:{rope.name}", "pull", parts, Equation(sides)))
    return found


def _bodies(rig: Rig, system: System, letters: dict[str, str], heavy: set[str], moving: bool) -> list[Relation]:
    """Up equals down on every moving body; where it speeds up: up less down equals mass times acceleration."""
    found = []
    for coordinate in system.coordinates:
        if coordinate.freedom != "rise":
            continue
        up, down, strands = _about(system, coordinate, letters, heavy)
        movers = sorted(rig.movers, key=lambda part: isinstance(part, Moving))
        members = [part for part in movers if system.body[part.name] == coordinate.part]
        weights = [w for part in members if (w := _weight(part, rig)) is not None]
        parts = (*(part.name for part in members), *strands)
        if moving:
            masses = [m for part in members if (m := _mass(part, rig)) is not None]
            left = _sum([*up, *(_minus(d) for d in (*down, *weights))])
            right = _times(_sum(masses), Symbol(acceleration_symbol(rig, coordinate.part)))
            found.append(Relation(f"newton:{coordinate.part}", "newton", parts, Equation((left, right))))
        else:
            found.append(
                Relation(f"balance:{coordinate.part}", "balance", parts, Equation((_sum(up), _sum([*down, *weights]))))
            )
    return found


def acceleration_symbol(rig: Rig, part: str) -> str:
    """The letter of a body's acceleration: a where one body moves, a1, a2 ... in the order of the file."""
    bodies = [p.name for p in rig.movers if rig.bearer(p.name) == p.name]
    return "a" if len(bodies) <= 1 else f"a{bodies.index(part) + 1}" if part in bodies else "a"


def _about(
    system: System, coordinate: object, letters: dict[str, str], heavy: set[str]
) -> tuple[list[Formula], list[Formula], list[str]]:
    """Pulls up and down on a coordinate, gathered letter by letter, and the strands they come from."""
    up: dict[str, Fraction] = {}
    down: dict[str, Fraction] = {}
    strands = []
    for element in system.elements:
        for at, share in element.growth:
            if at == coordinate:
                letter = pull_symbol(element.name, letters, heavy).name
                size = Fraction(int(share.p), int(share.q))
                side = up if size < 0 else down
                side[letter] = side.get(letter, Fraction(0)) + abs(size)
                strands.append(element.name)
    ups = [_times(Number(n), Symbol(letter)) for letter, n in up.items()]
    return ups, [_times(Number(n), Symbol(letter)) for letter, n in down.items()], strands


def _weight(part: Fixed | Moving | Load, rig: Rig) -> Formula | None:
    if part.weight is not None:
        return Symbol(part.weight.symbol)
    return Product((Symbol(part.mass.symbol), Symbol(rig.gravity.symbol))) if part.mass is not None else None


def _mass(part: Fixed | Moving | Load, rig: Rig) -> Formula | None:
    if part.mass is not None:
        return Symbol(part.mass.symbol)
    return Quotient(Symbol(part.weight.symbol), Symbol(rig.gravity.symbol)) if part.weight is not None else None


def _lengths(rig: Rig, system: System, reader: Reader) -> list[Relation]:
    """What each rope gives up at some parts it takes up at others: its strands' growth adds up to nothing."""
    letters = way_symbols(rig)
    found = []
    for rope in rig.ropes:
        total: dict[str, Fraction] = {}
        for element in system.elements:
            if element.strand.rope != rope.name:
                continue
            for at, share in element.growth:
                if at in system.coordinates:
                    letter = letters[at.part]
                    total[letter] = total.get(letter, Fraction(0)) + Fraction(int(share.p), int(share.q))
        grows = [_times(Number(n), Symbol(letter)) for letter, n in total.items() if n > 0]
        shrinks = [_times(Number(-n), Symbol(letter)) for letter, n in total.items() if n < 0]
        parts = (rope.name, *(strand.name for strand in rope.strands))
        found.append(Relation(f"length:{rope.name}", "length", parts, Equation((_sum(grows), _sum(shrinks))), "m"))
    return found


def way_symbols(rig: Rig) -> dict[str, str]:
    """The letter for each body's way: s for the hand, h for the load asked about, y1, y2 ... for the others (up +)."""
    aim = rig.bearer(rig.aim) if rig.aim else None
    found = {"hand": rig.haul_symbol}
    others = 0
    for part in rig.movers:
        if rig.bearer(part.name) != part.name:
            continue
        if part.name == aim:
            found[part.name] = rig.asked.distance.symbol if rig.asked else rig.rise_symbol
        else:
            others += 1
            found[part.name] = f"y{others}"
    return found


def _supports(rig: Rig, system: System, letters: dict[str, str], heavy: set[str], ideal: Regime) -> list[Relation]:
    found = []
    names = support_symbols(rig)
    for support in ideal.supports:
        coordinate = next((c for c in system.held if c.part == support.name and c.freedom == "rise"), None)
        up, down, strands = _about(system, coordinate, letters, heavy)
        own = _weight(rig.part(support.name), rig)
        sides: list[Formula] = [Symbol(names[support.name]), _sum([*down, *([own] if own else []), *map(_minus, up)])]
        if support.force is not None and support.force.number is not None:
            sides.append(Number(support.force.number))
        if strands:
            found.append(
                Relation(f"support:{support.name}", "support", (support.name, *strands), Equation(tuple(sides)))
            )
    return found


def support_symbols(rig: Rig) -> dict[str, str]:
    """R for one support, R1, R2 ... for several."""
    names = [part.name for part in rig.fixed]
    return {name: "R" if len(names) == 1 else f"R{n}" for n, name in enumerate(names, 1)}


def _results(rig: Rig, ideal: Regime, reader: Reader) -> list[Relation]:
    """The pull, the advantage, the rope to haul, the work, and accelerations where things speed up."""
    found = []
    parts = (*(("hand",) if rig.hand else ()), *((rig.aim,) if rig.aim else ()))
    if ideal.effort is not None and rig.effort is None:
        found.append(_result("effort", parts, Symbol(rig.effort_symbol), ideal.effort, "N"))
    asked = asked_load(rig)
    if ideal.load is not None and asked is not None:
        given = rig.part(asked).weight or rig.part(asked).mass
        found.append(_result("load", parts, Symbol(given.symbol if given else "W"), ideal.load, "N"))
    if ideal.mechanical_advantage is not None:
        found.append(_result("advantage", parts, Symbol("MA"), ideal.mechanical_advantage, "1"))
    ratio, hand_way = reader.velocity_ratio, dict(reader.travel).get("hand")
    if ratio is not None and ratio.number is not None:
        letter = rig.asked.distance.symbol if rig.asked else rig.rise_symbol
        sides: list[Formula] = [Symbol(rig.haul_symbol), _times(Number(ratio.number), Symbol(letter))]
        if hand_way is not None and hand_way.number is not None:
            sides.append(Number(abs(hand_way.number)))
        found.append(Relation("result:haul", "result", parts, Equation(tuple(sides)), "m"))
    if ideal.work is not None and ideal.work.put_in is not None and ideal.work.put_in.number is not None:
        order = {load.name: 0 for load in rig.loads}
        shares = sorted(ideal.work.shares, key=lambda share: order.get(share[0], 1))
        gained: list[Formula] = [Number(share.number) for _, share in shares if share.number is not None]
        gains = Equation((Number(ideal.work.put_in.number), _sum(gained)))
        found.append(Relation("result:work", "result", parts, gains, "J"))
    for motion in ideal.motions:
        if (
            motion.acceleration is not None
            and motion.acceleration.number != 0
            and rig.bearer(motion.name) == motion.name
        ):
            letter = acceleration_symbol(rig, motion.name)
            found.append(
                _result(f"acceleration:{motion.name}", (motion.name,), Symbol(letter), motion.acceleration, "m/s²")
            )
    return found


def _result(name: str, parts: tuple[str, ...], letter: Symbol, found: Value, unit: str) -> Relation:
    sides: list[Formula] = [letter]
    if found.formula is not None:
        sides.append(found.formula)
    if found.number is not None and found.formula != Number(found.number):
        sides.append(Number(found.number))
    return Relation(f"result:{name}", "result", parts, Equation(tuple(sides)), unit)


def _sum(terms: list[Formula]) -> Formula:
    if not terms:
        return Number(Fraction(0))
    return terms[0] if len(terms) == 1 else Sum(tuple(terms))


def _times(first: Formula, second: Formula) -> Formula:
    if first == Number(Fraction(1)):
        return second
    if first == Number(Fraction(0)):
        return first
    inner = second.factors if isinstance(second, Product) else (second,)
    return Product((first, *inner))


def _minus(formula: Formula) -> Formula:
    factors = formula.factors if isinstance(formula, Product) else (formula,)
    if isinstance(factors[0], Number):
        return Product((Number(-factors[0].value), *factors[1:]))
    return Product((Number(Fraction(-1)), *factors))
