"""A text read, solved and laid out for the page, or the answer that says what is wrong with it."""

from functools import lru_cache

from msgspec import Struct

from gantline import api
from gantline.figure import Layout, NotDrawable, lay_out
from gantline.mechanics import Answer
from gantline.notation import Tree, parse, with_value
from gantline.problems import Problem
from gantline.rig import Rig, read

from .asked import WhatIf
from .givens import Written, givens


class Reading(Struct, frozen=True):
    """A rig with its answer, its words and its places; `undrawn` says why it has no figure, where it has none."""

    text: str
    tree: Tree
    rig: Rig
    answer: Answer
    says: str
    given: tuple[Written, ...]
    layout: Layout | None
    undrawn: str


class Unread(Exception):
    """The text has problems."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__(f"{len(problems)} problems")
        self.problems = problems


def look(text: str, what_if: WhatIf) -> Reading:
    """The reading of a text with what-if values on top. Raises Unread with every problem.

    The last few are remembered, for the figure, the account and the next view are asked of the same text in turn.
    """
    return _look(text, tuple(sorted(what_if.items())))


@lru_cache(maxsize=16)
def _look(text: str, what_if: tuple[tuple[str, str], ...]) -> Reading:
    tree, problems = parse(text)
    rig, problems = read(tree, problems)
    if rig is None:
        raise Unread(problems)
    given = givens(tree, rig)
    rig = changed(tree, rig, dict(what_if))
    solved = api.solve(rig)
    layout, undrawn = _places(rig, solved.answer)
    return Reading(text, tree, rig, solved.answer, solved.says, given, layout, undrawn)


def changed(tree: Tree, rig: Rig, what_if: WhatIf) -> Rig:
    """The rig of a tree with what-if values. A letter stands for the given it belongs to. Raises Unread."""
    if not what_if:
        return rig
    names = {one.symbol: one.id for one in givens(tree, rig)}
    refused: tuple[Problem, ...] = ()
    for name, value in what_if.items():
        tree, more = with_value(tree, names.get(name, name), value)
        refused += more
    found, problems = read(tree, refused)
    if found is None or refused:
        raise Unread(problems or refused)
    return found


def _places(rig: Rig, answer: Answer) -> tuple[Layout | None, str]:
    try:
        return lay_out(rig, answer), ""
    except NotDrawable as reason:
        return None, reason.sentence
