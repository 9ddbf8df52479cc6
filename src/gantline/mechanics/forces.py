"""The equations of a system for one way its ropes run, and their solution."""

from collections.abc import Sequence
from typing import Any

from msgspec import Struct

from .laws import law
from .linear import Plan, Row, back, follow, plan, undecided
from .system import HAND, Coordinate, System

Flows = tuple[int | None, ...]  # one for each tie: runs 1, -1, 0 (ideal); None: the sheave is held by its friction


class Question(Struct, frozen=True):
    """What is unknown besides the pulls. `effort` is the given pull over the ring, None where it is asked.

    `load` is the coordinate whose whole load is asked for, `own` the weight of its block there; `moving` asks for
    accelerations too.
    """

    hand: bool
    effort: Any | None = None
    load: Coordinate | None = None
    own: Any | None = None
    moving: bool = False


class Equations(Struct, frozen=True):
    """Rows over the columns [ropes' pulls | effort | load | accelerations].

    `names` says (kind, part or rope) of each row; `pulls` gives each strand's pull as a row.
    """

    rows: list[Row]
    right: list[Any]
    names: list[tuple[str, str]]
    pulls: list[Row]
    columns: int
    effort: int
    load: int
    acceleration: dict[Coordinate, int]
    asks_load: bool


def flow_rows(system: System) -> list[dict[Coordinate, Any]]:
    """For each tie the speed of the rope from its first strand to its second: what the strands before it have lost."""
    rows: list[dict[Coordinate, Any]] = []
    gone: dict[Coordinate, Any] = {}
    rope = ""
    starts = {tie.before for tie in system.ties}
    for n, element in enumerate(system.elements):
        if element.strand.rope != rope:
            rope, gone = element.strand.rope, {}
        for coordinate, share in element.growth:
            left = gone[coordinate] - share if coordinate in gone else -share
            gone[coordinate] = left
        if n in starts:
            rows.append({c: v for c, v in gone.items() if v})
    return rows


def equations(system: System, question: Question, flows: Flows, flowing: Sequence[dict[Coordinate, Any]]) -> Equations:
    """Every balance, every rope's length where things move, and what is given of the effort."""
    acceleration: dict[Coordinate, int] = {}
    pieces = len({e.strand.rope for e in system.elements}) + sum(flow is None for flow in flows)
    effort, load = pieces, pieces + 1
    if question.moving:
        acceleration = {c: pieces + 2 + n for n, c in enumerate(system.coordinates)}
    pulls, piece_of = _pulls(system, flows, flowing, acceleration)
    rows, right, names = _balances(system, question, pulls, effort, load, acceleration)
    if question.moving:
        lengths = _lengths(system, piece_of, pieces, acceleration)
        rows += lengths
        right += [system.ring.zero] * len(lengths)
        names += [("length", system.elements[piece_of.index(n)].strand.rope) for n in range(pieces)]
    for column, asked in ((effort, question.hand and question.effort is None), (load, question.load is not None)):
        if not asked:
            rows.append({column: system.ring.one})
            right.append(system.ring.zero)
            names.append(("given", "hand"))
    return Equations(
        rows, right, names, pulls, pieces + 2 + len(acceleration), effort, load, acceleration, question.load is not None
    )


def _pulls(
    system: System, flows: Flows, flowing: Sequence[dict[Coordinate, Any]], acceleration: dict[Coordinate, int]
) -> tuple[list[Row], list[int]]:
    """Each strand's pull: a multiple of its rope's own unknown, plus what heavy sheaves add as they speed up."""
    ring = system.ring
    ends = {tie.after: n for n, tie in enumerate(system.ties)}
    pulls: list[Row] = []
    piece_of: list[int] = []
    piece = -1
    for n in range(len(system.elements)):
        tie = ends.get(n)
        if tie is None or flows[tie] is None:
            piece += 1
            pulls.append({piece: _scale(system, flows, ends, n)})
        else:
            rule = law(system.ties[tie].sheave, flows[tie] or 0, ring)
            before = pulls[-1]
            if rule.times is ring.one and (rule.inertia is None or not acceleration):
                pulls.append(before)
            else:
                after = {column: rule.times * share for column, share in before.items()}
                if rule.inertia is not None and acceleration:
                    for coordinate, share in flowing[tie].items():
                        column = acceleration.get(coordinate)
                        if column is not None:
                            added = rule.inertia * share
                            after[column] = after[column] + added if column in after else added
                pulls.append({column: share for column, share in after.items() if share})
        piece_of.append(piece)
    return pulls, piece_of


