"""Readings as values: from the bytes of a table to rows in SI, and every row that cannot be used with its reason.

Nothing of the table but its numbers is kept or quoted: what else stands in it may be about pupils.
"""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from gantline.problems import Problem

from .cells import NAMES, Grid, Record, grid
from .headers import KINDS, REPEATED, Column, WrongUnit, factor, heading
from .numerals import Odd, TwoWays, decimal_mark, numeral
from .text import Unreadable, stop, text_of

REASONS = {
    "formula": "a cell holds a formula, not its value",
    "no-number": "a cell that should be a number is none",
    "other-mark": "a number parts its decimals otherwise than the rest of the table",
    "unit": "a cell names a unit that does not fit its column",
    "too-long": "the row has more cells than there are headings; decimal commas between commas need quotes",
    "nothing": "no reading stands in it",
    "no-load": "no load stands in it; a merged cell is not filled down",
    "no-pull": "no pull stands in it",
    "negative": "a number is below zero: a rope does not push and a load does not lift itself",
    "lowering-above-raising": "the pull while lowering is above the pull while raising: friction takes, it never gives",
    "efficiency-above-one": "the pull while raising is less than perfect wheels would need for the load alone",
    "travel": "the travels do not go with the rope: hand and load must move as the velocity ratio says",
}


class Row(Struct, frozen=True):
    """One row in SI. `raising`, `lowering`, `zero` (N) and `block` (N) hold every repeat; `load` is in N, the travels
    `hand` and `rise` in m; None where the cell is empty."""

    line: int
    load: Fraction | None = None
    raising: tuple[Fraction, ...] = ()
    lowering: tuple[Fraction, ...] = ()
    hand: Fraction | None = None
    rise: Fraction | None = None
    block: tuple[Fraction, ...] = ()
    zero: tuple[Fraction, ...] = ()


class Refused(Struct, frozen=True):
    """A row that is not used. `code` is a key of REASONS; `more` says it in this row's own numbers where it can."""

    line: int
    code: str
    more: str = ""

    @property
    def reason(self) -> str:
        return f"{REASONS[self.code]}{self.more and f' ({self.more})'}"


class Steps(Struct, frozen=True):
    """The finest step the readings are written to, in SI: of the pulls, of the weighed block. None: nothing read."""

    pull: Fraction | None = None
    block: Fraction | None = None


class Readings(Struct, frozen=True):
    """A whole table. `read` = used + refused + `empty`; `told` says aloud how the file was read."""

    rows: tuple[Row, ...]
    refused: tuple[Refused, ...]
    empty: int
    above: int
    told: tuple[str, ...]
    steps: Steps = Steps()

    @property
    def read(self) -> int:
        return len(self.rows) + len(self.refused) + self.empty


def read_readings(data: bytes, gravity: Fraction, decimals: str = "") -> tuple[Readings | None, tuple[Problem, ...]]:
    """The rows of a table, or None and what keeps it from being read. `gravity` (m/s2) turns masses into loads.

    `decimals` is the mark before decimals, "." or ",", where it is told and not to be found out.
    """
    try:
        text, encoding = text_of(data)
        found = grid(text)
        columns, unused = _columns(found, gravity)
        cells = (record.cells[c.place] for record in found.rows for c in columns if c.place < len(record.cells))
        mark = decimals or decimal_mark(cells, found.delimiter)
        reading = _Reading(found, columns, mark, gravity, bool(decimals))
        return reading.readings(_told(found, encoding, mark, columns, unused)), ()
    except Unreadable as unreadable:
        return None, (unreadable.problem,)


def _told(found: Grid, encoding: str, mark: str, columns: list[Column], unused: list[int]) -> tuple[str, ...]:
    decimals = {",": "a comma", ".": "a point", "?": "nothing that could be told"}[mark]
    told = [f"Read as {encoding}, cells parted by {NAMES[found.delimiter]}, decimals by {decimals}."]
    told.append(" ".join(["Columns:", ", ".join(f"{c.place + 1} {c.what}" for c in columns) + "."]))
    if unused:
        many = "columns" if len(unused) > 1 else "column"
        told.append(f"Not used: {many} {', '.join(str(n + 1) for n in unused)}.")
    if found.above:
        told.append(f"{found.above} row{'s' if found.above > 1 else ''} above the headings passed over.")
    return tuple(told)


def _columns(found: Grid, gravity: Fraction) -> tuple[list[Column], list[int]]:
    """The columns that are used, and the places of those that are not. Raises Unreadable."""
    columns: list[Column] = []
    unused: list[int] = []
    line = found.head.line
    for place, cell in enumerate(found.head.cells):
        known = heading(cell)
        if known is None:
            unused += [place] if cell.strip() else []
            continue
        what, unit = known
        if what not in REPEATED and any(column.what == what for column in columns):
            first = next(column.place for column in columns if column.what == what)
            raise stop(
                "readings-column-twice", line, f"columns {first + 1} and {place + 1} both say {what}",
                "a row has one of it", "rename or take away one of the two.", place + 1,
            )  # fmt: skip
        columns.append(Column(place, what, _factor(unit, what, gravity, line, place)))
    _pulls_there(columns, line)
    return columns, unused


