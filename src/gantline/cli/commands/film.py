"""`gantline film`: a video in the tutor's words."""

import errno
import os
import sys
from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from gantline import api

from ..console import GOOD, PROBLEMS, Trouble, contents, missing, progress, reason, rig, show_problems
from .arguments import add_settings

if TYPE_CHECKING:
    from gantline.output.film_folder import Made
    from gantline.rig import Rig

HELP = "a film over one rig or several: video with captions and chapters, transcript, a still of every step"
EXAMPLES = """\
examples:
  gantline film planter.rig -o film
  gantline film runner.rig planter.rig -o film --format upright --theme dark
  gantline film planter.rig -o film --script lesson/script.md
  gantline film planter.rig -o film --voice voice.wav --taps voice.taps.json
  gantline film planter.rig -o draft --size 360 --only mp4       a quick draft
"""
FORMATS, THEMES, LEVELS, SIZES = ("level", "square", "upright"), ("light", "dark"), ("lower", "middle", "upper"), 90


def add(parser: ArgumentParser) -> None:
    parser.add_argument("files", metavar="RIG", nargs="+", help=".rig files, in the order of the film")
    parser.add_argument("-o", "--output", metavar="FOLDER", required=True, help="the folder to build")
    parser.add_argument("--format", choices=FORMATS, default="level", help="16:9, 1:1 or 9:16; level if not given")
    parser.add_argument("--size", metavar="PIXELS", type=int, default=1080,
                        help="of the short side, as 1080 or 2160; 1080 if not given")  # fmt: skip
    parser.add_argument("--theme", choices=THEMES, default="light", help="light if not given")
    parser.add_argument("--level", choices=LEVELS, default="middle",
                        help="of the learners: how fast it is said and read; middle if not given")  # fmt: skip
    parser.add_argument("--only", choices=("mp4", "webm"), help="one kind of video; both if not given")
    parser.add_argument("--title", default="", help="of the film; made from the rigs if not given")
    parser.add_argument("--script", metavar="FILE",
                        help="the words to say, as a lesson's script.md; FOLDER/script.md if it is there")  # fmt: skip
    voices = parser.add_mutually_exclusive_group()
    voices.add_argument("--voice", metavar="FILE", help="a recording, which the film is cut to; see gantline rehearse")
    voices.add_argument("--scratch-voice", action="store_true",
                        help="a machine's voice for a draft, where espeak-ng is installed")  # fmt: skip
    parser.add_argument("--taps", metavar="FILE",
                        help="where the steps begin in the recording; told from its pauses if not given")  # fmt: skip
    parser.add_argument("--cache", metavar="FOLDER", help="where drawn shots are kept; the user's cache if not given")
    add_settings(parser)


def run(arguments: Namespace) -> int:
    if not SIZES <= arguments.size <= 2160 or arguments.size % 2:
        raise Trouble(f"--size {arguments.size} will not do", f"Name an even number from {SIZES} to 2160.")
    if arguments.taps and not arguments.voice:
        raise Trouble("--taps are of no recording", "Name that with --voice.")
    if arguments.script:
        contents(arguments.script)  # to say now that it cannot be read
    rigs = [rig(file, arguments.settings, json=False) for file in arguments.files]
    machines = [machine for machine in rigs if machine is not None]
    if len(machines) < len(rigs):
        return PROBLEMS
    made = _made(machines, arguments)
    if made is None:
        return PROBLEMS
    for kept in made.kept:
        print(f"kept your {kept.file}; what would have been written is in {kept.beside}", file=sys.stderr)
    for problems, file in ((made.unsaid, made.script), (made.problems, "the film")):
        if problems:
            show_problems(problems, file, json=False)
    if made.starts:
        _show_starts(made.starts, arguments)
    print(f"watch {os.path.join(arguments.output, made.film.name)}")
    return GOOD


def _show_starts(starts: str, arguments: Namespace) -> None:
    """Where the steps begin by the pauses, for the tutor to look through."""
    from gantline.output.plain import printable

    print("\n".join(map(printable, starts.splitlines())), file=sys.stderr)
    taps = os.path.join(arguments.output, "taps.json")
    print(f"told from the pauses, doubtful where ? stands: mend {taps}, then add --taps {taps}", file=sys.stderr)


def _not_written(arguments: Namespace, error: OSError) -> Trouble:
    """A film is drawn in one place and built in another: a full disk may be that of either."""
    if error.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
        kept = arguments.cache or "the user's cache"
        return Trouble(
            f"no film: {reason(error)}, in {arguments.output} or where drawn shots are kept ({kept})",
            "Make room, or name other places with -o and --cache; what is drawn already is used again.",
        )
    return Trouble(f"cannot write {arguments.output}: {reason(error)}", "Choose another folder with -o.")


def _made(machines: "list[Rig]", arguments: Namespace) -> "Made | None":
    """The film, or None where its voice has problems, which have been printed."""
    from gantline.figure import NotDrawable
    from gantline.output.film_acts import NoAccount
    from gantline.output.narration import NoVoice

    tell = progress()
    try:
        return api.film(
            machines, arguments.output, format=arguments.format, size=arguments.size, theme=arguments.theme,
            level=arguments.level, kinds=(arguments.only,) if arguments.only else ("mp4", "webm"),
            title=arguments.title, script=arguments.script, cache=arguments.cache, voice=arguments.voice,
            taps=arguments.taps, scratch=arguments.scratch_voice, progress=tell,
        )  # fmt: skip
    except NoVoice as error:
        show_problems(error.problems, error.file, json=False)
        return None
    except (NotDrawable, NoAccount) as error:
        raise Trouble(f"no film: {error.sentence}", "gantline solve needs no figure and no account.") from error
    except OSError as error:
        raise _not_written(arguments, error) from error
    except ImportError as error:
        raise missing(error, "a film", "film") from error
    finally:
        tell("")
