"""The second route: every answer is checked again from the rig itself, by code the solver does not share.

It knows contacts and heights, not directions, growth rows or pivots: pulls are added up body by body from what touches
it, ropes are measured before and after a move with the parts at real heights, and work is booked sheave by sheave.
"""

from collections.abc import Mapping

from flint import fmpq

from gantline.quantity import value
from gantline.rig import Contact, Rig, Rope, Sheave, Strand

from .answer import Certificate, Check, Regime, Value
from .numbers import asked_load, exact


class _Route:
    """One rig with the numbers of its givens; `bare` symbols stand in with the numbers they were solved for."""

    def __init__(self, rig: Rig, of: Mapping[str, fmpq]) -> None:
        self.rig, self.of = rig, of
        self.given = {name: exact(number) for name, number in of.items()}
        self.touches: dict[str, list[tuple[str, int]]] = {}
        for rope in rig.ropes:
            for n, contact in enumerate(rope.contacts):
                self._touch(rope, n, contact)
        self.heights = {part.name: fmpq(100 + 7 * n) for n, part in enumerate(rig.parts)}

    def _touch(self, rope: Rope, n: int, contact: Contact) -> None:
        """Which strands pull at a part, and whether up (1), down (-1) or sideways (0)."""
        name = contact.part
        if name == "hand":
            if self.rig.hand is None or self.rig.hand.rides is None:
                return
            name = self.rig.hand.rides
        strands = [k for k in (n - 1, n) if 0 <= k < len(rope.strands)]
        for k in strands:
            strand = rope.strands[k]
            other = rope.contacts[k + 1] if k == n else rope.contacts[k]
            if strand.course == "level":
                pull = 0
            elif contact.side:
                pull = -1 if contact.side == "over" else 1
            elif other.side:
                pull = 1 if other.side == "over" else -1
            else:
                pull = 1 if (strand.course == "up") == (k == n) else -1
            self.touches.setdefault(name, []).append((strand.name, pull))

    def number(self, found: Value | None) -> fmpq | None:
        """The exact number of a value; through its formula where a symbol is bare."""
        if found is None:
            return None
        if found.number is not None:
            return fmpq(found.number.numerator, found.number.denominator)
        if found.formula is None:
            return None
        worked = value(found.formula, self.given)
        return fmpq(worked.numerator, worked.denominator)

    def weigh(self, name: str) -> tuple[fmpq, fmpq]:
        """(weight, mass) of a part alone."""
        part, g = self.rig.part(name), self.of[self.rig.gravity.symbol]
        if part.weight is not None:
            weight = self.of[part.weight.symbol]
            return weight, weight / g
        if part.mass is not None:
            mass = self.of[part.mass.symbol]
            return mass * g, mass
        return fmpq(0), fmpq(0)


def certify(rig: Rig, regimes: tuple[Regime, ...], of: Mapping[str, fmpq]) -> Certificate:
    """Check every regime of an answer. Undecided numbers are left out of the checks, and only those."""
    route = _Route(rig, of)
    checks: list[Check] = []
    for regime in regimes:
        tensions = {pull.name: route.number(pull.tension) for pull in regime.strands}
        asked = asked_load(rig)
        held = {asked: route.number(regime.load)} if asked and regime.load is not None else {}
        checks += _forces(route, regime, tensions, held)
        checks += _whole(route, regime, tensions, held)
        checks += _sheaves(route, regime, tensions)
        checks += _work(route, regime, tensions, held)
    checks += _lengths(route, regimes[0])
    checks += _formulas(route, regimes)
    return Certificate(tuple(checks))


def _check(name: str, parts: tuple[str, ...], terms: list[fmpq], unit: str, regime: Regime) -> Check:
    total = sum(terms, fmpq(0))
    return Check(name, parts, tuple(exact(term) for term in terms), exact(total), unit, regime.way)


def _groups(route: _Route) -> list[tuple[str, ...]]:
    """Bodies that move as one: blocks with the loads they carry."""
    groups: list[set[str]] = []
    for part in route.rig.movers:
        own = {part.name, *getattr(part, "carries", ())}
        meets = [group for group in groups if group & own]
        groups = [group for group in groups if group not in meets] + [own.union(*meets)]
    order = [part.name for part in route.rig.parts]
    return [tuple(sorted(group, key=order.index)) for group in groups]


def _acceleration(route: _Route, regime: Regime, name: str) -> fmpq | None:
    return next((route.number(m.acceleration) for m in regime.motions if m.name == name), None)


