"""The strict type checker and the linter agree with the code."""

import subprocess
import sys

import pytest
from places import ROOT


@pytest.mark.parametrize(
    "words",
    [
        ("mypy", "--strict"),
        ("ruff", "check", "src", "tests", "tools"),
        ("ruff", "format", "--check", "src", "tests", "tools"),
    ],
    ids=" ".join,
)
def test_agrees(words: tuple[str, ...]) -> None:
    done = subprocess.run([sys.executable, "-m", *words], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
