"""Names: every word that is one, and what a new one must be."""

from collections.abc import Mapping
from typing import Any

from gantline.notation import Statement, Word, parse
from gantline.problems import Problem

from .edited import Edited, Refused, edited, without_new_problems
from .slip import Change, Slip


def rename(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """Another name for a part or a rope, wherever the text says it: {"part", "to"}."""
    old, new = str(wish.get("part", "")), str(wish.get("to", "")).strip()
    if slip.part(old) is None and slip.rope(old) is None:
        raise Refused(f"Nothing is called {old[:40] or 'so'}.")
    if new == old:
        return edited(slip, [], f"{old} keeps its name.", focus=old)
    found = _wrong(new)
    if found:
        raise Refused(f"{found[0].says[:1].upper()}{found[0].says[1:]}.", found)
    return without_new_problems(slip, edited(slip, renaming(slip, old, new), f"{old} is called {new} now.", focus=new))


def _wrong(name: str) -> tuple[Problem, ...]:
    """What is wrong with a name: it must be one word of a line, and one that may name a part."""
    tree, problems = parse(f"load {name}")
    one = tree.items[0] if len(tree.items) == 1 else None
    sound = isinstance(one, Statement) and one.name and one.name.text == name and not one.attributes
    return () if sound else problems or parse("load ?")[1]


def renaming(slip: Slip, old: str, new: str) -> list[Change]:
    """Every word of the text that is this name, of a part or of a rope, becomes another."""
    found = []
    for statement in [item for item in slip.tree.items if isinstance(item, Statement)]:
        names = {id(word): word for word in _names(statement)}
        found += [word for word in names.values() if word.text == old]
    return [Change(slip.at(word.place), slip.at(word.place) + len(old), new) for word in found]


def _names(statement: Statement) -> list[Word]:
    words = [statement.name, statement.second]
    words += [word for attribute in statement.attributes for word in attribute.names]
    words += [word for contact in statement.contacts for word in (contact.part, contact.at)]
    return [word for word in words if word is not None]
