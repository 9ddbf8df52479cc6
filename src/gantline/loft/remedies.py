"""Problems for the page: each with its length, and with every text that would mend it as something to take."""

import re
from collections.abc import Iterator
from difflib import SequenceMatcher
from typing import Any

from msgspec import Struct
from msgspec.structs import asdict

from gantline.output.record import problems_record
from gantline.problems import Problem
from gantline.quantity import UNITS

MOST = 4
_HEAVY = ("N", "kg", "lbf", "lb")  # what the weight of a thing is most often given in
_KEYED = re.compile(r"\b(weight|mass)(\s+(?:[A-Za-z]\w*\s*=\s*)?)$")


class Offer(Struct, frozen=True):
    """A text to write in place of another: `says` names it, `aloud` as it is spoken."""

    line: int
    column: int
    length: int
    write: str
    says: str
    aloud: str


def told(problems: tuple[Problem, ...]) -> dict[str, Any]:
    """The problems record, each problem with its length and at most MOST offers."""
    records = problems_record(problems)["problems"]
    for record, problem in zip(records, problems, strict=True):
        record["length"] = problem.place.length
        record["offers"] = [asdict(offer) for offer in list(_offers(problem))[:MOST]]
    return {"problems": records}


def _offers(problem: Problem) -> Iterator[Offer]:
    near = re.search(r"did you mean `([^`]+)`", problem.do)
    if near:
        yield from _respelt(problem, near[1])
    elif problem.code == "unit-missing":
        yield from _units(problem)
    elif problem.code == "no-such-unit":
        for unit in _listed(problem.do):
            yield _instead(problem, unit, unit)
    elif problem.code == "side-missing":
        for text in re.findall(r"`((?:over|under) [^`]+)`", problem.do):
            yield _instead(problem, text, text)
    elif problem.code == "unit-of-another-kind":
        yield from _other_word(problem, _written(problem))


def _respelt(problem: Problem, near: str) -> Iterator[Offer]:
    """The word that is nearly right, wherever on its line: of those the message quotes, the one most alike."""
    quoted = [word for word in re.findall(r"`([^`]+)`", problem.says) if word in problem.text]
    wrong = max(quoted, key=lambda word: SequenceMatcher(None, word, near).ratio(), default="")
    found = re.search(rf"(?<![\w-]){re.escape(wrong)}(?![\w-])", problem.text) if wrong else None
    if found:
        yield Offer(problem.place.line, found.start() + 1, len(wrong), near, near, near)


def _units(problem: Problem) -> Iterator[Offer]:
    """The number with each unit that fits; of what is heavy, in weight or mass."""
    number = _written(problem)
    keyed = _KEYED.search(_before(problem))
    for unit in _HEAVY if keyed else _listed(problem.do):
        if keyed and unit not in _listed(problem.do):
            yield from _reworded(problem, keyed, f"{number} {unit}", unit)
        else:
            yield _instead(problem, f"{number} {unit}", _aloud(number, unit))


def _other_word(problem: Problem, unit: str) -> Iterator[Offer]:
    """The same value, said as mass instead of weight or the other way."""
    keyed = re.search(r"\b(weight|mass)(\s+(?:[A-Za-z]\w*\s*=\s*)?\S+\s*)$", _before(problem))
    if keyed and unit in UNITS:
        yield from _reworded(problem, keyed, unit, unit)


def _reworded(problem: Problem, keyed: re.Match[str], value: str, unit: str) -> Iterator[Offer]:
    word = "mass" if UNITS[unit].kind == "mass" else "weight"
    if word != keyed[1] and UNITS[unit].kind in ("mass", "force"):
        at = keyed.start() + 1
        text = f"{word}{keyed[2]}{value}"
        shown = re.sub(r"\s+", " ", text)
        yield Offer(problem.place.line, at, problem.place.column + problem.place.length - at, text, shown, shown)


def _instead(problem: Problem, write: str, aloud: str) -> Offer:
    place = problem.place
    return Offer(place.line, place.column, place.length, write, write, aloud)


def _written(problem: Problem) -> str:
    from_here = problem.place.column - 1
    return problem.text[from_here : from_here + problem.place.length]


def _before(problem: Problem) -> str:
    return problem.text[: problem.place.column - 1]


def _listed(do: str) -> list[str]:
    """The units that a piece of advice lists behind its colon."""
    return [unit for unit in do.rpartition(": ")[2].rstrip(".").split(", ") if unit in UNITS]


def _aloud(number: str, unit: str) -> str:
    one, many = UNITS[unit].spoken
    return f"{number} {one if number == '1' else many}"
