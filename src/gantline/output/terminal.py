"""An answer and a file's problems as plain text for a terminal, which must obey nothing that a file says."""

import unicodedata
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction

from gantline.mechanics import Answer, Regime, Value
from gantline.problems import Problem
from gantline.quantity import numeral, text
from gantline.rig import Rig, shown_unit

ROWS = 24  # strands, supports or bodies shown at most; the record has them all
FORMULA = 64  # characters of a formula shown at most

Paint = Callable[[str, str], str]
Row = tuple[str, Sequence[str], str]

_CODES = {"strong": "1", "quiet": "2", "wrong": "31", "good": "32", "place": "36"}
_UNSEEN = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}  # controls, bidi and zero-width marks, unassigned


def painter(colour: bool) -> Paint:
    """How to set off a text: by colour, or not at all."""
    return (lambda kind, words: f"\x1b[{_CODES[kind]}m{words}\x1b[0m") if colour else (lambda kind, words: words)


def printable(words: str) -> str:
    """The text with everything a terminal could obey, or an eye could miss, written as an escape."""
    return "".join(_escaped(sign) if unicodedata.category(sign) in _UNSEEN else sign for sign in words)


def width(words: str) -> int:
    """The columns a text takes on a terminal: wide signs two, combining marks none."""
    return sum(_columns(sign) for sign in words)


def problems_text(problems: Sequence[Problem], file: str, paint: Paint) -> str:
    """All problems of a file, one below the other, with the line and a caret under the place."""
    count = f"{len(problems)} {'problem' if len(problems) == 1 else 'problems'} in {printable(file)}"
    return "\n".join([*(_problem(problem, file, paint) for problem in problems), paint("strong", count)])


def answer_text(rig: Rig, answer: Answer, says: str, paint: Paint) -> str:
    """The answer on one screen: the sentence, then the pull, strands, supports, motion, work and certificate."""
    heading = [paint("strong", printable(rig.title))] if rig.title else []
    blocks = ["\n".join([*heading, says])]
    many = len(answer.regimes) > 1
    head: list[Row] = [("", tuple(regime.way for regime in answer.regimes), "")] if many else []
    tables = [head + _results(rig, answer), _strands(rig, answer), _supports(rig, answer)]
    tables += [_motions(rig, answer), _work(rig, answer)]
    blocks += _tables([table for table in tables if table], paint)
    return "\n\n".join([*blocks, _certificate(answer, paint)])


def shown(rig: Rig, value: Value | None) -> str:
    """A value with its unit as the file writes it; a dash where it has no number."""
    if value is None or value.number is None:
        return "–"
    unit = shown_unit(rig, value.unit)
    number = value.number / unit.factor if unit else value.number
    name = unit.name if unit else value.unit
    return numeral(number) + ("" if name == "1" else f" {name}")


def _escaped(sign: str) -> str:
    code = ord(sign)
    return "    " if sign == "\t" else f"\\x{code:02x}" if code < 256 else f"\\u{code:04x}"


def _columns(sign: str) -> int:
    if unicodedata.combining(sign) or unicodedata.category(sign) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


def _problem(problem: Problem, file: str, paint: Paint) -> str:
    place = f"{printable(file)}:{problem.place.line}:{problem.place.column}"
    start, stop = problem.place.column - 1, problem.place.column - 1 + problem.place.length
    before, under = printable(problem.text[:start]), printable(problem.text[start:stop])
    lines = [f"{paint('place', place)}: {paint('wrong', problem.code)}: {printable(problem.says)}"]
    if problem.text.strip():
        lines += ["", f"    {printable(problem.text)}"]
        lines += [f"    {' ' * width(before)}{paint('wrong', '^' * max(1, width(under)))}"]
    return "\n".join([*lines, f"  why  {printable(problem.why)}", f"  do   {printable(problem.do)}", ""])


def _formula(value: Value | None) -> str:
    if value is None or value.formula is None:
        return ""
    written = text(value.formula)
    if written.lstrip("-").replace("/", "").isdigit():
        return ""
    return written if len(written) <= FORMULA else "(a long formula: --json shows it)"


def _row(rig: Rig, answer: Answer, label: str, get: Callable[[Regime], Value | None]) -> list[Row]:
    """One row, a cell for each regime, with the formula of the first; nothing where no regime has the value."""
    values = [get(regime) for regime in answer.regimes]
    return [(label, [shown(rig, value) for value in values], _formula(values[0]))] if any(values) else []


