"""Everything Gantline does, as plain functions: the command line and other programs call these and nothing below.

The heavy storeys are imported inside the functions, so that a skin that only prints its help stays quick to start.
"""

import os
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, cast

from msgspec import Struct

from gantline.problems import Problem

if TYPE_CHECKING:
    from gantline.account import Account, Refusal
    from gantline.bench import Declined, Kit, Measured, Plan, Report
    from gantline.figure import Scene
    from gantline.mechanics import Answer, Trial, TrialWay
    from gantline.output.film_folder import Made as Film
    from gantline.output.lesson_folder import Made
    from gantline.rig import Rig

WAYS = ("raising", "lowering", "second")  # of a trial
READ_AT_MOST = 64 * 1024 + 1  # one byte past what the notation allows, so that the notation itself says so
READINGS_AT_MOST = 32 * 1024 * 1024 + 1  # the same for a table of readings


class Solved(Struct, frozen=True):
    """A rig with its certified answer. In a notebook it shows itself: the figure, the sentence, the formula."""

    rig: "Rig"
    answer: "Answer"

    @property
    def says(self) -> str:
        """The sentence for the answer's status."""
        from gantline.account import verdict

        return verdict(self.rig, self.answer)

    def record(self) -> dict[str, Any]:
        """The answer record `gantline-answer/1`, as JSON types."""
        from gantline.output.record import answer_record

        return answer_record(self.rig, self.answer, self.says)

    def __str__(self) -> str:
        from gantline.output.plain import painter
        from gantline.output.terminal import answer_text

        return answer_text(self.rig, self.answer, self.says, painter(False))

    def _repr_html_(self) -> str:
        from html import escape

        return f"<div>{draw(self, 'labelled').svg()}<pre>{escape(str(self))}</pre></div>"


class Measurement(Struct, frozen=True):
    """What readings say of a rig: `measured` has every number, `report` puts them into words."""

    rig: "Rig"
    measured: "Measured"

    @property
    def report(self) -> "Report":
        """The lab report, as words and tables."""
        from gantline.bench import report

        return report(self.measured, self.rig)

    def record(self) -> dict[str, Any]:
        """The record `gantline-measured/1`, as JSON types."""
        from gantline.output.measured_record import measured_record

        return measured_record(self.measured)

    def save(self, folder: str | os.PathLike[str]) -> "Report":
        """Builds the folder whole: report.html, report.pdf, measured.toml, readings.csv. OSError, ImportError."""
        from pathlib import Path

        from gantline.output.lab_folder import build

        report = self.report
        build(report, self.measured, self.rig, Path(folder))
        return report

    def __str__(self) -> str:
        from gantline.output.lab_text import report_text
        from gantline.output.plain import painter

        return report_text(self.report, painter(False))


class Tried(Struct, frozen=True):
    """A rig with what is seen when it is hauled."""

    rig: "Rig"
    trial: "Trial"

    @property
    def says(self) -> str:
        """What is seen, in a few sentences; or why nothing can be said, or where it stops."""
        from gantline.account import trial_says

        return trial_says(self.rig, self.trial)

    def record(self) -> dict[str, Any]:
        """The record `gantline-trial/1`, as JSON types."""
        from gantline.output.trial_record import trial_record

        return trial_record(self.rig, self.trial)

    def __str__(self) -> str:
        from gantline.output.plain import painter
        from gantline.output.trial_text import trial_text

        return trial_text(self.rig, self.trial, painter(False))


class Plate(Struct, frozen=True):
    """A drawn figure. In a notebook it shows itself."""

    scene: "Scene"
    theme: str = "light"

    def svg(self, prefix: str = "") -> str:
        """The figure as SVG, text as text. `prefix` keeps ids apart where several stand in one page."""
        from gantline.output.svg import write

        return write(self.scene, self.theme, prefix)

    def png(self, width: int = 1200) -> bytes:
        """The figure as PNG, `width` pixels wide. Needs the extra `gantline[png]`; ImportError without it."""
        from gantline.output.png import write

        return write(self.scene, self.theme, width)

    def _repr_svg_(self) -> str:
        return self.svg()


def read(source: str | bytes, changes: Mapping[str, str] | None = None) -> tuple["Rig | None", tuple[Problem, ...]]:
    """A rig from the text of a `.rig` file, or None and all its problems.

    `changes` are what-if values set on top of the text: {"lower.weight": "20 N"}.
    """
    from gantline.notation import parse, parse_bytes, with_value
    from gantline.rig import read as read_tree

    tree, problems = parse(source) if isinstance(source, str) else parse_bytes(source)
    refused: tuple[Problem, ...] = ()
    for name, written in (changes or {}).items():
        tree, more = with_value(tree, name, written)
        refused += more
    return (None, problems + refused) if refused else read_tree(tree, problems)


