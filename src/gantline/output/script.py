"""The words of a lesson or a film as a text to edit: one block a step, with its numbers live in braces."""

import html
import re
from collections.abc import Collection, Mapping, Sequence

from msgspec import Struct

from gantline.account import Account
from gantline.lesson import Lesson

At = tuple[str, str]  # key of a rig, key of a step in its account

_ABOVE = (
    "Change any sentence below its [step]: the next build keeps it, here and on the page. What stands in braces is a "
    "number of the rig and stays live; the numbers a rig knows are listed under its name."
)
_KEPT = "Kept: these sentences have no step now"
_RIG, _STEP = re.compile(r"## .*\{#([\w-]+)\}\s*"), re.compile(r"\[([^\[\]\s]+)\]\s*")
_FRAME = re.compile(r"# |> \{")  # the title, and the numbers a rig knows


class Line(Struct, frozen=True):
    """A sentence of a script: its rig and step as the headings above it name them, and the line it begins at (from 1).
    A sentence from elsewhere has no line (0)."""

    rig: str
    step: str
    say: str
    line: int = 0


def write(lesson: Lesson, own: Mapping[At, Line], kept: Sequence[Line] = ()) -> str:
    """The script of a lesson. `own` are the tutor's sentences; those that have no step (`kept`) stand at the end."""
    blocks = [f"# {_safe(lesson.title)}", _ABOVE]
    for part in lesson.parts:
        if not isinstance(part.account, Account):
            continue
        blocks.append(f"## {_safe(part.title)} {{#{part.key}}}")
        blocks.append(_numbers(part.account))
        for key, step in zip(part.account.keys, part.account.steps, strict=True):
            line = own.get((part.key, key))
            blocks.append(_block(key, line.say if line else step.say))
    for rig in dict.fromkeys(line.rig for line in kept):
        blocks.append(f"## {_KEPT} {{#{rig}}}")
        blocks += [_block(line.step, line.say) for line in kept if line.rig == rig]
    return "\n\n".join(blocks) + "\n"


def _numbers(account: Account) -> str:
    return "> " + ", ".join(f"{{{value.key}}} {_safe(value.spoken)}" for value in account.values)


def _block(step: str, say: str) -> str:
    return f"[{step}]\n{_safe(say)}"


def _safe(words: str) -> str:
    return html.escape(plain(words), quote=False)


def plain(say: str) -> str:
    """A sentence on one line, as a script holds it."""
    return " ".join(say.split())


def read(text: str) -> tuple[Line, ...]:
    """The sentences of a script in their order. What stands outside of steps is passed over. A line ends at a line feed
    alone, as an editor counts; any other break within a sentence is a space."""
    found: list[Line] = []
    rig, step, start, said = "", "", 0, list[str]()
    for number, line in enumerate([*text.split("\n"), ""], 1):
        heading, block = _RIG.fullmatch(line), _STEP.fullmatch(line)
        if step and (heading or block or not line.strip()):
            if said:
                found.append(Line(rig, step, html.unescape(" ".join(said)), start))
                step = ""
            said = []
        if heading:
            rig, step = heading[1], ""
        elif block:
            step, start = block[1], number + 1
        elif step and line.strip():
            start = start if said else number
            said.append(" ".join(part.strip() for part in line.splitlines()).strip())
    return tuple(found)


def keeps(old: str, new: str, built: Collection[str]) -> bool:
    """Whether all that a tutor wrote in the old script stands in the new one: sentences, and notes of their own.
    `built` are the sentences the last build wrote."""
    there = {html.unescape(line) for line in new.splitlines()} | {plain(say) for say in built}
    sentences = [line.say for line in read(old) if line.say in there]
    lines = [html.unescape(line.strip()) for line in old.splitlines()]
    notes = (
        line for line in lines if line and not (_RIG.fullmatch(line) or _STEP.fullmatch(line) or _FRAME.match(line))
    )
    return all(line in there or any(line in say for say in sentences) for line in notes)
