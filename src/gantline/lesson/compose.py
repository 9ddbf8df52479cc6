"""From solved rigs to a lesson: what is said on the page, in which order, beside which plate."""

from collections.abc import Mapping, Sequence

from gantline.account import Account, accounts, verdict, wrong_answers
from gantline.figure import Layout, Scene, draw, lay_out
from gantline.mechanics import Answer
from gantline.rig import Rig

from . import words
from .beats import beats, question
from .counting import wrong_count
from .hauling import hauling
from .lesson import Lesson, Part
from .recap import moral, recap
from .standfirst import standfirst
from .trying import trial
from .ways import ways
from .worked import worked

Solved = tuple[Rig, Answer]
Script = Mapping[tuple[str, str], str]  # (key of the rig, key of the step) -> the tutor's sentence, slots live


def compose(solved: Sequence[Solved], script: Script | None = None, title: str = "") -> Lesson:
    """The lesson over the rigs, in their order. `script` replaces sentences of the accounts by the tutor's own.

    Raises NotDrawable where a rig has no figure, KeyError where a tutor's sentence has a slot the account has not.
    """
    keys: list[str] = []
    parts = []
    for rig, answer in solved:
        keys.append(part_key(rig.title, keys))
        parts.append(_part(keys[-1], rig, answer, script or {}))
    return Lesson(title or _title(parts), tuple(parts), moral(parts), wrong_count(parts))


def _title(parts: Sequence[Part]) -> str:
    if len(parts) == 1:
        return parts[0].title
    return f"A lesson over {words.COUNTS.get(len(parts), str(len(parts)))} rigs"


def part_key(title: str, taken: Sequence[str]) -> str:
    """A name for ids, from the title: plain letters, digits and hyphens, each once."""
    plain = "".join(letter if letter.isascii() and letter.isalnum() else "-" for letter in title.lower())
    stem = "-".join(word for word in plain.split("-") if word)[:48].strip("-") or "rig"
    count = 1
    while (key := stem if count == 1 else f"{stem}-{count}") in taken:
        count += 1
    return key


def _part(key: str, rig: Rig, answer: Answer, script: Script) -> Part:
    layout = lay_out(rig, answer)
    all_ways = accounts(rig, answer)
    main, others = all_ways[0], all_ways[1:]
    asked = question(rig, answer, wrong_answers(rig, answer))
    told = beats(rig, answer, layout, main, {step: say for (of, step), say in script.items() if of == key}, asked)
    tried = trial(rig, answer, layout)
    return Part(
        key=key,
        rig=rig,
        answer=answer,
        says=verdict(rig, answer),
        standfirst=standfirst(rig, answer, main),
        account=main,
        beats=told,
        question=asked if any(beat.asks for beat in told) else None,
        ways=ways(rig, answer, layout, others),
        worked=worked(rig, answer, layout),
        trial=tried,
        recap=recap(rig, answer, layout, main),
        hauling=hauling(rig, answer, layout),
        figures=_figures(rig, answer, layout, isinstance(main, Account) and main.method == "count"),
    )  # fmt: skip


def _figures(rig: Rig, answer: Answer, layout: Layout, counted: bool) -> tuple[tuple[str, Scene], ...]:
    """The plates that also go out as files: bare, with its pulls, numbered, and the cut where it was counted."""
    views = ["bare", "labelled", "numbered", *(["cut"] if counted else [])]
    return tuple((view, draw(rig, answer, view, layout=layout)) for view in views)
