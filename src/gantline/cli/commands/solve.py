"""`gantline solve`: the answer."""

import sys
from argparse import ArgumentParser, Namespace

from gantline import api

from ..console import GOOD, PROBLEMS, coloured, print_json, rig
from .arguments import add_file, add_json, add_settings

HELP = "the exact answer with its formula, on one screen"
EXAMPLES = """\
examples:
  gantline solve planter.rig
  gantline solve planter.rig --json
  gantline solve planter.rig --set lower.weight=20N --set planter.weight=500N
  cat planter.rig | gantline solve -
"""


def add(parser: ArgumentParser) -> None:
    add_file(parser)
    add_json(parser)
    add_settings(parser)


def run(arguments: Namespace) -> int:
    machine = rig(arguments.file, arguments.settings, arguments.json)
    if machine is None:
        return PROBLEMS
    solved = api.solve(machine)
    if arguments.json:
        print_json(solved.record())
    else:
        from gantline.output.plain import painter
        from gantline.output.terminal import answer_text

        print(answer_text(solved.rig, solved.answer, solved.says, painter(coloured(sys.stdout))))
    return GOOD
