"""The worked solution in print: a tagged PDF/UA-1, a page a rig, set from data and never from markup."""

import hashlib
import json
from functools import cache
from importlib.resources import as_file, files
from typing import Any

from gantline.figure import Scene
from gantline.lesson import Lesson, Part, Shown
from gantline.quantity import Letter, Numeral, Raised, Row, Set, Sign, Stacked, Words, plain, set_out

from . import svg


def write(lesson: Lesson) -> bytes:
    """PDF bytes; the same lesson gives the same bytes. Raises ImportError, with what to install, without typst."""
    try:
        import typst
    except ImportError as missing:
        raise ImportError("The printed solution needs typst: pip install 'gantline[pdf]'") from missing
    package, data = files("gantline"), json.dumps(_record(lesson), ensure_ascii=True)
    with as_file(package.joinpath("output/page/worked.typ")) as page, as_file(package.joinpath("assets")) as fonts:
        made = typst.compile(
            page, None, font_paths=[fonts], ignore_system_fonts=True, sys_inputs={"data": data}, format="pdf",
            pdf_standards="ua-1", timestamp=0,
        )  # fmt: skip
    return bytes(made)


def _record(lesson: Lesson) -> dict[str, Any]:
    rigs = [_rig(part) for part in lesson.parts]
    mark = hashlib.sha256(json.dumps(rigs).encode()).hexdigest()
    return {"title": f"{_text(lesson.title)}: worked solution", "rigs": rigs, "mark": mark}


def _rig(part: Part) -> dict[str, Any]:
    solution = part.worked
    return {
        "title": _text(part.title),
        "figure": _figure(solution.scene),
        "given": [[_text(name), _formula(formula)] for name, formula in solution.given],
        "taken": _text(solution.taken),
        "find": _text(solution.find),
        "lines": [[_text(line.reason), _formula(line.formula), _formula(line.rounded)] for line in solution.lines],
        "results": [_formula(result) for result in solution.results],
        "checks": [[_text(check.name), _formula(check.sum), _text(check.residual)] for check in solution.checks],
        "more": _text(solution.more),
        "largest": _text(solution.largest),
    }


def _text(words: str) -> str:
    """Text with a question mark for every character the packaged typeface has not got: PDF/UA allows no gap."""
    return "".join(letter if letter in _letters() else "?" for letter in words)


@cache
def _letters() -> frozenset[str]:
    widths = json.loads(files("gantline").joinpath("assets/widths.json").read_text(encoding="utf-8"))
    return frozenset.intersection(*(frozenset(face) for face in widths.values()))


def _figure(scene: Scene) -> dict[str, Any]:
    return {
        "svg": svg.write(scene, "grey"),
        "alt": _text(f"{scene.title}. {scene.description}"),
        "wide": scene.width / scene.height,
    }


def _formula(shown: Shown) -> dict[str, Any] | None:
    return {"alt": _text(plain(shown)), "set": _node(set_out(shown))} if shown else None


def _node(node: Set) -> dict[str, Any]:
    """A formula's tree for the setter, which builds mathematics from it node by node."""
    match node:
        case Letter(name, index):
            return {"is": "letter", "name": _text(name), "index": _text(index)}
        case Numeral(digits, unit):
            return {"is": "number", "digits": digits, "unit": unit}
        case Words(text):
            return {"is": "words", "text": _text(text)}
        case Sign(sign, role):
            return {"is": "sign", "sign": _text(sign) if role != "times" else "", "role": role}
        case Stacked(over, under):
            return {"is": "fraction", "over": _node(over), "under": _node(under)}
        case Raised(base, exponent):
            return {"is": "power", "base": _node(base), "exponent": str(exponent)}
        case Row(parts):
            return {"is": "row", "parts": [_node(part) for part in parts]}
