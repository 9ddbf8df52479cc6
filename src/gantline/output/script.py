"""The words of a lesson as a text to edit: one block a step, numbers live in braces, and edited sentences kept."""

import html
import re
from collections.abc import Collection, Mapping
from string import Formatter

from msgspec import Struct

from gantline.account import Account, Step
from gantline.lesson import Lesson, Part
from gantline.problems import Place, Problem

Script = dict[tuple[str, str], str]  # (key of the rig, step id) -> sentence

_ABOVE = (
    "Change any sentence below its [step]: the next build keeps it, here and on the page. What stands in braces is a "
    "number of the rig and stays live; the numbers a rig knows are listed under its name."
)
_RIG, _STEP = re.compile(r"## .*\{#([\w-]+)\}\s*"), re.compile(r"\[([\w-]+)\]\s*")
_FRAME = re.compile(r"# |> \{")  # the title, and the numbers a rig knows


class Line(Struct, frozen=True):
    """A sentence of a script with the line it begins at (from 1)."""

    say: str
    line: int


def write(lesson: Lesson, script: Mapping[tuple[str, str], str]) -> str:
    """The script of a lesson; `script` has the tutor's sentences."""
    blocks = [f"# {_safe(lesson.title)}", _ABOVE]
    for part in lesson.parts:
        if not isinstance(part.account, Account):
            continue
        blocks.append(f"## {_safe(part.title)} {{#{part.key}}}")
        blocks.append(_numbers(part.account))
        for step in part.account.steps:
            blocks.append(f"[{step.id}]\n{_safe(script.get((part.key, step.id), step.say))}")
    return "\n\n".join(blocks) + "\n"


def _numbers(account: Account) -> str:
    return "> " + ", ".join(f"{{{value.key}}} {_safe(value.spoken)}" for value in account.values)


def _safe(words: str) -> str:
    return html.escape(" ".join(words.split()), quote=False)


def read(text: str) -> dict[tuple[str, str], Line]:
    """The sentences of a script, by rig and step. What stands outside of steps is passed over."""
    found: dict[tuple[str, str], Line] = {}
    rig, step, start, said = "", "", 0, list[str]()
    for number, line in enumerate([*text.splitlines(), ""], 1):
        heading, block = _RIG.fullmatch(line), _STEP.fullmatch(line)
        if step and (heading or block or not line.strip()):
            if said:
                found[rig, step] = Line(html.unescape(" ".join(said)), start)
                step = ""
            said = []
        if heading:
            rig, step = heading[1], ""
        elif block:
            step, start = block[1], number + 1
        elif step and line.strip():
            start = start if said else number
            said.append(line.strip())
    return found


def keeps(old: str, new: str, made: Collection[str]) -> bool:
    """Whether all that a tutor wrote in the old script stands in the new one: sentences, and notes of their own."""
    there = {html.unescape(line) for line in new.splitlines()} | {_plain(say) for say in made}
    sentences = [line.say for line in read(old).values() if line.say in there]
    lines = [html.unescape(line.strip()) for line in old.splitlines()]
    own = (line for line in lines if line and not (_RIG.fullmatch(line) or _STEP.fullmatch(line) or _FRAME.match(line)))
    return all(line in there or any(line in say for say in sentences) for line in own)


def edited(text: str, made: Mapping[tuple[str, str], str]) -> dict[tuple[str, str], Line]:
    """The sentences that are the tutor's own: those that differ from what the last build wrote (`made`)."""
    return {at: line for at, line in read(text).items() if made.get(at) is not None and line.say != _plain(made[at])}


def _plain(say: str) -> str:
    return " ".join(say.split())


def problems(lines: Mapping[tuple[str, str], Line], parts: Mapping[str, Account]) -> tuple[Problem, ...]:
    """What cannot be said: sentences whose braces name no number of their account."""
    found = (_problem(line, parts[rig]) for (rig, _), line in lines.items() if rig in parts)
    return tuple(problem for problem in found if problem)


def _problem(line: Line, account: Account) -> Problem | None:
    known = [value.key for value in account.values]
    try:
        slots = [
            f"{slot}{turn or ''}{spec or ''}" for _, slot, spec, turn in Formatter().parse(line.say) if slot is not None
        ]
        odd = next((slot for slot in slots if slot not in known), None)
    except ValueError:
        odd = line.say[line.say.find("{") : line.say.find("{") + 12] if "{" in line.say else "}"
    if odd is None:
        return None
    shown = f"{{{odd}}}"
    return Problem(
        "script-slot-unknown", Place(line.line, max(1, line.say.find(f"{{{odd}") + 1), max(1, len(shown))), line.say,
        f"{shown} is no number of this account.",
        "A number in braces is put in by the program, so it has to be one that this account knows.",
        f"Use one of {', '.join(f'{{{key}}}' for key in known)}, or write it without braces.",
    )  # fmt: skip


def sentences(part: Part) -> dict[tuple[str, str], str]:
    """What the program itself says in each step, slots live."""
    steps: tuple[Step, ...] = part.account.steps if isinstance(part.account, Account) else ()
    return {(part.key, step.id): step.say for step in steps}
