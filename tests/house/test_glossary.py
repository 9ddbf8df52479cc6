"""The code keeps to the glossary: its names are there, and the words decided against are not."""

import ast
import re

import pytest
from places import ROOT, modules

ROWS = [
    [cell.strip() for cell in line.strip()[1:-1].split("|")]
    for line in (ROOT / "GLOSSARY.md").read_text(encoding="utf-8").splitlines()
    if line.startswith("| ") and not line.startswith("| term")
]


def identifiers() -> set[str]:
    """Every name the code gives: classes, functions, arguments, fields, variables."""
    names: set[str] = set()
    for tree in modules().values():
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef | ast.FunctionDef):
                names.add(node.name)
            elif isinstance(node, ast.arg):
                names.add(node.arg)
            elif isinstance(node, ast.Name):
                names.add(node.id)
            elif isinstance(node, ast.Attribute):
                names.add(node.attr)
    return names


NAMES = identifiers()
CLASSES = {node.name for tree in modules().values() for node in ast.walk(tree) if isinstance(node, ast.ClassDef)}
FOLDERS = {part for name in modules() for part in name.removesuffix(".py").split("/")}
WORDS = {word.lower() for name in NAMES for word in re.findall(r"[A-Z]?[a-z]+|[A-Z]+", name)}


def test_every_row_is_whole() -> None:
    assert len(ROWS) > 30
    for row in ROWS:
        assert len(row) == 6, row
        assert row[0], row
        assert row[4], row


def test_each_idea_has_one_row() -> None:
    terms = [row[0] for row in ROWS]
    assert len(terms) == len(set(terms))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_the_name_is_in_the_code(row: list[str]) -> None:
    for name in re.findall(r"`(\w+)`", row[1]):
        assert name in NAMES | FOLDERS | {"shelf"}, f"{name} is in the glossary and not in the code"


@pytest.mark.parametrize("word", sorted({word for row in ROWS for word in row[5].split(", ") if word}))
def test_a_word_decided_against_is_not_in_the_code(word: str) -> None:
    assert word.lower() not in WORDS | {name.lower() for name in NAMES}
    assert f"{word}s".lower() not in WORDS


@pytest.mark.parametrize("word", ["manager", "helper", "utils", "engine", "base", "misc"])
def test_no_name_that_says_nothing(word: str) -> None:
    assert word not in FOLDERS
    assert not {name for name in CLASSES if name.startswith(word.title()) or name.endswith(word.title())}
