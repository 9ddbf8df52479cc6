"""An answer and an explanation as calm text, for a terminal."""

from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import partial
from textwrap import fill

from gantline.account import Account, Refusal
from gantline.mechanics import Answer, Regime, Value
from gantline.quantity import negative, numeral, text
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
    head: list[Row] = [("", tuple(regime.way for regime in answer.regimes), "formula, ideal")] if many else []
    tables = [head + _results(rig, answer), _strands(rig, answer), _supports(rig, answer)]
    tables += [_motions(rig, answer), _work(rig, answer)]
    blocks += _tables([table for table in tables if table], paint)
    return "\n\n".join([*blocks, *_notes(answer), _certificate(answer, paint)])


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
    return _line(rig, label, [get(regime) for regime in answer.regimes])


def _line(rig: Rig, label: str, values: Sequence[Value | None]) -> list[Row]:
    """One row, a cell for each regime, with the formula of the first; nothing where no regime has the value."""
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
    for pull in answer.ideal.strands:
        label = f"{pull.name}  {pull.start} to {pull.end}"
        rows += _row(rig, answer, label, partial(Regime.tension, strand=pull.name))
    return _first(rows, "strands")


def _supports(rig: Rig, answer: Answer) -> list[Row]:
    rows: list[Row] = []
    for name, sideways in ((support.name, support.sideways) for support in answer.ideal.supports):
        found = [next((one for one in regime.supports if one.name == name), None) for regime in answer.regimes]
        rows += _line(rig, f"{name} carries", [one.force if one else None for one in found])
        if sideways:
            rows += _line(rig, f"{name}, to the right", [one.sideways if one else None for one in found])
    return _first(rows, "supports")


def _motions(rig: Rig, answer: Answer) -> list[Row]:
    rows: list[Row] = []
    for name, way in answer.travel:
        sinks = way.number is not None and way.number < 0
        verb = {"hand": ("takes up", "gives out")}.get(name, ("rises", "sinks"))[sinks]
        label = f"{name} {verb}"
        rows += _line(rig, label, [_opposite(way) if sinks else way] * len(answer.regimes))
    for place, motion in enumerate(answer.ideal.motions):
        speeds = [regime.motions[place].acceleration for regime in answer.regimes]
        if any(value and value.number != 0 for value in speeds):
            rows += _line(rig, f"acceleration of {motion.name}", speeds)
    return _first(rows, "bodies")


def _opposite(value: Value) -> Value:
    formula = value.formula and (negative(value.formula) or value.formula)
    return Value(value.number and -value.number, value.unit, formula)


def _work(rig: Rig, answer: Answer) -> list[Row]:
    works = [regime.work for regime in answer.regimes]
    rows = _line(rig, "work put in", [work.put_in if work else None for work in works])
    rows += _line(rig, "gained", [work.out if work else None for work in works])
    lost = [work.lost if work else None for work in works]
    return rows + (_line(rig, "lost", lost) if any(value and value.number for value in lost) else [])


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


def _notes(answer: Answer) -> list[str]:
    helps = " and ".join(answer.helps)
    verb = "sinks and helps" if len(answer.helps) == 1 else "sink and help"
    notes = [f"As the load rises, {helps} {verb}: so the efficiency may pass 1."] if helps else []
    notes += _let_down(answer)
    notes += [f"While {way} friction jams it: no pull on the rope makes it run." for way in answer.jams]
    return notes + (["Numbers only: past this size the formulas are left out."] if answer.size_note else [])


def _let_down(answer: Answer) -> list[str]:
    """Why load over pull, over the velocity ratio, passes 1 while lowering, and the share that is below it."""
    regime = answer.regime("lowering")
    share = regime.efficiency.number if regime and regime.efficiency else None
    if share is None or share <= 1:
        return []
    says = (
        "While lowering, the load drives and the loss helps you hold it: by the smaller pull this efficiency, load "
        "over pull over the velocity ratio, passes 1. For each joule the load gives, "
        f"{numeral(1 / share)} J reach your hand."
    )
    return [fill(says, 100)]


def _certificate(answer: Answer, paint: Paint) -> str:
    largest, count = answer.certificate.largest_residual, len(answer.certificate.checks)
    verdict = "every residual 0" if largest == Fraction(0) else f"largest residual {numeral(largest)}"
    words = f"certificate: {count} {'check' if count == 1 else 'checks'} by a second route, {verdict}"
    return paint("good" if largest == 0 else "wrong", words)


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
