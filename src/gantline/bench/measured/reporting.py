"""The lab report as words and tables: what the page, the print and the terminal have in common."""

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
from .budget import LEVEL
from .draws import MOST_MEANS
from .measuring import Estimate, Measured
from .plots import pulls_plot, residuals_plot
from .ratio import Ratio
from .readings import Readings
from .shown import interval, places, to_place, value_and
from .tables import budget_table, lines_table, pairs_table, ratio_words, readings_table


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
        readings=readings_table(of),
        ratio=ratio_words(of),
        pairs=pairs_table(of),
        budget=budget_table(of),
        lines=lines_table(of),
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
    return (*_impossible(of), *_held(of), *_lacking(of))


def _impossible(of: Measured) -> list[str]:
    """Results that no tackle has, and those that might as well be nothing."""
    found = []
    efficiency = of.estimate("efficiency").value
    if efficiency is not None and efficiency > 1:
        found.append(words.ABOVE_ONE)
    for one in of.estimates:
        if one.name in ("block", "drag") and one.interval is not None:
            low, high = one.interval
            if low < 0:
                found.append(f"{words.NAMES[one.name]}: {words.MAYBE_NONE if high >= 0 else words.BELOW_ZERO}")
    return found


def _held(of: Measured) -> list[str]:
    held = [words.SHORT[one.name] for one in of.estimates if one.held]
    return [f"Taken as it stands: {words.listed(held)}. {words.IF_WRONG}"] if held else []


def _lacking(of: Measured) -> list[str]:
    """That the model does not fit, where more lies between it and the readings than between readings."""
    good = of.fitted.goodness if of.fitted else None
    if good is None or not good.lacking:
        return []
    return [
        f"The readings scatter about the model {to_place(good.birge, 2)} times as much as about each other "
        f"(chi-squared {to_place(good.chi2, 1)} for {good.left}; chance {good.chance:.2g}). "
        "Something is not in the model; every interval is widened by that factor (Birge ratio)."
    ]


def results(of: Measured) -> Table:
    rows = tuple(_result(of, one) for one in of.estimates)
    head = ("", "value", "standard uncertainty", "95 % interval", "95 % by Monte Carlo")
    return Table("What the readings say", head, rows)


def name_of(of: Measured, name: str) -> str:
    """An unknown's name with its letter; the block by its own name."""
    said = f"Weight of {of.block}" if name == "block" and of.block else words.NAMES[name]
    return f"{said}, {words.SYMBOLS[name]}"


def _result(of: Measured, one: Estimate) -> tuple[str, ...]:
    name, after = name_of(of, one.name), words.unit(one.name)
    if one.held and one.value is not None:
        return name, f"{to_place(one.value, 3)}{after}", words.HELD[one.name], "", ""
    if one.value is None or one.combined is None or one.interval is None:
        return name, "not told", f"not apart from {words.listed([words.SHORT[n] for n in one.tied])}", "", ""
    u = one.combined.u
    value, shown = value_and(one.value, u)
    drawn = f"{interval(one.spread.low, one.spread.high, u)}{after}" if one.spread else _undrawn(of)
    return name, f"{value}{after}", f"{shown}{after}", f"{interval(*one.interval, u)}{after}", drawn


def _undrawn(of: Measured) -> str:
    return "too few readings" if len(of.residuals) <= MOST_MEANS else "not drawn"


def _plots(of: Measured) -> tuple[Scene, ...]:
    return (pulls_plot(of), residuals_plot(of)) if of.residuals else ()


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
        take = words.listed([f"`--take {name}`" for name in one.takes], "or")
        return f"To tell {names}: {what}." + (f" {words.TAKE.format(take=take)}" if take else "")
    do = words.BETTER[one.what[0]]
    after = words.unit(one.of[0])
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
