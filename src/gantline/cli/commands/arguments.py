"""Arguments that several commands take."""

from argparse import ArgumentParser


def add_file(parser: ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE", help="a .rig file, or - for standard input")


def add_settings(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--set",
        dest="settings",
        metavar="NAME.WHAT=VALUE",
        action="append",
        default=[],
        help="what if: a value on top of the file, as in lower.weight=20N; may be given several times",
    )


def add_json(parser: ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="the record that programs read")
