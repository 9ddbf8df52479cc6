"""`gantline shelf`: the ready rigs."""

import os
import sys
from argparse import ArgumentParser, Namespace

from gantline.output.plain import painter

from ..console import GOOD, Trouble, coloured, print_json, save

HELP = "the ready rigs: lists them with what they teach, and copies one, or the samples of the bench"
EXAMPLES = """\
examples:
  gantline shelf                            all of them
  gantline shelf burton                     those that speak of a burton
  gantline shelf planter -o planter.rig     a copy of one
  gantline shelf kit -o kit.toml            the sample kit of the bench
  gantline shelf readings -o readings.csv   sample readings of the planter's tackle, simulated
  gantline shelf --json
"""
SAMPLES = {"kit": "kit.toml", "readings": "readings.csv"}  # of the bench; they are no rigs
SHELF = os.path.join(os.path.dirname(__file__), "..", "..", "shelf")


def add(parser: ArgumentParser) -> None:
    parser.add_argument("words", metavar="WORD", nargs="*", help="a rig's name, or words to look for")
    parser.add_argument("-o", "--output", metavar="FILE", help="copy the rig of that name; - prints it")
    parser.add_argument("--json", action="store_true", help="the list that programs read")


def run(arguments: Namespace) -> int:
    if arguments.output:
        return _copy(" ".join(arguments.words), arguments.output)
    entries = [entry for entry in map(head, sorted(ready())) if _speaks_of(entry, arguments.words)]
    if arguments.json:
        print_json({"format": "gantline-shelf/1", "rigs": entries})
    elif entries:
        paint = painter(coloured(sys.stdout))
        for entry in entries:
            print(f"{paint('strong', entry['name'])}\n  {entry['teaches']}\n  {paint('quiet', entry['wrong_ideas'])}")
    else:
        raise Trouble(f"no rig on the shelf speaks of {' '.join(arguments.words)}", "See them all with gantline shelf.")
    return GOOD


def ready() -> list[str]:
    """The names of the ready rigs."""
    return [file.removesuffix(".rig") for file in os.listdir(SHELF) if file.endswith(".rig")]


def head(name: str) -> dict[str, str]:
    """What a ready rig says of itself: its name, and the two lines at its head."""
    lines = _data(name).decode("utf-8").splitlines()
    said = dict(line[2:].split(": ", 1) for line in lines if line.startswith(("# Teaches: ", "# Wrong ideas: ")))
    return {"name": name, "teaches": said["Teaches"], "wrong_ideas": said["Wrong ideas"]}


def _data(name: str) -> bytes:
    with open(os.path.join(SHELF, SAMPLES.get(name, f"{name}.rig")), "rb") as file:
        return file.read()


def _speaks_of(entry: dict[str, str], words: list[str]) -> bool:
    said = " ".join(entry.values()).lower()
    return all(word.lower() in said for word in words)


def _copy(name: str, output: str) -> int:
    if name not in (*ready(), *SAMPLES):
        raise Trouble(f"no rig on the shelf is called {name!r}", _near(name))
    if output == "-":
        sys.stdout.write(_data(name).decode("utf-8"))
    elif os.path.exists(output):
        raise Trouble(f"{output} is there already", "Choose another name with -o, or remove it first.")
    else:
        save(output, _data(name))
    return GOOD


def _near(name: str) -> str:
    from difflib import get_close_matches

    near = get_close_matches(name, ready(), 1)
    return f"Did you mean {near[0]}?" if near else "See the names with gantline shelf."
