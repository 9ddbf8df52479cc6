"""What a rig's text says of its cords and distances, and how any word or value of it is looked up."""

from fractions import Fraction

from gantline.notation import Attribute, Notes, Statement, Tree, Word, Written, did_you_mean
from gantline.problems import Place, Problem

from .amounts import amount
from .cord import Apart, Cord
from .given import Given
from .letters import Letters
from .parts import Hand, Part

_MEASURES = ("radius", "disc", "inertia", "efficiency", "spacing", "hook", "becket")
LAWFUL = {
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


class CordReader:
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

    def _lawful(self, kind: str, name: str, attributes: tuple[Attribute, ...]) -> None:
        for attribute in attributes:
            key = attribute.keyword.text
            if key not in LAWFUL[kind]:
                what, why = _CANNOT[kind]
                self.notes.add(
                    "attribute-not-here", attribute.keyword.place, f"`{name}` is {what} and cannot have `{key}`", why,
                    f"say it of a moving block, or leave it out; `{kind}` takes: {', '.join(LAWFUL[kind])}.",
                )  # fmt: skip

    def _again(self, place: Place, what: str, before: Place) -> None:
        self.notes.add(
            "said-twice", place, f"{what} was said before (line {before.line})", "one rig has one of each",
            "keep one of the two lines.",
        )  # fmt: skip

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
                if a.value is not None and a.keyword.text in LAWFUL["cord"]
            }
            if rope.text in found:
                self._again(rope.place, f"the cord of `{rope.text}`", found[rope.text].place)
            elif self._is_rope(rope):
                found[rope.text] = Cord(rope.text, rope.place, *(given.get(key) for key in LAWFUL["cord"]))
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
