"""What a learner will get out of a rig, in two sentences."""

from gantline.account import Account, Refusal
from gantline.mechanics import Answer
from gantline.rig import Rig

from . import words


def standfirst(rig: Rig, answer: Answer, account: Account | Refusal) -> str:
    """What is found, how it is looked at, what it costs, and how it ends."""
    opening = words.OPENINGS[_opening(rig, answer)].format(load=_load(rig), ropes=_ropes(rig))
    looks = []
    if isinstance(account, Account):
        looks.append(words.LOOKS[account.method])
    ratio = answer.velocity_ratio
    if answer.status == "holds" and ratio is not None and ratio.number is not None and ratio.number > 1:
        looks.append(words.PRICE)
    sentence = f"{opening}: {', and '.join(looks)}." if looks else f"{opening}."
    return f"{sentence} {words.CLOSING}" if rig.sheaves and answer.status == "holds" else sentence


def _opening(rig: Rig, answer: Answer) -> str:
    if answer.status != "holds":
        return answer.status
    if rig.hand is None:
        return "balance"
    return "load" if rig.effort is not None else "holds"


def _load(rig: Rig) -> str:
    return f"the {rig.aim}" if rig.aim else "the loads"


def _ropes(rig: Rig) -> str:
    count = len(rig.ropes)
    return " on one rope" if count == 1 else f" with {words.COUNTS.get(count, str(count))} ropes"
