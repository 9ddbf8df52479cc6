"""`gantline lesson`: a page to teach from."""

from argparse import ArgumentParser, Namespace

from gantline import api

from ..console import GOOD, PROBLEMS, progress, rig
from .arguments import add_settings

HELP = "a lesson over one rig or several: page, figures, script and printed solution in one folder"
EXAMPLES = """\
examples:
  gantline lesson planter.rig -o lesson
  gantline lesson runner.rig planter.rig -o two-tackles
"""


def add(parser: ArgumentParser) -> None:
    parser.add_argument("files", metavar="RIG", nargs="+", help=".rig files, in the order of the lesson")
    parser.add_argument("-o", "--output", metavar="FOLDER", required=True, help="the folder to build")
    add_settings(parser)


def run(arguments: Namespace) -> int:
    rigs = [rig(file, arguments.settings, json=False) for file in arguments.files]
    machines = [machine for machine in rigs if machine is not None]
    if len(machines) < len(rigs):
        return PROBLEMS
    page = api.lesson(machines, arguments.output, progress=progress())
    print(f"open {page}")
    return GOOD
