"""What must never stand in the product: addresses to fetch from, paths of one machine, unfinished places."""

import re
from collections import Counter

import pytest
from places import ROOT, SOURCE

TEXTS = sorted(
    path
    for folder in (SOURCE, ROOT / "docs", ROOT / "tests", ROOT / "tools", ROOT / ".ci")
    for path in folder.rglob("*")
    if path.suffix in {".py", ".md", ".rig", ".css", ".js", ".html", ".toml", ".json", ".typ", ""} and path.is_file()
    if not {"assets", "node_modules", "__pycache__"} & set(path.parts) and path.name != "package-lock.json"
) + [
    ROOT / name
    for name in ("README.md", "ARCHITECTURE.md", "GLOSSARY.md", "CHANGELOG.md", "Makefile", "pyproject.toml")
]
FETCHED = re.compile(r"""(?:src|href|url|import)\s*[=(]\s*["']?(?:https?:)?//""")
UNFINISHED = re.compile(r"\b(?:TO" + r"DO|FIX" + r"ME|X" + r"XX|NotImplemented" + r"Error)\b")
ONE_MACHINE = re.compile(r"(?<![\w.])/(?:ro" + r"ot|ho" + r"me|wo" + r"rk)/")


def told(path: object) -> str:
    return str(path).removeprefix(str(ROOT) + "/")


@pytest.mark.parametrize("path", [path for path in TEXTS if path.is_relative_to(SOURCE)], ids=told)
def test_nothing_is_fetched(path) -> None:
    assert not FETCHED.search(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("path", TEXTS, ids=told)
def test_nothing_is_unfinished_or_of_one_machine(path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not UNFINISHED.search(text)
    assert not ONE_MACHINE.search(text)


def test_every_module_of_the_tests_has_a_name_of_its_own() -> None:
    """The folders are no packages: of two modules of one name, whoever comes second would get the first."""
    names = Counter(path.name for path in (ROOT / "tests").rglob("*.py") if path.name != "conftest.py")
    assert [name for name, count in names.items() if count > 1] == []
