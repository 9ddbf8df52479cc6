"""Puts steps into words: picks the frame that is true of the rig, fills in names, and keeps every number it speaks."""

import re
from collections.abc import Collection, Iterable, Mapping
from fractions import Fraction

from gantline.mechanics import Value
from gantline.quantity import DIGITS, UNITS, Equation, Formula, Number, Unit, telling_digits, text
from gantline.rig import shown_unit

from .account import Account, Said, Step, WrongAnswer
from .facts import Facts
from .naming import roles
from .numbers import Numeral, adds_up, numeral
from .phrases import en
from .phrases.en import Frame, Noun

_JOULE = Unit("J", "work", Fraction(1), ("joule", "joules"))
_PLAIN = Unit("", "number", Fraction(1), ("", ""))
_ASCII = {"m/s²": "m/s2"}
_STYLES = ("bare", "near", "rough")


class Writer:
    """Writes one account of one rig. Numbers are told once (`tell`), and spoken by key in the frames that need them.

    `only` names the steps of a short account; the others are left out.
    """

    def __init__(self, facts: Facts, method: str, only: Collection[str] | None = None) -> None:
        self.facts = facts
        self.method = method
        self.only = only
        self.steps: list[Step] = []
        self.tags: set[str] = set()
        self.nouns = nouns(facts)
        self.words: dict[str, str | Noun] = {}  # words that any frame may use
        self.part_key: dict[str, str] = {}  # part -> the key its weight is told under
        self._values: dict[str, Value] = {}
        self._digits: dict[str, int] = {}
        self._rounded: set[str] = set()  # totals that their terms, as said, miss by a little

    # -- numbers ----------------------------------------------------------------------------------------------------

    def tell(self, **values: Value | Fraction | None) -> None:
        """Numbers that the frames may speak, by key."""
        for key, found in values.items():
            if found is not None:
                self._values[key] = Value(found, "1", None) if isinstance(found, Fraction) else found

    def add_up(self, terms: Iterable[str], total: str) -> None:
        """Says `about` to a total that a hearer would miss by adding the terms as they are written."""
        known = [number for key in (*terms, total) if (number := self.shown_number(key)) is not None]
        if not adds_up(known[:-1], known[-1]):
            self._rounded.add(total)

    def keep_apart(self, *keys: str) -> None:
        """Says different numbers so that they sound different: with more digits where the usual ones hide it."""
        numbers = [number for key in keys if (number := self.shown_number(key)) is not None]
        self._digits |= dict.fromkeys(keys, telling_digits(numbers))

    @property
    def values(self) -> tuple[Value, ...]:
        """Every number told so far."""
        return tuple(self._values.values())

    def knows(self, key: str) -> bool:
        return key in self._values

    def set_digits(self, key: str, digits: int) -> None:
        """Says a number with so many significant digits."""
        self._digits[key] = digits

    def mark(self, value: Value) -> str:
        """A value as it stands beside a part of the figure."""
        self.tell(_mark=value)
        return self._shown("_mark")

    def shown_number(self, key: str) -> Fraction | None:
        """The number in the unit a reader sees."""
        value = self._values[key]
        return value.number / self.unit(value).factor if value.number is not None else None

    def unit(self, value: Value) -> Unit:
        """The unit a reader sees a value in."""
        if value.unit == "J":
            return _JOULE
        shown = shown_unit(self.facts.rig, _ASCII.get(value.unit, value.unit))
        return shown or UNITS.get(_ASCII.get(value.unit, value.unit), _PLAIN)

    def exact(self, key: str) -> Fraction | None:
        """A told number in SI."""
        return self._values[key].number if key in self._values else None

    def formula_text(self, formula: Formula) -> str:
        """A formula as it stands beside a strand."""
        return text(formula)

    def numeral(self, key: str) -> Numeral | None:
        number = self.shown_number(key)
        return numeral(number, self._digits.get(key, DIGITS)) if number is not None else None

    def number(self, key: str) -> Number:
        """A told value as the number that ends an equation, written as the sentence says it."""
        value = self._values[key]
        assert value.number is not None
        return Number(value.number, self._shown(key))

    def equation(self, *sides: Formula, key: str = "") -> Equation:
        """An equation that ends in a told value, where that has a number."""
        known = key in self._values and self._values[key].number is not None
        return Equation((*sides, self.number(key)) if known else sides)

    def _shown(self, key: str, bare: bool = False) -> str:
        """A told value as it is written, with its unit unless it stands `bare`; its letters where it has no number."""
        value, figure = self._values[key], self.numeral(key)
        if figure is None:
            assert value.formula is not None
            return text(value.formula)
        name = self.unit(value).name.replace("m/s2", "m/s²")
        return figure.text if bare or not name else f"{figure.text}{'°' if name == 'deg' else f' {name}'}"

    def _said(self, key: str, style: str) -> Said:
        value, figure, number = self._values[key], self.numeral(key), self.shown_number(key)
        name = f"{key}_{style}" if style else key
        if figure is None or number is None:
            assert value.formula is not None
            return Said(name, value, en.spoken(value.formula), self._shown(key))
        unit = self.unit(value)
        bare = style == "bare" or not unit.name
        spoken = figure.text if bare else en.measured(figure, number, unit)
        rough = style == "rough" or key in self._rounded
        hedge = en.ABOUT if rough else en.hedge(figure) if style == "near" else ""
        return Said(name, value, hedge + spoken, hedge + self._shown(key, bare))

    # -- steps ------------------------------------------------------------------------------------------------------

    def step(
        self,
        id: str,
        view: str,
        *,
        lit: Iterable[str] | None = None,
        marks: Iterable[tuple[str, str]] = (),
        struck: Iterable[str] = (),
        formula: Equation | Formula | None = None,
        formula_text: str = "",
        cites: Iterable[str] = (),
        pause: float = 0.0,
        true: Iterable[str] = (),
        words: Mapping[str, str | Noun] | None = None,
    ) -> None:
        """One step, in the words of the first frame whose condition holds; no step where the frame is empty."""
        frame = self._frame(id, self.tags | set(true)) if self.tells(id) else None
        if frame is None or not frame.say:
            return
        say = self._connect(fill(frame.say, {**self.words, **(words or {})}, self.nouns, self.facts.load))
        known = {relation.id for relation in self.facts.answer.relations}
        self.steps.append(
            Step(
                id, frame.idea or id, say, view,
                lit=tuple(dict.fromkeys(lit)) if lit is not None else None,
                marks=tuple(marks), struck=tuple(struck), formula=formula, formula_text=formula_text,
                cites=tuple(cite for cite in cites if cite in known), pause=pause,
            )
        )  # fmt: skip

    def tells(self, id: str) -> bool:
        """Whether this account has room for a step."""
        return self.only is None or id in self.only

    def _frame(self, id: str, tags: set[str]) -> Frame | None:
        for table in (en.FRAMES.get(self.method, {}), en.FRAMES["common"]):
            for frame in table.get(id, ()):
                if frame.holds(tags):
                    return frame
        return None

    def _connect(self, say: str) -> str:
        """Drops a connective at the front where the step before began with the same one."""
        first, _, rest = say.partition(" ")
        before = self.steps[-1].say.partition(" ")[0] if self.steps else ""
        if first in en.CONNECTIVES and first == before:
            return rest[:1].upper() + rest[1:]
        return say

    # -- the whole --------------------------------------------------------------------------------------------------

    def account(self, result: Value | None, wrong: WrongAnswer | None = None) -> Account:
        """The account as written so far, with the numbers its sentences speak and the seconds they take."""
        keys = dict.fromkeys(key for step in self.steps for key in re.findall(r"\{(\w+)\}", step.say))
        values = tuple(self._said(*self._split(key)) for key in keys)
        spoken = {value.key: value.spoken for value in values}
        steps = tuple(self._timed(step, spoken) for step in self.steps)
        return Account(self.method, en.METHOD_NAMES[self.method], steps, values, result, wrong)

    def _split(self, key: str) -> tuple[str, str]:
        stem, _, style = key.rpartition("_")
        return (stem, style) if style in _STYLES and stem in self._values else (key, "")

    def _timed(self, step: Step, spoken: Mapping[str, str]) -> Step:
        from msgspec.structs import replace

        return replace(step, seconds=en.seconds(step.say.format_map(spoken)))


