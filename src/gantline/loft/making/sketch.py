"""A rig in the making, as far as its text goes: parts, grooves, ropes and their free ends. Asks for nothing missing."""

from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from gantline.notation import Attribute, Contact, Statement, Tree, Word
from gantline.problems import Place

Going = Literal["up", "down"]
HERE = Place(1, 1)  # of words that stand in no text


class Rove(Struct, frozen=True):
    """A rope as far as it is laid. `going` is the way of its free end, None where both ends are held."""

    name: str
    contacts: tuple[Contact, ...]
    going: Going | None


class Sketch:
    """What a tree says of parts and ropes."""

    def __init__(self, tree: Tree) -> None:
        statements = [item for item in tree.items if isinstance(item, Statement) and item.name]
        self.tree = tree
        self.parts = {s.name.text: s for s in statements if s.name and s.keyword.text in ("fixed", "moving", "load")}
        self.ropes = {s.name.text: self._rove(s) for s in statements if s.name and s.keyword.text == "rope"}
        self.names = {s.name.text for s in statements if s.name}
        self.used = {
            wheel_of(contact, name): rope.name
            for rope in self.ropes.values() for contact in rope.contacts if (name := contact.part) and contact.side
        }  # fmt: skip

    def kind(self, name: str) -> str:
        """fixed, moving or load; empty where no part has the name."""
        return self.parts[name].keyword.text if name in self.parts else ""

    def of_kind(self, *kinds: str) -> list[str]:
        return [name for name in self.parts if self.kind(name) in kinds]

    def sheaves(self, name: str) -> int:
        count = self.attribute(name, "sheaves")
        return int(count.value.number) if count and count.value and count.value.number else 0

    def attribute(self, name: str, key: str) -> Attribute | None:
        part = self.parts.get(name)
        return next((one for one in part.attributes if one.keyword.text == key), None) if part else None

    def carries(self, name: str) -> list[str]:
        names = self.attribute(name, "carries")
        return [word.text for word in names.names] if names else []

    def bearer(self, load: str) -> str | None:
        """The block that carries a load."""
        return next((name for name in self.of_kind("moving") if load in self.carries(name)), None)

    def body(self, part: str) -> str:
        """What a part moves with: the load that joins blocks, or itself."""
        return next(iter(self.carries(part)), part)

    def free(self, block: str) -> list[int]:
        """The sheaves of a block that no rope runs over."""
        return [n for n in range(1, self.sheaves(block) + 1) if f"{block}.{n}" not in self.used]

    @property
    def hand(self) -> bool:
        return any(contact.part is None for rope in self.ropes.values() for contact in rope.contacts)

    @property
    def touched(self) -> set[str]:
        """Parts that a rope touches, or a hand that rides, with the loads of touched blocks."""
        words = [w for rope in self.ropes.values() for c in rope.contacts for w in (c.part, c.at) if w]
        names = {word.text for word in words}
        return names | {load for name in names for load in self.carries(name)}

    def at_floor(self, block: str) -> bool:
        """Whether a fixed block stands below: a rope passes under it."""
        return "under" in self.sides(block)

    def sides(self, block: str) -> set[str]:
        """The sides on which ropes pass a block's wheels."""
        contacts = [c for rope in self.ropes.values() for c in rope.contacts if c.part and c.part.text == block]
        return {c.side.text for c in contacts if c.side}

    def free_name(self, *wished: str) -> str:
        """The first of these names that nothing has; then the last one with a number."""
        found = next((name for name in wished if name not in self.names), None)
        n = 2
        while found is None:
            found = None if f"{wished[-1]}{n}" in self.names else f"{wished[-1]}{n}"
            n += 1
        return found

    def with_rope(self, name: str, contacts: tuple[Contact, ...]) -> "Sketch":
        """The same with a rope laid like this; a rope of that name is replaced."""
        return Sketch(with_statement(self.tree, rope_statement(name, contacts)))

    def _rove(self, statement: Statement) -> Rove:
        assert statement.name is not None
        return Rove(statement.name.text, statement.contacts, self.going(statement.contacts))

    def going(self, contacts: tuple[Contact, ...]) -> Going | None:
        """The way a rope's end hangs free behind these contacts."""
        last = contacts[-1]
        if last.side is not None:
            return "down" if last.side.text == "over" else "up"
        if len(contacts) > 1 or last.part is None:
            return None
        return "down" if self.kind(last.part.text) == "fixed" else "up"


def wheel_of(contact: Contact, part: Word) -> str:
    return f"{part.text}.{contact.sheave or 1}"


def over_or_under(side: str, part: str, sheave: int) -> Contact:
    return Contact(Word(side, HERE), Word(part, HERE), sheave, None, HERE)


def fast(part: str) -> Contact:
    return Contact(None, Word(part, HERE), None, None, HERE)


def hand(at: str = "") -> Contact:
    return Contact(None, None, None, Word(at, HERE) if at else None, HERE)


def written(contact: Contact) -> str:
    """A contact as the text has it; its words are also what a place is known by."""
    if contact.part is None:
        return f"hand at {contact.at.text}" if contact.at else "hand"
    if contact.side is None:
        return contact.part.text
    return f"{contact.side.text} {wheel_of(contact, contact.part)}"


def rope_statement(name: str, contacts: tuple[Contact, ...]) -> Statement:
    return Statement(Word("rope", HERE), name=Word(name, HERE), contacts=contacts)


def part_statement(kind: str, name: str, *attributes: Attribute) -> Statement:
    return Statement(Word(kind, HERE), name=Word(name, HERE), attributes=attributes)


def with_statement(tree: Tree, statement: Statement) -> Tree:
    """The tree with one more statement, in the place of one of the same kind and name."""
    assert statement.name is not None
    for n, item in enumerate(tree.items):
        named = isinstance(item, Statement) and item.keyword.text in ("fixed", "moving", "load", "rope") and item.name
        if named and named.text == statement.name.text:
            return replace(tree, items=(*tree.items[:n], statement, *tree.items[n + 1 :]))
    return replace(tree, items=(*tree.items, statement))
