"""An explanation: steps of one idea each, that cite equations and parts. Nothing here computes a physical quantity."""

from collections import Counter

from msgspec import Struct

from gantline.mechanics import Value
from gantline.quantity import Equation, Formula


class Said(Struct, frozen=True):
    """A number that a sentence speaks: `spoken` as people say it, `shown` as it is written with its unit."""

    key: str
    value: Value
    spoken: str
    shown: str


class Step(Struct, frozen=True):
    """One idea. `say` has live slots, `{F}`, each a key of `Account.values`; `line` gives the sentence without slots.

    `view` and `lit` say what the figure shows: a view's name, the parts in ink (None: all); `marks` are pairs of a
    part (strand, sheave, body) and what stands beside it; `struck` is a part crossed out. `formula` appears when it is
    said; `cites` are ids of the answer's relations. `seconds` is how long it takes to say; `pause` what follows.
    """

    id: str
    idea: str
    say: str
    view: str
    lit: tuple[str, ...] | None = None
    marks: tuple[tuple[str, str], ...] = ()
    struck: tuple[str, ...] = ()
    formula: Equation | Formula | None = None
    formula_text: str = ""  # where a formula is words: "N = 2", "F = ?"
    cites: tuple[str, ...] = ()
    seconds: float = 0.0
    pause: float = 0.0

    @property
    def about(self) -> str:
        """The part that tells it from its like: that of its relation, else the first in ink; empty for none."""
        if self.cites:
            return self.cites[0].rpartition(":")[2]
        return self.lit[0] if self.lit else ""


class WrongAnswer(Struct, frozen=True):
    """What a named wrong rule gives for this rig. `what` is the quantity it mistakes, "effort" or "load" and the like;
    `same_as` are the ids of rules that give the same number."""

    rule: str
    what: str
    value: Value
    formula: Formula
    overlooked: str
    look_at: tuple[str, ...]
    same_as: tuple[str, ...] = ()
    right_by_luck: bool = False


class Account(Struct, frozen=True):
    """A whole explanation by one method, with every number it speaks."""

    method: str
    name: str
    steps: tuple[Step, ...]
    values: tuple[Said, ...]
    result: Value | None
    wrong: WrongAnswer | None = None

    @property
    def keys(self) -> tuple[str, ...]:
        """What each step is called in scripts, taps and records, each once: its id; where several have that, with the
        part it is about (`path:fall`), and where even that is the same, with its number among them (`path:fall:2`)."""
        counts, made = Counter(step.id for step in self.steps), list[str]()
        for step in self.steps:
            stem = f"{step.id}:{step.about}" if counts[step.id] > 1 and step.about else step.id
            number = 1
            while (key := stem if number == 1 else f"{stem}:{number}") in made:
                number += 1
            made.append(key)
        return tuple(made)

    def line(self, step: Step, spoken: bool = True) -> str:
        """The sentence of a step with its numbers in place, as spoken or as shown."""
        said = {value.key: value.spoken if spoken else value.shown for value in self.values}
        return step.say.format_map(said)


class Refusal(Struct, frozen=True):
    """Why a method is not used here, in one sentence that points at a part of this rig."""

    method: str
    name: str
    reason: str
    parts: tuple[str, ...] = ()
