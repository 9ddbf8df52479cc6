"""The tables of a lab report: readings, the ratio law, the budget, the law of the machine."""

from math import isfinite

from ..sheet import Table
from . import words
from .budget import Combined
from .measuring import Estimate, Measured
from .ratio import Ratio
from .shown import places, to_place, value_and

MOST_ROWS = 100  # means or pairs that a table shows
_CLOSE = 0.8  # a correlation from which a reader should know of it


def readings_table(of: Measured) -> Table:
    rows = tuple(
        (
            _what(one.mean.what, of), to_place(one.mean.load, 3) if one.mean.what in ("raising", "lowering") else "–",
            str(one.mean.many), to_place(one.mean.value, 4), to_place(one.expected, 4), to_place(one.deviation, 4),
            to_place(one.steps, 1),
        )
        for one in of.residuals[:MOST_ROWS]
    )  # fmt: skip
    head = ("", "load, N", "times read", "mean, N", "model, N", "uncertainty of the mean, N", "left over, in these")
    more = len(of.residuals) - len(rows)
    rest = f" {words.many(more, 'more mean')} not shown: the written table has every reading." if more else ""
    return Table("Readings, one mean a row", head, rows, f"{_scatter(of)}{rest}")


def _scatter(of: Measured) -> str:
    if of.scatter is None:
        return "Too little was read twice, so the scatter is not known."
    shown = to_place(of.scatter.deviation, places(of.scatter.deviation))
    how = "among repeats" if of.scatter.repeated else "about the model, as too little was read twice"
    return f"One pull scatters by {shown} N {how} ({words.many(of.scatter.freedom, 'degree')} of freedom)."


def _what(what: str, of: Measured) -> str:
    return {"raising": "Raising", "lowering": "Lowering", "zero": "Nothing hung"}.get(
        what, f"{of.block or 'block'}, weighed".capitalize()
    )


def ratio_words(of: Measured) -> str:
    """The cross-check in sentences."""
    if isinstance(of.ratio, str):
        return of.ratio
    law = f"K to the power {of.ratio.power}, K = 1/e" if of.ratio.power is not None else "a function of e alone"
    value, half = value_and(of.ratio.efficiency, of.ratio.half)
    said = (
        f"Raising over lowering is {law}, whatever hangs there: neither load nor block weight is needed, and an error "
        f"of the scale's gain cancels. By this law alone e = {value} ± {half} (95 %)."
    )
    if of.ratio.chance < 0.01:
        said += " But it is not the same at every load: a sign of drag or of a zero, which do not cancel."
    return f"{said} {_against(of, of.ratio)}".strip()


def _against(of: Measured, law: Ratio) -> str:
    one = of.estimate("efficiency")
    if one.value is None or one.combined is None:
        return ""
    apart = abs(one.value - law.efficiency)
    u = max(one.combined.u, law.u)
    shown = to_place(apart, places(u))
    if apart <= 2 * u:
        return f"The fit says {value_and(one.value, one.combined.u)[0]}: {shown} apart, which the uncertainties allow."
    return (
        f"The fit says {value_and(one.value, one.combined.u)[0]}: {shown} apart, more than they allow; the law leaves "
        "drag and zero out, the fit does not."
    )


def pairs_table(of: Measured) -> Table | None:
    if isinstance(of.ratio, str):
        return None
    rows = tuple(
        (
            "not said" if pair.load is None else f"{to_place(pair.load, 3)}\u00a0N", to_place(pair.ratio, 4),
            *value_and(pair.efficiency, pair.u),
        )
        for pair in of.ratio.pairs[:MOST_ROWS]
    )  # fmt: skip
    return Table("Raising over lowering, load by load", ("load", "ratio", "efficiency", "standard uncertainty"), rows)


