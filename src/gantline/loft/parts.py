"""The parts of a rig as the page lists them: what each is called aloud, where it stands in the text, what it gives."""

from typing import Any

from gantline.account import measure, near
from gantline.mechanics import Regime, Value, acceleration_symbol, support_symbols, way_symbols
from gantline.problems import Place
from gantline.quantity import SI
from gantline.rig import Contact, Fixed, Given, Load, Moving, Part, Rig, Rope, Sheave, Strand

from .givens import spoken
from .reading import Reading

_COURSE = {"up": "up to", "down": "down to", "level": "across to"}


def listed(reading: Reading, regime: Regime | None) -> list[dict[str, Any]]:
    """Every part, sheave, rope, strand and the hand, in the order of the file; sheaves after their block, strands after
    their rope."""
    rig = reading.rig
    found: list[dict[str, Any]] = []
    for part in rig.parts:
        found.append(_entry(part.name, type(part).__name__.lower(), part.place, _part(rig, part, regime)))
        found[-1]["givens"] = [given.id for given in reading.given if given.part == part.name]
        for sheave in getattr(part, "sheaves", ()):
            found.append(_entry(sheave.name, "sheave", part.place, _sheave(rig, sheave)) | {"of": part.name})
    for rope in rig.ropes:
        found.append(_entry(rope.name, "rope", rope.place, _rope(rope)))
        for strand in rope.strands:
            said = _strand(rig, strand, regime)
            end = {"line": strand.end.place.line, "column": strand.end.place.column, "length": strand.end.place.length}
            ends = {"of": rope.name, "from": strand.start.name, "to": strand.end.name, "end": end}
            found.append(_entry(strand.name, "strand", strand.start.place, said) | ends)
    if rig.hand:
        found.append(_entry("hand", "hand", rig.hand.place, _hand(rig, regime)))
    letters = _letters(rig, dict(reading.answer.tension_symbols))
    for entry in found:
        entry["letters"] = letters.get(entry["id"], [])
    return found


def _letters(rig: Rig, pulls: dict[str, str]) -> dict[str, list[str]]:
    """The letters that stand for what is reckoned of each part, as they are seen: T1 for the pull along a rope."""
    found: dict[str, list[str]] = {name: [letter] for name, letter in support_symbols(rig).items()}
    found["hand"] = [rig.effort_symbol]
    for name, letter in way_symbols(rig).items():
        found.setdefault(name, []).append(letter)
    for part in rig.movers:
        if rig.bearer(part.name) == part.name:
            found[part.name].append(acceleration_symbol(rig, part.name))
    if rig.aim:
        found[rig.bearer(rig.aim)].append("a")  # as it is asked for, before the others have one
    for rope in rig.ropes:
        letter = pulls.get(rope.name, "")
        found[rope.name] = [letter] if letter else []
        for strand in rope.strands:  # where heavy wheels make the strands of a rope differ
            found[strand.name] = [f"{letter}_{strand.index}"] if letter else []
    return {name: [letter.replace("_", "") for letter in dict.fromkeys(letters)] for name, letters in found.items()}


def _entry(id: str, kind: str, place: Place, says: str) -> dict[str, Any]:
    return {
        "id": id, "kind": kind, "line": place.line, "column": place.column, "length": place.length, "says": says,
        "of": "", "givens": [], "letters": [],
    }  # fmt: skip


def aloud(shown: str) -> str:
    """A number with its unit as it is read aloud: 120 newtons."""
    number, _, unit = shown.partition("\u00a0")
    return spoken(number.replace("\u2212", "minus "), unit.replace("m/s\u00b2", "m/s2"))


def _part(rig: Rig, part: Part, regime: Regime | None) -> str:
    words = [part.name, _KINDS[type(part)], *_wheels(part), *_weight(rig, part)]
    if isinstance(part, Moving) and part.carries:
        words.append(f"carries {' and '.join(part.carries)}")
    if isinstance(part, Load) and rig.bearer(part.name) != part.name:
        words.append(f"on {rig.bearer(part.name)}")
    if isinstance(part, Fixed) and regime:
        force = next((support.force for support in regime.supports if support.name == part.name), None)
        words += _number(rig, "holds", force)
    return ", ".join(words)


_KINDS: dict[type, str] = {Fixed: "block aloft", Moving: "block below", Load: "load"}


def _wheels(part: Part) -> list[str]:
    count = len(getattr(part, "sheaves", ()))
    return [f"{count} wheel{'' if count == 1 else 's'}"] if count else []


def _weight(rig: Rig, part: Part) -> list[str]:
    given = part.weight or part.mass
    if given is None:
        return []
    said = given.symbol if given.number is None else aloud(_near(rig, given))
    return [said if isinstance(part, Load) else f"weighs {said}"]


def _near(rig: Rig, given: Given) -> str:
    return measure(rig, given.number, SI[given.kind]).near if given.number is not None else ""


def _number(rig: Rig, verb: str, value: Value | None) -> list[str]:
    return [f"{verb} {aloud(near(rig, value))}"] if value and value.number is not None else []


def _sheave(rig: Rig, sheave: Sheave) -> str:
    for rope in rig.ropes:
        for place, contact in enumerate(rope.contacts):
            if contact.sheave and contact.sheave.name == sheave.name:
                strands = f"strands {place} and {place + 1}"
                return f"{sheave.name}, wheel of {sheave.block}, {rope.name} goes {contact.side} it, {strands}"
    return f"{sheave.name}, free wheel of {sheave.block}"


def _rope(rope: Rope) -> str:
    count = len(rope.strands)
    ends = f"from {_held(rope.contacts[0])} to {_held(rope.contacts[-1])}"
    return f"{rope.name}, rope of {count} strand{'' if count == 1 else 's'}, {ends}"


def _held(contact: Contact) -> str:
    return "the hand" if contact.part == "hand" else contact.name


def _strand(rig: Rig, strand: Strand, regime: Regime | None) -> str:
    course = f"from {_held(strand.start)} {_COURSE[strand.course]} {_held(strand.end)}"
    pull = _number(rig, "pulls", regime.tension(strand.name) if regime else None)
    return ", ".join([f"strand {strand.index} of {strand.rope}", course, *pull])


def _hand(rig: Rig, regime: Regime | None) -> str:
    strand = next(s for s in rig.strands if "hand" in (s.start.part, s.end.part))
    up = strand.course == ("down" if strand.end.part == "hand" else "up")
    pull = _number(rig, "pulls", regime.effort if regime else None)
    return f"hand on {strand.rope}" + (f", {pull[0]} {'down' if up else 'up'}" if pull else "")
