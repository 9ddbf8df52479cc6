"""`gantline lesson`: a page to teach from."""

import os
import sys
from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from gantline import api

from ..console import GOOD, PROBLEMS, Trouble, missing, progress, reason, rig, show_problems
from .arguments import add_settings

if TYPE_CHECKING:
    from gantline.output.lesson_folder import Made
    from gantline.rig import Rig

HELP = "a lesson over one rig or several: page, figures, script and printed solution in one folder"
EXAMPLES = """\
examples:
  gantline lesson planter.rig -o lesson
  gantline lesson runner.rig planter.rig -o two-tackles
"""


def add(parser: ArgumentParser) -> None:
    parser.add_argument("files", metavar="RIG", nargs="+", help=".rig files, in the order of the lesson")
    parser.add_argument("-o", "--output", metavar="FOLDER", required=True, help="the folder to build")
    parser.add_argument("--title", default="", help="of the lesson; made from the rigs if not given")
    add_settings(parser)


def run(arguments: Namespace) -> int:
    rigs = [rig(file, arguments.settings, json=False) for file in arguments.files]
    machines = [machine for machine in rigs if machine is not None]
    if len(machines) < len(rigs):
        return PROBLEMS
    made = _made(machines, arguments)
    for kept in made.kept:
        print(f"kept your {kept.file}; what would have been written is in {kept.beside}", file=sys.stderr)
    if made.problems:
        show_problems(made.problems, f"{arguments.output}/script.md", json=False)
    print(f"open {os.path.join(arguments.output, made.page.name)}")
    return GOOD


def _made(machines: "list[Rig]", arguments: Namespace) -> "Made":
    from gantline.figure import NotDrawable

    tell = progress()
    try:
        return api.lesson(machines, arguments.output, title=arguments.title, progress=tell)
    except NotDrawable as error:
        raise Trouble(f"no lesson: {error.sentence}", "gantline solve needs no figure.") from error
    except OSError as error:
        raise Trouble(f"cannot write {arguments.output}: {reason(error)}", "Choose another folder with -o.") from error
    except ImportError as error:
        raise missing(error, "a lesson", "png,pdf") from error
    finally:
        tell("")
