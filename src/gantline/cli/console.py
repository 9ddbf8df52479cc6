"""What the commands share: reading what is named, writing what is asked, and saying what went wrong."""

import os
import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from gantline import api
from gantline.problems import Problem

if TYPE_CHECKING:
    from gantline.rig import Rig

GOOD, FAILED, PROBLEMS, INTERNAL, INTERRUPTED, UNREAD = 0, 1, 2, 70, 130, 141


class Trouble(Exception):
    """The command cannot be done: `says` is what is wrong, `do` what to do about it."""

    def __init__(self, says: str, do: str) -> None:
        super().__init__(says)
        self.says = says
        self.do = do


OPTIONAL = {"av": "film", "pyvips": "png", "typst": "pdf", "starlette": "loft", "uvicorn": "loft"}  # package -> extra


def missing(error: ImportError, what: str, extra: str = "") -> Trouble:
    """The words for a package that is not there: `what` needs it, and `extra` brings it (the package's own if empty).

    Any other ImportError is a mistake of ours, and goes on as it is.
    """
    package = (error.name or "").partition(".")[0]
    if package not in OPTIONAL:
        raise error
    return Trouble(
        f"{what} needs the package {package}", f"Install it with pip install 'gantline[{extra or OPTIONAL[package]}]'."
    )


def contents(file: str) -> bytes:
    """The bytes of a file, or of standard input for `-`."""
    if file == "-":
        return sys.stdin.buffer.read(api.READ_AT_MOST)
    try:
        return api.contents(file)
    except (OSError, ValueError) as error:
        raise Trouble(f"cannot read {file}: {reason(error)}", _advice(error)) from error


def rig(file: str, settings: Sequence[str], json: bool) -> "Rig | None":
    """The rig of a file with its what-if values, or None when its problems have been printed."""
    rig, problems = api.read(contents(file), dict(_setting(setting) for setting in settings))
    if problems:
        show_problems(problems, file, json)
    return rig


def show_problems(problems: Sequence[Problem], file: str, json: bool) -> None:
    """A file's problems: as a record on standard output, or as text on standard error."""
    if json:
        from gantline.output.record import problems_record

        print_json(problems_record(problems))
    else:
        from gantline.output.plain import painter, problems_text

        print(problems_text(problems, file, painter(coloured(sys.stderr))), file=sys.stderr)


def print_json(record: dict[str, Any]) -> None:
    """A record as indented JSON."""
    import json

    print(json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False))


def coloured(stream: Any) -> bool:
    """Whether colour is welcome: only on a terminal, and not where NO_COLOR asks for none (https://no-color.org)."""
    return bool(stream.isatty()) and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def progress() -> Callable[[str], None]:
    """Tells what is being made, in one line that comes and goes; silent where nobody watches."""
    if not sys.stderr.isatty():
        return lambda words: None

    def tell(words: str) -> None:
        print(f"\r\x1b[2K{words}", end="", file=sys.stderr, flush=True)

    return tell


def save(path: str, data: bytes) -> None:
    """Writes a file whole, or not at all."""
    from pathlib import Path

    from gantline.output import files

    try:
        files.write(Path(path), data)
    except (OSError, ValueError) as error:
        raise Trouble(f"cannot write {path}: {reason(error)}", "Choose another place with -o.") from error


def _setting(setting: str) -> tuple[str, str]:
    name, found, value = setting.partition("=")
    if not found or not name.strip() or not value.strip():
        raise Trouble(f"--set {setting} is not a setting", "Write NAME.WHAT=VALUE, as in --set lower.weight=20N")
    return name.strip(), value.strip()


def reason(error: OSError | ValueError) -> str:
    """Why the system refused, in plain words."""
    match error:
        case FileNotFoundError():
            return "there is no such file"
        case IsADirectoryError():
            return "it is a folder"
        case PermissionError():
            return "it may not be opened"
        case OSError():
            return (error.strerror or "the system refused").lower()
        case _:
            return "a file name cannot hold that"


def _advice(error: OSError | ValueError) -> str:
    match error:
        case IsADirectoryError():
            return "Name one .rig file in it."
        case PermissionError():
            return "Ask its owner for the right to read it."
        case _:
            return "Check the name. `gantline shelf` lists ready rigs, and copies one with -o."
