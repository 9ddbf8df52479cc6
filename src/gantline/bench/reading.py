"""The one bridge from the text of a kit file to a kit: all its problems together, as for a rig."""

import re
import tomllib
from typing import Any

from gantline.notation import MOST_BYTES, Notes, alone, did_you_mean
from gantline.problems import Place, Problem
from gantline.rig import Given, amount

from .checking import check
from .fields import ALONE, LONGEST_NAME, MOST_COUNT, MOST_ENTRIES, NEEDED, TABLES, TITLE, Field
from .kit import Block, Cord, Kit, Mass, Scale, Stand
from .lines import Lines

_KINDS: dict[str, type] = {"stand": Stand, "mass": Mass, "cord": Cord, "block": Block, "scale": Scale}
_COMMA = re.compile(r"(?<=\d),(?=\d)")
_AT = re.compile(r"\(at line (\d+), column (\d+)\)")


def read_kit(data: bytes, invented: bool = False) -> tuple[Kit | None, tuple[Problem, ...]]:
    """A kit from the bytes of a TOML file, or None and everything that is wrong with it."""
    text, notes = _text(data)
    record = _record(text, notes) if text is not None else None
    if record is None:
        return None, notes.all()
    return _Reader(record, notes).kit(invented)


def _text(data: bytes) -> tuple[str | None, Notes]:
    if len(data) > MOST_BYTES:
        notes = Notes(("",))
        notes.add(
            "kit-too-large", Place(1, 1), f"the kit file has more than {MOST_BYTES // 1024} KiB",
            "nobody has so much in a cupboard", "keep what the demonstration may use.",
        )  # fmt: skip
        return None, notes
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        notes = Notes(tuple(data.decode("utf-8", "replace").splitlines()))
        notes.add(
            "kit-not-utf8", Place(line, 1), "the kit file is not UTF-8", "its letters cannot be told apart",
            "save it again as UTF-8.",
        )  # fmt: skip
        return None, notes
    return text, Notes(tuple(text.split("\n")))


def _record(text: str, notes: Notes) -> dict[str, Any] | None:
    try:
        return tomllib.loads(text.replace("\r\n", "\n"))
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as error:
        at = _AT.search(str(error))
        place = Place(int(at[1]), int(at[2])) if at else Place(max(len(notes.lines), 1), 1)
        said = _AT.sub("", str(error)).strip().rstrip(".")
        notes.add(
            "kit-not-toml", place, f"the kit file is not TOML here: {said[:1].lower()}{said[1:80]}",
            "a kit is written in TOML: tables in brackets, and keys with texts in quotes",
            'write lines such as height = "1.60 m".',
        )  # fmt: skip
        return None