def fill(say: str, words: Mapping[str, str | Noun], names: Mapping[str, Noun], load: str) -> str:
    """Puts names into square brackets: [a load], [the load], [its own]; a word alone stands as it is given."""

    def name(found: re.Match[str]) -> str:
        form, _, key = found[1].rpartition(" ")
        word = words.get(key) or names.get(load if key == "load" else key)
        if word is None:
            raise KeyError(f"no name for {key!r} in: {say}")
        return word if isinstance(word, str) else str(getattr(word, form or "bare"))

    return re.sub(r"(^|[.?!] )([a-z])", lambda found: found[1] + found[2].upper(), re.sub(r"\[([^\]]+)\]", name, say))


def nouns(facts: Facts) -> dict[str, Noun]:
    """The name of every part, as this language has it."""
    found: dict[str, Noun] = {}
    given = roles(facts)
    stays = [sheave for sheave in facts.sheaves if facts.body(sheave.block) is None]
    movers = [part.name for part in facts.rig.moving]
    in_hand = facts.hand_rope.name if facts.hand_rope else None
    for name, rope in en.rope_nouns([rope.name for rope in facts.rig.ropes], in_hand).items():
        found[f"rope {name}"] = rope
    for name, role in given.items():
        alone = len(facts.rig.loads) == 1 if role.kind == "load" else len(movers) == 1
        found[name] = en.noun(role, alone, found.get(role.of), bool(stays))
    return found