def budget_table(of: Measured) -> Table:
    """A row for each source, a column for each result that is told; what is together stands last."""
    told = [(one, one.combined) for one in of.estimates if one.combined is not None]
    sources = [name for name in words.SOURCES if any(part.source == name for _, whole in told for part in whole.parts)]
    rows = [
        (
            words.SOURCES[name],
            _kind(name, [whole for _, whole in told]),
            *(_part(one, whole, name) for one, whole in told),
        )
        for name in sources
    ]
    rows.append(
        ("together", "", *(f"{to_place(whole.u, places(whole.u))}{words.unit(one.name)}" for one, whole in told))
    )
    rows.append(("degrees of freedom", "", *(_freedom(whole.freedom) for _, whole in told)))
    head = ("source", "kind", *(f"adds to u({words.SYMBOLS[one.name]})" for one, _ in told))
    return Table("Where the uncertainty comes from", head, tuple(rows), f"{_unstated(of)}{_together(of)}")


def _kind(source: str, results: list[Combined]) -> str:
    """A where a scatter stands behind it, B where only a limit does."""
    scattered = any(isfinite(part.freedom) for whole in results for part in whole.parts if part.source == source)
    return words.TYPE_A if scattered or source == "repeats" else words.TYPE_B


def _together(of: Measured) -> str:
    """Results whose errors go with each other, so that one of them better known makes both so."""
    close = [
        f"{words.SYMBOLS[one]} and {words.SYMBOLS[other]} ({to_place(value, 2)})"
        for one, other, value in (of.fitted.correlations if of.fitted else ()) if abs(value) >= _CLOSE
    ]  # fmt: skip
    return f" Errors go together (correlation): {words.listed(close)}." if close else ""


def _part(one: Estimate, whole: Combined, name: str) -> str:
    """What a source adds, and its share of the variance; a dash where it adds nothing that would be seen."""
    part = next((part for part in whole.parts if part.source == name), None)
    if part is None or part.u**2 < 0.005 * whole.u**2:
        return "–"
    return f"{to_place(part.u, places(whole.u))}{words.unit(one.name)} ({words.percent(part.u**2 / whole.u**2, 0)})"


def _freedom(freedom: float) -> str:
    return f"{int(freedom)}" if isfinite(freedom) and freedom < 1000 else "many"


def _unstated(of: Measured) -> str:
    limits = of.settings.limits
    both = (("errors of the masses", limits.masses), ("an error of the scale's gain", limits.gain))
    missing = [name for name, said in both if said is None]
    division = f"Division of the scale: {of.division:g} N, {_division_from(of)}."
    return f"{division} Not stated, so not counted: {words.listed(missing)}." if missing else division


def _division_from(of: Measured) -> str:
    return "as stated" if of.settings.division is not None else "from the last digit of the readings"


def lines_table(of: Measured) -> Table | None:
    rows = tuple(
        (way.capitalize(), *value_and(line.slope, line.u_slope), *(f"{one}\u00a0N" for one in value_and(line.intercept,
         line.u_intercept)), to_place(line.correlation, 3))
        for way, line in (of.fitted.lines if of.fitted else ())
    )  # fmt: skip
    if not rows:
        return None
    head = ("", "slope a", "u(a)", "at no load b", "u(b)", "correlation")
    kind = (
        "best line by the effective variance, loads and pulls both in error" if of.settings.limits.masses
        else "weighted line, loads without error"
    )  # fmt: skip
    note = f"Each way by itself: {kind}.{_machine(of)}"
    return Table("The law of the machine: pull = a × load + b", head, rows, note)


def _machine(of: Measured) -> str:
    """The efficiency of the whole machine at the heaviest load, as its line of raising has it."""
    line = next((line for way, line in (of.fitted.lines if of.fitted else ()) if way == "raising"), None)
    load = max((one.mean.load for one in of.residuals if one.mean.what == "raising"), default=0.0)
    if line is None or not load:
        return ""
    pull, u = line.at(load)
    efficiency = load / (float(of.shares.velocity_ratio) * pull)
    value, shown = value_and(100 * efficiency, 100 * efficiency * u / pull)
    return (
        f" At {to_place(load, 2)}\u00a0N the whole machine gives back {value}\u00a0% of the work (standard uncertainty "
        f"{shown}\u00a0%), zero and block weight counted against it."
    )
