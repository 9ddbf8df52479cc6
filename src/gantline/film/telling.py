"""Which steps are told beside the rig by a panel, and what it holds."""

import re
from fractions import Fraction

from gantline.account import Account, Step, measure
from gantline.mechanics import Answer, Value, solve
from gantline.quantity import Equation, Number, Shown, Symbol
from gantline.rig import with_efficiency
from gantline.sources import EXAMPLE_EFFICIENCY

from . import counts, panels, works
from .panels import Panel
from .stage import Stage


def panel_of(stage: Stage, step: Step) -> Panel | None:
    """The panel of a step: work, a wrong answer, real wheels, what is worth keeping. None for all others."""
    size = stage.format.text if stage.format.words[2] - stage.format.words[0] > 400 else stage.format.small
    if step.view == "work":
        return works.work(stage, stage.act.answer.ideal.work, size)
    if step.id == "wrong":
        return _wrong(stage, step, size)
    if step.id == "really":
        return _really(stage, step, size)
    if step.id == "recap":
        return _keeping(stage)
    return None


def _wrong(stage: Stage, step: Step, size: float) -> Panel | None:
    """What the wrong rule reckons, and under it what is right."""
    account = stage.act.account
    wrong, right = account.wrong, account.result
    if wrong is None or right is None or wrong.value.number is None or right.number is None:
        return None
    rig = stage.act.rig
    first = measure(rig, wrong.value.number, wrong.value.unit).near
    second = measure(rig, right.number, right.unit).near
    count, right_count = counts.counted(wrong.formula), counts.counted(right.formula)
    if account.method != "count" or not right_count or count > len(stage.layout.runs):
        count = right_count = 0
    answers = [counts.Reckoned(Equation((wrong.formula, Number(wrong.value.number, first))), count, right_count)]
    if right.formula is not None:
        shown = Equation((right.formula, Number(right.number, second)))
        answers.append(counts.Reckoned(shown, right_count, right_count))
    return counts.wrong(stage, f"If you wrote {first}", answers, size * 1.3)


def lossy(stage: Stage) -> Answer:
    """The answer with real wheels: the file's own losses, else the assumed one."""
    rig = stage.act.rig
    if any(sheave.efficiency for sheave in rig.sheaves):
        return stage.act.answer
    return solve(with_efficiency(rig, EXAMPLE_EFFICIENCY.value))


def running_way(stage: Stage) -> str:
    """The way the ropes run that is spoken of first: the one the file asks about."""
    asked = stage.act.rig.asked
    return "lowering" if asked is not None and asked.sense < 0 else "raising"


def _really(stage: Stage, step: Step, size: float) -> Panel | None:
    """The pull with perfect wheels, and what it takes to raise and to lower with real ones; where things gather speed,
    how fast they do."""
    real, ideal = lossy(stage), stage.act.answer.ideal.effort
    found = []
    for words, way in (("raising", "raising"), ("perfect", "ideal"), ("lowering", "lowering")):
        regime = real.regime(way)  # type: ignore[arg-type]
        effort = ideal if way == "ideal" else regime.effort if regime else None
        if effort is not None and effort.number is not None and effort.number > 0:
            found.append((words, measure(stage.act.rig, effort.number, "N").near, float(effort.number)))
    said = {value.key: value.value for value in stage.act.account.values}
    if "a_loss" in said:
        keys = [("perfect", "a_near"), ("real", "a_loss")]
        found = [(words, *_quantity(stage, said[key])) for words, key in keys if key in said and said[key].number]
    return panels.bars(stage, _each_wheel(stage, step), found, size) if len(found) > 1 else None


def _quantity(stage: Stage, value: Value) -> tuple[str, float]:
    number = abs(value.number or Fraction(0))
    return measure(stage.act.rig, number, value.unit).near, float(number)


def _each_wheel(stage: Stage, step: Step) -> str:
    """What the wheels keep of a pull, where all keep as much: in words instead of the letter e."""
    kept = re.fullmatch(r"with e = ([\d.]+)", step.formula_text)
    wheels = len(stage.act.rig.sheaves)
    if kept is None:
        return step.formula_text
    return f"{'the' if wheels == 1 else 'each'} wheel keeps {float(kept[1]) * 100:g}\u00a0%"


def _keeping(stage: Stage) -> Panel | None:
    facts = kept(stage.act.account, stage.act.rig.effort_symbol, stage.act.rig.haul_symbol)
    return panels.keeping(stage, facts, stage.format.formula * 0.85) if facts else None


def kept(account: Account, effort: str, haul: str) -> list[tuple[Shown, str]]:
    """The formulas of an account that are worth keeping: the count, the pull, the price in rope; or what speeds up."""
    found: dict[str, tuple[Shown, str]] = {}
    for step in account.steps:
        if step.id in ("wrong", "twist", "answer"):
            continue
        if step.formula_text.startswith("N = ") and "?" not in step.formula_text and step.view == "count":
            found.setdefault("N", (step.formula_text, "strands through the bag"))
        first = step.formula.sides[0] if isinstance(step.formula, Equation) else None
        if isinstance(first, Symbol) and isinstance(step.formula, Equation):
            if first.name == effort and (effort not in found or isinstance(step.formula.sides[-1], Number)):
                found[effort] = (step.formula, "")
            elif first.name == haul:
                found[haul] = (step.formula, "the price in rope")
            elif first.name[:1] == "a" and step.id in ("solve", "others"):
                found[first.name] = (step.formula, "")
    return list(found.values())[:3]