def _scale(system: System, flows: Flows, ends: dict[int, int], first: int) -> Any:
    """A factor for the rope's unknown that keeps its strands' pulls free of denominators: e for each tie divided by."""
    factor = system.ring.one
    n = first + 1
    while n in ends and flows[ends[n]] is not None:
        sheave = system.ties[ends[n]].sheave
        if flows[ends[n]] == 1 and sheave.efficiency is not None:
            factor = factor * system.ring.given(sheave.efficiency)
        n += 1
    return factor


def _balances(
    system: System, question: Question, pulls: list[Row], effort: int, load: int, acceleration: dict[Coordinate, int]
) -> tuple[list[Row], list[Any], list[tuple[str, str]]]:
    """Force balance of every free coordinate: the rows of growth, transposed."""
    ring = system.ring
    place = {coordinate: n for n, coordinate in enumerate(system.coordinates)}
    rows: list[Row] = [{} for _ in system.coordinates]
    for element, pull in zip(system.elements, pulls, strict=True):
        for coordinate, share in element.growth:
            n = place.get(coordinate)
            if n is not None:
                _add(rows[n], pull, -share)
    right: list[Any] = []
    for n, coordinate in enumerate(system.coordinates):
        if coordinate == HAND:
            if question.effort is None:
                rows[n][effort] = ring.one
            right.append(ring.zero if question.effort is None else -question.effort)
            continue
        weight = system.weights.get(coordinate, ring.zero)
        if coordinate == question.load:
            weight = question.own if question.own is not None else ring.zero
            rows[n][load] = -ring.one
        right.append(weight)
        if coordinate in system.masses and acceleration:
            _add(rows[n], {acceleration[coordinate]: system.masses[coordinate]}, -ring.one)
    return (
        [{c: v for c, v in row.items() if v} for row in rows],
        right,
        [("balance", c.part) for c in system.coordinates],
    )


def _lengths(system: System, piece_of: list[int], pieces: int, acceleration: dict[Coordinate, int]) -> list[Row]:
    """A rope neither stretches nor shrinks: the growth of its strands adds up to nothing."""
    rows: list[Row] = [{} for _ in range(pieces)]
    for n, element in enumerate(system.elements):
        for coordinate, share in element.growth:
            column = acceleration.get(coordinate)
            if column is not None:
                _add(rows[piece_of[n]], {column: share}, system.ring.one)
    return [{c: v for c, v in row.items() if v} for row in rows]


def _add(row: Row, what: Row, times: Any) -> None:
    for column, share in what.items():
        change = times * share
        row[column] = row[column] + change if column in row else change


class Solution(Struct, frozen=True):
    """`values` by column. `loose` are the directions in which the unknowns are undecided; `clash` the rows at odds."""

    equations: Equations
    plan: Plan
    values: dict[int, Any]
    loose: list[dict[int, Any]]

    @property
    def unique(self) -> bool:
        return not self.plan.clash and not self.loose

    def decides(self, row: Row) -> bool:
        """Whether a sum of unknowns has one value, whatever the undecided ones are."""
        if self.plan.clash:
            return False
        return all(sum((v * loose[c] for c, v in row.items() if c in loose), 0) == 0 for loose in self.loose)

    def total(self, row: Row, zero: Any) -> Any:
        total = zero
        for column, share in row.items():
            if column in self.values:
                total = total + share * self.values[column]
        return total


def solve_numbers(found: Equations) -> Solution:
    """Solve in rationals and keep the plan."""
    steps, work, side = plan(found.rows, found.right, found.columns)
    values = {} if steps.clash else back(steps, work, side)
    return Solution(found, steps, values, undecided(steps, work) if steps.free else [])


def solve_symbols(found: Equations, numbers: Solution) -> Solution:
    """Solve in symbols along the plan that the numbers made."""
    work, side = follow(numbers.plan, found.rows, found.right)
    return Solution(found, numbers.plan, back(numbers.plan, work, side), numbers.loose)


class Solved(Struct, frozen=True):
    """One solution in numbers and, where it is unique and small enough, in symbols."""

    numbers: Solution
    symbols: Solution | None
    flows: Flows
    moving: bool

    def pull(self, element: int) -> Any:
        return self.numbers.total(self.numbers.equations.pulls[element], 0)

    def speed(self, flow: dict[Coordinate, Any]) -> Any:
        """The acceleration of the rope over a sheave."""
        columns = self.numbers.equations.acceleration
        return sum((share * self.numbers.values.get(columns[c], 0) for c, share in flow.items() if c in columns), 0)
