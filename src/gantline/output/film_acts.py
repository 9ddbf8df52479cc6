"""What a film is made from: solved rigs as acts, and the tutor's words from a script."""

from collections.abc import Mapping, Sequence

from gantline.account import Refusal, explain
from gantline.film import Act
from gantline.lesson import Solved, part_key
from gantline.problems import Problem

from .own_words import RIG_GONE, own_words
from .script import At, Line, read


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


def words(made: Sequence[Act], text: str, built: Sequence[Line] = ()) -> tuple[Mapping[At, str], tuple[Problem, ...]]:
    """The tutor's own sentences in a script, by act and step; and what is wrong with others.

    `built` are the sentences that the lesson of this script wrote, where they are known. A script may hold more rigs
    than the film; what it says of them is no problem where every act has its part of the script.
    """
    accounts = {act.key: act.account for act in made}
    own = own_words(text, accounts, built)
    whole = accounts.keys() <= {line.rig for line in read(text)}
    problems = [one for one in own.problems if not (whole and one.code == RIG_GONE)]
    return own.said, tuple(problems)
