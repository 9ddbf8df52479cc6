"""The lab report as words and tables: what the page, the print and the terminal have in common."""

from math import isfinite

from msgspec import Struct

from gantline.account import Caution, cautions
from gantline.figure import NotDrawable, Scene, draw
from gantline.mechanics import Answer, solve
from gantline.rig import Rig, with_efficiency
from gantline.sources import EXAMPLE_EFFICIENCY

from .. import words as bench_words
from ..sheet import Table
from . import words
from .advice import Advice
from .budget import LEVEL, Combined
from .measuring import Estimate, Measured
from .plots import pulls_plot, residuals_plot
from .ratio import Ratio
from .readings import Readings
from .shown import interval, places, to_place, value_and

_CLOSE = 0.8  # a correlation from which a reader should know of it


class Report(Struct, frozen=True):
    """One report. `improve` are things to do, the most useful first; `told` says how the table was read, `how` by which
    formulas all was worked out."""

    title: str
    scene: Scene | None
    lead: str
    notes: tuple[str, ...]
    results: Table
    plots: tuple[Scene, ...]
    readings: Table
    ratio: str
    pairs: Table | None
    budget: Table
    lines: Table | None
    accounting: str
    refused: Table | None
    improve: tuple[str, ...]
    told: tuple[str, ...]
    how: tuple[str, ...]
    cautions: tuple[Caution, ...]
    general: str = bench_words.GENERAL


def report(of: Measured, rig: Rig) -> Report:
    """The report on what was measured on a rig."""
    answer = solve(with_efficiency(rig, EXAMPLE_EFFICIENCY.value))
    return Report(
        title=of.title or "A rig without a title",
        scene=_scene(rig, answer),
        lead=lead(of),
        notes=notes(of),
        results=results(of),
        plots=_plots(of),
        readings=_readings(of),
        ratio=ratio(of),
        pairs=_pairs(of),
        budget=_budget(of),
        lines=_lines(of),
        accounting=accounting(of.readings),
        refused=refused(of.readings),
        improve=improve(of),
        told=of.readings.told,
        how=_how(of),
        cautions=cautions(rig, answer),
    )


def _scene(rig: Rig, answer: Answer) -> Scene | None:
    try:
        return draw(rig, answer, "numbered")
    except NotDrawable:
        return None


# -- results ----------------------------------------------------------------------------------------------------------


def lead(of: Measured) -> str:
    """The result in one sentence, or what is known instead."""
    found = of.estimate("efficiency")
    if found.value is not None and found.combined is not None:
        low, high = found.value - found.combined.half, found.value + found.combined.half
        digits = max(places(found.combined.u) - 2, 0)
        between = f"95 %: {words.percent(low, digits)} to {words.percent(high, digits)}"
        return f"Each sheave passes on {words.percent(found.value, digits)} of the pull while it runs ({between})."
    if isinstance(of.ratio, Ratio):
        value, half = value_and(of.ratio.efficiency, of.ratio.half)
        return (
            f"Raising over lowering says that each sheave passes on {value} ± {half} of the pull, if drag and zero are "
            "nothing. The readings cannot tell these apart from it."
        )
    return "These readings do not tell what the sheaves pass on."


def notes(of: Measured) -> tuple[str, ...]:
    """What a reader must know before using a number."""
    found = []
    efficiency = of.estimate("efficiency")
    if efficiency.value is not None and efficiency.value > 1:
        found.append(
            "An efficiency above 1 cannot be: wheels that lose next to nothing, loads lighter than was written, or a "
            "scale that shows too little."
        )
    for name in ("block", "drag"):
        one = next((each for each in of.estimates if each.name == name), None)
        if one is not None and one.interval is not None and one.interval[0] < 0 <= one.interval[1]:
            found.append(f"{words.NAMES[name]}: the interval holds zero, so there may be none.")
        elif one is not None and one.interval is not None and one.interval[1] < 0:
            found.append(f"{words.NAMES[name]}: below zero, which cannot be: look at the loads and the scale.")
    held = [words.SHORT[one.name] for one in of.estimates if one.held]
    if held:
        found.append(
            f"Taken as it stands: {words.listed(held)}. If that is wrong, the other results are wrong with it."
        )
    good = of.fitted.goodness if of.fitted else None
    if good is not None and good.lacking:
        found.append(
            f"The readings scatter about the model {to_place(good.birge, 2)} times as much as about each other "
            f"(chi-squared {to_place(good.chi2, 1)} for {good.left}; chance {good.chance:.2g}). "
            "Something is not in the model; every interval is widened by that factor (Birge ratio)."
        )
    return tuple(found)


def results(of: Measured) -> Table:
    rows = tuple(_result(of, one) for one in of.estimates)
    head = ("", "value", "standard uncertainty", "95 % interval", "95 % by Monte Carlo")
    return Table("What the readings say", head, rows)


def name_of(of: Measured, name: str) -> str:
    """An unknown's name with its letter; the block by its own name."""
    said = f"Weight of {of.block}" if name == "block" and of.block else words.NAMES[name]
    return f"{said}, {words.SYMBOLS[name]}"


