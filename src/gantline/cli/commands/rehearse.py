"""`gantline rehearse`: a page to speak a film at."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from gantline import api
from gantline.problems import Problem

from ..console import GOOD, PROBLEMS, Trouble, contents, rig, save, show_problems
from .arguments import add_settings

if TYPE_CHECKING:
    from gantline.rig import Rig

HELP = "a page to speak a film at, step by step: it records your voice and when each step begins"
EXAMPLES = """\
examples:
  gantline rehearse planter.rig -o rehearse.html     open it, speak, save its two files
  gantline film planter.rig -o film --voice planter.wav --taps planter.taps.json
  gantline rehearse planter.rig -o rehearse.html --script lesson/script.md
"""
LEVELS = ("lower", "middle", "upper")


def add(parser: ArgumentParser) -> None:
    parser.add_argument("files", metavar="RIG", nargs="+", help=".rig files, in the order of the film")
    parser.add_argument("-o", "--output", metavar="FILE", required=True, help="the page, FILE.html")
    parser.add_argument("--script", metavar="FILE", help="the words to say, as a lesson's script.md")
    parser.add_argument("--level", choices=LEVELS, default="middle", help="of the learners; middle if not given")
    parser.add_argument("--title", default="", help="of the film; made from the rigs if not given")
    add_settings(parser)


def run(arguments: Namespace) -> int:
    if not arguments.output.endswith(".html"):
        raise Trouble(f"cannot write a page as {arguments.output}", "End its name in .html.")
    rigs = [rig(file, arguments.settings, json=False) for file in arguments.files]
    machines = [machine for machine in rigs if machine is not None]
    if len(machines) < len(rigs):
        return PROBLEMS
    script = contents(arguments.script) if arguments.script else b""
    page, problems = _page(machines, arguments, script)
    if problems:
        show_problems(problems, arguments.script, json=False)
    save(arguments.output, page.encode("utf-8"))
    print(f"open {arguments.output}")
    return GOOD


def _page(machines: "list[Rig]", arguments: Namespace, script: bytes) -> tuple[str, tuple[Problem, ...]]:
    from gantline.figure import NotDrawable
    from gantline.output.film_acts import NoAccount

    name = "voice" if len(machines) > 1 or arguments.files[0] == "-" else Path(arguments.files[0]).stem
    try:
        return api.rehearsal(machines, level=arguments.level, title=arguments.title, script=script, name=name)
    except (NotDrawable, NoAccount) as error:
        raise Trouble(f"nothing to rehearse: {error.sentence}", "gantline solve needs no figure.") from error
