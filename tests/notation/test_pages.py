"""The pages on the notation and on its problems are true: every example is read, and every code has its section."""

import ast
import re
from pathlib import Path

import pytest
from corpus import corpus

from gantline.notation import parse
from gantline.problems import Problem
from gantline.rig import read

ROOT = Path(__file__).resolve().parents[2]
STOREYS = [*(ROOT / "src/gantline/notation").glob("*.py"), *(ROOT / "src/gantline/rig").glob("*.py")]
PROBLEMS = (ROOT / "docs/problems.md").read_text(encoding="utf-8")
NOTATION = (ROOT / "docs/notation.md").read_text(encoding="utf-8")
SECTIONS = dict(re.findall(r"^## ([a-z0-9-]+)\n(.*?)(?=^#|\Z)", PROBLEMS, re.DOTALL | re.MULTILINE))
BLOCK = re.compile(r"^```rig\n(.*?)^```$", re.DOTALL | re.MULTILINE)
SHOWN = {code: blocks for code, text in SECTIONS.items() if (blocks := BLOCK.findall(text))}


def problems_of(text: str) -> tuple[Problem, ...]:
    tree, problems = parse(text)
    return problems or read(tree)[1]


def codes() -> set[str]:
    """Every code that the sources can note: words joined by hyphens that are handed to a call or stand in a table."""
    texts = (
        node.value
        for path in STOREYS
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    )
    return {text for text in texts if re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)+", text)} - {"utf-8"}


def test_every_code_has_its_section_and_every_section_its_code() -> None:
    assert set(SECTIONS) == codes()


def test_every_code_has_a_bad_text() -> None:
    """Codes of bytes, of limits and of settings are produced by tests of their own."""
    folder = Path(__file__).parents[1]
    texts = [bad for name in ("notation", "reading") for bad in corpus(folder / name / "bad.txt")]
    apart = {"text-too-large", "text-not-utf8", "not-a-rig-text", "nothing-to-set"}
    limits = {"too-many-parts", "too-many-contacts", "too-many-problems"}
    assert {code for bad in texts for code, _, _ in bad.expected} == codes() - apart - limits


@pytest.mark.parametrize("code", SHOWN)
def test_the_example_has_its_problem_and_no_other(code: str) -> None:
    assert [one.code for one in problems_of(SHOWN[code][0])] == [code]


@pytest.mark.parametrize("code", SHOWN)
def test_the_mend_mends_it(code: str) -> None:
    bad, *mended = SHOWN[code]
    (problem,) = problems_of(bad)
    lines = bad.splitlines(keepends=True)
    lines[problem.place.line - 1] = mended[0] if mended else ""
    whole = "Mended, the whole rig" in SECTIONS[code]
    assert problems_of(mended[0] if whole else "".join(lines)) == ()


@pytest.mark.parametrize("text", BLOCK.findall(NOTATION), ids=lambda text: text[:30])
def test_every_rig_of_the_page_on_the_notation_reads(text: str) -> None:
    assert problems_of(text) == ()
