"""`gantline explain`: why, step by step."""

import sys
from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from gantline import api

from ..console import GOOD, PROBLEMS, Trouble, coloured, print_json, rig
from .arguments import add_file, add_json, add_settings

if TYPE_CHECKING:
    from gantline.account import Account, Refusal

HELP = "the answer explained, step by step, by the method that fits best or the one you name"
EXAMPLES = """\
examples:
  gantline explain planter.rig
  gantline explain planter.rig --method work
  gantline explain planter.rig --json
"""


def add(parser: ArgumentParser) -> None:
    add_file(parser)
    parser.add_argument("--method", metavar="ID", help="count, free-body, carry, rope-length, work, stages or newton")
    add_json(parser)
    add_settings(parser)


def run(arguments: Namespace) -> int:
    machine = rig(arguments.file, arguments.settings, arguments.json)
    if machine is None:
        return PROBLEMS
    account, *others = _wanted(api.solve(machine), arguments.method)
    if arguments.json:
        from gantline.output.record import account_record

        print_json(account_record(machine.title, account, others))
    else:
        from gantline.output.plain import painter
        from gantline.output.terminal import account_text

        print(account_text(account, others, painter(coloured(sys.stdout))))
    return GOOD


def _wanted(solved: api.Solved, method: str | None) -> "list[Account | Refusal]":
    """The account asked for, then what all other methods say; none of them where one is asked for by name."""
    if method is None:
        return list(api.accounts(solved))
    try:
        return [api.explain(solved, method)]
    except ValueError as error:
        raise Trouble(str(error), "See gantline explain --help for the methods.") from error