def _results(rig: Rig, answer: Answer) -> list[Row]:
    rows = _row(rig, answer, f"pull {rig.effort_symbol}", lambda regime: regime.effort)
    rows += _row(rig, answer, "load held", lambda regime: regime.load)
    rows += _row(rig, answer, "mechanical advantage", lambda regime: regime.mechanical_advantage)
    if answer.velocity_ratio:
        rows += _row(rig, answer, "velocity ratio", lambda regime: answer.velocity_ratio)
    return rows + _row(rig, answer, "efficiency", lambda regime: regime.efficiency)


def _strands(rig: Rig, answer: Answer) -> list[Row]:
    rows: list[Row] = []
    for place, pull in enumerate(answer.ideal.strands):
        label = f"{pull.rope}:{pull.index}  {pull.start} to {pull.end}"
        rows += _row(rig, answer, label, lambda regime, place=place: regime.strands[place].tension)  # type: ignore[misc]
    return _first(rows, "strands")


def _supports(rig: Rig, answer: Answer) -> list[Row]:
    rows: list[Row] = []
    for place, support in enumerate(answer.ideal.supports):
        label = f"{support.name} carries"
        rows += _row(rig, answer, label, lambda regime, place=place: regime.supports[place].force)  # type: ignore[misc]
        if support.sideways:
            sideways = f"{support.name}, to the right"
            rows += _row(rig, answer, sideways, lambda regime, place=place: regime.supports[place].sideways)  # type: ignore[misc]
    return _first(rows, "supports")


def _motions(rig: Rig, answer: Answer) -> list[Row]:
    rows: list[Row] = []
    for name, way in answer.travel:
        label = "hand takes up" if name == "hand" else f"{name} {'sinks' if (way.number or 0) < 0 else 'rises'}"
        size = Value(abs(way.number) if way.number is not None else None, way.unit, way.formula)
        rows += _row(rig, answer, label, lambda regime, size=size: size)  # type: ignore[misc]
    for place, motion in enumerate(answer.ideal.motions):
        label = f"{motion.name} speeds up"
        rows += _row(rig, answer, label, lambda regime, place=place: regime.motions[place].acceleration)  # type: ignore[misc]
    return _first(rows, "bodies")


def _work(rig: Rig, answer: Answer) -> list[Row]:
    rows = _row(rig, answer, "work put in", lambda regime: regime.work and regime.work.put_in)
    rows += _row(rig, answer, "gained", lambda regime: regime.work and regime.work.out)
    lossy = any(regime.work and regime.work.lost and regime.work.lost.number for regime in answer.regimes)
    return rows + (_row(rig, answer, "lost", lambda regime: regime.work and regime.work.lost) if lossy else [])


def _first(rows: list[Row], what: str) -> list[Row]:
    left = len(rows) - ROWS
    return rows if left <= 0 else [*rows[:ROWS], (f"... {left} more {what}: --json shows all", (), "")]


def _tables(tables: list[list[Row]], paint: Paint) -> list[str]:
    """All tables to one set of columns: labels left, numbers right, formulas left."""
    rows = [row for table in tables for row in table if row[1]]
    label = max((width(row[0]) for row in rows), default=0)
    cells = [max(width(row[1][n]) for row in rows) for n in range(len(rows[0][1]))] if rows else []

    def line(row: Row) -> str:
        numbers = "".join(f"  {' ' * (cells[n] - width(cell))}{cell}" for n, cell in enumerate(row[1]))
        return f"  {row[0]}{' ' * max(0, label - width(row[0]))}{numbers}{paint('quiet', f'   {row[2]}') if row[2] else ''}"

    return ["\n".join(line(row).rstrip() for row in table) for table in tables]


def _certificate(answer: Answer, paint: Paint) -> str:
    largest = answer.certificate.largest_residual
    verdict = "every residual 0" if largest == Fraction(0) else f"largest residual {numeral(largest)}"
    return paint("good" if largest == 0 else "wrong", f"checked {len(answer.certificate.checks)} ways: {verdict}")


def shelf_text(entries: Iterable[tuple[str, str, str]], paint: Paint) -> str:
    """The ready rigs: name, what it teaches, which wrong idea it uncovers."""
    return "\n".join(f"{paint('strong', name)}\n  {teaches}\n  {paint('quiet', ideas)}" for name, teaches, ideas in entries)