def _result(of: Measured, one: Estimate) -> tuple[str, ...]:
    name, after = name_of(of, one.name), _unit(one.name)
    if one.held and one.value is not None:
        return name, f"{to_place(one.value, 3)}{after}", words.HELD[one.name], "", ""
    if one.value is None or one.combined is None or one.interval is None:
        return name, "not told", f"not apart from {words.listed([words.SHORT[n] for n in one.tied])}", "", ""
    u = one.combined.u
    value, shown = value_and(one.value, u)
    drawn = f"{interval(one.spread.low, one.spread.high, u)}{after}" if one.spread else "too few readings"
    return name, f"{value}{after}", f"{shown}{after}", f"{interval(*one.interval, u)}{after}", drawn


# -- readings ---------------------------------------------------------------------------------------------------------


def _plots(of: Measured) -> tuple[Scene, ...]:
    return (pulls_plot(of), residuals_plot(of)) if of.residuals else ()


def _readings(of: Measured) -> Table:
    rows = tuple(
        (
            _what(one.mean.what, of), to_place(one.mean.load, 3) if one.mean.what in ("raising", "lowering") else "–",
            str(one.mean.many), to_place(one.mean.value, 4), to_place(one.expected, 4), to_place(one.deviation, 4),
            to_place(one.steps, 1),
        )
        for one in of.residuals
    )  # fmt: skip
    head = ("", "load, N", "times read", "mean, N", "model, N", "uncertainty of the mean, N", "left over, in these")
    return Table("Readings, one mean a row", head, rows, _scatter(of))


def _scatter(of: Measured) -> str:
    if of.scatter is None:
        return "Nothing was read twice, so the scatter is not known."
    shown = to_place(of.scatter.deviation, places(of.scatter.deviation))
    return f"One pull scatters by {shown} N ({words.many(of.scatter.freedom, 'degree')} of freedom)."


def _what(what: str, of: Measured) -> str:
    return {"raising": "Raising", "lowering": "Lowering", "zero": "Nothing hung"}.get(
        what, f"{of.block or 'block'}, weighed".capitalize()
    )


# -- the ratio law ----------------------------------------------------------------------------------------------------


def ratio(of: Measured) -> str:
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


def _pairs(of: Measured) -> Table | None:
    if isinstance(of.ratio, str):
        return None
    rows = tuple(
        (
            "not said" if pair.load is None else f"{to_place(pair.load, 3)}\u00a0N", to_place(pair.ratio, 4),
            *value_and(pair.efficiency, pair.u),
        )
        for pair in of.ratio.pairs
    )  # fmt: skip
    return Table("Raising over lowering, load by load", ("load", "ratio", "efficiency", "standard uncertainty"), rows)


# -- the budget -------------------------------------------------------------------------------------------------------


def _budget(of: Measured) -> Table:
    """A row for each source, a column for each result that is told; what is together stands last."""
    told = [(one, one.combined) for one in of.estimates if one.combined is not None]
    sources = [name for name in words.SOURCES if any(part.source == name for _, whole in told for part in whole.parts)]
    rows = [
        (
            words.SOURCES[name],
            words.KINDS.get(name, words.LIMIT_KIND),
            *(_part(one, whole, name) for one, whole in told),
        )
        for name in sources
    ]
    rows.append(("together", "", *(f"{to_place(whole.u, places(whole.u))}{_unit(one.name)}" for one, whole in told)))
    rows.append(("degrees of freedom", "", *(_freedom(whole.freedom) for _, whole in told)))
    head = ("source", "kind", *(f"adds to u({words.SYMBOLS[one.name]})" for one, _ in told))
    return Table("Where the uncertainty comes from", head, tuple(rows), f"{_unstated(of)}{_together(of)}")


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
    return f"{to_place(part.u, places(whole.u))}{_unit(one.name)} ({words.percent(part.u**2 / whole.u**2, 0)})"


def _unit(name: str) -> str:
    return f"\u00a0{words.UNITS[name]}" if words.UNITS[name] else ""


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


def _lines(of: Measured) -> Table | None:
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


# -- rows that are not used, and what to do next ----------------------------------------------------------------------


def accounting(of: Readings) -> str:
    """Every row read is used, refused or empty."""
    empty = f", {of.empty} empty" if of.empty else ""
    return f"{words.many(of.read, 'row')} read: {len(of.rows)} used, {len(of.refused)} refused{empty}."


def refused(of: Readings) -> Table | None:
    rows = tuple((f"Row {one.line}", f"{one.reason[:1].upper()}{one.reason[1:]}.") for one in of.refused)
    return Table("Rows that are not used", ("row of the file", "why"), rows) if rows else None


def improve(of: Measured) -> tuple[str, ...]:
    """What would improve this most, in order."""
    return tuple(_advised(of, one) for one in of.advice)


def _advised(of: Measured, one: Advice) -> str:
    names = words.listed([words.SHORT[name] for name in one.of])
    if one.kind == "read":
        what = words.listed([words.NEEDED[need] for need in one.what])
        return f"To tell {names}: {what}."
    do = words.BETTER[one.what[0]]
    after = _unit(one.of[0])
    decimals = places(one.after)
    return (
        f"For the {names}: {do}. Its standard uncertainty would go from {to_place(one.before, decimals)} to "
        f"{to_place(one.after, decimals)}{after}."
    )


def _how(of: Measured) -> tuple[str, ...]:
    said = [words.MODEL]
    if of.residuals:
        said += [words.FIT, words.PROPAGATED]
    if of.draws:
        said.append(words.drawn(of.draws))
    said.append(f"In the long run, of 100 such series {LEVEL * 100:.0f} or so have an interval that holds the truth.")
    return tuple(said)
