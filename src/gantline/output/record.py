"""The answer as a record that programs read, `gantline-answer/1`, and a file's problems as one.

Every quantity is in SI: `value` a float, `exact` the same number in lowest terms, `formula` in the rig's own symbols.
A number that is not known is null. Readers ignore keys they do not know.
"""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Any

from gantline.account import Account, Refusal, Step, WrongAnswer
from gantline.mechanics import Answer, Certificate, Motion, Pull, Regime, Support, Value, Work
from gantline.problems import Problem
from gantline.quantity import Equation, Formula, text
from gantline.rig import Rig

FORMAT = "gantline-answer/1"
ACCOUNT_FORMAT = "gantline-account/1"

Record = dict[str, Any]


def answer_record(rig: Rig, answer: Answer, says: str) -> Record:
    """The whole answer, ready for JSON. `says` is the sentence for the status."""
    return {
        "format": FORMAT,
        "title": rig.title,
        "status": answer.status,
        "says": says,
        "velocity_ratio": _number(answer.velocity_ratio),
        "travel": {name: quantity(way) for name, way in answer.travel},
        "regimes": {regime.way: _regime(regime) for regime in answer.regimes},
        "certificate": _certificate(answer.certificate),
        "helps": list(answer.helps),
        "numbers_only": answer.size_note,
        "jams": list(answer.jams),
    }


def problems_record(problems: Iterable[Problem]) -> Record:
    """What is wrong with a file, ready for JSON."""
    return {"problems": [_problem(problem) for problem in problems]}


def quantity(value: Value | None) -> Record | None:
    """A value with its unit, or None."""
    if value is None:
        return None
    return {
        "value": None if value.number is None else _float(value.number),
        "exact": None if value.number is None else exact(value.number),
        "unit": value.unit,
        "formula": None if value.formula is None else text(value.formula),
    }


def exact(number: Fraction) -> str:
    """A number in lowest terms, of any length: 90, 58/15."""
    if max(number.numerator.bit_length(), number.denominator.bit_length()) < 10_000:
        return str(number)
    import flint  # Python itself refuses to write integers past some thousand digits

    return str(flint.fmpq(number.numerator, number.denominator))


def _float(number: Fraction) -> float | None:
    try:
        return float(number)
    except OverflowError:  # past what a float holds: `exact` still says it
        return None


def _number(value: Value | None) -> Record | None:
    """A ratio: as a quantity, without a unit."""
    record = quantity(value)
    return record and {key: entry for key, entry in record.items() if key != "unit"}


def _regime(regime: Regime) -> Record:
    record = {
        "effort": quantity(regime.effort),
        "mechanical_advantage": _number(regime.mechanical_advantage),
        "efficiency": _number(regime.efficiency),
        "strands": [_pull(pull) for pull in regime.strands],
        "supports": [_support(support) for support in regime.supports],
        "motions": [_motion(motion) for motion in regime.motions],
        "work": regime.work and _work(regime.work),
    }
    return record if regime.load is None else {**record, "load": quantity(regime.load)}


def _pull(pull: Pull) -> Record:
    return {
        "rope": pull.rope,
        "index": pull.index,
        "from": pull.start,
        "to": pull.end,
        "tension": quantity(pull.tension),
        "toward": list(pull.toward),
    }


def _support(support: Support) -> Record:
    record = {"name": support.name, "force": quantity(support.force)}
    return record if support.sideways is None else {**record, "sideways": quantity(support.sideways)}


def _motion(motion: Motion) -> Record:
    return {
        "name": motion.name,
        "per_hand": _number(motion.per_hand),
        "acceleration": quantity(motion.acceleration),
        "freedom": motion.freedom,
    }


def _work(work: Work) -> Record:
    return {"in": quantity(work.put_in), "out": quantity(work.out), "lost": quantity(work.lost)}


def _certificate(certificate: Certificate) -> Record:
    checks = [{"name": check.name, "residual": exact(check.residual)} for check in certificate.checks]
    return {"largest_residual": exact(certificate.largest_residual), "checks": checks}


def _problem(problem: Problem) -> Record:
    return {
        "code": problem.code,
        "line": problem.place.line,
        "column": problem.place.column,
        "text": problem.text,
        "says": problem.says,
        "why": problem.why,
        "do": problem.do,
    }


def account_record(title: str, account: Account | Refusal, others: Sequence[Account | Refusal] = ()) -> Record:
    """One explanation, or why there is none by that method, ready for JSON, and what the other methods would say."""
    record: Record = {"format": ACCOUNT_FORMAT, "title": title, **_method(account)}
    if isinstance(account, Account):
        record |= {
            "steps": [_step(account, key, step) for key, step in zip(account.keys, account.steps, strict=True)],
            "result": quantity(account.result),
            "wrong": account.wrong and _wrong(account.wrong),
        }
    return {**record, "others": [_method(other) for other in others]}


def written(formula: Equation | Formula | None) -> str:
    """An equation or a formula on one line."""
    if formula is None:
        return ""
    return " = ".join(map(text, formula.sides)) if isinstance(formula, Equation) else text(formula)


def _method(account: Account | Refusal) -> Record:
    reason = account.reason if isinstance(account, Refusal) else None
    return {"method": account.method, "name": account.name, "accepted": reason is None, "reason": reason}


def _step(account: Account, key: str, step: Step) -> Record:
    return {
        "key": key,
        "id": step.id,
        "idea": step.idea,
        "say": account.line(step),
        "formula": written(step.formula) or step.formula_text,
        "view": step.view,
        "lit": None if step.lit is None else list(step.lit),
        "cites": list(step.cites),
        "seconds": step.seconds,
        "pause": step.pause,
    }


def _wrong(wrong: WrongAnswer) -> Record:
    return {"rule": wrong.rule, "value": quantity(wrong.value), "overlooked": wrong.overlooked}
