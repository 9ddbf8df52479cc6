"""What a tutor calls every part of a rig, for whatever speaks of it outside an account."""

from collections import Counter

from gantline.mechanics import Answer
from gantline.rig import Rig

from .facts import Facts
from .phrases import en
from .writing import nouns


def called(rig: Rig, answer: Answer) -> dict[str, str]:
    """By name in the file, for parts, sheaves and ropes: the flying block, wheel 2 of the top block, the long rope."""
    names = nouns(Facts(rig, answer))
    found = {part.name: names[part.name].the for part in rig.parts} | {"hand": "the hand"}
    many = Counter(sheave.block for sheave in rig.sheaves)
    for sheave in rig.sheaves:
        found[sheave.name] = en.wheel(sheave.index, names[sheave.block], many[sheave.block])
    return {rope.name: names[f"rope {rope.name}"].the for rope in rig.ropes} | found
