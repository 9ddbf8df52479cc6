"""Runs the command line in this process, or in a fresh one where that is the point."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace
from typing import Any

SHELF = Path(__file__).parents[2] / "src" / "gantline" / "shelf"
PLANTER = str(SHELF / "planter.rig")


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


def run(capsys: Any, *words: str) -> SimpleNamespace:
    """The status, standard output and standard error of one command."""
    from gantline.cli import main

    try:
        status = main(words)
    except SystemExit as exit:
        status = int(exit.code or 0)
    out, err = capsys.readouterr()
    return SimpleNamespace(status=status, out=out, err=err)


def record(capsys: Any, *words: str) -> dict[str, Any]:
    """What a command with --json says."""
    return json.loads(run(capsys, *words, "--json").out)


def fresh(*words: str, **options: Any) -> subprocess.CompletedProcess[bytes]:
    """The command in a new interpreter."""
    environment = {**os.environ, **options.pop("environment", {})}
    return subprocess.run(
        [sys.executable, "-m", "gantline", *words],
        capture_output=True,
        check=False,
        timeout=60,
        env=environment,
        **options,
    )
