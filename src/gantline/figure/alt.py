"""What a figure shows, in words, for those who do not see it."""

from gantline.mechanics import Answer
from gantline.rig import Rig


def describe(rig: Rig, answer: Answer, view: str, reveal: bool = True) -> str:
    return ""