def _forces(
    route: _Route, regime: Regime, tensions: Mapping[str, fmpq | None], held: Mapping[str, fmpq | None]
) -> list[Check]:
    """Up and down on every moving body: pulls, weights, mass times acceleration."""
    checks = []
    for group in _groups(route):
        acceleration = _acceleration(route, regime, group[0])
        pulls = [(tensions[strand], way) for name in group for strand, way in route.touches.get(name, ())]
        if acceleration is None or any(tension is None for tension, _ in pulls):
            continue
        terms = [tension * way for tension, way in pulls if tension is not None]
        for name in group:
            weight, mass = route.weigh(name)
            load = held.get(name)
            terms += [-(weight if load is None else load)] if weight != 0 or load is not None else []
            terms += [-mass * acceleration] if mass != 0 and acceleration != 0 else []
        checks.append(_check("forces", group, terms, "N", regime))
    return checks


def _whole(
    route: _Route, regime: Regime, tensions: Mapping[str, fmpq | None], held: Mapping[str, fmpq | None]
) -> list[Check]:
    """The rig from outside: supports and hand against all weights, and what speeds up."""
    supports = [(s.name, route.number(s.force)) for s in regime.supports]
    if not supports or any(force is None for _, force in supports):
        return []
    terms = [force for _, force in supports if force is not None]
    hand = route.rig.hand
    if hand is not None and hand.rides is None:
        rope = next(r for r in route.rig.ropes if "hand" in (r.contacts[0].part, r.contacts[-1].part))
        first = rope.contacts[0].part == "hand"
        strand, other = (rope.strands[0], rope.contacts[1]) if first else (rope.strands[-1], rope.contacts[-2])
        effort = route.number(regime.effort)
        if effort is None:
            return []
        if strand.course != "level":
            below = other.side == "over" if other.side else False
            terms.append(-effort if below else effort)
    for part in route.rig.parts:
        weight, mass = route.weigh(part.name)
        load = held.get(part.name)
        acceleration = _acceleration(route, regime, part.name)
        if part in route.rig.fixed:
            acceleration = fmpq(0)
        if acceleration is None:
            return []
        terms += [-(weight if load is None else load)] if weight != 0 or load is not None else []
        terms += [-mass * acceleration] if mass != 0 and acceleration != 0 else []
    return [_check("whole", tuple(name for name, _ in supports), terms, "N", regime)]


def _passes(route: _Route) -> list[tuple[str, str, Sheave]]:
    """(strand before, strand after, sheave) wherever a rope runs over a wheel."""
    return [
        (rope.strands[n - 1].name, rope.strands[n].name, contact.sheave)
        for rope in route.rig.ropes
        for n, contact in enumerate(rope.contacts)
        if contact.sheave is not None
    ]


def _runs(route: _Route, rates: Mapping[str, fmpq]) -> dict[str, fmpq]:
    """How fast the rope passes each sheave (path order), from what each strand before it has lost in length."""
    passed: dict[str, fmpq] = {}
    for rope in route.rig.ropes:
        lost = fmpq(0)
        for n, strand in enumerate(rope.strands[:-1]):
            upper, lower = _ends(strand)
            if strand.course != "level":
                lost += _rise(route, lower, rates) - _rise(route, upper, rates)
            if n == 0 and rope.contacts[0].part == "hand":
                lost -= rates.get("hand", fmpq(0))
            sheave = rope.contacts[n + 1].sheave
            if sheave is not None:
                passed[sheave.name] = lost
    return passed


def _sheaves(route: _Route, regime: Regime, tensions: Mapping[str, fmpq | None]) -> list[Check]:
    """The law of every sheave between the pulls on its two sides, all in one check each regime."""
    rates = {m.name: route.number(m.acceleration) or fmpq(0) for m in regime.motions}
    speed_up = _runs(route, {**rates, "hand": _taken_up(route, rates)})
    worst: list[fmpq] = []
    for before, after, sheave in _passes(route):
        a, b = tensions[before], tensions[after]
        if a is None or b is None:
            continue
        worst.append(_law_residual(route, regime, sheave, a, b, speed_up[sheave.name]))
    if not worst:
        return []
    names = tuple(sheave.name for _, _, sheave in _passes(route))
    return [_check("sheave", names, [max(worst, key=abs)], "N", regime)]


def _law_residual(route: _Route, regime: Regime, sheave: Sheave, a: fmpq, b: fmpq, speed_up: fmpq) -> fmpq:
    """How far two pulls are from the sheave's law; the running direction is read off the pulls themselves."""
    heavy = fmpq(0)
    if sheave.disc is not None:
        heavy = route.of[sheave.disc.symbol] / 2
    elif sheave.inertia is not None and sheave.radius is not None:
        heavy = route.of[sheave.inertia.symbol] / route.of[sheave.radius.symbol] ** 2
    plain = b - a - heavy * speed_up
    e = route.of[sheave.efficiency.symbol] if sheave.efficiency is not None else fmpq(1)
    if regime.way == "ideal" or e == 1 or plain == 0:
        return plain
    forward = e * b - a - heavy * speed_up * (1 + e) / 2
    backward = e * a - b + heavy * speed_up * (1 + e) / 2
    if speed_up == 0 and e * b < a and e * a < b:
        return fmpq(0)  # held within its friction
    return min(forward, backward, key=abs)


