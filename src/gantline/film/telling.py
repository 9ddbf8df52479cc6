"""Which steps are told beside the rig by a panel, and what it holds."""

from gantline.account import Account, Step, measure
from gantline.mechanics import Answer, solve
from gantline.quantity import Equation, Number, Shown, Symbol
from gantline.rig import with_efficiency
from gantline.sources import EXAMPLE_EFFICIENCY

from . import panels
from .panels import Panel
from .stage import Stage


def panel_of(stage: Stage, step: Step) -> Panel | None:
    """The panel of a step: work, a wrong answer, real wheels, what is worth keeping. None for all others."""
    size = stage.format.text if stage.format.words[2] - stage.format.words[0] > 400 else stage.format.small
    if step.view == "work":
        return panels.work(stage, stage.act.answer, size)
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
    answers: list[Shown] = [Equation((wrong.formula, Number(wrong.value.number, first)))]
    if right.formula is not None:
        answers.append(Equation((right.formula, Number(right.number, second))))
    return panels.wrong(stage, f"If you wrote {first}", answers, size * 1.3)


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
    """The pull with perfect wheels, and what it takes to raise and to lower with real ones."""
    real, ideal = lossy(stage), stage.act.answer.ideal.effort
    found = []
    for words, way in (("raising", "raising"), ("perfect", "ideal"), ("lowering", "lowering")):
        regime = real.regime(way)  # type: ignore[arg-type]
        effort = ideal if way == "ideal" else regime.effort if regime else None
        if effort is not None and effort.number is not None and effort.number > 0:
            found.append((words, measure(stage.act.rig, effort.number, "N").near, float(effort.number)))
    return panels.bars(stage, step.formula_text, found, size) if len(found) > 1 else None


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
