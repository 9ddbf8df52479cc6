"""The answer as it stands under the plate: the equation, what follows from it, and what it was checked by."""

from fractions import Fraction
from typing import Any

from gantline.account import measure, near
from gantline.mechanics import Answer, Regime, Value, Way
from gantline.output import mathml
from gantline.output.record import written
from gantline.quantity import Equation, Formula, Number, Symbol
from gantline.rig import Rig

from .contradicting import false_equation, no_pull

_WAYS: tuple[Way, ...] = ("ideal", "raising", "lowering", "holding")
_CHECKS = {"forces": "forces", "sheave": "wheels", "length": "rope lengths", "work": "work", "whole": "the whole rig",
           "formulas": "formulas against numbers"}  # fmt: skip
_COUNTS = ("", "one way", "two ways", "three ways", "four ways", "five ways", "six ways")


def plain_answer(rig: Rig, answer: Answer, way: Way) -> dict[str, Any]:
    """What stands under the plate for one way the ropes run."""
    if answer.status == "impossible" and (false := false_equation(rig, answer)):
        spoken = false if isinstance(false, str) else written(false)
        return {"formula": str(mathml.write(false)), "spoken": spoken, "follows": "", "checked": no_pull(answer)}
    regime = answer.regime(way) or answer.ideal if answer.regimes else None
    equation = regime and _equation(rig, answer, regime)
    return {
        "formula": str(mathml.write(equation)) if equation else "",
        "spoken": written(equation) if equation else "",
        "follows": _follows(rig, answer, regime) if regime and answer.status != "slack" else "",
        "checked": _checked(answer),
    }


_STANDS = {"accelerates": "speeds up", "impossible": "no pull can hold it", "indeterminate": "not settled",
           "slack": "a rope goes slack"}  # fmt: skip


def gain(rig: Rig, answer: Answer) -> str:
    """What a rig gains in a few words: load over pull without loss, and how much rope a rise takes where that is not
    the same; the pull itself where it is in letters; or how the rig stands where it does not hold."""
    if answer.status in _STANDS:
        return _STANDS[answer.status]
    ideal = answer.ideal
    if ideal.mechanical_advantage and ideal.mechanical_advantage.number is not None:
        gained, rope = near(rig, ideal.mechanical_advantage), answer.velocity_ratio
        ratio = near(rig, rope) if rope and rope.number is not None else gained
        return f"gain {gained}" + (f", rope {ratio} to 1" if ratio != gained else "")
    return f"pull {_short(rig, ideal.effort)}" if ideal.effort else "holds"


def wheels(rig: Rig, answer: Answer) -> list[dict[str, Any]]:
    """Every way the ropes can run, with the pull each takes. Without loss there is only the ideal one."""
    found = []
    for way in _WAYS:
        regime = answer.regime(way)
        asked = regime and (regime.load if rig.effort else regime.effort)
        if regime:
            found.append({"way": way, "says": _short(rig, asked) if asked else ""})
    return found


def _short(rig: Rig, value: Value) -> str:
    return near(rig, value) if value.number is not None else written(value.formula)


def _equation(rig: Rig, answer: Answer, regime: Regime) -> Equation | None:
    """The letter, its formula and its number: as many of the three as are known."""
    letter, found = _asked(rig, answer, regime)
    if found is None:
        return None
    sides: list[Formula] = [Symbol(letter)]
    if found.formula is not None and not isinstance(found.formula, Number) and regime.way == "ideal":
        sides.append(found.formula)
    if found.number is not None:
        sides.append(_shown(rig, found, found.number))
    return Equation(tuple(sides)) if len(sides) > 1 else None


def result(rig: Rig, answer: Answer) -> Equation | None:
    """The letter that is asked with its number alone, None where nothing is asked that has one."""
    letter, found = _asked(rig, answer, answer.ideal) if answer.regimes else ("", None)
    if found is None or found.number is None:
        return None
    return Equation((Symbol(letter), _shown(rig, found, found.number)))


def _shown(rig: Rig, found: Value, number: Fraction) -> Number:
    return Number(number, near(rig, found).replace("\u00a0", " "))


def _asked(rig: Rig, answer: Answer, regime: Regime) -> tuple[str, Value | None]:
    """What the rig asks for: the load that a pull holds, how a load speeds up, or the pull."""
    if answer.status == "accelerates":
        moving = [m.acceleration for m in regime.motions if m.acceleration and m.name in (answer.aim, *_loads(rig))]
        return "a", next(iter(moving), None)
    if rig.effort is not None:
        return next((letter for letter in _letters(rig)), "W"), regime.load
    return rig.effort_symbol, regime.effort


def _loads(rig: Rig) -> list[str]:
    return [load.name for load in rig.loads]


def _letters(rig: Rig) -> list[str]:
    given = [load.weight or load.mass for load in rig.loads if load.name == rig.aim]
    return [one.symbol for one in given if one]


def _follows(rig: Rig, answer: Answer, regime: Regime) -> str:
    """Up to three short sentences: the gain, the rope, and what carries it."""
    said = []
    gain = regime.mechanical_advantage
    if answer.aim and gain and gain.number is not None and answer.status == "holds" and rig.effort is None:
        said.append(f"The {answer.aim} weighs {near(rig, gain)} times the pull.")
    said += _travel(rig, answer)
    for support in regime.supports:
        if support.force and support.force.number is not None and len(regime.supports) <= 2:
            said.append(f"{support.name[0].upper()}{support.name[1:]} carries {near(rig, support.force)}.")
    return " ".join(said)


def _travel(rig: Rig, answer: Answer) -> list[str]:
    ways = {name: way.number for name, way in answer.travel if way.number}
    hand, asked = ways.get("hand"), rig.asked and ways.get(rig.asked.part)
    if not hand or not asked:
        return []
    verb = "takes in" if hand > 0 else "gives out"
    return [f"The hand {verb} {measure(rig, abs(hand), 'm').near} for {measure(rig, abs(asked), 'm').near}."]


def _checked(answer: Answer) -> str:
    """What the certificate went through, in words."""
    names = dict.fromkeys(_CHECKS[check.name] for check in answer.certificate.checks)
    if not names or answer.certificate.largest_residual != 0:
        return ""
    return f"Checked {_COUNTS[len(names)]}: {', '.join(names)}. Nothing left over."
