"""An answer and an explanation as calm text, for a terminal."""

from collections.abc import Callable, Sequence
from fractions import Fraction
from textwrap import fill

from gantline.account import Account, Refusal
from gantline.mechanics import Answer, Regime, Value
from gantline.quantity import numeral, text
from gantline.rig import Rig, shown_unit

from .plain import Paint, printable, width
from .record import written

ROWS = 24  # strands, supports or bodies shown at most; the record has them all
FORMULA = 64  # characters of a formula shown at most

Row = tuple[str, Sequence[str], str]


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
        label_cell = row[0] + " " * max(0, label - width(row[0]))
        return f"  {label_cell}{numbers}{paint('quiet', f'   {row[2]}') if row[2] else ''}"

    return ["\n".join(line(row).rstrip() for row in table) for table in tables]


def _certificate(answer: Answer, paint: Paint) -> str:
    largest = answer.certificate.largest_residual
    verdict = "every residual 0" if largest == Fraction(0) else f"largest residual {numeral(largest)}"
    return paint("good" if largest == 0 else "wrong", f"checked {len(answer.certificate.checks)} ways: {verdict}")


def account_text(account: Account | Refusal, others: Sequence[Account | Refusal], paint: Paint) -> str:
    """An explanation as numbered sentences, each with its formula; then the other ways, and why some will not do."""
    if isinstance(account, Refusal):
        blocks = [f"{paint('strong', account.name)}: not here.\n{account.reason}"]
    else:
        blocks = [paint("strong", account.name), "\n".join(_steps(account, paint))]
    return "\n\n".join([*blocks, *_others(others, paint)])


def _steps(account: Account, paint: Paint) -> list[str]:
    lines = []
    for count, step in enumerate(account.steps, 1):
        words = printable(account.line(step, spoken=False))
        sentence = fill(words, 100, initial_indent=f"{count:>3}  ", subsequent_indent="     ")
        formula = written(step.formula) or step.formula_text
        lines += [sentence, *([paint("quiet", f"       {formula}")] if formula else [])]
    return lines


def _others(others: Sequence[Account | Refusal], paint: Paint) -> list[str]:
    ways = [f"  --method {other.method:<12} {other.name}" for other in others if isinstance(other, Account)]
    refused = [f"  {other.name}: {other.reason}" for other in others if isinstance(other, Refusal)]
    blocks = [(ways, "Other ways to the same answer"), (refused, "Ways that will not do here")]
    return ["\n".join([paint("strong", title), *lines]) for lines, title in blocks if lines]
