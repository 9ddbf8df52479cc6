"""`gantline bench`: a plan for showing a rig with what lies in the cupboard."""

import os
import sys
from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from gantline import api

from ..console import (
    FAILED,
    GOOD,
    PROBLEMS,
    Trouble,
    coloured,
    contents,
    missing,
    print_json,
    reason,
    rig,
    show_problems,
)
from .arguments import add_file, add_json, add_settings

if TYPE_CHECKING:
    from gantline.bench import Declined, Kit, Plan

HELP = "a plan for showing a rig with real rope: load, scale, cord, room, anchor, marks, steps, cautions"
EXAMPLES = """\
examples:
  gantline bench planter.rig                            with our sample kit
  gantline shelf kit -o kit.toml                        take the sample kit and write down your own
  gantline bench planter.rig --kit kit.toml -o plan     a page, its print and the record
  gantline bench planter.rig --laws                     only the usual rules for the loss, side by side
"""


def add(parser: ArgumentParser) -> None:
    add_file(parser)
    parser.add_argument("--kit", metavar="KIT", help="a .toml file of what there is; our sample kit if not given")
    parser.add_argument("-o", "--output", metavar="FOLDER", help="the folder to build; printed here if not given")
    parser.add_argument("--laws", action="store_true", help="only the rules for the loss in sheaves, side by side")
    add_json(parser)
    add_settings(parser)


def run(arguments: Namespace) -> int:
    machine = rig(arguments.file, arguments.settings, arguments.json)
    if machine is None:
        return PROBLEMS
    kit = _kit(arguments)
    if kit is None:
        return PROBLEMS
    from gantline.bench import Declined

    plan = api.bench(machine, kit)
    if isinstance(plan, Declined):
        return _declined(plan, arguments)
    if arguments.output:
        return _build(plan, arguments.output)
    _show(plan, arguments)
    return GOOD


def _kit(arguments: Namespace) -> "Kit | None":
    """The kit named, or our sample; None when its problems have been printed."""
    if arguments.kit is None:
        return api.sample_kit()
    kit, problems = api.read_kit(contents(arguments.kit))
    if problems:
        show_problems(problems, arguments.kit, arguments.json)
    return kit


def _declined(declined: "Declined", arguments: Namespace) -> int:
    if arguments.json:
        from gantline.output.bench_record import declined_record

        print_json(declined_record(declined))
    else:
        from gantline.output.bench_terminal import declined_text
        from gantline.output.plain import painter

        print(declined_text(declined, arguments.file, painter(coloured(sys.stderr))), file=sys.stderr)
    return FAILED


def _build(plan: "Plan", folder: str) -> int:
    from pathlib import Path

    from gantline.output.bench_folder import PAGE, build

    try:
        built = build(plan, Path(folder))
    except OSError as error:
        raise Trouble(f"cannot write {folder}: {reason(error)}", "Choose another folder with -o.") from error
    except ImportError as error:
        raise missing(error, "the print") from error
    for kept in built.kept:
        print(f"kept your {kept.file}; what would have been written is in {kept.beside}", file=sys.stderr)
    print(f"open {os.path.join(folder, PAGE)}")
    return GOOD


def _show(plan: "Plan", arguments: Namespace) -> None:
    from gantline.bench import laws_table, sheet
    from gantline.output.bench_record import laws_record, plan_record
    from gantline.output.bench_terminal import sheet_text, table_text
    from gantline.output.plain import painter

    paint = painter(coloured(sys.stdout))
    if arguments.json:
        print_json({"format": "gantline-bench/1", "laws": laws_record(plan)} if arguments.laws else plan_record(plan))
    elif arguments.laws:
        print(table_text(laws_table(plan.laws), paint))
    else:
        print(sheet_text(sheet(plan), paint))
