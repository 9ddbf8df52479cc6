"""`gantline draw`: a figure."""

import sys
from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from gantline import api

from ..console import GOOD, PROBLEMS, Trouble, missing, rig, save
from .arguments import add_file, add_settings, length

if TYPE_CHECKING:
    from gantline.rig import Rig

HELP = "the figure of a rig, in one of its views, as SVG or PNG"
EXAMPLES = """\
views:
  bare, labelled, numbered, cut, free-body, displacement, tensions, motion, as-built, tried

examples:
  gantline draw planter.rig --view labelled -o planter.svg
  gantline draw planter.rig --view free-body --part lower -o lower.png
  gantline draw planter.rig --view cut --theme dark -o cut.svg
  gantline draw planter.rig --view tried --hand 20mm -o tried.svg
"""
THEMES = ("light", "dark", "grey")


def add(parser: ArgumentParser) -> None:
    add_file(parser)
    parser.add_argument("--view", metavar="NAME", default="bare", help="what the figure shows; bare if not given")
    parser.add_argument("-o", "--output", metavar="FILE", required=True, help="FILE.svg or FILE.png; - prints the SVG")
    parser.add_argument("--theme", choices=THEMES, default="light", help="light if not given")
    parser.add_argument("--part", metavar="NAME", action="append", help="ink only this part; may be repeated")
    parser.add_argument("--hand", metavar="LENGTH", help="rope taken up in the view tried, as in 20mm")
    parser.add_argument("--width", metavar="PIXELS", type=int, default=1200, help="of a PNG; 1200 if not given")
    add_settings(parser)


def run(arguments: Namespace) -> int:
    if arguments.output != "-" and not arguments.output.endswith((".svg", ".png")):
        raise Trouble(f"cannot draw {arguments.output}", "End its name in .svg or .png.")
    machine = rig(arguments.file, arguments.settings, json=False)
    if machine is None:
        return PROBLEMS
    plate = _plate(machine, arguments)
    if arguments.output == "-":
        sys.stdout.write(plate.svg())
    elif arguments.output.endswith(".svg"):
        save(arguments.output, plate.svg().encode())
    else:
        save(arguments.output, _png(plate, arguments.width))
    return GOOD


def _plate(machine: "Rig", arguments: Namespace) -> api.Plate:
    from gantline.figure import NotDrawable

    try:
        hand = None if arguments.hand is None else length(arguments.hand, "--hand")
        return api.draw(machine, arguments.view, theme=arguments.theme, lit=arguments.part, hand=hand)
    except ValueError as error:
        raise Trouble(str(error), "See gantline draw --help for the views.") from error
    except NotDrawable as error:
        raise Trouble(f"no figure: {error.sentence}", "Another view may do; gantline solve needs no figure.") from error


def _png(plate: api.Plate, width: int) -> bytes:
    try:
        return plate.png(width)
    except ImportError as error:
        raise missing(error, "PNG") from error
