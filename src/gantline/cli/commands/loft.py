"""`gantline loft`: the page where rigs are made and shown."""

from argparse import ArgumentParser, Namespace

from ..console import GOOD, Trouble, missing

HELP = "a page on this machine where rigs are made by hand, seen, and presented"
EXAMPLES = """\
examples:
  gantline loft                             the rigs of this folder
  gantline loft planter.rig                 one rig, in its folder
  gantline loft rigs --port 8000 --no-browser
  gantline loft rigs --listen 192.0.2.7     for others in this network: read docs/loft.md first
"""


def add(parser: ArgumentParser) -> None:
    parser.add_argument("where", metavar="FILE|FOLDER", nargs="?", default=".", help="this folder if not given")
    parser.add_argument("--port", type=int, help="8347, or the next free one, if not given")
    parser.add_argument("--no-browser", action="store_true", help="print the address and open nothing")
    parser.add_argument(
        "--listen", metavar="ADDRESS", help="of this machine, to serve others; only this machine if not given"
    )
    parser.add_argument(
        "--name", metavar="ORIGIN", action="append", default=[],
        help="an address people will type, as in https://loft.example; may be given several times",
    )  # fmt: skip
    parser.add_argument("--token", metavar="FILE", help="a file that holds the token; a fresh one if not given")


def run(arguments: Namespace) -> int:
    try:
        from gantline.loft import NotStarted, Opened, start
    except ImportError as error:
        raise missing(error, "the loft") from error
    asked = Opened(
        arguments.where, arguments.port, arguments.listen, tuple(arguments.name), arguments.token,
        not arguments.no_browser,
    )  # fmt: skip
    try:
        start(asked, lambda words: print(words, flush=True))
    except NotStarted as trouble:
        raise Trouble(trouble.says, trouble.do) from trouble
    except ImportError as error:
        raise missing(error, "the loft") from error
    return GOOD
