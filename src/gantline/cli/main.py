"""Entry: the parser, and the guard that lets no traceback through."""

import argparse
import os
import sys
from collections.abc import Sequence
from typing import NoReturn

from .commands import COMMANDS
from .console import FAILED, INTERNAL, INTERRUPTED, UNREAD, Trouble

EXAMPLES = """\
examples:
  gantline shelf                                ready rigs, with what each teaches
  gantline shelf planter -o planter.rig         take one
  gantline solve planter.rig                    the answer on one screen
  gantline solve planter.rig --set lower.weight=20N
  gantline explain planter.rig                  why, step by step
  gantline draw planter.rig --view cut -o cut.svg
  gantline lesson planter.rig -o lesson         a page to teach from
  gantline film planter.rig -o film             the same as a video
  gantline rehearse planter.rig -o speak.html   a page to speak the film at
  gantline trial planter.rig                    what is really seen when it is hauled
  gantline measure planter.rig readings.csv     what readings of a real tackle say

exit status: 0 an answer of any kind; 1 it could not be done; 2 the file has problems, or the command is not one
"""


def main(argv: Sequence[str] | None = None) -> int:
    """Runs one command; returns the exit status. Never raises, save SystemExit from the parser."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    try:
        arguments = parser().parse_args(argv)
        status: int = arguments.run(arguments)
        sys.stdout.flush()
        return status
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # nobody reads on: nothing more to say
        return UNREAD
    except KeyboardInterrupt:
        return INTERRUPTED
    except Trouble as trouble:
        return _say(f"gantline: {trouble.says}\n  do   {trouble.do}", FAILED)
    except Exception as error:
        return _say(_apology(error), INTERNAL)


def parser() -> argparse.ArgumentParser:
    """The whole command line."""
    top = _Parser(
        prog="gantline",
        description="Rope-and-pulley machines, from a few words to a lesson.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action=_Version, nargs=0, help="print the version and leave")
    commands = top.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for name, command in COMMANDS.items():
        below = commands.add_parser(
            name,
            help=command.HELP,
            description=command.HELP[0].upper() + command.HELP[1:] + ".",
            epilog=command.EXAMPLES,
            formatter_class=argparse.RawDescriptionHelpFormatter,
        )
        command.add(below)
        below.set_defaults(run=command.run)
    return top


class _Version(argparse.Action):
    """Looks the version up only when it is asked for: reading package metadata would slow every start."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> NoReturn:
        from importlib.metadata import version

        print(f"gantline {version('gantline')}")
        parser.exit()


class _Parser(argparse.ArgumentParser):
    """An argument parser whose complaint says what to do next."""

    def error(self, message: str) -> NoReturn:
        from gantline.output.plain import printable

        self.exit(2, f"{self.prog}: {printable(message)}\n  do   See {self.prog} --help\n")


def _say(words: str, status: int) -> int:
    from gantline.output.plain import printable

    print("\n".join(map(printable, words.splitlines())), file=sys.stderr)
    return status


def _apology(error: Exception) -> str:
    """One kind line about a mistake of ours, with the place, so that it can be mended; its trace if asked for."""
    import traceback

    if os.environ.get("GANTLINE_TRACE"):
        traceback.print_exc()
    frames = traceback.extract_tb(error.__traceback__)
    place = f"{os.path.basename(frames[-1].filename)}, line {frames[-1].lineno}" if frames else "unknown place"
    return (
        f"gantline: a mistake of ours, not of yours ({type(error).__name__} at {place})\n"
        "  do   Please report this line together with your .rig file; GANTLINE_TRACE=1 adds the whole trace."
    )