def load(
    path: str | os.PathLike[str], changes: Mapping[str, str] | None = None
) -> tuple["Rig | None", tuple[Problem, ...]]:
    """`read` for a file. Raises OSError where it cannot be read."""
    return read(contents(path), changes)


def contents(path: str | os.PathLike[str], at_most: int = READ_AT_MOST) -> bytes:
    """The bytes of a file, never more than `at_most`, and never waiting for a pipe that nobody writes to."""
    descriptor = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    with open(descriptor, "rb") as file:
        if hasattr(os, "set_blocking"):
            os.set_blocking(descriptor, True)
        return file.read(at_most)


def measure(
    rig: "Rig",
    readings: bytes,
    *,
    division: float | None = None,
    masses: float | None = None,
    gain: float | None = None,
    take: Sequence[str] = (),
    decimals: str = "",
) -> tuple[Measurement | None, tuple[Problem, ...]]:
    """What a table of readings (CSV, as a spreadsheet saves it) says of a rig, or None and why it says nothing.

    `division` is the scale's (N), `masses` and `gain` how far off each mass and the scale may be, as shares; what is
    not given is not counted, and said so. `take` names what is not to be measured: drag and zero count as none, block
    as the file's weight. `decimals` is the mark before decimals, "." or ",", where the table leaves it open. Needs the
    extra `gantline[lab]`; ImportError without it. ValueError for another mark.
    """
    from gantline.bench import Limits, Settings, read_measured

    if decimals not in ("", ".", ","):
        raise ValueError("decimals follow a point or a comma")
    settings = Settings(division, Limits(masses, gain), tuple(take), decimals=decimals)
    measured, problems = read_measured(rig, readings, settings)
    return (None, problems) if measured is None else (Measurement(rig, measured), ())


def tidy(source: str | bytes) -> tuple[str | None, tuple[Problem, ...]]:
    """The text in the one tidy form, or None and the problems that stand in the way."""
    from gantline.notation import parse, parse_bytes
    from gantline.notation import tidy as tidy_tree

    tree, problems = parse(source) if isinstance(source, str) else parse_bytes(source)
    return (None, problems) if problems else (tidy_tree(tree), ())


def solve(rig: "Rig") -> Solved:
    """The exact answer of a rig, certified."""
    from gantline.mechanics import solve as solve_rig

    return Solved(rig, solve_rig(rig))


def trial(
    of: "Rig | Solved",
    hand: Sequence[float] | None = None,
    *,
    way: str = "raising",
    top: float | None = None,
    low: float | None = None,
) -> Tried:
    """What is seen at each hand travel `hand` (m, from the start; else 10, 20, 50 and 100 mm).

    `way` is one of WAYS: raising from the floor; lowering, let out from `top` (m, else the longest of `hand`); second,
    hauled to `top`, let out to `low` (else until the load stands on the floor again) and hauled once more. ValueError
    for an unknown way, or a travel below 0.
    """
    from gantline.mechanics import HAND_TRAVELS
    from gantline.mechanics import trial as try_rig

    if way not in WAYS:
        raise ValueError(f"there is no way {way!r}; there are {', '.join(WAYS)}")
    rig = of.rig if isinstance(of, Solved) else of
    return Tried(rig, try_rig(rig, HAND_TRAVELS if hand is None else hand, cast("TrialWay", way), top, low))


def explain(of: "Rig | Solved", method: str | None = None) -> "Account | Refusal":
    """The answer explained: by the method named, else by the one that fits best. ValueError for an unknown method."""
    from gantline.account import METHODS
    from gantline.account import explain as explain_answer

    if method is not None and method not in METHODS:
        raise ValueError(f"there is no method {method!r}; there are {', '.join(METHODS)}")
    solved = _solved(of)
    return explain_answer(solved.rig, solved.answer, method)


def accounts(of: "Rig | Solved") -> tuple["Account | Refusal", ...]:
    """What every method says of a rig, the best first, the refusals last."""
    from gantline.account import accounts as all_accounts

    solved = _solved(of)
    return all_accounts(solved.rig, solved.answer)


