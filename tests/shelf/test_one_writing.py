"""A quantity is written one way: by account, figures, lesson, answer on screen, loft and film."""

import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import msgspec
import pytest
from lxml import html as parser

import gantline
from gantline.account import Account, accounts, wrong_answers
from gantline.figure import VIEWS, NotDrawable, Text, describe, draw
from gantline.film import Act, board, takes
from gantline.lesson import compose
from gantline.loft.answering import plain_answer
from gantline.mechanics import Answer, Value, solve
from gantline.output import html
from gantline.output.plain import painter
from gantline.output.terminal import answer_text
from gantline.quantity import plain
from gantline.rig import Rig, shown_unit, with_efficiency
from gantline.sources import EXAMPLE_EFFICIENCY

SHELF = Path(__file__).parents[2] / "src" / "gantline" / "shelf"
RIGS = sorted(SHELF.glob("*.rig"))
NUMBERLESS = ("formula-only",)
FILMED = ("burton-heavy", "old-units", "atwood-double")  # composing a film of every rig would take minutes
ODD = """
fixed upper sheaves 2
moving lower sheaves 2, mass 1.2 kg, carries bin
load bin mass 8.6 kg
rope fall: upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
raise bin 0.37 m
"""  # gravity makes its weights 84.366 N and 11.772 N
NAMES = {
    "newton": "N", "newtons": "N", "joule": "J", "joules": "J", "kilogram": "kg", "kilograms": "kg",
    "pounds of force": "lbf", "metres per second squared": "m/s²", "m/s2": "m/s²",
}  # fmt: skip
UNIT = r"kN|N|lbf|kgf|J|kg|g|lb|m/s²|m/s2|m|ft|newtons?|joules?|kilograms?|pounds of force|metres per second squared"
SHOWN = re.compile(rf"(?<![\w.,/^−-])(\d[\d,]*(?:\.\d+)?)(?:[\u00a0 ])({UNIT})(?![\w²/])")


def runs(made: Any) -> Iterator[str]:
    """The words of every text of a drawn thing."""
    if isinstance(made, Text):
        yield made.words
    elif isinstance(made, msgspec.Struct):
        for name in made.__struct_fields__:
            yield from runs(getattr(made, name))
    elif isinstance(made, tuple | list):
        for one in made:
            yield from runs(one)


def told(rig: Rig, answer: Answer) -> Iterator[str]:
    """The words and formulas of every account."""
    for account in accounts(rig, answer):
        if isinstance(account, Account):
            for step in account.steps:
                formula = step.formula or step.formula_text
                yield account.line(step, spoken=False)
                yield plain(formula) if formula else ""
                yield " ".join(words for _, words in step.marks)


def drawn(rig: Rig, answer: Answer) -> Iterator[str]:
    """The words of every figure, and its description."""
    for view in VIEWS:
        if view not in ("tried", "tip"):  # what is really seen is a trial's, and often of a stand-in
            try:
                yield from runs(draw(rig, answer, view))
            except NotDrawable:
                continue
            yield describe(rig, answer, view)


def page(rig: Rig, answer: Answer) -> str:
    """The lesson's words; an exact number that its rounded one follows is the first of two on purpose."""
    root = parser.fromstring(html.write(compose([(rig, answer)])))
    for drop in root.xpath("//script | //style | //*[contains(@class, 'seen')] | //annotation"):
        drop.drop_tree()
    words = " ".join(root.itertext())
    return re.sub(rf"[\d.,/]+\s*[\u00a0 ]*(?:{UNIT})?\s*(?=≈)", "", words)


def everything(rig: Rig, answer: Answer) -> Iterator[str]:
    yield from told(rig, answer)
    yield from drawn(rig, answer)
    yield page(rig, answer)
    yield answer_text(rig, answer, "", painter(False))
    under_the_plate = plain_answer(rig, answer, "ideal")
    yield f"{under_the_plate['spoken']} {under_the_plate['follows']}"


def quantities(rig: Rig, answer: Answer) -> set[tuple[Fraction, str]]:
    """Every number of the answer, of its lossy twin and of the wrong answers, with the unit a reader sees."""

    def values(made: Any) -> Iterator[Value]:
        if isinstance(made, Value):
            yield made
        elif isinstance(made, msgspec.Struct):
            for name in made.__struct_fields__:
                yield from values(getattr(made, name))
        elif isinstance(made, tuple | list):
            for one in made:
                yield from values(one)

    lossy = solve(with_efficiency(rig, EXAMPLE_EFFICIENCY.value))
    found = set()
    for value in (*values(answer), *values(lossy), *values(wrong_answers(rig, answer))):
        if value.number:
            unit = shown_unit(rig, value.unit.replace("²", "2"))
            name = unit.name if unit else value.unit
            found.add((abs(value.number / unit.factor if unit else value.number), NAMES.get(name, name)))
    return found


def writings(texts: Iterator[str], known: set[tuple[Fraction, str]]) -> dict[tuple[Fraction, str], set[str]]:
    """Each known quantity with the ways it is written. A writing belongs to the nearest quantity that it rounds."""
    found: dict[tuple[Fraction, str], set[str]] = {}
    for text in texts:
        for digits, name in SHOWN.findall(text):
            unit, shown = NAMES.get(name, name), Fraction(digits.replace(",", ""))
            reach = Fraction(1, 2 * 10 ** len(digits.partition(".")[2]))
            near = [one for one in known if one[1] == unit and abs(one[0] - shown) <= min(reach, one[0] / 50)]
            if near:
                nearest = min(near, key=lambda one: abs(one[0] - shown))
                found.setdefault(nearest, set()).add(f"{float(shown):g}")
    return found


def twice(texts: Iterator[str], rig: Rig, answer: Answer) -> dict[tuple[float, str], set[str]]:
    found = writings(texts, quantities(rig, answer))
    return {(float(number), unit): ways for (number, unit), ways in found.items() if len(ways) > 1}


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.stem)
def test_a_quantity_is_written_one_way(path: Path) -> None:
    rig, _ = gantline.load(path)
    assert rig is not None
    answer = solve(rig)
    texts = list(everything(rig, answer))
    assert twice(iter(texts), rig, answer) == {}
    assert writings(iter(texts), quantities(rig, answer)) or path.stem in NUMBERLESS


def test_weights_that_gravity_makes_long_are_written_one_way() -> None:
    rig, problems = gantline.read(ODD)
    assert rig is not None, problems
    answer = solve(rig)
    texts = list(everything(rig, answer))
    assert twice(iter(texts), rig, answer) == {}
    assert any("84.4 N" in text for text in texts)


@pytest.mark.parametrize("name", FILMED)
def test_a_film_writes_as_the_account_does(name: str) -> None:
    rig, _ = gantline.load(SHELF / f"{name}.rig")
    assert rig is not None
    answer = solve(rig)
    account = next(one for one in accounts(rig, answer) if isinstance(one, Account))
    film = takes(board([Act(name, rig, answer, account)]), "level")
    assert twice(iter([*everything(rig, answer), *runs(film)]), rig, answer) == {}


def test_two_roundings_would_be_found_out() -> None:
    rig, _ = gantline.read(ODD)
    assert rig is not None
    answer = solve(rig)
    assert twice(iter(["W = 84.366 N", "A bin of 84.4 N"]), rig, answer) == {(84.366, "N"): {"84.366", "84.4"}}