def _factor(unit: str | None, what: str, gravity: Fraction, line: int, place: int) -> Fraction | None:
    if unit is None:
        return None
    try:
        return factor(unit, what, gravity)
    except WrongUnit as wrong:
        named = f"`{wrong}` does not measure it" if str(wrong) else "its unit is not known here"
        measures = {"weight": "N, kN, g or kg", "pull": "N, kN, g or kg", "length": "m, cm or mm"}[KINDS[what]]
        raise stop(
            "readings-unit", line, f"column {place + 1}, {what}: {named}", "a number says nothing without its unit",
            f"measure it in {measures}, and write that in the heading.", place + 1,
        ) from wrong  # fmt: skip


def _pulls_there(columns: list[Column], line: int) -> None:
    held = {column.what for column in columns}
    missing = [
        name for name, there in (
            ("a column of loads", "load" in held or {"raising", "lowering"} <= held),
            ("a column of pulls", bool(held & {"raising", "lowering"})),
        ) if not there
    ]  # fmt: skip
    if missing:
        raise stop(
            "readings-column-missing", line, f"there is no {missing[0].removeprefix('a ')}",
            "the sheaves' loss shows in how the pull goes with the load, or raising with lowering",
            "head the columns, such as: load (g), raise (N), lower (N).",
        )  # fmt: skip


class _Reading:
    """Goes through the rows, keeping those that can be used."""

    def __init__(self, found: Grid, columns: list[Column], mark: str, gravity: Fraction, told: bool) -> None:
        self.grid, self.columns, self.mark, self.gravity, self.told = found, columns, mark, gravity, told
        self.width = len(found.head.cells)
        self.finest: dict[str, Fraction] = {}

    def readings(self, told: tuple[str, ...]) -> Readings:
        rows: list[Row] = []
        refused: list[Refused] = []
        empty = 0
        for record in self.grid.rows:
            if record.blank:
                empty += 1
                continue
            row = self.row(record)
            if isinstance(row, Row):
                rows.append(row)
            else:
                refused.append(row)
        pulls = [n for row in rows for n in (*row.raising, *row.lowering, *row.zero)]
        steps = Steps(_step(pulls, self.finest.get("pull")), _step([n for r in rows for n in r.block],
                      self.finest.get("weight")))  # fmt: skip
        return Readings(tuple(rows), tuple(refused), empty, self.grid.above, told, steps)

    def row(self, record: Record) -> Row | Refused:
        """A row in SI, or why it is none."""
        if any(cell.strip() for cell in record.cells[self.width :]):
            return Refused(record.line, "too-long")
        try:
            row = self._filled(record)
        except Odd as odd:
            return Refused(record.line, str(odd))
        return next((Refused(record.line, code) for code in _unusable(row)), row)

    def _filled(self, record: Record) -> Row:
        many: dict[str, list[Fraction]] = {what: [] for what in REPEATED}
        one: dict[str, Fraction] = {}
        for column in self.columns:
            try:
                number = self._number(record.cells[column.place], column) if column.place < len(record.cells) else None
            except TwoWays as both:
                raise _asked(record.line, column, both) from both
            if number is not None and column.what in REPEATED:
                many[column.what].append(number)
            elif number is not None:
                one[column.what] = number
        return Row(record.line, **one, **{what: tuple(numbers) for what, numbers in many.items()})  # type: ignore[arg-type]

    def _number(self, cell: str, column: Column) -> Fraction | None:
        found = numeral(cell, self.mark, self.told)
        if found is None:
            return None
        size = column.factor
        if found.unit:
            try:
                size = factor(found.unit, column.what, self.gravity)
            except WrongUnit:
                raise Odd("unit") from None
        if size is None:
            raise Odd("unit")
        kind = KINDS[column.what]
        if column.what != "load" and kind != "length":
            self.finest[kind] = min(self.finest.get(kind, size), size * _last_place(cell, self.mark))
        return found.number * size


def _asked(line: int, column: Column, both: TwoWays) -> Unreadable:
    small, large = both.readings
    return stop(
        "readings-two-ways", line, f"row {line}, {column.what}: a number that is {small} or {large}",
        "the same mark stands before decimals in one country and between thousands in another, and the rest of the "
        "table does not settle it", "say which mark stands before decimals, --decimals comma or --decimals point; or "
        "write the number without thousands.", column.place + 1,
    )  # fmt: skip


def _last_place(cell: str, mark: str) -> Fraction:
    """The value of the last digit written: 1/100 for 2.50."""
    digits = cell.strip().partition(mark)[2]
    return Fraction(1, 10 ** sum(1 for _ in _leading_digits(digits)))


def _leading_digits(text: str) -> Iterator[str]:
    for letter in text:
        if not ("0" <= letter <= "9"):
            return
        yield letter


def _step(numbers: list[Fraction], last: Fraction | None) -> Fraction | None:
    """The division of a scale: the last digit written, or two or five of it where all of many readings keep to that."""
    if last is None or not numbers:
        return last
    for times in (5, 2):
        if len(set(numbers)) >= 8 and all((number / (last * times)).denominator == 1 for number in numbers):
            return last * times
    return last


def _unusable(row: Row) -> Iterator[str]:
    """Why a row says nothing that could be used, or says what cannot be."""
    whole = (row.load, row.hand, row.rise, *row.raising, *row.lowering, *row.block)
    if any(number is not None and number < 0 for number in whole):
        yield "negative"
    pulls = row.raising or row.lowering
    if not pulls and not row.block and not row.zero:
        yield "nothing" if row.load is None and row.hand is None and row.rise is None else "no-pull"
    if pulls and row.load is None and not (row.raising and row.lowering):
        yield "no-load"