class _Reader:
    def __init__(self, record: dict[str, Any], notes: Notes) -> None:
        self.record, self.notes, self.lines = record, notes, Lines(notes.lines)

    def kit(self, invented: bool) -> tuple[Kit | None, tuple[Problem, ...]]:
        title = self._title()
        self._unknown(self.record, ("title", *TABLES), "", 0)
        made = {name: self._table(name) for name in TABLES}
        if self.notes.all():
            return None, self.notes.all()
        kit = Kit(
            title, made["stand"][0], tuple(made["mass"]), tuple(made["scale"]), tuple(made["cord"]),
            tuple(made["block"]), invented,
        )  # fmt: skip
        check(kit, self.notes, self.lines)
        problems = self.notes.all()
        return (None if problems else kit), problems

    def _title(self) -> str:
        if "title" not in self.record:
            return "Bench kit"
        return self._words("title", self.record["title"], TITLE, self.lines.of("", 0, "title")) or ""

    def _table(self, name: str) -> list[Any]:
        """The nouns of one table, None where a problem was noted."""
        found = self.record.get(name)
        if found is None or found == []:
            if name in NEEDED:
                self._missing_table(name)
            return []
        single = name in ALONE
        listed = isinstance(found, list) and all(isinstance(entry, dict) for entry in found)
        if not (isinstance(found, dict) if single else listed):
            self._shape(name, single)
            return []
        entries = [found] if single else found
        if len(entries) > MOST_ENTRIES:
            self._note(
                "kit-too-many", self.lines.of(name, MOST_ENTRIES), f"there are {len(entries)} tables [[{name}]]",
                f"a plan weighs them all against each other; {MOST_ENTRIES} are read",
                "keep what the demonstration may use.",
            )  # fmt: skip
            return []
        return [self._entry(name, n, entry) for n, entry in enumerate(entries)]

    def _entry(self, table: str, n: int, entry: dict[str, Any]) -> Any:
        fields = TABLES[table]
        self._unknown(entry, tuple(fields), table, n)
        values: dict[str, Any] = {}
        for key, field in fields.items():
            place = self.lines.of(table, n, key)
            if key not in entry:
                if field.needed:
                    self._missing_key(table, key, field, self.lines.of(table, n))
                continue
            value = self._value(key, entry[key], field, place)
            if value is not None:
                values[key] = value
        whole = all(key in values for key, field in fields.items() if field.needed)
        return _KINDS[table](**values) if whole else None

    def _value(self, key: str, value: Any, field: Field, place: Place) -> Any:
        match field.kind:
            case "text":
                return self._words(key, value, field, place)
            case "count":
                return self._count(key, value, place)
            case "yes":
                if isinstance(value, bool):
                    return value
                self._odd(key, "write true or false", place)
                return None
            case kind:
                return self._measured(key, value, field, kind, place)

    def _words(self, key: str, value: Any, field: Field, place: Place) -> str | None:
        if isinstance(value, str) and value.strip() and value.isprintable() and len(value) <= LONGEST_NAME:
            return value
        self._note(
            "kit-text-unreadable", place, f"`{key}` is no short line of text",
            "it stands on the plan as it is written here",
            f"write up to {LONGEST_NAME} letters in quotes, such as {key} = {field.such_as}.",
        )  # fmt: skip
        return None

    def _count(self, key: str, value: Any, place: Place) -> int | None:
        if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= MOST_COUNT:
            return value
        self._note(
            "kit-count-unreadable", place, f"`{key}` is no whole number from 1 to {MOST_COUNT}",
            "things are counted: 1, 2, 3 and so on", f"write such as {key} = 4, without quotes.",
        )  # fmt: skip
        return None

    def _measured(self, key: str, value: Any, field: Field, kind: str, place: Place) -> Given | None:
        line = self.notes.lines[place.line - 1] if place.line <= len(self.notes.lines) else ""
        if not isinstance(value, str) or line[place.column - 1 : place.column - 1 + place.length] != value:
            self._odd(
                key, f"write the number with its unit in quotes, in a line of its own: {key} = {field.such_as}", place
            )
            return None
        if comma := _COMMA.search(value):
            self._comma(key, value, Place(place.line, place.column + comma.start(), 1))
            return None
        written = alone(key, place, self.notes)
        if written is None:
            return None
        if written.number is None:
            self._odd(key, f"write a number with its unit: {key} = {field.such_as}", place)
            return None
        return amount(written, key, key, self.notes, kind)

    def _comma(self, key: str, value: str, place: Place) -> None:
        self._note(
            "comma-in-number", place, f"a comma stands inside the number of `{key}`",
            "a decimal for one reader and a thousand for another: a kit has numbers with a point only",
            f'write "{value.replace(",", ".", 1)}" for a decimal, and thousands without a separator.',
        )  # fmt: skip

    def _odd(self, key: str, do: str, place: Place) -> None:
        why = "what is measured is a number with its unit, and what is true or false needs no quotes"
        self._note("kit-value-unreadable", place, f"`{key}` cannot be read", why, f"{do}.")

    def _unknown(self, found: dict[str, Any], known: tuple[str, ...], table: str, n: int) -> None:
        for key in found:
            if key not in known:
                place = self.lines.of(table, n, key) if table else self._place_of_table(key)
                self._note(
                    "kit-key-unknown", place, f"`{key[:LONGEST_NAME]}` is nothing that a kit has here",
                    "what is not understood would be left out of the plan unseen",
                    did_you_mean(key, known, f"use one of: {', '.join(known)}."),
                )  # fmt: skip

    def _place_of_table(self, key: str) -> Place:
        found = self.lines.of(key)
        return found if found != Place(1, 1) else self.lines.of("", 0, key)

    def _missing_table(self, name: str) -> None:
        header = f"[{name}]" if name in ALONE else f"[[{name}]]"
        self._note(
            "kit-table-missing", Place(max(len(self.notes.lines), 1), 1), f"the kit has no {header}",
            "a plan needs a stand, masses, a cord and a scale", f"add a table {header}; `gantline shelf kit` has one.",
        )  # fmt: skip

    def _missing_key(self, table: str, key: str, field: Field, place: Place) -> None:
        self._note(
            "kit-key-missing", place, f"`{key}` is missing in this {table}", "the plan is worked out from it",
            f"add a line such as {key} = {field.such_as}.",
        )  # fmt: skip

    def _shape(self, name: str, single: bool) -> None:
        one, many = f"[{name}]", f"[[{name}]]"
        self._note(
            "kit-shape", self.lines.of(name), f"`{name}` is not written as {one if single else many}",
            "there is one stand, and there may be several of everything else",
            f"write its head as {one if single else many}.",
        )  # fmt: skip

    def _note(self, code: str, place: Place, says: str, why: str, do: str) -> None:
        self.notes.add(code, place, says, why, do)
