"""From tree to rig: the one bridge between words and parts."""

from msgspec.structs import replace

from gantline.notation import MOST_PROBLEMS, Attribute, Statement, Tree, Word
from gantline.notation import Contact as WrittenContact
from gantline.problems import Place, Problem
from gantline.sources import GRAVITY

from .amounts import KINDS
from .checks import check
from .cord_reading import LAWFUL, CordReader
from .given import Given
from .parts import Contact, Fixed, Hand, Load, Moving, Part, Rope, Sheave
from .rig import Asked, Rig
from .strands import strands

_PARTS = ("fixed", "moving", "load")


def read(tree: Tree, found: tuple[Problem, ...] = ()) -> tuple[Rig | None, tuple[Problem, ...]]:
    """The rig that a tree describes; or None, with every problem that keeps it from being one.

    `found` are the problems of the text, which are told among them. Of a tree that is not whole there is no rig; what
    is wrong with the rest is told, but nothing is called missing.
    """
    if len(found) > MOST_PROBLEMS:
        return None, found
    reading = _Reading(tree, found)
    rig = reading.rig()
    problems = reading.notes.all()
    return (rig if tree.whole and not problems else None), problems


class _Reading(CordReader):
    """Reads a rig's parts, ropes and question."""

    def rig(self) -> Rig | None:
        if not self.statements and not self.whole:
            return None
        if not self.statements:
            self.notes.add(
                "nothing-described", Place(1, 1), "nothing is described here",
                "a rig needs a part that moves and a rope",
                "begin with lines such as `fixed beam`, `load sack weight 50 N`, `rope fall: beam, sack`.",
            )  # fmt: skip
            return None
        for statement in self.statements:
            if statement.keyword.text in _PARTS:
                self._part(statement)
        ropes = [self._rope(s) for s in self.statements if s.keyword.text == "rope"]
        title, gravity, effort = self._once("title"), self._valued("gravity"), self._valued("effort")
        asked, lead = self._asked(), self._valued("lead")
        cords, aparts = self._cords(), self._aparts()
        rig = Rig(
            title.title if title else "", gravity or self._gravity(),
            tuple(self.parts.values()), tuple(rope for rope in ropes if rope), self.hands[0] if self.hands else None,
            asked, effort, effort.symbol if effort else self.letters.free("F"),
            asked.distance.symbol if asked else self.letters.free("h"), self.letters.free("s"),
            cords, aparts, lead,
        )  # fmt: skip
        check(rig, tuple(self.hands), self.whole, None not in ropes, self.notes)
        return rig

    # -- statements of one value ------------------------------------------------------------------------------------

    def _gravity(self) -> Given:
        return Given(self.letters.free("g"), GRAVITY.value, "acceleration", GRAVITY.unit, Place(1, 1))

    def _asked(self) -> Asked | None:
        statement = self._once("raise", "lower")
        if statement is None or statement.name is None or statement.value is None:
            return None
        distance = self._given(statement.value, statement.keyword.text)
        part = self._known(statement.name)
        if isinstance(part, Fixed):
            self.notes.add(
                "fixed-cannot-move", statement.name.place, f"`{part.name}` is fixed",
                "a fixed part neither rises nor sinks",
                "name a load or a moving block.",
            )  # fmt: skip
            return None
        if part is None or distance is None:
            return None
        return Asked(part.name, 1 if statement.keyword.text == "raise" else -1, distance, statement.name.place)

    # -- parts ------------------------------------------------------------------------------------------------------

    def _part(self, statement: Statement) -> None:
        name = self._new_name(statement.name)
        if name is None or statement.name is None:
            return
        kind, place = statement.keyword.text, statement.name.place
        by = {attribute.keyword.text: attribute for attribute in statement.attributes}
        self._lawful(kind, name, statement.attributes)
        given: dict[str, Given | None] = {}
        for key, attribute in by.items():
            if attribute.value is not None and key in KINDS and key in LAWFUL[kind]:
                given[key] = self._given(attribute.value, key)
        self._either(name, by, "weight", "mass", "weight-and-mass", "one gives the other by W = m g")
        weight, mass = given.get("weight"), given.get("mass")
        if kind == "load":
            if "weight" not in by and "mass" not in by:
                weight = Given(self.letters.of_bare(statement), None, "force", "", place)
            self.parts[name] = Load(name, place, weight, mass)
        elif kind == "fixed":
            self.parts[name] = Fixed(name, place, self._sheaves(name, by, given), weight, mass, *_row(given))
        else:
            carries = tuple(word.text for word in by["carries"].names) if "carries" in by else ()
            sheaves = self._sheaves(name, by, given)
            self.parts[name] = Moving(name, place, sheaves, weight, mass, carries, *_row(given))

    def _new_name(self, word: Word | None) -> str | None:
        assert word is not None
        if word.text in self.names:
            self.notes.add(
                "name-twice", word.place, f"`{word.text}` is named already on line {self.names[word.text].line}",
                "a name must say which one is meant, part or rope", "choose another name for one of them.",
            )  # fmt: skip
            return None
        self.names[word.text] = word.place
        return word.text

    def _either(self, name: str, by: dict[str, Attribute], first: str, second: str, code: str, why: str) -> None:
        if first in by and second in by:
            late = max(by[first].keyword.place, by[second].keyword.place, key=lambda place: (place.line, place.column))
            self.notes.add(
                code, late, f"`{name}` says both `{first}` and `{second}`", why, f"keep `{first}` or `{second}`."
            )

    def _sheaves(self, name: str, by: dict[str, Attribute], given: dict[str, Given | None]) -> tuple[Sheave, ...]:
        self._either(name, by, "disc", "inertia", "disc-and-inertia", "both say how hard the wheel is to turn")
        if "inertia" in by and "radius" not in by:
            self.notes.add(
                "inertia-without-radius", by["inertia"].keyword.place, f"`{name}` gives an inertia and no radius",
                "how an inertia resists the rope hangs on the radius it runs at",
                "add `radius 30 mm`, or say `disc 0.2 kg`, which needs none.",
            )  # fmt: skip
        count = by["sheaves"].value.number if "sheaves" in by and by["sheaves"].value else None
        for key in ("radius", "disc", "inertia", "efficiency"):
            if key in by and count is None:
                self.notes.add(
                    "sheaves-missing", by[key].keyword.place, f"`{name}` has no sheaves, but says `{key}`",
                    f"`{key}` is said of each wheel of a block", f"add `sheaves 1`, or leave `{key}` out.",
                )  # fmt: skip
        return tuple(
            Sheave(name, n + 1, given.get("efficiency"), given.get("radius"), given.get("disc"), given.get("inertia"))
            for n in range(int(count or 0))
        )

    # -- ropes ------------------------------------------------------------------------------------------------------

    def _rope(self, statement: Statement) -> Rope | None:
        assert statement.name is not None
        self._new_name(statement.name)
        contacts = [self._contact(contact) for contact in statement.contacts]
        sure = tuple(contact for contact in contacts if contact is not None)
        if len(sure) < len(contacts):
            return None
        if len(sure) < 2:
            self.notes.add(
                "rope-end-missing", statement.name.place, f"rope `{statement.name.text}` touches only one thing",
                "a rope pulls between two ends", "name both ends; between them over or under which sheaves it runs.",
            )  # fmt: skip
            return None
        rope = Rope(statement.name.text, statement.name.place, sure, ())
        return replace(rope, strands=strands(rope, self.parts))

    def _contact(self, written: WrittenContact) -> Contact | None:
        if written.part is None:
            part = self._known(written.at) if written.at else None
            if isinstance(part, Fixed):
                self.notes.add(
                    "rides-on-fixed", written.place, f"the hand holds on at `{part.name}`, which is fixed",
                    "a rider goes up and down with what they sit on",
                    "write `hand` alone, or name a load or a moving block.",
                )  # fmt: skip
            if written.at and part is None:
                return None
            self.hands.append(Hand(written.place, part.name if part else None))
            return Contact("hand", written.place)
        part = self._known(written.part)
        if part is None:
            return None
        if written.side is None and written.sheave is None:
            return Contact(part.name, written.part.place)
        sheave = self._sheave(part, written)
        if sheave is None or written.side is None:
            return None
        return Contact(part.name, written.part.place, sheave, "over" if written.side.text == "over" else "under")

    def _sheave(self, part: Part, written: WrittenContact) -> Sheave | None:
        """The sheave a contact speaks of; None where it has none, with the problem noted."""
        assert written.part is not None
        place, name = written.part.place, part.name
        sheaves = () if isinstance(part, Load) else part.sheaves
        if written.side is None:
            here = f"{name}.{written.sheave}"
            self.notes.add(
                "side-missing", place, f"`{here}` stands without `over` or `under`",
                "a rope passes a sheave on one of two sides", f"write `over {here}` or `under {here}`.",
            )  # fmt: skip
            return None
        if not sheaves:
            self.notes.add(
                "no-sheaves", place, f"`{name}` has no sheave for the rope to pass {written.side.text}",
                "a rope turns over wheels; on anything else it is made fast",
                f"write `{name}` alone to make the rope fast, or use a block that has a sheave.",
            )  # fmt: skip
            return None
        if written.sheave is None and len(sheaves) > 1:
            self.notes.add(
                "sheave-number-missing", place, f"`{name}` has {len(sheaves)} sheaves",
                "the rope runs over one of them",
                f"say which: `{written.side.text} {name}.1` to `{written.side.text} {name}.{len(sheaves)}`.",
            )  # fmt: skip
            return None
        index = 1 if written.sheave is None else written.sheave
        if not 1 <= index <= len(sheaves):
            self.notes.add(
                "no-such-sheave", place, f"`{name}` has no sheave {index}", f"it has {len(sheaves)}, counted from 1",
                f"write a number from 1 to {len(sheaves)}, or give `{name}` more sheaves.",
            )  # fmt: skip
            return None
        return sheaves[index - 1]


def _row(given: dict[str, Given | None]) -> tuple[Given | None, Given | None, Given | None]:
    """What is said of a block's row of sheaves and what hangs on it: spacing, hook, becket."""
    return given.get("spacing"), given.get("hook"), given.get("becket")
