"""The page on the voice is true: every problem has its line there, the table of levels is the one that is used."""

import ast
import re
from pathlib import Path

import pytest

from gantline.film import LEVELS
from gantline.film.captions import LINES

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs/voice.md").read_text(encoding="utf-8")
SOURCES = [
    ROOT / "src/gantline" / name
    for name in ("film/captions.py", "output/voice.py", "output/taps.py", "output/narration.py")
]


def codes() -> set[str]:
    texts = {
        node.value
        for path in SOURCES
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    return {text for text in texts if re.fullmatch(r"(voice|taps?|caption)-[a-z]+(-[a-z]+)*", text)}


def test_every_problem_has_its_line_and_every_line_its_problem() -> None:
    assert set(re.findall(r"^- `([a-z-]+)`", PAGE, re.MULTILINE)) == codes()
    assert len(codes()) >= 14


@pytest.mark.parametrize("name", LEVELS)
def test_the_limits_of_a_level_are_those_that_are_used(name: str) -> None:
    level = LEVELS[name]
    assert f"| {name} | {level.most:g} | {LINES[name]} | {level.letters:g} |" in PAGE