def draw(
    of: "Rig | Solved",
    view: str = "bare",
    *,
    theme: str = "light",
    lit: Sequence[str] | None = None,
    hand: float | None = None,
) -> Plate:
    """The figure of a rig. `view` is one of gantline.figure.VIEWS; `lit` are the parts in ink, None for all; `hand` is
    the rope taken up (m) in the view `tried`, None for as much as the figure has room for.

    ValueError for an unknown view, theme or part.
    """
    from gantline.figure import draw as draw_scene

    solved = _solved(of)
    scene = draw_scene(solved.rig, solved.answer, view, lit=None if lit is None else tuple(lit), hand=hand)
    return Plate(scene, theme)


def lesson(
    of: Sequence["Rig | Solved"],
    directory: str | os.PathLike[str],
    *,
    title: str = "",
    progress: Callable[[str], None] | None = None,
) -> "Made":
    """Builds a lesson over the rigs, whole, into `directory`; the `page` of what comes back is its index.html.

    Files the tutor edited stay, named in `kept`; `problems` says which sentences of the script cannot be said.
    `progress` hears what is being made. Raises OSError where the folder cannot be written, ImportError where an extra
    is missing.
    """
    from pathlib import Path

    from gantline.output.lesson_folder import build

    parts = [(solved.rig, solved.answer) for solved in map(_solved, of)]
    return build(parts, Path(directory), progress, title)


def read_kit(source: str | bytes) -> tuple["Kit | None", tuple[Problem, ...]]:
    """A bench kit from the text of a `.toml` file, or None and all its problems."""
    from gantline.bench import read_kit as read_toml

    return read_toml(source.encode() if isinstance(source, str) else source)


def sample_kit() -> "Kit":
    """Our invented kit, for those who have not written down their own."""
    from importlib.resources import files

    from gantline.bench import read_kit as read_toml

    kit, _ = read_toml(files("gantline").joinpath("shelf/kit.toml").read_bytes(), invented=True)
    assert kit is not None
    return kit


def bench(of: "Rig | Solved", kit: "Kit | None" = None) -> "Plan | Declined":
    """The plan for showing a rig with what a kit has (our sample if none is given), or why there is none."""
    from gantline.bench import plan

    return plan(of.rig if isinstance(of, Solved) else of, kit or sample_kit())


def film(
    of: Sequence["Rig | Solved"],
    directory: str | os.PathLike[str],
    *,
    format: str = "level",
    size: int = 1080,
    theme: str = "light",
    level: str = "middle",
    kinds: Sequence[str] = ("mp4", "webm"),
    title: str = "",
    script: str | os.PathLike[str] | None = None,
    cache: str | os.PathLike[str] | None = None,
    voice: str | os.PathLike[str] | None = None,
    taps: str | os.PathLike[str] | None = None,
    scratch: bool = False,
    progress: Callable[[str], None] | None = None,
) -> "Film":
    """Makes a film over the rigs, whole, into `directory`; the `film` of what comes back is its video.

    `format` is level, square or upright, `size` the px of the short side, `level` that of the learners: lower, middle
    or upper. `script` has the words to say (else script.md in the directory); shots already in `cache` are not drawn
    again. `voice` is a recording that the film is cut to, by its `taps` or else by its pauses; a `scratch` voice is a
    machine's. Raises OSError where the folder cannot be written, ImportError where the extra is missing.
    """
    from pathlib import Path

    from gantline.output.film_folder import cut
    from gantline.output.film_pieces import Look
    from gantline.output.narration import Narration

    parts = [(solved.rig, solved.answer) for solved in map(_solved, of)]
    look = Look(format, size, theme, kinds=tuple(kinds))
    words, kept, sound, starts = (None if place is None else Path(place) for place in (script, cache, voice, taps))
    return cut(parts, Path(directory), look, level, title, words, kept, Narration(sound, starts, scratch), progress)


def rehearsal(
    of: Sequence["Rig | Solved"],
    *,
    level: str = "middle",
    title: str = "",
    script: str | bytes = "",
    name: str = "voice",
) -> tuple[str, tuple[Problem, ...]]:
    """The page to rehearse a film over the rigs at, and which sentences of `script` cannot be said.

    `name` is what the page calls the two files it saves. Raises NotDrawable, and film_acts.NoAccount for a rig that no
    method explains.
    """
    from gantline.film import board
    from gantline.output import film_acts, rehearse

    acts = film_acts.acts([(solved.rig, solved.answer) for solved in map(_solved, of)])
    words, problems = film_acts.words(acts, script if isinstance(script, str) else script.decode("utf-8", "replace"))
    return rehearse.write(board(acts, words, level, title), name), problems


def _solved(of: "Rig | Solved") -> Solved:
    return of if isinstance(of, Solved) else solve(of)
