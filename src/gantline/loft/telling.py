"""The account of a rig for the page: every method, the steps of one, and which figures can be drawn."""

import re
from typing import Any

from gantline.account import METHOD_NAMES, METHODS, Account, Refusal, Step, accepts, explain, spoken
from gantline.figure import VIEWS, NotDrawable, draw
from gantline.output import mathml
from gantline.problems import Problem
from gantline.quantity import Equation, Formula

from .asked import Refused, Say, Tell
from .givens import spoken as spoken_value
from .proposals import proposals
from .reading import Reading, Unread, look
from .remedies import told
from .saying import changed, own, worded
from .trying import why_not


def tell(asked: Tell) -> dict[str, Any]:
    """The steps of one method, all methods with the reasons of those that refuse, and of the views that will not do."""
    try:
        reading, chosen, wrong = explained(asked)
    except Unread as unread:
        return told(unread.problems)
    return {
        "problems": [],
        "methods": _methods(reading),
        "method": chosen.method,
        "steps": step_records(reading, chosen) if isinstance(chosen, Account) else [],
        "views": _views(reading),
        "proposals": proposals(reading, asked.what_if),
        "unsaid": [f"Line {one.place.line}: {one.says} {one.do}" for one in wrong],
    }


def explained(asked: Tell) -> tuple[Reading, Account | Refusal, tuple[Problem, ...]]:
    """The text read, its account by the method asked for in the tutor's own words, and what of those cannot be said.

    Raises Unread, and Refused for a method unknown.
    """
    reading, account = _account(asked)
    if isinstance(account, Refusal):
        return reading, account, ()
    found = own(reading, account, asked.script)
    return reading, worded(account, found), found.problems


def _account(asked: Tell) -> tuple[Reading, Account | Refusal]:
    if asked.method is not None and asked.method not in METHODS:
        raise Refused(400, f"No method is called {asked.method[:40]}.")
    reading = look(asked.text, asked.what_if)
    return reading, explain(reading.rig, reading.answer, asked.method)


def say(asked: Say) -> dict[str, Any]:
    """The script with a step in the tutor's own words. Raises Refused where that cannot be."""
    try:
        reading, account = _account(asked)
    except Unread as unread:
        return told(unread.problems)
    if isinstance(account, Refusal):
        raise Refused(422, account.reason)
    return {"problems": [], "script": changed(reading, account, asked)}


def _methods(reading: Reading) -> list[dict[str, Any]]:
    """Every method, those that will do first; of the others the reason."""
    found = {name: accepts(reading.rig, reading.answer, name) for name in METHODS}
    return [
        {
            "method": name, "name": METHOD_NAMES[name],
            "refused": said.reason if isinstance(said, Refusal) else "",
            "parts": list(said.parts) if isinstance(said, Refusal) else [],
        }
        for name, said in sorted(found.items(), key=lambda one: isinstance(one[1], Refusal))
    ]  # fmt: skip


def step_records(reading: Reading, account: Account) -> list[dict[str, Any]]:
    """Every step, by its key: two steps of an account may have one id."""
    return [step_record(reading, account, key, step) for key, step in zip(account.keys, account.steps, strict=True)]


def step_record(reading: Reading, account: Account, key: str, step: Step) -> dict[str, Any]:
    """One step: its words as read, as spoken and as they are written (`say`, its numbers in braces, each with how it is
    read and spoken), its formula, what it lights, the lines of the text it stands on."""
    formula = step.formula or step.formula_text or None
    return {
        "id": key, "idea": step.idea, "say": step.say, "numbers": _numbers(account, step),
        "says": account.line(step, spoken=False), "spoken": account.line(step),
        "formula": str(mathml.write(formula)) if formula else "",
        "formula_spoken": read_aloud(formula) if formula else "",
        "view": step.view, "lit": None if step.lit is None else list(step.lit), "marks": step.marks,
        "struck": step.struck, "parts": _parts(reading, step), "lines": _lines(reading, step),
        "seconds": step.seconds, "pause": step.pause,
    }  # fmt: skip


def _numbers(account: Account, step: Step) -> dict[str, list[str]]:
    return {value.key: [value.shown, value.spoken] for value in account.values if f"{{{value.key}}}" in step.say}


def read_aloud(formula: Equation | Formula | str) -> str:
    """A formula as a voice reads it: F equals W plus w, over 4 equals 90 newtons."""
    if isinstance(formula, str):
        return _MEASURED.sub(_measured, formula).replace("=", "equals").replace("?", "what")
    sides = formula.sides if isinstance(formula, Equation) else (formula,)
    return " equals ".join(_side(side) for side in sides)


def _side(side: Formula) -> str:
    return _MEASURED.sub(_measured, spoken(side))


_MEASURED = re.compile(r"(\d[\d.]*) (m/s²|kg m²|[A-Za-z]+)(?![\w/])")


def _measured(found: re.Match[str]) -> str:
    return spoken_value(found[1], found[2])


def _parts(reading: Reading, step: Step) -> list[str]:
    """Every part that a step speaks of: what it lights, and what its equations are about."""
    cited = [reading.answer.relation(id) for id in step.cites]
    return list(dict.fromkeys([*(step.lit or ()), *(part for one in cited if one for part in one.parts)]))


def _lines(reading: Reading, step: Step) -> list[int]:
    """The lines of the text those parts are written in."""
    rig = reading.rig
    places = {part.name: part.place.line for part in rig.parts} | {rope.name: rope.place.line for rope in rig.ropes}
    places |= {sheave.name: places[sheave.block] for sheave in rig.sheaves}
    places |= {strand.name: strand.start.place.line for strand in rig.strands}
    return sorted({places[part] for part in _parts(reading, step) if part in places})


def _views(reading: Reading) -> dict[str, str]:
    """Every public view, with the reason why it cannot be drawn here; empty where it can."""
    return {name: _reason(reading, name) for name, view in VIEWS.items() if view.public}


def _reason(reading: Reading, view: str) -> str:
    if reading.layout is None:
        return reading.undrawn
    if view == "tried" and (reason := why_not(reading.rig)):
        return reason
    try:
        draw(reading.rig, reading.answer, view, layout=reading.layout, caption=False)
    except NotDrawable as undrawn:
        return undrawn.sentence
    return ""
