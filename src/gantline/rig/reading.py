"""From tree to rig: the one bridge between words and parts."""

from fractions import Fraction

from msgspec.structs import replace

from gantline.notation import MOST_PROBLEMS, Attribute, Notes, Statement, Tree, Word, Written, did_you_mean
from gantline.notation import Contact as WrittenContact
from gantline.problems import Place, Problem
from gantline.sources import GRAVITY

from .amounts import KINDS, amount
from .checks import check
from .cord import Apart, Cord
from .given import Given
from .letters import Letters
from .parts import Contact, Fixed, Hand, Load, Moving, Part, Rope, Sheave
from .rig import Asked, Rig
from .strands import strands

_PARTS = ("fixed", "moving", "load")
_MEASURES = ("radius", "disc", "inertia", "efficiency", "spacing", "hook", "becket")
_LAWFUL = {
    "fixed": ("sheaves", "weight", "mass", *_MEASURES),
    "moving": ("sheaves", "weight", "mass", "carries", *_MEASURES),
    "load": ("weight", "mass"),
    "cord": ("stiffness", "diameter", "weight", "drag"),
}
_CANNOT = {
    "fixed": ("a fixed part", "a fixed part carries nothing away, and what a rope is made of is said of its cord"),
    "moving": ("a block", "what a rope is made of is said of its cord"),
    "load": ("a load", "a load has no wheels: a rope is tied to it"),
    "cord": ("a rope", "of a cord counts what it is made of; wheels belong to blocks"),
}


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


class _Reading:
    """What is known of the rig so far. A part with a problem is still known by its name, so that ropes may find it."""

    def __init__(self, tree: Tree, found: tuple[Problem, ...]) -> None:
        self.notes = Notes(tree.lines, found)
        self.whole = tree.whole
        self.letters = Letters(tree)
        self.statements = [item for item in tree.items if isinstance(item, Statement)]
        self.parts: dict[str, Part] = {}
        self.names: dict[str, Place] = {}
        self.hands: list[Hand] = []
        self.numbers: dict[str, tuple[Fraction | None, Place]] = {}

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

    def _once(self, *keywords: str) -> Statement | None:
        """The one statement that begins with these words; a second is a problem."""
        found = [s for s in self.statements if s.keyword.text in keywords]
        for second in found[1:]:
            self.notes.add(
                "said-twice",
                second.keyword.place, f"`{second.keyword.text}` was said before (line {found[0].keyword.place.line})",
                "one rig has one of each", "keep one of the two lines.",
            )  # fmt: skip
        return found[0] if found else None

    def _valued(self, keyword: str) -> Given | None:
        statement = self._once(keyword)
        return self._given(statement.value, keyword) if statement and statement.value else None

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

    def _given(self, value: Written, key: str, kind: str = "") -> Given | None:
        given = amount(value, key, self.letters.of(value), self.notes, kind)
        if given is not None and value.symbol is not None:
            before = self.numbers.setdefault(given.symbol, (given.number, value.place))
            if before[0] != given.number:
                self.notes.add(
                    "symbol-of-two-numbers", value.symbol.place,
                    f"`{given.symbol}` has another value on line {before[1].line}",
                    "in a formula one letter is one number",
                    "use another letter for one of them.",
                )  # fmt: skip
        return given

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
            if attribute.value is not None and key in KINDS and key in _LAWFUL[kind]:
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

    # -- cords and distances ----------------------------------------------------------------------------------------

    def _cords(self) -> tuple[Cord, ...]:
        found: dict[str, Cord] = {}
        for statement in self.statements:
            if statement.keyword.text != "cord" or statement.name is None:
                continue
            rope = statement.name
            self._lawful("cord", rope.text, statement.attributes)
            given = {
                a.keyword.text: self._given(a.value, a.keyword.text, "force per length" * (a.keyword.text == "weight"))
                for a in statement.attributes
                if a.value is not None and a.keyword.text in _LAWFUL["cord"]
            }
            if rope.text in found:
                self._again(rope.place, f"the cord of `{rope.text}`", found[rope.text].place)
            elif self._is_rope(rope):
                found[rope.text] = Cord(rope.text, rope.place, *(given.get(key) for key in _LAWFUL["cord"]))
        return tuple(found.values())

    def _is_rope(self, word: Word) -> bool:
        ropes = tuple(s.name.text for s in self.statements if s.keyword.text == "rope" and s.name)
        if word.text not in ropes and self.whole:
            self.notes.add(
                "no-such-rope", word.place, f"no rope is called `{word.text}`", "a cord is what a rope is made of",
                did_you_mean(word.text, ropes, f"ropes are: {', '.join(ropes[:12]) or 'none yet'}."),
            )  # fmt: skip
        return word.text in ropes

    def _aparts(self) -> tuple[Apart, ...]:
        found: dict[frozenset[str], Apart] = {}
        for statement in self.statements:
            first, second, value = statement.name, statement.second, statement.value
            if first is None or second is None or value is None:
                continue
            known = [self._known(word) is not None for word in (first, second)]
            pair, distance = frozenset((first.text, second.text)), self._given(value, "apart")
            if pair in found:
                self._again(first.place, f"how far `{first.text}` and `{second.text}` are apart", found[pair].place)
            elif len(pair) == 1:
                self.notes.add(
                    "apart-from-itself", second.place, f"`{second.text}` is named twice",
                    "a distance lies between two parts", "name the part above and the part below.",
                )  # fmt: skip
            elif all(known) and distance is not None:
                found[pair] = Apart(first.text, second.text, first.place, distance)
        return tuple(found.values())

    def _again(self, place: Place, what: str, before: Place) -> None:
        self.notes.add(
            "said-twice", place, f"{what} was said before (line {before.line})", "one rig has one of each",
            "keep one of the two lines.",
        )  # fmt: skip

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

    def _lawful(self, kind: str, name: str, attributes: tuple[Attribute, ...]) -> None:
        for attribute in attributes:
            key = attribute.keyword.text
            if key not in _LAWFUL[kind]:
                what, why = _CANNOT[kind]
                self.notes.add(
                    "attribute-not-here", attribute.keyword.place, f"`{name}` is {what} and cannot have `{key}`", why,
                    f"say it of a moving block, or leave it out; `{kind}` takes: {', '.join(_LAWFUL[kind])}.",
                )  # fmt: skip

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

    def _known(self, word: Word) -> Part | None:
        part = self.parts.get(word.text)
        if part is None and self.whole:
            known = tuple(self.parts)
            self.notes.add(
                "no-such-part", word.place, f"no part is called `{word.text}`",
                "a rope, a hand or a motion needs a part to act on",
                did_you_mean(word.text, known, f"parts are: {', '.join(known[:12]) or 'none yet'}."),
            )  # fmt: skip
        return part

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
