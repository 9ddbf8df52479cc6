"""The worked solution in print: a tagged PDF/UA-1, a page a rig, set from data and never from markup."""

import hashlib
import json
from typing import Any

from gantline.lesson import Lesson, Part, Shown
from gantline.quantity import Letter, Numeral, Raised, Row, Set, Sign, Stacked, Words, plain, set_out

from .typeset import in_type, printed, typeset


def write(lesson: Lesson) -> bytes:
    """PDF bytes; the same lesson gives the same bytes. Raises ImportError, with what to install, without typst."""
    return typeset("worked.typ", _record(lesson))


def _record(lesson: Lesson) -> dict[str, Any]:
    rigs = [_rig(part) for part in lesson.parts]
    mark = hashlib.sha256(json.dumps(rigs).encode()).hexdigest()
    return {"title": f"{in_type(lesson.title)}: worked solution", "rigs": rigs, "mark": mark}


def _rig(part: Part) -> dict[str, Any]:
    solution = part.worked
    return {
        "title": in_type(part.title),
        "figure": printed(solution.scene),
        "given": [[in_type(name), _formula(formula)] for name, formula in solution.given],
        "taken": in_type(solution.taken),
        "find": in_type(solution.find),
        "lines": [[in_type(line.reason), _formula(line.formula), _formula(line.rounded)] for line in solution.lines],
        "results": [_formula(result) for result in solution.results],
        "checks": [[in_type(check.name), _formula(check.sum), in_type(check.residual)] for check in solution.checks],
        "more": in_type(solution.more),
        "largest": in_type(solution.largest),
    }


def _formula(shown: Shown) -> dict[str, Any] | None:
    return {"alt": in_type(plain(shown)), "set": _node(set_out(shown))} if shown else None


def _node(node: Set) -> dict[str, Any]:
    """A formula's tree for the setter, which builds mathematics from it node by node."""
    match node:
        case Letter(name, index):
            return {"is": "letter", "name": in_type(name), "index": in_type(index)}
        case Numeral(digits, unit):
            return {"is": "number", "digits": digits, "unit": unit}
        case Words(text):
            return {"is": "words", "text": in_type(text)}
        case Sign(sign, role):
            return {"is": "sign", "sign": in_type(sign) if role != "times" else "", "role": role}
        case Stacked(over, under):
            return {"is": "fraction", "over": _node(over), "under": _node(under)}
        case Raised(base, exponent):
            return {"is": "power", "base": _node(base), "exponent": str(exponent)}
        case Row(parts):
            return {"is": "row", "parts": [_node(part) for part in parts]}
