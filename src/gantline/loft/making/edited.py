"""What comes of an edit: a text, or why it stays as it was."""

from msgspec import Struct

from gantline.notation import parse
from gantline.problems import Problem
from gantline.rig import read

from .slip import Change, Slip, changed


class Step(Struct, frozen=True):
    """One replacement in the text, offsets from 0 in UTF-16 units, as a browser counts."""

    start: int
    end: int
    new: str


class Edited(Struct, frozen=True):
    """The new text with its changes and the sentence that tells it; or, where `refused` says why not, the old text.

    `words` name the step for undo. `problems` are those of a value that was refused. `focus` is the part to go on from,
    `rope` the rope still in hand, `ended` whether a rope was just ended. `rest` are the contacts a rope was led through
    before it was led elsewhere.
    """

    text: str
    changes: tuple[Step, ...]
    says: str
    words: str = ""
    focus: str = ""
    rope: str = ""
    ended: bool = False
    rest: tuple[str, ...] = ()
    refused: str = ""
    problems: tuple[Problem, ...] = ()


class Refused(Exception):
    """A wish that cannot be met, in a sentence; with problems where a value is at fault."""

    def __init__(self, says: str, problems: tuple[Problem, ...] = ()) -> None:
        super().__init__(says)
        self.says, self.problems = says, problems


def edited(slip: Slip, changes: list[Change], says: str, **more: object) -> Edited:
    """The text with changes made, told by `says`; its first sentence names the step unless `words` do."""
    words = more.pop("words", "") or says.partition(". ")[0].removesuffix(".")
    return Edited(changed(slip.text, changes), tuple(_steps(slip.text, changes)), says, words, **more)  # type: ignore[arg-type]


def without_new_problems(slip: Slip, done: Edited) -> Edited:
    """The same edit. Raises Refused where it brings the text a problem it did not have."""
    fresh = new_problems(slip.text, done.text)
    if fresh:
        raise Refused(f"Line {fresh[0].place.line}: {fresh[0].says}.", fresh)
    return done


def new_problems(before: str, after: str) -> tuple[Problem, ...]:
    """Problems of a text that another had not."""
    known = {(problem.code, problem.says) for problem in problems(before)}
    return tuple(problem for problem in problems(after) if (problem.code, problem.says) not in known)


def problems(text: str) -> tuple[Problem, ...]:
    """Everything wrong with a text."""
    tree, found = parse(text)
    return read(tree, found)[1]


def _steps(text: str, changes: list[Change]) -> list[Step]:
    if text.isascii():
        return [Step(change.start, change.end, change.new) for change in changes]
    return [Step(_units(text, change.start), _units(text, change.end), change.new) for change in changes]


def _units(text: str, at: int) -> int:
    return len(text[:at].encode("utf-16-le", "surrogatepass")) // 2
