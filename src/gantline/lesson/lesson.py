"""The nouns of a lesson page. Every number in them is a number of an answer, written out."""

from msgspec import Struct

from gantline.account import Account, Caution, Refusal, Seen, Step
from gantline.figure import Kinematics, Scene
from gantline.mechanics import Answer
from gantline.quantity import Equation, Formula
from gantline.rig import Rig

Shown = Equation | Formula | str  # a formula, or a short one in words ("F = ?")


class Beat(Struct, frozen=True):
    """A step of the account on the page: the sentence with its numbers, and its plate.

    `asks` is where the page waits for a number, `replies` where it comes back to it, `hauls` where the rope runs.
    """

    step: Step
    say: str
    formula: Shown | None
    scene: Scene
    asks: bool = False
    replies: bool = False
    hauls: bool = False


class Reply(Struct, frozen=True):
    """What the page says to a kept number that a named wrong rule gives. `low` and `high` bound the numbers it fits,
    in the unit of the question."""

    rule: str
    low: float
    high: float
    says: str
    formula: Formula
    number: str


class Question(Struct, frozen=True):
    """What the learner is asked to predict. `low` to `high` counts as the same number, to 1 %."""

    letter: str
    unit: str
    low: float
    high: float
    formula: Formula | None
    number: str
    replies: tuple[Reply, ...]


class Way(Struct, frozen=True):
    """Another way to the same number; or one that will not do here: then `refused` says why and `elsewhere` names a
    rig of the shelf where it works."""

    method: str
    name: str
    scene: Scene
    sentences: tuple[str, ...] = ()
    formula: Shown | None = None
    result: str = ""
    account: Account | None = None
    refused: str = ""
    elsewhere: str = ""


class Line(Struct, frozen=True):
    """A line of the worked solution. `rounded` follows the formula where the exact number is long."""

    reason: str
    formula: Shown
    rounded: str
    parts: tuple[str, ...]


class Check(Struct, frozen=True):
    """A check of the certificate: what, the sum with its numbers, and what is left over."""

    name: str
    sum: str
    residual: str


class Worked(Struct, frozen=True):
    """The solution line by line, with what is given, what is taken as true, and what is to be found."""

    scene: Scene
    given: tuple[tuple[str, str], ...]  # what it is, and its formula in words
    taken: str
    find: str
    lines: tuple[Line, ...]
    results: tuple[str, ...]
    checks: tuple[Check, ...]
    more: str  # what is said of checks that are not listed
    largest: str


class Reading(Struct, frozen=True):
    """A row of pulls, strand by strand, for one way the ropes run."""

    name: str
    pulls: tuple[str, ...]


class Ruler(Struct, frozen=True):
    """A sheet to read a trial with: one row for each length of rope, all lengths in mm, the pull with its unit.

    `perfect` is how far the load asked about would rise if nothing stretched or rubbed, row by row (m).
    """

    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    perfect: tuple[float, ...]


class Sight(Struct, frozen=True):
    """What will be seen. `stand_in` says where a lighter load stands for the file's; `scene` is the true pose."""

    seen: Seen
    stand_in: str
    scene: Scene | None
    ruler: Ruler
    charts: tuple[Scene, ...]


class Trial(Struct, frozen=True):
    """If you try it: what real wheels take, what will be seen, and what to do before anything hangs. `answer` is the
    lossy answer."""

    intro: str
    note: str
    unit: str
    strands: tuple[str, ...]
    readings: tuple[Reading, ...]
    scene: Scene | None
    cautions: tuple[Caution, ...]
    answer: Answer | None
    sight: Sight | None = None


class Recap(Struct, frozen=True):
    """A rig in a few lines."""

    title: str
    says: str
    facts: tuple[str, ...]
    scene: Scene


class Hauling(Struct, frozen=True):
    """The rig as it can be hauled on the page: how it moves, its plate, and how far each thing goes in all: what it is,
    how far, in which unit. No ways where the file asks for no motion."""

    motion: Kinematics
    scene: Scene
    ways: tuple[tuple[str, float, str], ...]


class Part(Struct, frozen=True):
    """A rig's part of the lesson. `key` names it in ids and in the script; `account` is None where none will do."""

    key: str
    rig: Rig
    answer: Answer
    says: str
    standfirst: str
    account: Account | Refusal
    beats: tuple[Beat, ...]
    question: Question | None
    ways: tuple[Way, ...]
    worked: Worked
    trial: Trial
    recap: Recap
    hauling: Hauling | None
    figures: tuple[tuple[str, Scene], ...]  # what goes into the figures folder, by file name without its ending

    @property
    def title(self) -> str:
        return self.rig.title or "A rope-and-pulley rig"


class Lesson(Struct, frozen=True):
    """A whole page. `moral` is what its rigs have in common, `wrong_count` what a wrong count gives on each."""

    title: str
    parts: tuple[Part, ...]
    moral: str
    wrong_count: str = ""
