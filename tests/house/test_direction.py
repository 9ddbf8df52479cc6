"""Upper storeys use lower ones, never the reverse; and the absences that DESIGN promises."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest
from places import ROOT, imports, modules

OPTIONAL = {"pyvips", "typst"}
LAB = ("scipy", "bench/measured/")  # statistics, and where alone they are
FILES = {"open", "read_text", "read_bytes", "write_text", "write_bytes", "unlink", "mkdir", "rename", "replace_file"}
MAY_TOUCH_FILES = ("cli/", "loft/", "output/", "api.py", "figure/words.py")  # the last reads the widths of the typeface


def test_the_storeys_hold() -> None:
    linter = Path(sys.executable).with_name("lint-imports")
    done = subprocess.run([linter, "--no-cache"], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize("name", modules())
def test_nobody_inside_uses_the_front_door(name: str) -> None:
    for node in ast.walk(modules()[name]):
        if isinstance(node, ast.ImportFrom) and node.module == "gantline" and node.level == 0:
            assert {alias.name for alias in node.names} <= {"api"}, f"{name}:{node.lineno} imports the front door"
        if isinstance(node, ast.Import):
            assert "gantline" not in {alias.name for alias in node.names}, f"{name}:{node.lineno}"


@pytest.mark.parametrize("name", modules())
def test_another_folder_is_entered_by_its_front(name: str) -> None:
    """`from gantline.rig import Rig`, never `from gantline.rig.rig`; output is a folder of single formats."""
    folder = name.split("/")[0]
    for module in imports(modules()[name]):
        parts = module.split(".")
        if parts[0] == "gantline" and len(parts) > 2 and parts[1] != folder:
            assert parts[1] == "output", f"{name} reaches into {module}"


@pytest.mark.parametrize("name", modules())
def test_optional_packages_are_imported_by_one_format_inside_a_function(name: str) -> None:
    tree = modules()[name]
    top = [node for node in tree.body if isinstance(node, ast.Import | ast.ImportFrom)]
    anywhere = {module.split(".")[0] for module in imports(tree)}
    at_top = {module.split(".")[0] for node in top for module in imports(node)}
    assert not anywhere & OPTIONAL or name.startswith("output/"), f"{name} imports an optional package"
    assert not at_top & OPTIONAL, f"{name} imports an optional package before it is needed"


@pytest.mark.parametrize("name", modules())
def test_statistics_are_loaded_only_where_something_is_measured(name: str) -> None:
    package, folder = LAB
    tree = modules()[name]
    top = [node for node in tree.body if isinstance(node, ast.Import | ast.ImportFrom)]
    assert package not in {module.split(".")[0] for node in top for module in imports(node)}
    assert name.startswith(folder) or package not in {module.split(".")[0] for module in imports(tree)}


@pytest.mark.parametrize("name", modules())
def test_only_the_skins_touch_files(name: str) -> None:
    if name.startswith(MAY_TOUCH_FILES):
        return
    for node in ast.walk(modules()[name]):
        if isinstance(node, ast.Call):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            assert called not in FILES, f"{name}:{node.lineno} touches files with {called}()"


def test_the_model_holds_no_coordinate_and_no_solved_number() -> None:
    forbidden = {"x", "y", "tension", "force", "acceleration", "position"}
    for name, tree in modules().items():
        if name.startswith("rig/"):
            targets = [node.target for node in ast.walk(tree) if isinstance(node, ast.AnnAssign)]
            fields = {target.id for target in targets if isinstance(target, ast.Name)}
            assert not fields & forbidden, f"{name} holds {fields & forbidden}"


@pytest.mark.parametrize("name", modules())
def test_only_the_loft_knows_the_network_and_it_only_answers(name: str) -> None:
    asks = {"urllib.request", "http.client", "requests", "httpx", "ssl", "ftplib", "smtplib"}
    answers = {"socket", "http", "urllib", "webbrowser", "starlette", "uvicorn"}
    found = {module for module in imports(modules()[name]) if not module.startswith(".")}
    assert not found & asks, name
    assert name.startswith("loft/") or not {module.split(".")[0] for module in found} & (answers | asks), name
