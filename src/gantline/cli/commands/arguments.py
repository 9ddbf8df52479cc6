"""Arguments that several commands take."""

from argparse import Action, ArgumentParser, Namespace
from typing import Any

from gantline import api

from ..console import Trouble, reason


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
    parser.add_argument(
        "--measured",
        dest="settings",
        metavar="FILE",
        action=_Measured,
        help="what was measured, as gantline measure wrote it: its values on top of the file; what stands later wins",
    )


class _Measured(Action):
    """Puts the values of a measured.toml among the settings, as if each had been set by hand."""

    def __call__(self, parser: ArgumentParser, namespace: Namespace, values: Any, option: str | None = None) -> None:
        from gantline.output.measured_toml import NotMeasured, read

        try:
            found = read(api.contents(values))
        except NotMeasured as error:
            says = f"{values} holds no measured values: {error}"
            raise Trouble(says, "Name one that gantline measure wrote.") from error
        except (OSError, ValueError) as error:
            raise Trouble(f"cannot read {values}: {reason(error)}", "Check the name.") from error
        namespace.settings = [*namespace.settings, *(f"{name}={value}" for name, value in found.items())]


def length(written: str, option: str) -> float:
    """A length with its unit, not below zero, in m. Raises Trouble."""
    import re

    from gantline.quantity import UNITS

    match = re.fullmatch(r"\s*([0-9]*\.?[0-9]+)\s*([a-z]+)\s*", written)
    known = UNITS.get(match[2]) if match else None
    if match is None or known is None or known.kind != "length":
        raise Trouble(f"{option} {written} is no length", f"Write numbers with their unit, as in {option} 20mm")
    return float(match[1]) * float(known.factor)


def add_json(parser: ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="the record that programs read")
