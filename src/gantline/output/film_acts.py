"""What a film is made from: solved rigs as acts, and the tutor's words from a script."""

from collections.abc import Mapping, Sequence

from gantline.account import Refusal, explain
from gantline.film import Act
from gantline.lesson import Solved, part_key
from gantline.problems import Problem

from . import script


class NoAccount(Exception):
    """No method explains this rig, so there is nothing to film. `sentence` says why."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


def acts(solved: Sequence[Solved]) -> tuple[Act, ...]:
    """The acts of a film, keyed as in the lesson over the same rigs. Raises NoAccount."""
    made: list[Act] = []
    for rig, answer in solved:
        account = explain(rig, answer)
        if isinstance(account, Refusal):
            raise NoAccount(account.reason)
        made.append(Act(part_key(rig.title, [act.key for act in made]), rig, answer, account))
    return tuple(made)


def words(made: Sequence[Act], text: str) -> tuple[Mapping[tuple[str, str], str], tuple[Problem, ...]]:
    """The tutor's own sentences in a script, by act and step; and those that name no number of their account."""
    accounts = {act.key: act.account for act in made}
    own = {(act.key, step.id): set[str]() for act in made for step in act.account.steps}
    for act in made:
        for step in act.account.steps:
            own[act.key, step.id].add(" ".join(step.say.split()))
    lines = {at: line for at, line in script.read(text).items() if at in own and line.say not in own[at]}
    problems = script.problems(lines, accounts)
    bad = {problem.place.line for problem in problems}
    return {at: line.say for at, line in lines.items() if line.line not in bad}, problems
