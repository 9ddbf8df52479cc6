"""A rig as a mechanics textbook would take it: bodies on plumb lines, ropes of fixed length, energy.

Written from first principles on top of a general computer-algebra library, and from nothing of the engine but the rig:
it reads contacts and givens only. Heights count upward. Every given stands as its own symbol.
"""

from typing import Any

import sympy as sp
from sympy.physics.mechanics import LagrangesMethod, dynamicsymbols

from gantline.quantity import Formula, Number, Power, Product, Quotient, Sum, Symbol
from gantline.rig import Contact, Fixed, Given, Rig, Rope, Sheave


def as_sympy(formula: Formula) -> sp.Expr:
    """A formula of the answer in the terms of the algebra library."""
    match formula:
        case Number(number):
            return sp.Rational(number.numerator, number.denominator)
        case Symbol(name):
            return sp.Symbol(name)
        case Sum(terms):
            return sp.Add(*map(as_sympy, terms))
        case Product(factors):
            return sp.Mul(*map(as_sympy, factors))
        case Quotient(over, under):
            return as_sympy(over) / as_sympy(under)
        case Power(base, exponent):
            return as_sympy(base) ** exponent


class Bodies:
    """The bodies of a rig, the ends of its strands, and what the ropes tie together.

    `pulls[strand]` are the (body, way) pairs a strand pulls at, way 1 up, -1 down; fixed parts keep their own name.
    """

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        self.given: dict[sp.Symbol, sp.Rational] = {}
        self.g = self.symbol(rig.gravity)
        self.body = self._bodies()
        self.names = list(dict.fromkeys(self.body.values()))
        self.pulls = {s.name: self._ends(rope, n) for rope in rig.ropes for n, s in enumerate(rope.strands)}
        self.hand_strand = self._hand_strand()

    def symbol(self, given: Given) -> sp.Symbol:
        symbol = sp.Symbol(given.symbol)
        if given.number is not None:
            self.given[symbol] = sp.Rational(given.number.numerator, given.number.denominator)
        return symbol

    def _bodies(self) -> dict[str, str]:
        """Part -> the first part of the body it belongs to: a block and the loads it carries move as one."""
        body = {part.name: part.name for part in (*self.rig.moving, *self.rig.loads)}
        for block in self.rig.moving:
            for load in block.carries:
                old, new = body[load], body[block.name]
                body = {name: new if at == old else at for name, at in body.items()}
        return body

    def weight(self, name: str) -> sp.Expr:
        return sp.Add(*(self._own(part.name)[0] for part in self._members(name)))

    def mass(self, name: str) -> sp.Expr:
        return sp.Add(*(self._own(part.name)[1] for part in self._members(name)))

    def _members(self, name: str) -> list[Any]:
        return [part for part in (*self.rig.moving, *self.rig.loads) if self.body[part.name] == name]

    def _own(self, name: str) -> tuple[sp.Expr, sp.Expr]:
        part = self.rig.part(name)
        if part.weight is not None:
            weight = self.symbol(part.weight)
            return weight, weight / self.g
        if part.mass is not None:
            mass = self.symbol(part.mass)
            return mass * self.g, mass
        return sp.Integer(0), sp.Integer(0)

    def _at(self, contact: Contact) -> str:
        """The body a contact is on; "hand" where a person on firm ground hauls."""
        if contact.part != "hand":
            return self.body.get(contact.part, contact.part)
        assert self.rig.hand is not None
        return self.body[self.rig.hand.rides] if self.rig.hand.rides else "hand"

    def _ends(self, rope: Rope, n: int) -> tuple[tuple[str, int], tuple[str, int]]:
        one, two = rope.contacts[n], rope.contacts[n + 1]
        first, second = self._ways(one, two)
        return (self._at(one), first), (self._at(two), second)

    def _ways(self, one: Contact, two: Contact) -> tuple[int, int]:
        """Which way the run between two contacts pulls at each: down from over, up from under, sideways 0."""
        down = {"over": -1, "under": 1}
        if one.side and two.side:
            return (0, 0) if one.side == two.side else (down[one.side], down[two.side])
        if one.side:
            return down[one.side], -down[one.side]
        if two.side:
            return -down[two.side], down[two.side]
        return (1, -1) if self._second_is_above(one, two) else (-1, 1)

    def _second_is_above(self, one: Contact, two: Contact) -> bool:
        """Between two ends made fast: the hand is above, a fixed part is above, a load is below."""
        if "hand" in (one.part, two.part):
            return two.part == "hand"
        first, second = self.rig.part(one.part), self.rig.part(two.part)
        if isinstance(first, Fixed) != isinstance(second, Fixed):
            return isinstance(second, Fixed)
        loads = {load.name for load in self.rig.loads}
        return one.part in loads and two.part not in loads

    def _hand_strand(self) -> str | None:
        for rope in self.rig.ropes:
            if rope.contacts[0].part == "hand":
                return rope.strands[0].name
            if rope.contacts[-1].part == "hand":
                return rope.strands[-1].name
        return None

    def shortening(self, rope: Rope, ways: dict[str, sp.Expr]) -> sp.Expr:
        """How much too long a rope is once the bodies have gone their `ways` up and the hand its way in: nothing."""
        total = sp.Integer(0)
        for strand in rope.strands:
            for at, way in self.pulls[strand.name]:
                total += way * ways.get(at, 0) if at != "hand" else 0
        hauled = self.hand_strand in {strand.name for strand in rope.strands}
        return total - ways.get("hand", 0) if hauled else total

    def rims(self, ways: dict[str, sp.Expr]) -> dict[tuple[str, int], sp.Expr]:
        """(rope, contact) of every sheave -> how much rope runs over it, along the path of the rope."""
        found = {}
        for rope in self.rig.ropes:
            at, way = self.pulls[rope.strands[0].name][0]
            along = way * ways.get(at, 0) if at != "hand" else sp.Integer(0)
            if rope.contacts[0].part == "hand":
                along -= ways["hand"]
            for n, contact in enumerate(rope.contacts[1:-1], 1):
                block = ways.get(self._at(contact), 0)
                into, out = self.pulls[rope.strands[n - 1].name][1][1], self.pulls[rope.strands[n].name][0][1]
                found[rope.name, n] = along + into * block
                along = found[rope.name, n] + out * block
        return found

    def rim_inertia(self, sheave: Sheave) -> sp.Expr:
        """I / r**2, what the rim feels like to the rope (kg)."""
        if sheave.disc is not None:
            return self.symbol(sheave.disc) / 2
        if sheave.inertia is not None and sheave.radius is not None:
            return self.symbol(sheave.inertia) / self.symbol(sheave.radius) ** 2
        return sp.Integer(0)

    def sheaves(self) -> list[tuple[tuple[str, int], Sheave]]:
        return [((r.name, n), c.sheave) for r in self.rig.ropes for n, c in enumerate(r.contacts) if c.sheave]

    # -- by energy --------------------------------------------------------------------------------------------------

    def lagrange(self) -> tuple[dict[str, sp.Expr], dict[str, sp.Expr]]:
        """Accelerations of the bodies and (free wheels without mass) the pull of each rope, by Lagrange's method."""
        names = [*self.names, *(["hand"] if self.rig.hand else [])]
        q = {name: dynamicsymbols(f"q_{n}") for n, name in enumerate(names)}
        speed = {name: way.diff(dynamicsymbols._t) for name, way in q.items()}
        energy = sum((self.mass(name) * speed[name] ** 2 / 2 - self.weight(name) * q[name] for name in self.names), 0)
        rims = self.rims(speed)
        energy += sum((self.rim_inertia(sheave) * rims[at] ** 2 / 2 for at, sheave in self.sheaves()), 0)
        ties = [self.shortening(rope, q) for rope in self.rig.ropes]
        method = LagrangesMethod(energy, list(q.values()), hol_coneqs=ties, **self._effort(q))
        equations = method.form_lagranges_equations()
        second = {name: speed[name].diff(dynamicsymbols._t) for name in names}
        unknown = [*second.values(), *method.lam_vec]
        ties2 = [tie.diff(dynamicsymbols._t, 2) for tie in ties]
        plain = {old: sp.Symbol(f"unknown_{n}") for n, old in enumerate(unknown)}
        rows = [sp.expand(row).xreplace(plain) for row in (*equations, *ties2)]
        (solution,) = sp.linsolve(rows, list(plain.values()))
        values = dict(zip(unknown, solution, strict=True))
        pulls = {rope.name: -values[lam] for rope, lam in zip(self.rig.ropes, method.lam_vec, strict=True)}
        return {name: values[second[name]] for name in names}, pulls

    def _effort(self, q: dict[str, Any]) -> dict[str, Any]:
        """The hand's pull as a force along the rope it takes up, in the form Lagrange's method asks for."""
        if self.rig.hand is None:
            return {}
        from sympy.physics.mechanics import Point, ReferenceFrame

        assert self.rig.effort is not None
        frame = ReferenceFrame("N")
        grip = Point("grip")
        grip.set_vel(frame, q["hand"].diff(dynamicsymbols._t) * frame.y)
        return {"forcelist": [(grip, self.symbol(self.rig.effort) * frame.y)], "frame": frame}

    # -- by forces --------------------------------------------------------------------------------------------------

    def newton(self, still: bool, way: dict[str, int] | None = None) -> dict[sp.Symbol, sp.Expr]:
        """Pulls T_rope:index and accelerations a_body from force balances, strand by strand.

        `way` gives, for lossy sheaves, how the bodies and the hand are moving (numbers); `still` leaves out masses.
        """
        rows, unknown = self.equations(still, way)
        solutions = sp.linsolve(rows, unknown)
        if not solutions:  # no balance in letters: only these numbers happen to balance
            solutions = sp.linsolve([row.subs(self.given) for row in rows], unknown)
        (solution,) = solutions
        return dict(zip(unknown, solution, strict=True))

    def equations(self, still: bool, way: dict[str, int] | None = None) -> tuple[list[sp.Expr], list[sp.Symbol]]:
        """The force balances, ropes and sheaves that `newton` solves (each zero), and their unknowns."""
        pull = {strand: sp.Symbol(f"T_{strand}") for strand in self.pulls}
        names = [*self.names, *(["hand"] if self.rig.hand else [])]
        speed_up = {name: sp.Integer(0) if still else sp.Symbol(f"a_{name}") for name in names}
        rows = []
        for name in self.names:
            forces = sum((w * pull[s] for s, ends in self.pulls.items() for at, w in ends if at == name), 0)
            rows.append(forces - self.weight(name) - self.mass(name) * speed_up[name])
        rims, running = self.rims(speed_up), self.rims({k: sp.sympify(v) for k, v in way.items()}) if way else {}
        for at, sheave in self.sheaves():
            into, out = pull[f"{at[0]}:{at[1]}"], pull[f"{at[0]}:{at[1] + 1}"]
            rows.append(self._sheave(sheave, into, out, running.get(at, 0), rims[at]))
        if not still:
            rows += [self.shortening(rope, speed_up) for rope in self.rig.ropes]
        if self.rig.hand and self.rig.effort:
            assert self.hand_strand is not None
            rows.append(pull[self.hand_strand] - self.symbol(self.rig.effort))
        return [sp.expand(row) for row in rows], [*pull.values(), *([] if still else speed_up.values())]

    def support(self, name: str, pull: dict[sp.Symbol, sp.Expr]) -> sp.Expr:
        """What a fixed part carries, down positive, its own weight with it."""
        part = self.rig.part(name)
        own = self.symbol(part.weight) if part.weight else self.symbol(part.mass) * self.g if part.mass else 0
        ends = ((pull[sp.Symbol(f"T_{s}")], at, w) for s, pair in self.pulls.items() for at, w in pair)
        return own - sum((w * tension for tension, at, w in ends if at == name), 0)

    def _sheave(self, sheave: Sheave, into: sp.Symbol, out: sp.Symbol, running: Any, speeding: sp.Expr) -> sp.Expr:
        """Equal pulls; or, running, slack side = e x tight side; or a wheel that must be turned."""
        if sheave.efficiency is None or running == 0:
            return out - into - self.rim_inertia(sheave) * speeding
        e = self.symbol(sheave.efficiency)
        return into - e * out if running > 0 else out - e * into

    def motion(self) -> dict[str, sp.Rational]:
        """How all go while the hand takes up one metre (or, without a hand, the first load rises one)."""
        names = [*self.names, *(["hand"] if self.rig.hand else [])]
        ways = {name: sp.Symbol(f"d_{name}") for name in names}
        first = "hand" if self.rig.hand else self.body[self.rig.loads[0].name]
        rows = [*(self.shortening(rope, ways) for rope in self.rig.ropes), ways[first] - 1]
        (solution,) = sp.linsolve(rows, list(ways.values()))
        return dict(zip(names, solution, strict=True))
