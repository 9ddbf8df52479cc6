"""Runs what the documents show: every `$ gantline ...` of a console block, every Python block, in order, in one folder.

`python tools/docs.py` writes what the commands say into the documents; the tests only compare.
"""

import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
PAGES = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
BLOCK = re.compile(r"^```(console|python)\n(.*?)^```$", re.DOTALL | re.MULTILINE)
COMMAND = re.compile(r"^\$ (.*?)(?:\s+# exit status (\d+))?$")


def replayed(page: Path) -> str:
    """The page with every console block as it really runs. Raises where a command ends otherwise than the page says."""
    with tempfile.TemporaryDirectory() as folder:
        return BLOCK.sub(
            lambda block: f"```{block[1]}\n{_replay(block[1], block[2], folder)}```", page.read_text("utf-8")
        )


def commands(page: Path) -> list[str]:
    """Every command a page shows."""
    return [command for kind, text, _ in _blocks(page) if kind == "console" for command, _, _ in _console(text)]


def _blocks(page: Path) -> list[tuple[str, str, int]]:
    return [(block[1], block[2], block.start()) for block in BLOCK.finditer(page.read_text("utf-8"))]


def _replay(kind: str, text: str, folder: str) -> str:
    if kind == "python":
        _run([sys.executable, "-c", text], folder, 0)
        return text
    return "".join(_line(command, status, said, folder) for command, status, said in _console(text))


def _line(command: str, status: int, said: str, folder: str) -> str:
    shown = _run(["bash", "-c", command], folder, status)
    note = f"  # exit status {status}" if status else ""
    return f"$ {command}{note}\n{shown if said else ''}"


def _console(text: str) -> Iterator[tuple[str, int, str]]:
    """Each command of a block, the status it ends with, and what it says; nothing said means: do not compare."""
    for part in re.split(r"^(?=\$ )", text, flags=re.MULTILINE):
        if part.strip():
            first, _, said = part.partition("\n")
            match = COMMAND.match(first)
            if match is None:
                raise ValueError(f"not a command: {first}")
            yield match[1], int(match[2] or 0), said


def _run(words: list[str], folder: str, status: int) -> str:
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    environment = {**os.environ, "PATH": path, "NO_COLOR": "1", "COLUMNS": "100"}
    done = subprocess.run(words, cwd=folder, env=environment, capture_output=True, text=True, check=False)
    if done.returncode != status:
        raise RuntimeError(f"{words[-1]} ended with {done.returncode}, not {status}:\n{done.stdout}{done.stderr}")
    return done.stdout + done.stderr


if __name__ == "__main__":
    for page in PAGES:
        page.write_text(replayed(page), "utf-8")
