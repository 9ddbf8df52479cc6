"""The tutor's own words among the sentences of a script: laid to the steps of the accounts, and looked through."""

from collections.abc import Iterator, Mapping, Sequence
from difflib import get_close_matches
from string import Formatter

from msgspec import Struct

from gantline.account import Account
from gantline.problems import Place, Problem

from .script import At, Line, plain, read

RIG_GONE = "script-rig-gone"
Accounts = Mapping[str, Account]  # by key of the rig


class Own(Struct, frozen=True):
    """A tutor's own words: by their steps, those that have no step now, and what is wrong with either."""

    lines: Mapping[At, Line]
    kept: tuple[Line, ...]
    problems: tuple[Problem, ...]

    @property
    def said(self) -> dict[At, str]:
        """The sentences that can be said."""
        bad = {problem.place.line for problem in self.problems}
        return {at: line.say for at, line in self.lines.items() if line.line not in bad}


def own_words(text: str, accounts: Accounts, built: Sequence[Line] = ()) -> Own:
    """What of a script is the tutor's own: what neither this program says in that step, nor the last build wrote
    there (`built`, where that is known)."""
    lines, others = placed(read(text), accounts)
    before, _ = placed(built, accounts)
    own = {
        at: line
        for at, line in lines.items()
        if line.say != _program(accounts, at) and (at not in before or line.say != plain(before[at].say))
    }
    written = {(line.rig, plain(line.say)) for line in built}
    written |= {(rig, plain(step.say)) for rig, account in accounts.items() for step in account.steps}
    kept = tuple(line for line in others if (line.rig, line.say) not in written)
    wrong = [problem for (rig, _), line in own.items() if (problem := _slots(line, accounts[rig]))]
    return Own(own, kept, (*wrong, *_without_step(kept, accounts)))


def placed(lines: Sequence[Line], accounts: Accounts) -> tuple[dict[At, Line], tuple[Line, ...]]:
    """Each sentence at its step; and those whose step is not there, or has a sentence already.

    Where a heading is the id that several steps have, as in older scripts, it belongs to them in their order.
    """
    found: dict[At, Line] = {}
    others = []
    for line in lines:
        keys = _meant(line.step, accounts[line.rig]) if line.rig in accounts else ()
        free = next((key for key in keys if (line.rig, key) not in found), None)
        if free is None:
            others.append(line)
        else:
            found[line.rig, free] = line
    return found, tuple(others)


def _meant(heading: str, account: Account) -> Sequence[str]:
    """The keys of the steps that a heading may mean."""
    if heading in account.keys:
        return (heading,)
    steps = zip(account.keys, account.steps, strict=True)
    return [key for key, step in steps if heading in (step.id, f"{step.id}:{step.about}")]


def _program(accounts: Accounts, at: At) -> str:
    account = accounts[at[0]]
    return plain(account.steps[account.keys.index(at[1])].say)


# -- what is wrong ----------------------------------------------------------------------------------------------------


def _slots(line: Line, account: Account) -> Problem | None:
    """Whether the braces of a sentence name what is no number of its account."""
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


def _without_step(kept: Sequence[Line], accounts: Accounts) -> Iterator[Problem]:
    """Sentences that nobody will say: each by itself, and all of a rig that is not there at once."""
    for rig in dict.fromkeys(line.rig for line in kept):
        lines = [line for line in kept if line.rig == rig]
        if rig not in accounts:
            yield _rig_gone(lines, accounts)
            continue
        for line in lines:
            twice = bool(_meant(line.step, accounts[rig]))
            yield _step_twice(line) if twice else _step_gone(line, accounts[rig])


def _rig_gone(lines: Sequence[Line], accounts: Accounts) -> Problem:
    rig, first = lines[0].rig, lines[0]
    count = "a sentence of yours is" if len(lines) == 1 else f"{len(lines)} sentences of yours are"
    return Problem(
        RIG_GONE, Place(first.line, 1, len(first.say)), first.say,
        f"{count} for {{#{rig}}}, and no rig explained here is called so." if rig else f"{count} under no rig.",
        "A rig is known by its title, so a changed title parts it from its sentences.",
        f"End the heading in {_listed([f'{{#{key}}}' for key in accounts])}; until then the script keeps them.",
    )  # fmt: skip


def _step_gone(line: Line, account: Account) -> Problem:
    near = get_close_matches(line.step, account.keys, 1, 0.6)
    there = f"[{near[0]}]" if near else "a step that is there"
    return Problem(
        "script-step-gone", Place(line.line, 1, len(line.say)), line.say,
        f"this account has no step [{line.step}], so nobody says this.",
        "The steps follow from the rig: other parts or numbers may need others.",
        f"Move it to {there}, or take it out; the script keeps it until then.",
    )  # fmt: skip


def _step_twice(line: Line) -> Problem:
    return Problem(
        "script-step-twice", Place(line.line, 1, len(line.say)), line.say,
        f"[{line.step}] has a sentence already, further up.",
        "A step says what stands first under its heading; this sentence is said by nobody.",
        "Put both into one, or take one out; the script keeps it until then.",
    )  # fmt: skip


def _listed(keys: Sequence[str]) -> str:
    return " or ".join(keys) or "the name of a rig"
