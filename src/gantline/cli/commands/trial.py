"""`gantline trial`: what is really seen when the rig is hauled."""

import sys
from argparse import ArgumentParser, Namespace

from gantline import api

from ..console import GOOD, PROBLEMS, coloured, print_json, rig
from .arguments import add_file, add_json, add_settings, length

HELP = "what is really seen when it is hauled: stretch, tilt, what starts when, the pull up and down"
EXAMPLES = """\
examples:
  gantline trial planter.rig
  gantline trial planter.rig --hand 10mm,20mm,50mm
  gantline trial planter.rig --hand 10mm,20mm,50mm --json
  gantline trial planter.rig --way lowering --top 60mm --hand 50mm,20mm
  gantline trial planter.rig --set lower.hook=80mm --set fall.stiffness=5kN
"""


def add(parser: ArgumentParser) -> None:
    add_file(parser)
    parser.add_argument(
        "--hand", metavar="LENGTHS", help="hand travels to read at, as in 10mm,20mm,50mm (else 10, 20, 50 and 100 mm)"
    )
    parser.add_argument(
        "--way", choices=api.WAYS, default="raising",
        help="raising from the floor, lowering from the top, or a second pull after both",
    )  # fmt: skip
    parser.add_argument("--top", metavar="LENGTH", help="how far it is hauled before it is lowered (else the longest)")
    parser.add_argument("--low", metavar="LENGTH", help="how far it is let out again before a second pull")
    add_json(parser)
    add_settings(parser)


def run(arguments: Namespace) -> int:
    hand = [length(each, "--hand") for each in arguments.hand.split(",")] if arguments.hand else None
    top, low = (length(said, f"--{name}") if (said := getattr(arguments, name)) else None for name in ("top", "low"))
    machine = rig(arguments.file, arguments.settings, arguments.json)
    if machine is None:
        return PROBLEMS
    tried = api.trial(machine, hand, way=arguments.way, top=top, low=low)
    if arguments.json:
        print_json(tried.record())
    else:
        from gantline.output.plain import painter
        from gantline.output.trial_text import trial_text

        print(trial_text(tried.rig, tried.trial, painter(coloured(sys.stdout))))
    return GOOD
