"""One way of counting tried on every rig of a lesson: right on one by luck, and wrong on the next."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from gantline.account import WrongAnswer, near, wrong_answers

from . import words

if TYPE_CHECKING:
    from .lesson import Part


def wrong_count(parts: "Sequence[Part]") -> str:
    """What the most telling wrong count gives on each rig, in one sentence; empty where none can be compared.

    Most telling is the one that is right by luck on some rig and wrong on another.
    """
    if len(parts) < 2:
        return ""
    for thought, how in words.WRONG_COUNTS.items():
        found = [_committed(part, thought) for part in parts]
        lucky = {one.right_by_luck for one in found if one is not None}
        if None not in found and lucky == {True, False}:
            told = [_told(part, one) for part, one in zip(parts, found, strict=True) if one is not None]
            return f"{how} gives {'; '.join(told)}."
    return ""


def _committed(part: "Part", thought: str) -> WrongAnswer | None:
    """What a thought gives for the pull of a rig, None where nobody can commit it there."""
    effort = part.answer.ideal.effort if part.answer.regimes else None
    if effort is None or effort.number is None or part.answer.aim is None:
        return None
    found = wrong_answers(part.rig, part.answer)
    return next((one for one in found if one.what == "effort" and thought in (one.rule, *one.same_as)), None)


def _told(part: "Part", one: WrongAnswer) -> str:
    effort = part.answer.ideal.effort
    assert effort is not None
    gives = words.COUNT_LUCKY if one.value.number == effort.number else (
        words.COUNT_NEAR if one.right_by_luck else words.COUNT_WRONG
    )  # fmt: skip
    return gives.format(wrong=near(part.rig, one.value), load=part.answer.aim, right=near(part.rig, effort))
