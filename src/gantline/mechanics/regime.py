"""From a solution to a regime of the answer: pulls, supports, motions, advantage and work, as numbers with formulas."""

from fractions import Fraction
from typing import Any

from gantline.quantity import Formula, Number, symbols
from gantline.rig import Rig

from .answer import Motion, Pull, Regime, Support, Value, Way
from .forces import Solution, Solved
from .laws.rope import direction
from .laws.weight import weight_and_mass
from .motion import Motions
from .numbers import Numbers, asked_load, exact
from .ring import Ratio
from .system import HAND, Coordinate, System
from .work import load_over_effort, scaled, work
from .written import written


class Reader:
    """Reads regimes off solutions. Formulas are written once for each rational function met."""

    def __init__(
        self,
        rig: Rig,
        system: System,
        symbolic: System | None,
        motions: Motions,
        numbers: Numbers,
        flowing: list[dict[Coordinate, Any]],
    ) -> None:
        self.rig, self.system, self.symbolic, self.motions, self.numbers = rig, system, symbolic, motions, numbers
        self.flowing = flowing
        self._written: dict[int, tuple[Ratio, Formula, bool]] = {}

    # -- values -----------------------------------------------------------------------------------------------------

    def value(self, number: Any, ratio: Ratio | None, unit: str) -> Value:
        """A value from its number and its function. A number that hangs on a bare symbol is left out."""
        formula, bare = self._formula(ratio)
        if ratio is None and self.numbers.bare:
            bare = True
        return Value(None if bare else exact(number), unit, formula)

    def plain(self, number: Any, unit: str = "1") -> Value:
        """A value of pure geometry: its formula is its number."""
        plain = exact(number)
        return Value(plain, unit, Number(plain))

    def _formula(self, ratio: Ratio | None) -> tuple[Formula | None, bool]:
        if ratio is None:
            return None, False
        known = self._written.get(id(ratio))
        if known is None:
            formula = written(ratio)
            known = (ratio, formula, bool(self.numbers.bare and self.numbers.bare & symbols(formula)))
            self._written[id(ratio)] = known
        return known[1], known[2]

    # -- geometry ---------------------------------------------------------------------------------------------------

    def coordinate(self, part: str) -> Coordinate:
        return HAND if part == "hand" else Coordinate(self.system.body[part], "rise")

    @property
    def movers(self) -> list[str]:
        return [part.name for part in self.rig.parts if part.name in self.system.body]

    @property
    def velocity_ratio(self) -> Value | None:
        """Rope taken up for each metre the load rises."""
        if self.rig.hand is None or self.rig.aim is None:
            return None
        ratio = self.motions.ratio(HAND, self.coordinate(self.rig.aim))
        return self.plain(ratio) if ratio else None

    def per_aim(self, part: str) -> Any | None:
        """A part's way for each metre of the part asked to move, None where it is not fixed."""
        asked = self.rig.asked
        return self.motions.ratio(self.coordinate(part), self.coordinate(asked.part)) if asked else None

    @property
    def travel(self) -> tuple[tuple[str, Value], ...]:
        asked = self.rig.asked
        if asked is None:
            return ()
        names = (["hand"] if self.rig.hand else []) + self.movers
        found = ((name, self.per_aim(name)) for name in names)
        return tuple((name, self._way(rate * asked.sense)) for name, rate in found if rate is not None)

    def _way(self, rate: Any) -> Value:
        assert self.rig.asked is not None
        distance = self.rig.asked.distance
        number = rate * self.numbers.of[distance.symbol]
        ratio = None
        if self.symbolic is not None:
            ring = self.symbolic.ring
            ratio = ring.given(distance) * ring.constant(exact(rate))
        return self.value(number, ratio, "m")

    @property
    def helps(self) -> tuple[str, ...]:
        """Parts with weight that sink while the load rises, where a hand hauls."""
        aim = self.rig.aim
        if aim is None or self.rig.hand is None:
            return ()
        ratios = ((c, self.motions.ratio(c, self.coordinate(aim))) for c in self.system.weights)
        sinking = {c.part for c, ratio in ratios if ratio is not None and ratio < 0}
        return tuple(name for name in self.movers if self.system.body[name] in sinking and self._weighs(name))

    def _weighs(self, name: str) -> bool:
        part = self.rig.part(name)
        return part.weight is not None or part.mass is not None

    def weight(self, solved: Solved, name: str) -> tuple[Any, Ratio | None]:
        """A part's own weight, number and function (0 where it has none); the one found where the load is asked."""
        equations = solved.numbers.equations
        if equations.asks_load and name == asked_load(self.rig):
            function = solved.symbols.values[equations.load] if solved.symbols else None
            return solved.numbers.values.get(equations.load, self.system.ring.zero), function
        part = self.rig.part(name)
        number = weight_and_mass(part, self.rig.gravity, self.system.ring)[0]
        ratio = weight_and_mass(part, self.rig.gravity, self.symbolic.ring)[0] if self.symbolic else None
        return (self.system.ring.zero if number is None else number), ratio

    def weights(self, solved: Solved) -> tuple[tuple[str, Value], ...]:
        """The weight of every part that has one."""
        found = ((part.name, self.weight(solved, part.name)) for part in self.rig.parts)
        return tuple((name, self.value(*both, "N")) for name, both in found if both[0] != 0)

    # -- regimes ----------------------------------------------------------------------------------------------------

    def regime(self, way: Way, solved: Solved) -> Regime:
        pulls = self._pulls(solved)
        effort = self.effort(solved)
        load = self.column(solved, solved.numbers.equations.load, "N") if solved.numbers.equations.asks_load else None
        advantage = load_over_effort(self, solved, effort)
        ratio = self.velocity_ratio
        efficiency = None
        if advantage and ratio and ratio.number:
            efficiency = scaled(self, advantage, Fraction(1) / ratio.number)
        return Regime(
            way, effort[0] if effort else None, self.value(*advantage, "1") if advantage else None,
            efficiency, pulls, self._supports(solved), self._motions(solved), work(self, way, solved, effort), load,
        )  # fmt: skip

    def held(self, solved: Solved) -> Regime:
        """A released rig that its friction holds: nothing moves, and a pull is what the balances alone leave it."""
        effort = self.effort(solved)
        still = tuple(Motion(name, self._per_hand(name), self.plain(0, "m/s²")) for name in self.movers)
        pulls, supports = self._pulls(solved), self._supports(solved)
        return Regime("holding", effort[0] if effort else None, None, None, pulls, supports, still)

    def _row(self, solved: Solved, numeric: dict[int, Any], symbolic: dict[int, Any] | None, unit: str) -> Value | None:
        """The value of a sum of unknowns, None where it is not decided."""
        if not solved.numbers.decides(numeric):
            return None
        number = solved.numbers.total(numeric, self.system.ring.zero)
        ratio = None
        if solved.symbols is not None and symbolic is not None and self.symbolic is not None:
            ratio = self._sum(solved.symbols, symbolic)
        return self.value(number, ratio, unit)

    def _sum(self, solution: Solution, row: dict[int, Any]) -> Ratio:
        assert self.symbolic is not None
        one = self.symbolic.ring.one
        if len(row) == 1:
            ((column, share),) = row.items()
            if share is one:
                found: Ratio = solution.values.get(column, self.symbolic.ring.zero)
                return found
        total: Ratio = solution.total(row, self.symbolic.ring.zero)
        return total

    def column(self, solved: Solved, column: int, unit: str) -> Value | None:
        one = self.symbolic.ring.one if self.symbolic else None
        return self._row(solved, {column: self.system.ring.one}, {column: one}, unit)

    def effort(self, solved: Solved) -> tuple[Value, Any, Ratio | None] | None:
        """The pull in the hand, with its raw number and function."""
        if self.rig.hand is None:
            return None
        if self.rig.effort is not None:
            number = self.numbers.of[self.rig.effort.symbol]
            ratio = self.symbolic.ring.given(self.rig.effort) if self.symbolic else None
            return self.value(number, ratio, "N"), number, ratio
        column = solved.numbers.equations.effort
        value = self.column(solved, column, "N")
        if value is None:
            return None
        ratio = solved.symbols.values[column] if solved.symbols else None
        return value, solved.numbers.values[column], ratio

    def _pulls(self, solved: Solved) -> tuple[Pull, ...]:
        found = []
        rows = solved.numbers.equations.pulls
        symbolic = solved.symbols.equations.pulls if solved.symbols else None
        known: dict[int, Value | None] = {}
        for n, element in enumerate(self.system.elements):
            strand, key = element.strand, id(rows[n])
            if key not in known:
                known[key] = self._row(solved, rows[n], symbolic[n] if symbolic else None, "N")
            found.append(
                Pull(strand.rope, strand.index, strand.start.name, strand.end.name, known[key], self._toward(n))
            )
        return tuple(found)

    def _toward(self, element: int) -> tuple[int, int]:
        strand = self.system.elements[element].strand
        return direction(strand, next(rope for rope in self.rig.ropes if rope.name == strand.rope))

    def _supports(self, solved: Solved) -> tuple[Support, ...]:
        down = {c: v for c in self.system.held if (v := self._support(solved, c)) is not None or c.freedom == "rise"}
        return tuple(
            Support(part.name, down.get(Coordinate(part.name, "rise")), down.get(Coordinate(part.name, "across")))
            for part in self.rig.fixed
        )

    def _support(self, solved: Solved, coordinate: Coordinate) -> Value | None:
        """What a fixed part carries, down or to the right positive; None where nothing pulls so."""
        sign = 1 if coordinate.freedom == "rise" else -1
        numeric = _gather(self.system, solved.numbers, coordinate, sign)
        if coordinate.freedom == "across" and not numeric:
            return None
        own = self.system.weights.get(coordinate)
        if not solved.numbers.decides(numeric):
            return None
        number = solved.numbers.total(numeric, self.system.ring.zero)
        ratio = None
        if solved.symbols is not None and self.symbolic is not None:
            ratio = solved.symbols.total(
                _gather(self.symbolic, solved.symbols, coordinate, sign), self.symbolic.ring.zero
            )
        if own is not None and coordinate.freedom == "rise":
            number = number + own
            ratio = ratio + self.symbolic.weights[coordinate] if ratio is not None and self.symbolic else None
        return self.value(number, ratio, "N")

    def _motions(self, solved: Solved) -> tuple[Motion, ...]:
        columns = solved.numbers.equations.acceleration
        found = []
        for name in self.movers:
            coordinate = self.coordinate(name)
            if solved.moving:
                rate = self.column(solved, columns[coordinate], "m/s²")
            else:
                rate = self.plain(0, "m/s²") if not solved.numbers.plan.clash else None
            found.append(Motion(name, self._per_hand(name), rate))
        return tuple(found)

    def _per_hand(self, name: str) -> Value | None:
        if self.rig.hand is None:
            return None
        ratio = self.motions.ratio(self.coordinate(name), HAND)
        return self.plain(ratio) if ratio is not None else None


def _gather(system: System, solution: Solution, coordinate: Coordinate, sign: int) -> dict[int, Any]:
    """The pulls on a coordinate, added up as a row of unknowns."""
    row: dict[int, Any] = {}
    scale = system.ring.constant(sign)
    for element, pull in zip(system.elements, solution.equations.pulls, strict=True):
        for at, share in element.growth:
            if at == coordinate:
                for column, part in pull.items():
                    added = scale * share * part
                    row[column] = row[column] + added if column in row else added
    return {column: share for column, share in row.items() if share}
