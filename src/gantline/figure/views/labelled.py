"""The pull of every strand: in multiples of the hauling strand's where they are whole, else in the reader's unit."""

from fractions import Fraction

from ..plate import Plate
from ..words import plain
from .strands import hand_arrow, strand_texts, write_on_strands

MOST = 64


def draw(plate: Plate) -> None:
    plate.draw_rig()
    texts, whole = pulls(plate)
    label = hand_arrow(plate)
    write_on_strands(plate, strand_texts(plate, texts), extra=label)
    plate.caption = plain("Pulls in multiples of the hauling strand’s" if whole else "The pull of each strand")


def pulls(plate: Plate) -> tuple[dict[str, str], bool]:
    """Each strand's words, and whether they are multiples of one pull."""
    regime = plate.answer.ideal
    numbers = {pull.name: pull.tension.number if pull.tension else None for pull in regime.strands}
    letters = dict(plate.answer.tension_symbols)
    grip = plate.layout.grip
    unit = numbers.get(grip.strand) if grip else None
    if grip and unit:
        ratios = {name: number / unit for name, number in numbers.items() if number is not None}
        if len(ratios) == len(numbers) and all(r.denominator == 1 and 0 < r <= MOST for r in ratios.values()):
            return {name: _multiple(ratio, letters[grip.rope][:1]) for name, ratio in ratios.items()}, True
    texts = {}
    for pull in regime.strands:
        number = numbers[pull.name]
        texts[pull.name] = letters.get(pull.rope, "T") if number is None else plate.amount(number, "N")
    return texts, False


def _multiple(ratio: Fraction, letter: str) -> str:
    return letter if ratio == 1 else f"{ratio}{letter}"
