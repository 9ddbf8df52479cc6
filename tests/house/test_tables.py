"""Each kind of part has its file in every storey, and each table lists what its folder holds and the docs describe."""

import re
from importlib import import_module
from pathlib import Path

import pytest
from places import DOCS, SHELF, SOURCE, modules

from gantline.account import METHODS, WRONG_RULES
from gantline.cli.commands import COMMANDS
from gantline.figure import VIEWS
from gantline.figure.glyphs import PARTS
from gantline.mechanics.laws import LAWS
from gantline.quantity import UNITS

STOREYS = {"noun": "rig/parts", "law": "mechanics/laws", "glyph": "figure/glyphs"}
KINDS = sorted(path.stem for path in (SOURCE / "rig" / "parts").glob("*.py") if path.stem != "__init__")


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("storey", STOREYS)
def test_each_kind_has_its_file_in_each_storey(kind: str, storey: str) -> None:
    path = SOURCE / STOREYS[storey] / f"{kind}.py"
    assert path.exists(), f"the kind {kind} has no {storey}: write {path.relative_to(SOURCE)}"


def test_each_kind_that_is_a_part_stands_in_the_tables_of_laws_and_glyphs() -> None:
    assert set(PARTS) == set(KINDS)
    laws = {kind.__name__.lower() for kind in LAWS} | {"rope", "sheave"}
    assert laws == set(KINDS)


def files(folder: str) -> set[str]:
    return {path.stem for path in (SOURCE / folder).glob("*.py")} - {"__init__"}


def test_the_table_of_methods_is_its_folder() -> None:
    listed = {Path(module.__file__).stem for module in METHODS.values()}
    named = {name.replace("-", "_") for name in METHODS}
    assert listed == named
    assert listed <= files("account/methods")
    for name, module in METHODS.items():
        assert module.NAME, name
        assert callable(module.accepts), name
        assert callable(module.explain), name


def test_every_module_of_a_method_is_in_the_table() -> None:
    whole = {
        name
        for name in files("account/methods")
        if hasattr(import_module(f"gantline.account.methods.{name}"), "accepts")
    }
    assert whole == {name.replace("-", "_") for name in METHODS}


def test_the_table_of_commands_is_its_folder() -> None:
    assert set(COMMANDS) == files("cli/commands") - {"arguments"}


@pytest.mark.parametrize("name", [name for name, view in VIEWS.items() if view.public])
def test_each_public_view_is_documented(name: str) -> None:
    assert f"`{name}`" in (DOCS / "cli.md").read_text(encoding="utf-8")
    assert name in COMMANDS["draw"].EXAMPLES


def test_the_public_views_are_the_promised_ones() -> None:
    promised = [
        "bare", "labelled", "numbered", "cut", "free-body", "displacement", "tensions", "motion", "as-built", "tried",
    ]  # fmt: skip
    assert sorted(name for name, view in VIEWS.items() if view.public) == sorted(promised)


@pytest.mark.parametrize("name", METHODS)
def test_each_method_is_documented(name: str) -> None:
    assert f"`{name}`" in (DOCS / "cli.md").read_text(encoding="utf-8")
    assert name in (SOURCE / "cli" / "commands" / "explain.py").read_text(encoding="utf-8")


def test_each_wrong_rule_is_documented() -> None:
    page, thoughts = (DOCS / "wrong-rules.md").read_text(encoding="utf-8").split("## As a thought only")
    with_number, _, unsettled = page.partition("## What is right about them")
    assert re.findall(r"^\| (M\d\d) \|", with_number, re.MULTILINE) == sorted(WRONG_RULES)
    assert set(re.findall(r"^\| (M\d\d) \|", unsettled, re.MULTILINE)) <= set(WRONG_RULES)
    assert not set(re.findall(r"^\| (M\d\d) \|", thoughts, re.MULTILINE)) & set(WRONG_RULES)
    named = {rule for path in SHELF.glob("*.rig") for rule in re.findall(r"M\d\d", path.read_text(encoding="utf-8"))}
    assert named <= set(WRONG_RULES) | set(re.findall(r"M\d\d", thoughts))


@pytest.mark.parametrize("unit", UNITS)
def test_each_unit_is_documented(unit: str) -> None:
    assert re.search(rf"(?<![\w/]){re.escape(unit)}(?![\w²])", (DOCS / "notation.md").read_text(encoding="utf-8"))


def test_nothing_registers_by_being_imported() -> None:
    """No module of the package calls another's `register` or fills a table that is not its own."""
    for name in modules():
        assert "register(" not in (SOURCE / name).read_text(encoding="utf-8"), name
