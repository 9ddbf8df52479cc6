"""Text to a grid of cells: which sign parts them, and where the headings stand. One decision for the whole file."""

import csv
from collections.abc import Iterator
from contextlib import suppress
from io import StringIO
from itertools import islice

from msgspec import Struct

from .headers import heading
from .text import Unreadable, stop

NAMES = {",": "commas", ";": "semicolons", "\t": "tabs"}
_THERE = "x"  # stands for whatever stood in a cell that is not used
_HEAD_WITHIN = 40  # lines in which the headings must stand
MOST_COLUMNS = 1000


class Record(Struct, frozen=True):
    """One row: the line it begins on, and its cells."""

    line: int
    cells: tuple[str, ...]

    @property
    def blank(self) -> bool:
        return not any(cell.strip() for cell in self.cells)


class Grid(Struct, frozen=True):
    """Headings, the rows below them, how many rows stood above, and the sign between cells."""

    head: Record
    rows: tuple[Record, ...]
    above: int
    delimiter: str


def grid(text: str) -> Grid:
    """The grid of a text. Raises Unreadable where quotes stay open or no headings are found."""
    first, _, rest = text.partition("\n")
    told = first.strip().strip('"')
    if told.lower().startswith("sep=") and len(told) == 5 and told[4] in NAMES:
        return _grid(rest, told[4], 2)
    counts = {sign: _known(text, sign) for sign in NAMES}
    return _grid(text, max(counts, key=lambda sign: counts[sign]), 1)


def _known(text: str, sign: str) -> int:
    """The most headings known in any of the first rows, if this sign parted the cells."""
    most = 0
    with suppress(Unreadable):
        for record in islice(records(text, sign), _HEAD_WITHIN):
            most = max(most, _headings(record))
    return most


def _headings(record: Record) -> int:
    return sum(heading(cell) is not None for cell in record.cells)


def _grid(text: str, sign: str, first: int) -> Grid:
    above: list[Record] = []
    rest = records(text, sign, first)
    for record in rest:
        if _headings(record) >= 2:
            used = frozenset(n for n, cell in enumerate(record.cells) if heading(cell))
            return Grid(record, tuple(_kept(row, used) for row in rest), len(above), sign)
        above.append(record)
        if len(above) > _HEAD_WITHIN:
            break
    raise stop(
        "readings-no-heading", first, "no row of headings was found",
        "without them nothing says which number is a load and which a pull",
        "head the columns, such as: load (g), raise (N), lower (N).",
    )  # fmt: skip


def _kept(record: Record, used: frozenset[int]) -> Record:
    """The row with nothing left in the columns that are not used but whether something stood there."""
    return Record(
        record.line, tuple(cell if n in used else _THERE * bool(cell.strip()) for n, cell in enumerate(record.cells))
    )


def records(text: str, sign: str, first: int = 1) -> Iterator[Record]:
    """Every row with the line it begins on. Raises Unreadable where a quote is never closed."""
    reader = csv.reader(StringIO(text), delimiter=sign, strict=True)
    line = first
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            raise _broken(line, error) from error
        if len(cells) > MOST_COLUMNS:
            raise stop(
                "readings-too-large", line, f"a row has {len(cells)} cells; {MOST_COLUMNS} are read",
                "readings of a lesson take far fewer", "keep the columns that are needed.",
            )  # fmt: skip
        yield Record(line, tuple(cells))
        line = first + reader.line_num


def _broken(line: int, error: csv.Error) -> Unreadable:
    if "limit" in str(error):
        return stop(
            "readings-too-large", line, "a cell has more than 131072 characters", "a reading is a number",
            "look for a quote that is never closed.",
        )  # fmt: skip
    return stop(
        "readings-quote-open", line, "a quote in this row is not closed, or letters follow one that is",
        "all rows below would count as part of one cell", 'close it, or write a quote inside a cell twice: "".',
    )  # fmt: skip
