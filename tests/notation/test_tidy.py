"""Tidying says the same in one form: nothing is lost, and tidied text stays as it is."""

from fractions import Fraction
from pathlib import Path

import msgspec
import pytest

from gantline.notation import Tree, parse, tidy

ROOT = Path(__file__).parents[2]
GOOD = sorted([*(ROOT / "src" / "gantline" / "shelf").glob("*.rig"), *(ROOT / "tests" / "rigs").glob("*.rig")])


def placeless(tree: Tree) -> object:
    """What a tree says, without the places of its words."""

    def strip(value: object) -> object:
        if isinstance(value, dict):
            return {key: strip(entry) for key, entry in value.items() if key != "place"}
        return [strip(entry) for entry in value] if isinstance(value, list | tuple) else value

    return strip(msgspec.to_builtins(tree.items, builtin_types=(Fraction,), enc_hook=str))


def read(text: str) -> Tree:
    tree, problems = parse(text)
    assert problems == ()
    return tree


@pytest.mark.parametrize("path", GOOD, ids=lambda path: path.stem)
def test_every_good_file_keeps_its_sense(path: Path) -> None:
    tree = read(path.read_text(encoding="utf-8"))
    tidied = tidy(tree)
    assert placeless(read(tidied)) == placeless(tree)
    assert tidy(read(tidied)) == tidied


@pytest.mark.parametrize(
    ("rough", "tidied"),
    [
        ("", ""),
        ("\n\n", ""),
        ("fixed beam", "fixed    beam\n"),
        ("title   The sack   ", "title    The sack\n"),
        ("gravity g=9.8m/s2", "gravity  g = 9.8 m/s2\n"),
        ("effort P", "effort   P\n"),
        ("load  sack\tweight 1/3kN", "load     sack  weight 1/3 kN\n"),
        ("lower sack 0.50 m", "lower    sack 0.50 m\n"),
        (
            "moving lower , sheaves 2,carries bell and clapper,weight w=12N",
            "moving   lower  sheaves 2, carries bell and clapper, weight w = 12 N\n",
        ),
        (
            "rope fall:upper,under lower.1,over upper.1 , hand at sack",
            "rope     fall:  upper, under lower.1, over upper.1, hand at sack\n",
        ),
        ("apart upper  lower 0.8m", "apart    upper lower 0.8 m\n"),
        ("lead L_h=1.2m", "lead     L_h = 1.2 m\n"),
        ("cord fall stiffness 2kN,drag c = 0.02N", "cord     fall  stiffness 2 kN, drag c = 0.02 N\n"),
        ("moving lower sheaves 2, becket -5mm", "moving   lower  sheaves 2, becket -5 mm\n"),
        ("#a\n#\n# b", "# a\n#\n# b\n"),
    ],
)
def test_one_statement(rough: str, tidied: str) -> None:
    assert tidy(read(rough)) == tidied


def test_names_stand_in_a_column() -> None:
    text = "fixed beam\nmoving counterweight sheaves 1\nload sack weight 5 N\nrope fall: beam, sack\n"
    lines = tidy(read(text)).splitlines()
    assert {line.index(word) for line, word in zip(lines[1:], ("sheaves", "weight", "beam,"), strict=True)} == {24}


def test_a_long_rope_goes_on_below_its_path() -> None:
    path = ", ".join(f"under lower.{n}, over upper.{n}" for n in range(1, 9))
    tidied = tidy(read(f"rope fall: upper, {path}, hand"))
    first, *rest = tidied.splitlines()
    assert rest
    assert {len(line) - len(line.lstrip()) for line in rest} == {first.index("upper")}
    assert max(map(len, tidied.splitlines())) <= 101


@pytest.mark.parametrize(
    "text",
    [
        "fixed beam # stays\nload sack weight 5 N#heavy\n",
        "moving lower sheaves 2,  # two of them\n  weight 12 N # light\n",
        "rope fall: upper, # first\n  # between\n  under lower.1,\n  over upper.1, # then\n  hand\n",
        "# head\n\ntitle A # not shown\n\n\n# foot\n",
    ],
)
def test_every_comment_is_kept_in_order(text: str) -> None:
    said = [line.partition("#")[2].strip() for line in text.splitlines() if "#" in line]
    tidied = tidy(read(text))
    place = 0
    for comment in said:
        place = tidied.index(comment, place)
    assert tidy(read(tidied)) == tidied
