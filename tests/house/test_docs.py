"""The documents are true: what they show is run and compared, and everything listable is documented."""

import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from places import DOCS, ROOT, SOURCE

from gantline.notation import ATTRIBUTES, STATEMENTS

sys.path.insert(0, str(ROOT / "tools"))
import docs

from gantline.cli.commands import COMMANDS

PICTURE = re.compile(r"!\[([^\]]*)\]\(([^)]+)\)")
LINK = re.compile(r"(?<!!)\[[^\]]+\]\(([^)#]+)(?:#[^)]*)?\)")


@pytest.mark.parametrize("page", docs.PAGES, ids=lambda page: page.name)
def test_what_the_page_shows_is_what_happens(page: Path) -> None:
    assert docs.replayed(page) == page.read_text(encoding="utf-8"), "python tools/docs.py writes what really happens"


@pytest.mark.parametrize(
    "page", [*docs.PAGES, ROOT / "ARCHITECTURE.md", ROOT / "GLOSSARY.md"], ids=lambda page: page.name
)
def test_links_and_pictures_are_there(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    for words, target in PICTURE.findall(text):
        assert len(words) > 20, f"{target} needs a text for those who cannot see it"
        assert (page.parent / target).exists(), target
    for target in LINK.findall(text):
        assert target.startswith("https://") or (page.parent / target).exists(), target


@pytest.mark.parametrize("name", COMMANDS)
def test_each_command_is_documented_and_shown_at_work(name: str) -> None:
    text = (DOCS / "cli.md").read_text(encoding="utf-8")
    assert f"## `gantline {name}`" in text
    assert any(command.startswith(f"gantline {name} ") for command in docs.commands(DOCS / "cli.md"))
    assert any(f"gantline {name}" in command for command in docs.commands(ROOT / "README.md"))


@pytest.mark.parametrize("name", COMMANDS)
def test_each_option_is_documented(name: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "gantline", name, "--help"], capture_output=True, text=True, check=True
    )
    section = (DOCS / "cli.md").read_text(encoding="utf-8").split(f"## `gantline {name}`")[1].split("\n## ")[0]
    for option in set(re.findall(r"--[a-z]+", done.stdout)) - {"--help"}:
        assert option in section, f"{option} of {name} is missing in docs/cli.md"


@pytest.mark.parametrize("name", COMMANDS)
def test_each_command_helps_with_examples(name: str) -> None:
    assert f"gantline {name}" in COMMANDS[name].EXAMPLES


def test_each_dependency_has_its_line() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = project["dependencies"] + [one for extra in project["optional-dependencies"].values() for one in extra]
    names = {re.match(r"[\w-]+", requirement)[0] for requirement in wanted}
    told = set(
        re.findall(r"^\|(?: `\w+` \|)? `([\w-]+)` \| \w", (DOCS / "dependencies.md").read_text("utf-8"), re.MULTILINE)
    )
    assert names == told


def test_the_architecture_fits_two_pages() -> None:
    lines = (ROOT / "ARCHITECTURE.md").read_text(encoding="utf-8").splitlines()
    assert len(lines) <= 110
    assert max(map(len, lines)) <= 400


def test_the_readme_begins_with_the_job_and_two_commands() -> None:
    title, job, *rest = (ROOT / "README.md").read_text(encoding="utf-8").split("\n\n")
    assert title == "# Gantline"
    assert 200 < len(job) < 900
    assert "make lesson" in rest[0]
    assert "make test" in rest[0]


def test_every_folder_says_what_it_is() -> None:
    architecture = (ROOT / "ARCHITECTURE.md").read_text(encoding="utf-8")
    folders = {path.name for path in SOURCE.iterdir() if path.is_dir()} - {"__pycache__", "assets", "quantity"}
    assert not {folder for folder in folders if f"{folder}/" not in architecture}


def test_the_readme_names_every_word_of_the_notation() -> None:
    readme = (
        (ROOT / "README.md").read_text(encoding="utf-8").split("## The notation on one screen")[1].split("\n## ")[0]
    )
    named = set(re.findall(r"[a-z]+", readme))
    assert sorted({*STATEMENTS, *ATTRIBUTES} - named) == []
