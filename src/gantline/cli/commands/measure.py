"""`gantline measure`: what readings of a real tackle say."""

import re
import sys
from argparse import ArgumentParser, Namespace

from gantline import api

from ..console import GOOD, PROBLEMS, Trouble, coloured, print_json, reason, rig, show_problems
from .arguments import add_json, add_settings

HELP = "from readings raising and lowering: efficiency, block weight, drag and zero, with a lab report"
EXAMPLES = """\
The table is CSV as a spreadsheet saves it, with headings such as: load (g), raise (N), lower (N), hand travel (cm),
load travel (cm), block (g), zero (N). Rows may repeat; what else stands in it is neither read nor kept.

examples:
  gantline measure planter.rig readings.csv
  gantline measure planter.rig readings.csv -o lab        report.html, report.pdf, measured.toml, readings.csv
  gantline measure planter.rig readings.csv --division 0.1N --masses 1% --gain 1%
  gantline measure planter.rig readings.csv --take drag
  gantline solve planter.rig --measured lab/measured.toml
"""
DECIMALS = {"comma": ",", "point": "."}
TAKE = ("drag", "zero", "block")
_NUMBER = re.compile(r"\s*([0-9]{1,12}(?:\.[0-9]{0,12})?)\s*(\S+)\s*", re.ASCII)


def add(parser: ArgumentParser) -> None:
    parser.add_argument("file", metavar="RIG", help="a .rig file, or - for standard input")
    parser.add_argument("data", metavar="DATA", help="the readings, a .csv file")
    parser.add_argument("-o", "--output", metavar="FOLDER", help="a folder for report, print, values and readings")
    parser.add_argument(
        "--division", metavar="FORCE", help="of the scale, as in 0.1N; read off the readings if not given"
    )
    parser.add_argument("--masses", metavar="SHARE", help="how far off each mass may be, as in 1%%; else not counted")
    parser.add_argument("--gain", metavar="SHARE", help="how far off the scale may be, as in 1%%; else not counted")
    parser.add_argument(
        "--take", choices=TAKE, action="append", default=[],
        help="do not measure it: drag and zero count as none, block weighs what the file says; may be repeated",
    )  # fmt: skip
    parser.add_argument(
        "--decimals", choices=tuple(DECIMALS), help="the mark before decimals; read off the table if not given"
    )
    add_json(parser)
    add_settings(parser)


def run(arguments: Namespace) -> int:
    division = _quantity(arguments.division, "division", "N", "force")
    masses, gain = (_quantity(getattr(arguments, name), name, "%", "ratio") for name in ("masses", "gain"))
    machine = rig(arguments.file, arguments.settings, arguments.json)
    if machine is None:
        return PROBLEMS
    try:
        found, problems = api.measure(
            machine,
            _readings(arguments.data),
            division=division,
            masses=masses,
            gain=gain,
            take=arguments.take,
            decimals=DECIMALS.get(arguments.decimals, ""),
        )
        if found is None:
            show_problems(problems, arguments.data, arguments.json)
            return PROBLEMS
        if arguments.output:
            _save(found, arguments.output)
    except ImportError as error:
        raise Trouble("measuring needs more packages", "Install them with pip install 'gantline[lab,pdf]'.") from error
    _show(found, arguments)
    return GOOD


def _readings(file: str) -> bytes:
    try:
        return api.contents(file, api.READINGS_AT_MOST)
    except (OSError, ValueError) as error:
        raise Trouble(f"cannot read {file}: {reason(error)}", "Check the name of the table.") from error


def _save(found: api.Measurement, folder: str) -> None:
    try:
        found.save(folder)
    except OSError as error:
        raise Trouble(f"cannot write {folder}: {reason(error)}", "Choose another folder with -o.") from error


def _show(found: api.Measurement, arguments: Namespace) -> None:
    if arguments.json:
        print_json(found.record())
        return
    from gantline.output.lab_text import report_text
    from gantline.output.plain import painter

    print(report_text(found.report, painter(coloured(sys.stdout))))
    if arguments.output:
        from os.path import join

        print(f"\nopen {join(arguments.output, 'report.html')}")


def _quantity(written: str | None, name: str, unit: str, kind: str) -> float | None:
    """A number with its unit, in SI; None where it is not given."""
    if written is None:
        return None
    from gantline.quantity import UNITS

    match = _NUMBER.fullmatch(written)
    known = UNITS.get(match[2]) if match else None
    if match is None or known is None or known.kind != kind or not float(match[1]):
        raise Trouble(f"--{name} {written} is no {kind}", f"Write a number with its unit, as in --{name} 1{unit}")
    return float(match[1]) * float(known.factor)
