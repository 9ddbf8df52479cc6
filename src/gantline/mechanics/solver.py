"""A rig's answer: its status, every pull, every support, every motion, exact and certified."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from typing import Any

from gantline.quantity import SI, Symbol
from gantline.rig import Rig

from .answer import Answer, Finding, Regime, Value, Way
from .assembly import assemble
from .certify import certify
from .forces import Equations, Flows, Question, Solved, equations, flow_rows, solve_numbers, solve_symbols
from .motion import Motions, motions, reference
from .numbers import MOST_SHEAVES, Numbers, asked_load, givens, numbers
from .regime import Reader
from .relations import relations, tension_symbols
from .ring import FormulaTooLarge, Functions, Rationals
from .system import HAND, Coordinate, System

MOST_GUESSES = 5  # groups of lossy sheaves whose running directions are all tried out where a rig has several freedoms


class Case:
    """A rig with its two systems: in rationals, which decides, and in symbols, which explains."""

    def __init__(self, rig: Rig, formulas: bool = True) -> None:
        self.rig = rig
        self.numbers: Numbers = numbers(rig)
        self.system: System = assemble(rig, Rationals(self.numbers.of))
        self.flowing = flow_rows(self.system)
        self.motions: Motions = motions(rig, self.system)
        self.symbolic: System | None = None
        self.symbolic_flowing: list[dict[Coordinate, Any]] = []
        if formulas and self.numbers.small and len(self.system.ties) <= MOST_SHEAVES:
            self.symbolic = assemble(rig, Functions(self.numbers.names))
            self.symbolic_flowing = flow_rows(self.symbolic)

    @property
    def lossy(self) -> list[int]:
        """The ties whose sheave takes some of the pull."""
        one = Fraction(1)
        return [
            n for n, tie in enumerate(self.system.ties) if tie.sheave.efficiency and tie.sheave.efficiency.number != one
        ]

    def question(self, moving: bool, symbolic: bool = False) -> Question:
        """What is unknown: the effort, or the load an effort holds, or (moving) the accelerations."""
        rig, system = self.rig, self.symbolic if symbolic and self.symbolic else self.system
        if rig.hand is None:
            return Question(hand=False, moving=moving)
        if rig.effort is None:
            return Question(hand=True, moving=moving)
        effort = system.ring.given(rig.effort)
        name = asked_load(rig)
        if name is None:
            return Question(hand=True, effort=effort, moving=moving)
        coordinate = Coordinate(system.body[name], "rise")
        load = rig.part(name)
        given = load.weight if load.weight is not None else load.mass
        whole = system.ring.given(given) if given else system.ring.zero
        return Question(hand=True, effort=effort, load=coordinate, own=system.weights[coordinate] - whole)

    def solve(self, flows: Flows, moving: bool) -> Solved:
        found = solve_numbers(equations(self.system, self.question(moving), flows, self.flowing))
        formulas = None
        if self.symbolic is not None and found.unique:
            rows: Equations = equations(
                self.symbolic, self.question(moving, symbolic=True), flows, self.symbolic_flowing
            )
            formulas = solve_symbols(rows, found)
        return Solved(found, formulas, flows, moving)

    def along(self, way: dict[Coordinate, Any], sense: int) -> Flows:
        """The running direction of every lossy tie while the rig moves along `way`."""
        lossy = set(self.lossy)
        return tuple(
            sense * _sign(sum((share * way.get(c, 0) for c, share in row.items()), 0)) if n in lossy else 0
            for n, row in enumerate(self.flowing)
        )


def solve(rig: Rig) -> Answer:
    """The certified answer to a rig. Any rig that reads has one; its status says what cannot hold or is undecided."""
    try:
        return _answered(Case(rig))
    except FormulaTooLarge:
        return _answered(Case(rig, formulas=False))


def _answered(case: Case) -> Answer:
    rig = case.rig
    ideal, finding = _ideal(case)
    reader = Reader(rig, case.system, case.symbolic, case.motions, case.numbers, case.flowing)
    regimes: list[Regime] = [reader.regime("ideal", ideal)]
    if case.lossy and finding.status in ("holds", "accelerates", "slack"):
        lossy, finding = _lossy(case, ideal, finding, reader)
        regimes += lossy
    jammed = bool(case.lossy) and not ideal.moving and finding.status == "holds" and case.motions.way is not None
    certificate = certify(rig, tuple(regimes), case.numbers.of)
    return Answer(
        finding=finding,
        aim=rig.aim,
        velocity_ratio=reader.velocity_ratio,
        travel=reader.travel,
        regimes=tuple(regimes),
        certificate=certificate,
        relations=relations(rig, regimes[0], reader) if case.symbolic is not None else (),
        freedoms=len(case.motions.basis),
        helps=reader.helps,
        size_note=case.symbolic is None,
        jams=_jams(regimes) if jammed else (),
        tension_symbols=tension_symbols(rig),
        givens=_givens(rig),
        weights=reader.weights(ideal),
    )


def _jams(regimes: list[Regime]) -> tuple[Way, ...]:
    ways: tuple[Way, ...] = ("raising", "lowering")
    return tuple(way for way in ways if all(regime.way != way for regime in regimes))


def _givens(rig: Rig) -> tuple[tuple[str, Value], ...]:
    return tuple((g.symbol, Value(g.number, SI.get(g.kind, "1"), Symbol(g.symbol))) for g in givens(rig))


def _ideal(case: Case) -> tuple[Solved, Finding]:
    """Free wheels: at rest where a hand is asked for its pull, else as the masses go."""
    rest: Flows = (0,) * len(case.system.ties)
    asks_pull = case.rig.hand is not None and (case.rig.effort is None or case.question(False).load is not None)
    if asks_pull:
        still = case.solve(rest, moving=False)
        return still, _judged(case, still)
    moving = case.solve(rest, moving=True)
    if moving.numbers.unique:
        return moving, _judged(case, moving)
    still = case.solve(rest, moving=False)
    return (still, _judged(case, still)) if not still.numbers.plan.clash else (moving, _judged(case, moving))


def _judged(case: Case, solved: Solved) -> Finding:
    """The status of a solution, with the parts it is about."""
    numbers = solved.numbers
    names = numbers.equations.names
    if numbers.plan.clash:
        clash = sorted(numbers.plan.clash)
        bodies = tuple(dict.fromkeys(names[n][1] for n in clash if names[n][0] == "balance" and names[n][1] != "hand"))
        return Finding("impossible", bodies, bodies[-1] if bodies else None)
    pulls = numbers.equations.pulls
    strands = [element.name for element in case.system.elements]
    if numbers.loose:
        loose = tuple(name for name, row in zip(strands, pulls, strict=True) if not numbers.decides(row))
        columns = numbers.equations
        if loose or not numbers.decides({columns.effort: 1}):
            return Finding("indeterminate", loose)
        return Finding(
            "indeterminate", tuple(c.part for c, n in columns.acceleration.items() if not numbers.decides({n: 1}))
        )
    pushing = _pushing(case, solved)
    if pushing:
        return Finding("slack", pushing)
    if solved.moving and any(numbers.values.get(n, 0) != 0 for n in numbers.equations.acceleration.values()):
        return Finding("accelerates")
    return Finding("holds")


def _pushing(case: Case, solved: Solved) -> tuple[str, ...]:
    """The strands that would have to push."""
    rows = zip(case.system.elements, solved.numbers.equations.pulls, strict=True)
    zero = case.system.ring.zero
    return tuple(element.name for element, row in rows if solved.numbers.total(row, zero) < 0)


def _lossy(case: Case, ideal: Solved, finding: Finding, reader: Reader) -> tuple[list[Regime], Finding]:
    """The regimes with loss. A pull that is asked has one for raising and one for lowering; a rig left to itself runs
    the way its own forces drive it, or is held by its friction."""
    if not ideal.moving:
        way = case.motions.way
        if way is None:
            return [], finding
        both: tuple[tuple[Way, int], ...] = (("raising", 1), ("lowering", -1))
        found = [(name, case.solve(case.along(way, sense), moving=False)) for name, sense in both]
        if finding.status == "holds":  # where a rope would have to push, friction jams the rig that way
            found = [(name, solved) for name, solved in found if not _pushing(case, solved)]
        return [reader.regime(name, solved) for name, solved in found], finding
    runs = [solved for solved in _guesses(case, ideal) if _agrees(case, solved)]
    if not runs:
        lossy = case.lossy
        sticking = tuple(None if n in lossy else 0 for n in range(len(case.system.ties)))
        held = reader.held(case.solve(sticking, moving=False))
        return [held], Finding("holds", tuple(case.system.ties[n].sheave.name for n in lossy))
    return [reader.regime(_way_of(case, solved), solved) for solved in runs], finding


def _guesses(case: Case, ideal: Solved) -> Iterator[Solved]:
    """Solutions for the running directions that could be: both along one freedom, each combination along several."""
    if case.motions.way is not None:
        for sense in (1, -1):
            yield case.solve(case.along(case.motions.way, sense), moving=True)
        return
    yield from (case.solve(flows, moving=True) for flows in _combinations(case) or [_driven(case, ideal)])


def _combinations(case: Case) -> list[Flows]:
    """Every way the lossy sheaves could run or be held, sheaves that must run together taken together; none past
    MOST_GUESSES such groups."""
    groups: dict[tuple[Any, ...], list[tuple[int, int]]] = {}
    for n in case.lossy:
        row = {c: v for c, v in case.flowing[n].items() if c in case.system.coordinates}
        lead = row[min(row)] if row else 1
        groups.setdefault(tuple(sorted((c, v / lead) for c, v in row.items())), []).append((n, _sign(lead)))
    if len(groups) > MOST_GUESSES:
        return []
    found: list[Flows] = []
    for guess in product((1, -1, None), repeat=len(groups)):
        flows: list[int | None] = [0] * len(case.system.ties)
        for sense, members in zip(guess, groups.values(), strict=True):
            for n, turn in members:
                flows[n] = None if sense is None else sense * turn
        if any(sense is not None for sense in guess):
            found.append(tuple(flows))
    return found


def _driven(case: Case, ideal: Solved) -> Flows:
    """The directions the ideal rig takes."""
    lossy = set(case.lossy)
    return tuple(_sign(ideal.speed(row)) if n in lossy else 0 for n, row in enumerate(case.flowing))


def _agrees(case: Case, solved: Solved) -> bool:
    """Whether each lossy sheave really goes the way it was taken to, and a held one can be held by its friction."""
    if not solved.numbers.unique:
        return False
    for n in case.lossy:
        flow = solved.flows[n]
        if flow is None:
            tie = case.system.ties[n]
            before, after = solved.pull(tie.before), solved.pull(tie.after)
            e = case.system.ring.given(tie.sheave.efficiency)
            if e * after > before or e * before > after:
                return False
        elif flow != 0 and _sign(solved.speed(case.flowing[n])) != flow:
            return False
    return True


def _way_of(case: Case, solved: Solved) -> Way:
    aim = reference(case.rig, case.system)
    column = solved.numbers.equations.acceleration.get(aim) if aim else None
    rate = solved.numbers.values.get(column, 0) if column is not None else 0
    if rate == 0:
        column = solved.numbers.equations.acceleration.get(HAND)
        rate = solved.numbers.values.get(column, 0) if column is not None else 0
    return "raising" if rate >= 0 else "lowering"


def _sign(number: Any) -> int:
    return int(number > 0) - int(number < 0)