def _taken_up(route: _Route, rises: Mapping[str, fmpq]) -> fmpq:
    """The rope the hand takes up as the parts rise: what the plumb strands of its rope lose together."""
    for rope in route.rig.ropes:
        if "hand" in (rope.contacts[0].part, rope.contacts[-1].part):
            ends = (_ends(strand) for strand in rope.strands if strand.course != "level")
            return sum((_rise(route, low, rises) - _rise(route, high, rises) for high, low in ends), fmpq(0))
    return fmpq(0)


def _rise(route: _Route, contact: Contact, rises: Mapping[str, fmpq]) -> fmpq:
    """How far a contact rises: with its part, at the hand with whoever it rides on, else not at all."""
    if contact.part != "hand":
        return rises.get(contact.part, fmpq(0))
    rides = route.rig.hand.rides if route.rig.hand else None
    return rises.get(rides, fmpq(0)) if rides else fmpq(0)


def _ends(strand: Strand) -> tuple[Contact, Contact]:
    """(upper, lower) end of a plumb strand, by the sheaves it touches, else by its course."""
    if strand.start.side == "over" or strand.end.side == "under":
        return strand.start, strand.end
    if strand.end.side == "over" or strand.start.side == "under":
        return strand.end, strand.start
    return (strand.start, strand.end) if strand.course == "down" else (strand.end, strand.start)


def _lengths(route: _Route, regime: Regime) -> list[Check]:
    """Every rope measured before and after the hand has taken up a metre, with the parts at heights of their own; and,
    where things speed up, every rope without a hand after the parts have moved by their accelerations."""
    rises = {m.name: route.number(m.per_hand) for m in regime.motions}
    speeding = {m.name: route.number(m.acceleration) for m in regime.motions}
    checks = []
    for rope in route.rig.ropes:
        hauled = "hand" in (rope.contacts[0].part, rope.contacts[-1].part)
        for moves, taken, unit in ((rises, fmpq(int(hauled)), "m"), (speeding, fmpq(0), "m/s²")):
            known = {name: move for name, move in moves.items() if move is not None}
            if len(known) < len(moves) or (unit == "m/s²" and (hauled or not any(known.values()))):
                continue
            terms = [_measured(route, rope, known), taken, -_measured(route, rope, {})]
            checks.append(_check("length", (rope.name,), terms, unit, regime))
    return checks


def _measured(route: _Route, rope: Rope, rises: Mapping[str, fmpq]) -> fmpq:
    """The plumb length of a rope with each part lifted by its rise from a height of its own."""
    total = fmpq(0)
    for strand in rope.strands:
        if strand.course != "level":
            high, low = _ends(strand)
            total += _rise(route, high, route.heights) + _rise(route, high, rises)
            total -= _rise(route, low, route.heights) + _rise(route, low, rises)
    return total


def _work(
    route: _Route, regime: Regime, tensions: Mapping[str, fmpq | None], held: Mapping[str, fmpq | None]
) -> list[Check]:
    """Work in, less work out, less what every sheave takes, for one metre of rope at the hand and no speeding up."""
    rises = {m.name: route.number(m.per_hand) for m in regime.motions}
    effort = route.number(regime.effort)
    still = all(route.number(m.acceleration) == 0 for m in regime.motions)
    if effort is None or not still or any(r is None for r in rises.values()) or None in tensions.values():
        return []
    known = {name: rise for name, rise in rises.items() if rise is not None}
    terms = [effort]
    for name, rise in known.items():
        load = held.get(name)
        weight = route.weigh(name)[0] if load is None else load
        terms += [-weight * rise] if weight * rise != 0 else []
    runs = _runs(route, {**known, "hand": fmpq(1)})
    lost = sum((-(_sure(tensions[b]) - _sure(tensions[a])) * runs[s.name] for a, b, s in _passes(route)), fmpq(0))
    return [_check("work", ("hand", *known), terms + ([lost] if lost != 0 else []), "J", regime)]


def _sure(number: fmpq | None) -> fmpq:
    assert number is not None
    return number


def _formulas(route: _Route, regimes: tuple[Regime, ...]) -> list[Check]:
    """Every formula worked out with the givens, against the number it stands beside."""
    checks = []
    for regime in regimes:
        seen: dict[int, Value] = {}
        found = [regime.effort, regime.mechanical_advantage, *(p.tension for p in regime.strands),
                 *(s.force for s in regime.supports), *(m.acceleration for m in regime.motions)]  # fmt: skip
        for each in found:
            if each is not None and each.number is not None and each.formula is not None:
                seen[id(each)] = each
        if not seen:
            continue
        off = [value(v.formula, route.given) - v.number for v in seen.values() if v.formula and v.number is not None]
        worst = max(off, key=abs)
        checks.append(Check("formulas", (), (worst,), worst, "", regime.way))
    return checks
