"""The readings as a table for a spreadsheet, every row with what became of it. No cell is ever worked out by one."""

import csv
import io
from fractions import Fraction

from gantline.bench import Measured

HEAD = (
    "row of the file", "load (N)", "raise (N)", "lower (N)", "hand travel (m)", "load travel (m)", "block (N)",
    "zero (N)", "standing", "why",
)  # fmt: skip
_ACTS = ("=", "+", "-", "@", "\t", "\r", "\n", "\0", "＝", "＋", "－", "＠")


def write(of: Measured) -> bytes:
    """CSV as UTF-8 with its mark, so that a spreadsheet reads it as it is: commas between cells, points in decimals."""
    made = io.StringIO()
    writer = csv.writer(made, lineterminator="\r\n")
    writer.writerow(HEAD)
    lines: list[tuple[int, list[str]]] = [(one.line, ["", "", "", "", "", "", "", "refused", one.reason])
                                          for one in of.readings.refused]  # fmt: skip
    for row in of.readings.rows:
        most = max(len(row.raising), len(row.lowering), len(row.block), len(row.zero), 1)
        for n in range(most):
            cells = [row.load, _nth(row.raising, n), _nth(row.lowering, n), row.hand if n == 0 else None,
                     row.rise if n == 0 else None, _nth(row.block, n), _nth(row.zero, n)]  # fmt: skip
            lines.append((row.line, [*map(_number, cells), "used", ""]))
    for line, cells_of in sorted(lines, key=lambda one: one[0]):
        writer.writerow([str(line), *map(harmless, cells_of)])
    return b"\xef\xbb\xbf" + made.getvalue().encode()


def harmless(cell: str) -> str:
    """A cell that a spreadsheet shows and never works out; true numbers stay numbers, whatever their sign."""
    if not cell.lstrip().startswith(_ACTS) and not cell.startswith(_ACTS):
        return cell
    try:
        float(cell)
    except ValueError:
        return f"'{cell}"
    return cell


def _nth(values: tuple[Fraction, ...], n: int) -> Fraction | None:
    return values[n] if n < len(values) else None


def _number(number: Fraction | None) -> str:
    return "" if number is None else f"{float(number):.10g}"
