"""The tutor's own sentences in the loft: kept beside the rig as `NAME.script.md`, in the form of a lesson's script.

A script of the loft holds those sentences alone. What the account of a rig says stands under the key of the rig, as in
a lesson; where another method explains it, the method is named behind that key.
"""

import html
import re
from collections.abc import Mapping

from msgspec import Struct
from msgspec.structs import replace

from gantline.account import METHODS, Account, Refusal, explain, seconds
from gantline.lesson import part_key
from gantline.output.own_words import RIG_GONE, own_words, placed
from gantline.output.script import Line, plain, read
from gantline.problems import Problem

from .asked import Refused, Say
from .reading import Reading

_BY = "--"  # between the key of a rig, which never has it, and the method
_ABOVE = (
    "Your own sentences, as the loft keeps them beside the rig; every other step says the program's. What stands in "
    "braces is a number of the rig and stays live."
)
_HEADING = re.compile(r"## |\[[^\[\]\s]+\]\s*$")


class Own(Struct, frozen=True):
    """A tutor's own sentences for one account, by the key of their step; and what of the script cannot be said."""

    said: Mapping[str, str] = {}
    problems: tuple[Problem, ...] = ()


def own(reading: Reading, account: Account, script: str) -> Own:
    """What a script says of an account. Headings count by their method: a rig may have been given another title. Where
    two of them have a sentence for one step, the first is said; it is the one that `changed` changes."""
    if not script.strip():
        return Own()
    accounts = _accounts(reading, account, script)
    found = own_words(script, accounts)
    said = {step: say for (_, step), say in reversed(found.said.items())}
    return Own(said, tuple(problem for problem in found.problems if problem.code != RIG_GONE))


def worded(account: Account, own: Own) -> Account:
    """The account in the tutor's words; what they take to say is reckoned anew."""
    steps = []
    for key, step in zip(account.keys, account.steps, strict=True):
        if key in own.said:
            step = replace(step, say=own.said[key])
            step = replace(step, seconds=seconds(account.line(step)))
        steps.append(step)
    return replace(account, steps=tuple(steps))


def changed(reading: Reading, account: Account, asked: Say) -> str:
    """The script with a sentence of the tutor's own at a step, or without it where none is given. All else in the
    script stays as it is. Raises Refused for a step the account has not, and for braces that name no number."""
    if asked.step not in account.keys:
        raise Refused(400, f"This account has no step {asked.step[:40]}.")
    accounts = _accounts(reading, account, asked.script)
    line = next((line for (_, step), line in _placed(asked.script, accounts).items() if step == asked.step), None)
    program = account.steps[account.keys.index(asked.step)].say
    say = plain(asked.say)
    if say in ("", plain(program)):
        return _without(asked.script, line) if line else asked.script
    _check(account, say)
    if line:
        rows = asked.script.split("\n")
        start, end = _rows(rows, line)
        return "\n".join([*rows[:start], _safe(say), *rows[end:]])
    return _added(asked.script, reading, account, f"[{asked.step}]\n{_safe(say)}")


def lesson_script(reading: Reading, script: str) -> dict[tuple[str, str], str]:
    """The sentences of a lesson over the rig, by its key there and their steps."""
    account = explain(reading.rig, reading.answer)
    if isinstance(account, Refusal):
        return {}
    return {(_key(reading), step): say for step, say in own(reading, account, script).said.items()}


def written(title: str, said: Mapping[tuple[str, str], str]) -> str:
    """A script with these sentences of one rig, for a lesson to be built on."""
    keys = dict.fromkeys(rig for rig, _ in said)
    blocks = [f"## {_safe(title)} {{#{key}}}" for key in keys]
    return "\n\n".join([*blocks, *(f"[{step}]\n{_safe(say)}" for (_, step), say in said.items())]) + "\n"


# -- which heading is whose -------------------------------------------------------------------------------------------


def _key(reading: Reading) -> str:
    return part_key(reading.rig.title, ())


def _accounts(reading: Reading, account: Account, script: str) -> dict[str, Account]:
    """The account under every heading that means it, the one it would be written under first."""
    main = explain(reading.rig, reading.answer).method
    wanted = "" if account.method == main else account.method
    headings = [_heading(reading, wanted), *(line.rig for line in read(script) if line.rig)]
    return {heading: account for heading in headings if _method(heading) == wanted}


def _heading(reading: Reading, method: str) -> str:
    return f"{_key(reading)}{_BY}{method}" if method else _key(reading)


def _method(heading: str) -> str:
    """The method a heading names, empty for the account of the rig itself."""
    method = heading.rpartition(_BY)[2]
    return method if _BY in heading and method in METHODS else ""


def _placed(script: str, accounts: Mapping[str, Account]) -> dict[tuple[str, str], Line]:
    return placed([line for line in read(script) if line.rig in accounts], accounts)[0]


# -- the text of a script ---------------------------------------------------------------------------------------------


def _safe(say: str) -> str:
    """A sentence as a line of a script, never taken for a heading."""
    words = html.escape(plain(say), quote=False)
    return f"&#{ord(words[0])};{words[1:]}" if words[:1] in ("[", "#", ">") else words


def _rows(rows: list[str], line: Line) -> tuple[int, int]:
    """Where a sentence stands: the row it begins at, and the one behind its last."""
    start = end = line.line - 1
    while end < len(rows) and rows[end].strip() and not _HEADING.match(rows[end]):
        end += 1
    return start, end


def _without(script: str, line: Line) -> str:
    rows = script.split("\n")
    start, end = _rows(rows, line)
    while not rows[start].startswith("["):
        start -= 1
    while start and not rows[start - 1].strip():
        start -= 1
    return "\n".join([*rows[:start], *rows[end:]])


def _added(script: str, reading: Reading, account: Account, block: str) -> str:
    """A block more under the heading of the account, which is made where it is missing."""
    title = reading.rig.title or "This rig"
    script = script.rstrip("\n") or f"# {_safe(title)}\n\n{_ABOVE}"
    key = next(iter(_accounts(reading, account, script)))
    rows = script.split("\n")
    heads = [number for number, row in enumerate(rows) if row.startswith("## ")]
    mine = next((number for number in heads if rows[number].rstrip().endswith(f"{{#{key}}}")), None)
    if mine is None:
        name = f", by {account.name[:1].lower()}{account.name[1:]}" if key != _key(reading) else ""
        return f"{script}\n\n## {_safe(title)}{name} {{#{key}}}\n\n{block}\n"
    end = next((number for number in heads if number > mine), len(rows))
    before, after = "\n".join(rows[:end]).rstrip("\n"), "\n".join(rows[end:])
    return f"{before}\n\n{block}\n" + (f"\n{after}\n" if after else "")


def _check(account: Account, say: str) -> None:
    """Refuses braces that name no number of the account, in the words of the problem that a script would have."""
    found = own_words(f"## rig {{#rig}}\n\n[{account.keys[0]}]\n{_safe(say)}\n", {"rig": account}).problems
    if found:
        raise Refused(422, f"{found[0].says} {found[0].do}")
