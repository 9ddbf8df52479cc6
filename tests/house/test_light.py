"""A command that needs nothing heavy loads nothing heavy: a fresh interpreter is asked what it has loaded."""

import json
import subprocess
import sys

import pytest
from places import SHELF

HEAVY = {
    "numpy", "flint", "highspy", "pyvips", "typst", "rich", "sympy", "importlib.metadata", "email", "asyncio",
    "dataclasses", "gantline.mechanics.solver", "gantline.figure", "gantline.account",
}  # fmt: skip
ASK = """\
import json, sys
from gantline.cli import main
try:
    main({argv})
except SystemExit:
    pass
"""
TELL = "print('\\n' + json.dumps(sorted(sys.modules)))"


def loaded(code: str) -> set[str]:
    done = subprocess.run([sys.executable, "-c", code + TELL], capture_output=True, text=True, check=True)
    return set(json.loads(done.stdout.splitlines()[-1]))


@pytest.mark.parametrize(
    "argv", [["--help"], ["shelf"], ["shelf", "planter", "-o", "-"], ["solve", "--help"]], ids=" ".join
)
def test_light_commands_stay_light(argv: list[str]) -> None:
    assert not loaded(ASK.format(argv=argv)) & HEAVY


def test_the_version_loads_nothing_of_the_house_but_the_skin() -> None:
    assert not loaded(ASK.format(argv=["--version"])) & (HEAVY - {"importlib.metadata", "email", "dataclasses"})


def test_tidy_needs_no_physics() -> None:
    command = ["tidy", "--stdout", str(SHELF / "planter.rig")]
    assert not loaded(ASK.format(argv=command)) & HEAVY


def test_the_front_door_is_light() -> None:
    assert not loaded("import gantline, json, sys\n") & (HEAVY | {"msgspec", "gantline.api"})


def test_solving_needs_neither_figures_nor_arrays() -> None:
    command = ["solve", "--json", str(SHELF / "planter.rig")]
    assert not loaded(ASK.format(argv=command)) & {"numpy", "highspy", "gantline.figure.draw", "pyvips", "typst"}
