"""`gantline tidy`: a file in its one tidy form."""

import sys
from argparse import ArgumentParser, Namespace

from gantline import api

from ..console import FAILED, GOOD, PROBLEMS, contents, save, show_problems
from .arguments import add_file

HELP = "a file in its one tidy form: columns aligned, nothing else changed"
EXAMPLES = """\
examples:
  gantline tidy planter.rig             tidies it where it lies
  gantline tidy planter.rig --check     says whether it is tidy, changes nothing
  gantline tidy planter.rig --stdout    prints it, changes nothing
"""


def add(parser: ArgumentParser) -> None:
    add_file(parser)
    how = parser.add_mutually_exclusive_group()
    how.add_argument("--check", action="store_true", help="exit status 1 where the file is not tidy")
    how.add_argument("--stdout", action="store_true", help="print instead of writing")


def run(arguments: Namespace) -> int:
    before = contents(arguments.file)
    after, problems = api.tidy(before)
    if after is None:
        show_problems(problems, arguments.file, json=False)
        return PROBLEMS
    if arguments.stdout or arguments.file == "-":
        sys.stdout.write(after)
    elif after.encode() != before:
        return _change(arguments.file, after, arguments.check)
    return GOOD


def _change(file: str, after: str, only_check: bool) -> int:
    if only_check:
        print(f"{file} is not tidy; gantline tidy {file} makes it so", file=sys.stderr)
        return FAILED
    save(file, after.encode())
    print(f"tidied {file}", file=sys.stderr)
    return GOOD
