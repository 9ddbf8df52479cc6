"""Rigs for the checks of making: the shelf's, written as people write, with comments and odd spacing."""

import random
from pathlib import Path

import gantline
from gantline.notation import Statement, parse

SHELF = {path.stem: path.read_text("utf-8") for path in (Path(gantline.__file__).parent / "shelf").glob("*.rig")}

# What a rig in the making may lack; anything else would be a wrong text.
IN_THE_MAKING = {"rope-end-missing", "rope-between-fixed", "held-by-nothing", "no-rope", "nothing-moves"}


def as_people_write(text: str, seed: int) -> str:
    """The same rig with comments behind lines, wider gaps, statements over several lines, and other line ends."""
    chance = random.Random(seed)
    lines = []
    for line in text.splitlines():
        if line.startswith(("#", "title")) or not line.strip():
            lines.append(line)
            continue
        pieces = line.replace(" ", " " * chance.choice((1, 1, 2, 3))).split(",")
        made = pieces[0]
        for piece in pieces[1:]:
            made += chance.choice((",", ",", f",  # {chance.choice(NOTES)}\n\t", ",\n   ")) + piece
        lines.append(made + chance.choice(("", "", "   ", f"  # {chance.choice(NOTES)}", "#")))
        lines += chance.choice(([], [], [""], [f"   # {chance.choice(NOTES)}"]))
    return chance.choice(("\n", "\n", "\r\n")).join([*lines, ""])


NOTES = ("mind the beam", "from the old list, 1 of 2", "Größe: über 🪢 alles", "weight 9 N, not sure", "rope x: a, b")


def comments(text: str) -> list[str]:
    """Every comment of a text, in order."""
    found = []
    for item in parse(text)[0].items:
        if isinstance(item, Statement):
            found += [each for each in (*item.comments_within, item.comment) if each]
        elif item.comment:
            found.append(item.comment)
    return found


def codes(text: str) -> set[str]:
    """The codes of everything wrong with a text."""
    from gantline import api

    return {problem.code for problem in api.read(text)[1]}
