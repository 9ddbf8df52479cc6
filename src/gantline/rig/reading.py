"""From tree to rig: the one bridge between words and parts, and every physical problem on the way."""

from collections import Counter
from difflib import get_close_matches
from fractions import Fraction

from gantline.notation import Attribute, Statement, Tree, Word, Written
from gantline.notation import Contact as WrittenContact
from gantline.problems import Place, Problem
from gantline.quantity import UNITS

from .given import Given
from .parts import Contact, Fixed, Hand, Load, Moving, Part, Rope, Sheave, Strand
from .parts.rope import Course
from .rig import Asked, Rig

_KINDS = {
    "gravity": "acceleration", "weight": "force", "mass": "mass", "radius": "length", "disc": "mass",
    "inertia": "inertia", "efficiency": "ratio", "spacing": "length", "raise": "length", "lower": "length",
    "effort": "force",
}  # fmt: skip
_GRAVITY = Fraction(981, 100)


def read(tree: Tree) -> tuple[Rig | None, tuple[Problem, ...]]:
    """The rig a tree describes, or None with the problems that keep it from being one."""
    reading = _Reading(tree)
    rig = reading.rig()
    problems = tuple(reading.problems)
    return (None if problems else rig), problems


class _Reading:
    def __init__(self, tree: Tree) -> None:
        self.tree = tree
        self.problems: list[Problem] = []
        self.said: dict[str, list[Statement]] = {}
        for item in tree.items:
            if isinstance(item, Statement):
                self.said.setdefault(item.keyword.text, []).append(item)
        self.symbols = self._symbols()
        self.parts: dict[str, Part] = {}
        self.hand: Hand | None = None

    def problem(self, code: str, place: Place, says: str, why: str, do: str) -> None:
        self.problems.append(Problem(code, place, self.tree.lines[place.line - 1], says, why, do))

    # -- symbols ----------------------------------------------------------------------------------------------------

    def _written(self) -> list[tuple[str, Statement, Written]]:
        """Every value of the file with what it is said of."""
        found = []
        for statements in self.said.values():
            for statement in statements:
                if statement.value is not None:
                    found.append((statement.keyword.text, statement, statement.value))
                found += [(a.keyword.text, statement, a.value) for a in statement.attributes if a.value and a.keyword.text in _KINDS]
        return found

    def _symbols(self) -> dict[int, str]:
        """The symbol of every value, by its identity: the file's own, else the trade's letter, numbered where several."""
        values = self._written()
        taken = {value.symbol.text for _, _, value in values if value.symbol}
        roles = [(self._letter(kind, statement), kind, value) for kind, statement, value in values]
        bare = [load for load in self.said.get("load", []) if not any(a.keyword.text in ("weight", "mass") for a in load.attributes)]
        many = Counter(letter for letter, _, _ in roles)
        many["W"] += len(bare)
        found: dict[int, str] = {}
        numbers: Counter[str] = Counter()
        losses: dict[tuple[object, ...], str] = {}
        ratios = {self._amount(value) for letter, _, value in roles if letter == "e"}
        for letter, kind, value in roles:
            if value.symbol:
                found[id(value)] = value.symbol.text
                numbers[letter] += 1
                continue
            if kind == "efficiency":
                key = (self._amount(value),)
                if key not in losses:
                    losses[key] = self._free("e" if len(ratios) == 1 else f"e{len(losses) + 1}", taken)
                found[id(value)] = losses[key]
                continue
            numbers[letter] += 1
            found[id(value)] = self._free(letter if many[letter] == 1 else f"{letter}{numbers[letter]}", taken)
        for load in bare:
            numbers["W"] += 1
            found[id(load)] = self._free("W" if many["W"] == 1 else f"W{numbers['W']}", taken)
        return found

    @staticmethod
    def _letter(kind: str, statement: Statement) -> str:
        load = statement.keyword.text == "load"
        return {
            "gravity": "g", "weight": "W" if load else "w", "mass": "m" if load else "m_b", "radius": "r", "disc": "d",
            "inertia": "I", "efficiency": "e", "spacing": "p", "raise": "h", "lower": "h", "effort": "F",
        }[kind]  # fmt: skip

    @staticmethod
    def _free(letter: str, taken: set[str]) -> str:
        name, n = letter, 1
        while name in taken:
            n += 1
            name = f"{letter}_{n}"
        taken.add(name)
        return name

    @staticmethod
    def _amount(value: Written) -> Fraction | None:
        return value.number

    def given(self, value: Written, kind: str) -> Given | None:
        wanted = _KINDS[kind]
        if value.number is None or value.unit is None:
            return Given(self.symbols[id(value)], None, wanted, "", value.place)
        unit = UNITS[value.unit.text]
        if unit.kind != wanted:
            fit = ", ".join(u.name for u in UNITS.values() if u.kind == wanted)
            self.problem("unit-of-another-kind", value.unit.place, f"`{unit.name}` measures {unit.kind}, not {wanted}", f"{kind} is a {wanted}", f"use one of: {fit}.")
            return None
        return Given(self.symbols[id(value)], value.number * unit.factor, wanted, unit.name, value.place)

    # -- parts ------------------------------------------------------------------------------------------------------

    def rig(self) -> Rig | None:
        for item in self.tree.items:
            if isinstance(item, Statement) and item.keyword.text in ("fixed", "moving", "load"):
                self._part(item)
        ropes = tuple(filter(None, (self._rope(s) for s in self.said.get("rope", []))))
        if not ropes:
            self.problem("no-rope", Place(1, 1), "no rope is described", "without a rope nothing pulls", "add a line like `rope fall: beam, under lower, hand`.")
        if self.problems:
            return None
        title = next((s.title for s in self.said.get("title", [])), "")
        gravity = next((self.given(s.value, "gravity") for s in self.said.get("gravity", []) if s.value), None)
        effort = next((self.given(s.value, "effort") for s in self.said.get("effort", []) if s.value), None)
        own = gravity or Given("g", _GRAVITY, "acceleration", "m/s2", Place(1, 1))
        rig = Rig(title, own, tuple(self.parts.values()), ropes, self.hand, self._asked(), effort)
        return None if self.problems else rig

    def _asked(self) -> Asked | None:
        for statement in (*self.said.get("raise", []), *self.said.get("lower", [])):
            if statement.name is None or statement.value is None or not self._known(statement.name):
                continue
            distance = self.given(statement.value, statement.keyword.text)
            if distance:
                return Asked(statement.name.text, 1 if statement.keyword.text == "raise" else -1, distance, statement.name.place)
        return None

    def _known(self, name: Word) -> bool:
        if name.text in self.parts:
            return True
        near = get_close_matches(name.text, self.parts, 1, 0.6)
        self.problem("no-such-part", name.place, f"no part is called `{name.text}`", "a rope can only lead to what is there", f"did you mean `{near[0]}`?" if near else f"parts are: {', '.join(self.parts) or 'none yet'}.")
        return False

    def _part(self, statement: Statement) -> None:
        assert statement.name is not None
        name, place = statement.name.text, statement.name.place
        if name in self.parts:
            self.problem("name-twice", place, f"`{name}` is a part already (line {self.parts[name].place.line})", "a name must say which part is meant", "choose another name.")
            return
        by = {attribute.keyword.text: attribute for attribute in statement.attributes}
        given = {key: self.given(by[key].value, key) for key in _KINDS if key in by and by[key].value}  # type: ignore[arg-type]
        weight, mass = given.get("weight"), given.get("mass")
        if statement.keyword.text == "load":
            if weight is None and mass is None:
                weight = Given(self.symbols.get(id(statement), "W"), None, "force", "", place)
            self.parts[name] = Load(name, place, weight, mass)
            return
        sheaves = self._sheaves(name, by, given)
        if statement.keyword.text == "fixed":
            self.parts[name] = Fixed(name, place, sheaves, weight, mass, given.get("spacing"))
        else:
            carries = tuple(word.text for word in by["carries"].names) if "carries" in by else ()
            self.parts[name] = Moving(name, place, sheaves, weight, mass, carries, given.get("spacing"))

    def _sheaves(self, name: str, by: dict[str, Attribute], given: dict[str, Given | None]) -> tuple[Sheave, ...]:
        count = by["sheaves"].value.number if "sheaves" in by and by["sheaves"].value else Fraction(0)
        assert count is not None
        return tuple(
            Sheave(name, n + 1, given.get("efficiency"), given.get("radius"), given.get("disc"), given.get("inertia"))
            for n in range(int(count))
        )

    # -- ropes ------------------------------------------------------------------------------------------------------

    def _rope(self, statement: Statement) -> Rope | None:
        assert statement.name is not None
        contacts = [self._contact(contact) for contact in statement.contacts]
        if None in contacts:
            return None
        sure = tuple(contact for contact in contacts if contact is not None)
        if len(sure) < 2:
            self.problem("rope-end-missing", statement.name.place, f"rope `{statement.name.text}` touches only one thing", "a rope pulls between two ends", "name both of its ends.")
            return None
        strands = tuple(
            Strand(statement.name.text, n + 1, a, b, self._course(a, b)) for n, (a, b) in enumerate(zip(sure, sure[1:], strict=False))
        )
        return Rope(statement.name.text, statement.name.place, sure, strands)

    def _contact(self, written: WrittenContact) -> Contact | None:
        if written.part is None:
            self.hand = Hand(written.place, written.at.text if written.at else None)
            return Contact("hand", written.place)
        if not self._known(written.part):
            return None
        part = self.parts[written.part.text]
        if written.side is None:
            return Contact(part.name, written.place)
        sheaves = () if isinstance(part, Load) else part.sheaves
        index = written.sheave or 1
        if index > len(sheaves):
            self.problem("no-such-sheave", written.part.place, f"`{part.name}` has no sheave {index}", "a rope runs over sheaves that are there", f"give `{part.name}` more sheaves.")
            return None
        side = "over" if written.side.text == "over" else "under"
        return Contact(part.name, written.place, sheaves[index - 1], side)  # type: ignore[arg-type]

    def _course(self, a: Contact, b: Contact) -> Course:
        if a.side and b.side:
            return "level" if a.side == b.side else "down" if a.side == "over" else "up"
        if a.side or b.side:
            down = a.side == "over" or b.side == "under"
            return "down" if down else "up"
        if "hand" in (a.part, b.part):
            return "down" if a.part == "hand" else "up"
        first, second = self.parts[a.part], self.parts[b.part]
        up = isinstance(second, Fixed) or (isinstance(first, Load) and isinstance(second, Moving))
        return "up" if up else "down"
