"""The search for places across the page: one small linear program a choice, a branch where two things overlap."""

from itertools import product
from typing import Any

from msgspec import Struct

from .across import Across, Expr, Loosened, conditions, plus
from .apart import pairs, worst
from .comb import comb, rows_hold
from .frame import Frame
from .heights import Heights

PROGRAMS = 600  # linear programs a layout may take before it is given up
POLISH = 14  # programs spent on a better layout once there is a legal one


class Placed(Struct):
    made: Across
    values: list[float]
    senses: list[int]
    cost: float


def place(frame: Frame, up: Heights, loose: Loosened) -> Placed | None:
    """The best legal places found for these heights, or None."""
    if len(frame.rig.ropes) == 1:
        found = _closed_form(frame, up, loose)
        if found:
            return found
    solver = _Solver()
    for flips in range(3):
        found = solver.best(frame, up, loose, _patterns(frame, flips))
        if found or solver.used > PROGRAMS:
            return found
    return None


def _closed_form(frame: Frame, up: Heights, loose: Loosened) -> Placed | None:
    senses = [1] * len(frame.turns)
    made = conditions(frame, up, senses, loose)
    values = comb(frame, made)
    if rows_hold(made, values, skip=made.count - 1) and not worst(made, values, pairs(made)):
        return Placed(made, values, senses, 0.0)
    return None


def _patterns(frame: Frame, flips: int) -> list[list[int]]:
    """Senses of all wheels with so many changes along the ropes. A level run keeps its sense."""
    ropes = sorted({turn.rope for turn in frame.turns})
    places = [n for n in range(1, len(frame.turns)) if frame.turns[n].rope == frame.turns[n - 1].rope]
    places = [n for n in places if not frame.turns[n].level[0]]
    changes: list[tuple[int, ...]] = []
    if flips == 0:
        changes = [()]
    elif flips == 1:
        changes.extend((n,) for n in places)
    else:
        changes.extend([(a, b) for a in places for b in places if a < b][:64])
    found = []
    for starts in product((1, -1), repeat=min(len(ropes), 6)):
        start = dict(zip(ropes, starts, strict=False))
        for change in changes:
            senses: list[int] = []
            for number, turn in enumerate(frame.turns):
                fresh = number == 0 or turn.rope != frame.turns[number - 1].rope
                sense = start.get(turn.rope, 1) if fresh else senses[-1]
                senses.append(-sense if number in change else sense)
            found.append(senses)
    return found


class _Solver:
    """One HiGHS model, kept and changed in place."""

    def __init__(self) -> None:
        import highspy
        import numpy
        from highspy._core import _Highs  # its public child prints a banner on standard output when made

        self.highs: Any = _Highs()
        for option, setting in (("output_flag", False), ("presolve", "off"), ("threads", 1), ("solver", "simplex")):
            self.highs.setOptionValue(option, setting)
        self.optimal = highspy.HighsModelStatus.kOptimal
        self.infinity = highspy.kHighsInf
        self.lp: Any = highspy.HighsLp
        self.rowwise = highspy.MatrixFormat.kRowwise
        self.array = numpy.array
        self.int32 = numpy.int32
        self.used = 0

    def best(self, frame: Frame, up: Heights, loose: Loosened, patterns: list[list[int]]) -> Placed | None:
        roots = []
        for number, senses in enumerate(patterns):
            if self.used > PROGRAMS:
                break
            made = conditions(frame, up, senses, loose)
            self.load(made)
            cost = self.run()
            if cost is not None:
                roots.append((cost, number, made, senses))
        best: Placed | None = None
        for cost, _, made, senses in sorted(roots, key=lambda root: root[:2]):
            if best and (cost >= best.cost - 1e-6 or self.used > self.limit):
                break
            self.load(made)
            found = self.dive(made, senses, best)
            if found and best is None:
                self.limit = self.used + POLISH
            best = found or best
        return best

    limit = PROGRAMS

    def dive(self, made: Across, senses: list[int], best: Placed | None) -> Placed | None:
        """Depth first over the overlaps: the side each thing is on already comes first."""
        among = pairs(made)
        found: Placed | None = None

        def branch() -> None:
            nonlocal found, best
            cost = self.run()
            if cost is None or (best and cost >= best.cost - 1e-6):
                return
            values = list(self.highs.getSolution().col_value)
            clash = worst(made, values, among)
            if clash is None:
                found = best = Placed(made, values, senses, cost)
                self.limit = min(self.limit, self.used + POLISH)
                return
            (a, b, gap), side = clash
            for first, second in ((a, b), (b, a)) if side <= 0 else ((b, a), (a, b)):
                if self.used > self.limit:
                    return
                self.add(plus(made.things[second].left, made.things[first].right, -1.0), gap)
                branch()
                self.drop()

        branch()
        return found

    def load(self, made: Across) -> None:
        model = self.lp()
        model.num_col_, model.num_row_ = made.count, len(made.rows)
        cost = [made.cost.get(n, 0.0) for n in range(made.count)]
        model.col_cost_ = self.array(cost)
        model.col_lower_ = self.array([0.0] * made.count)
        model.col_upper_ = self.array([400.0] * made.count)
        model.row_lower_ = self.array([row.low for row in made.rows])
        model.row_upper_ = self.array([row.high for row in made.rows])
        starts, keys, numbers = [0], [], []
        for row in made.rows:
            entries = [(k, v) for k, v in sorted(row.terms.items()) if v]
            keys += [k for k, _ in entries]
            numbers += [v for _, v in entries]
            starts.append(len(keys))
        matrix = model.a_matrix_
        matrix.format_ = self.rowwise
        matrix.start_ = self.array(starts, dtype=self.int32)
        matrix.index_ = self.array(keys, dtype=self.int32)
        matrix.value_ = self.array(numbers, dtype=float)
        self.highs.passModel(model)
        self.constant = made.cost.get(-1, 0.0)

    def run(self) -> float | None:
        self.used += 1
        self.highs.run()
        if self.highs.getModelStatus() != self.optimal:
            return None
        return float(self.highs.getObjectiveValue()) + self.constant

    def add(self, expr: Expr, low: float) -> None:
        terms = dict(expr)
        constant = terms.pop(-1, 0.0)
        entries = [(k, v) for k, v in sorted(terms.items()) if v]
        keys = self.array([k for k, _ in entries], dtype=self.int32)
        self.highs.addRow(
            low - constant, self.infinity, len(entries), keys, self.array([v for _, v in entries], dtype=float)
        )

    def drop(self) -> None:
        last = self.highs.getNumRow() - 1
        self.highs.deleteRows(1, self.array([last], dtype=self.int32))
