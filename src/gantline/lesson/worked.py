"""The worked solution: every equation of the answer with its reason, and the certificate beside it."""

from collections import Counter
from collections.abc import Mapping
from fractions import Fraction

from gantline.account import LONG, called, measure, said
from gantline.figure import Layout, draw
from gantline.mechanics import Answer, Relation
from gantline.mechanics import Check as Checked
from gantline.quantity import UNITS, Number, exactly, numeral, text
from gantline.rig import Given, Rig

from . import words
from .lesson import Check, Line, Worked

_MOST = 14  # checks written out; the rest are counted
_FEW = 2  # wheels that a check names; more are counted
_KINDS = ("pull", "balance", "newton", "length", "result", "support")


def worked(rig: Rig, answer: Answer, layout: Layout) -> Worked:
    """The solution for perfect wheels, line by line."""
    known = [relation for kind in _KINDS for relation in answer.relations if relation.kind == kind]
    names = called(rig, answer)
    lines = tuple(_line(rig, relation, known, names) for relation in known if _tells(relation))
    checks = answer.certificate.checks
    ideal = [check for check in checks if check.way == "ideal" and check.name != "formulas"]
    listed = ideal[:_MOST]
    return Worked(
        draw(rig, answer, "numbered", layout=layout, caption=False),
        _given(rig, names), _taken(rig, answer), _find(rig, answer), lines, _results(rig, known),
        tuple(_check(check, names) for check in listed), _more([check for check in checks if check not in listed]),
        _exact(answer.certificate.largest_residual),
    )  # fmt: skip


def _tells(relation: Relation) -> bool:
    """Whether an equation says something: not T = T, nor one that is both sides nothing."""
    sides = [text(side) for side in relation.holds.sides]
    return len(sides) > 1 and len(set(sides)) > 1


def _line(rig: Rig, relation: Relation, known: list[Relation], names: Mapping[str, str]) -> Line:
    formula, rounded = said(rig, relation.holds, relation.unit)
    return Line(_reason(rig, relation, known, names), formula, rounded, relation.parts)


def _reason(rig: Rig, relation: Relation, known: list[Relation], names: Mapping[str, str]) -> str:
    name = relation.id.split(":")[1] if relation.kind == "result" else relation.kind
    causes = ("balance", "newton")
    cited = [n for n, each in enumerate((r for r in known if _tells(r)), 1) if each.kind in causes]
    parts = [names.get(part, part) for part in relation.parts if ":" not in part and part not in ("hand",)]
    rope = "One rope" if len(rig.ropes) == 1 else names.get(relation.id.split(":")[-1], "the rope")
    shown = _and(parts[:1] if relation.kind == "support" else parts)
    reason = words.REASONS[name].format_map({"a rope": rope, "parts": shown, "cited": _numbers(cited)})
    return reason[:1].upper() + reason[1:]


def _numbers(lines: list[int]) -> str:
    return _and([f"({n})" for n in lines]) if lines else "the equations above"


def _and(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}" if names else "it"


# -- what is given and asked ------------------------------------------------------------------------------------------


def _given(rig: Rig, names: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """Every given with its letter: what it belongs to, and how it is written."""
    bare = {name: said.removeprefix("the ") for name, said in names.items()}
    found = [(bare[part.name], given) for part in rig.parts for given in (part.weight, part.mass) if given]
    found += (
        [(f"{bare[rig.asked.part]} to {'rise' if rig.asked.sense > 0 else 'sink'}", rig.asked.distance)]
        if rig.asked
        else []
    )
    found += [("the pull", rig.effort)] if rig.effort else []
    if any(part.mass for part in rig.parts):
        found.append(("gravity", rig.gravity))
    found += [(bare[s.name], given) for s in rig.sheaves for given in (s.radius, s.disc, s.inertia) if given]
    return tuple((name, _written(given)) for name, given in found)


def _written(given: Given) -> str:
    """A given as the file has it."""
    if given.number is None:
        return given.symbol
    unit = UNITS.get(given.unit)
    number = given.number / unit.factor if unit else given.number
    name = given.unit.replace("s2", "s²").replace("m2", "m²")
    return f"{given.symbol} = {exactly(number)} {name}"


def _taken(rig: Rig, answer: Answer) -> str:
    lossy = any(sheave.efficiency for sheave in rig.sheaves)
    unweighed = any(part.weight is None and part.mass is None for part in rig.fixed)
    taken = (
        words.TAKEN_LOSS if lossy else words.TAKEN_WHEELS,
        words.TAKEN,
        words.TAKEN_STILL if answer.status == "holds" else "",
        words.TAKEN_FIXED if unweighed else "",
    )
    return " ".join(sentence for sentence in taken if sentence)


def _find(rig: Rig, answer: Answer) -> str:
    if answer.status != "holds":
        return (
            "How the parts move, and what the ropes carry."
            if answer.status == "accelerates"
            else "Whether it can stand."
        )
    if rig.hand is None:
        return "What the ropes and the supports carry."
    sought = f"The pull {rig.effort_symbol}" if rig.effort is None else "The load that this pull holds"
    return f"{sought}, the rope {rig.haul_symbol} that comes to the hand, and what the supports carry."


def _results(rig: Rig, known: list[Relation]) -> tuple[str, ...]:
    """The last line: every letter found, with its number."""
    found = []
    for relation in known:
        letter, last = relation.holds.sides[0], relation.holds.sides[-1]
        wanted = relation.kind == "support" or relation.id.split(":")[1] in ("effort", "load", "haul", "acceleration")
        if wanted and isinstance(last, Number):
            found.append(f"{text(letter)} = {measure(rig, last.value, relation.unit).near}")
    return tuple(found)


# -- the certificate --------------------------------------------------------------------------------------------------


def _check(check: Checked, names: Mapping[str, str]) -> Check:
    many = check.name == "sheave" and len(check.parts) > _FEW
    parts = f"{len(check.parts)} wheels" if many else _and([names.get(part, part) for part in check.parts])
    name = words.CHECKS[check.name].format(parts=parts)
    return Check(name, _sum(check.terms), f"{_exact(check.residual)}\u00a0{check.unit}".strip())


def _sum(terms: tuple[Fraction, ...]) -> str:
    """The terms with their signs, equal ones together: 4 × 90 − 348 − 12."""
    pieces = []
    for term, count in Counter(terms).items():
        times = f"{count} × " if count > 1 else ""
        pieces.append(("−" if term < 0 else "+", f"{times}{_exact(abs(term))}"))
    line = " ".join(f"{sign} {piece}" for sign, piece in pieces)
    return line.removeprefix("+ ").replace("− ", "−", 1) if line.startswith("−") else line.removeprefix("+ ")


def _exact(number: Fraction) -> str:
    """A number that loses nothing: decimals where they end soon, else a fraction; a long one rounded, with ≈."""
    exact = exactly(number)
    return exact if len(exact) <= LONG else f"≈{numeral(number, 6)}"


def _more(rest: list[Checked]) -> str:
    """What is said of checks that are not written out."""
    if not rest:
        return ""
    left = _exact(max(abs(check.residual) for check in rest))
    count = "One more check" if len(rest) == 1 else f"{len(rest)} more checks"
    return (
        f"{count} (formulas, sheaves, other ways of running) {'leaves' if len(rest) == 1 else 'leave'} {left} as well."
    )
