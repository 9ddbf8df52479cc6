"""What a rig's text gives, each with its place in the text, so that it can be changed where it stands."""

from msgspec import Struct
from msgspec.structs import asdict

from gantline.notation import Statement, Tree
from gantline.notation import Written as Value
from gantline.quantity import UNITS
from gantline.rig import KINDS, Given, Rig

_NAMES = {"raise": "Rise of", "lower": "Way down of", "efficiency": "Efficiency of each wheel of",
          "radius": "Radius of each wheel of", "disc": "Disc of each wheel of", "inertia": "Inertia of each wheel of",
          "sheaves": "Wheels of", "spacing": "Spacing in"}  # fmt: skip


class Written(Struct, frozen=True):
    """One given. `id` is what a what-if calls it (`chest.weight`, `gravity`); the place is that of its value.

    `number` and `unit` are as written, `number` empty where a letter stands alone; `says` is its spoken name. `other`
    is the second part, where it is said of two.
    """

    id: str
    part: str
    other: str
    key: str
    symbol: str
    number: str
    unit: str
    kind: str
    line: int
    column: int
    length: int
    says: str


def givens(tree: Tree, rig: Rig) -> tuple[Written, ...]:
    """Everything the text gives and a name can be tried for, in its order."""
    letters = {(given.place.line, given.place.column): given.symbol for given in _known(rig)}
    found = []
    for item in tree.items:
        if isinstance(item, Statement):
            found += [_written(item, key, value, letters) for key, value in _values(item)]
    return tuple(found)


def records(given: tuple[Written, ...]) -> list[dict[str, object]]:
    """The same, ready for JSON."""
    return [asdict(one) for one in given]


def _values(item: Statement) -> list[tuple[str, Value]]:
    own = [(item.keyword.text, item.value)] if item.value else []
    return own + [(one.keyword.text, one.value) for one in item.attributes if one.value]


def _written(item: Statement, key: str, value: Value, letters: dict[tuple[int, int], str]) -> Written:
    part, other = (word.text if word else "" for word in (item.name, item.second))
    place, of = value.place, ".".join(name for name in (part, other) if name)
    symbol = value.symbol.text if value.symbol else letters.get((place.line, place.column), "")
    number, unit = (word.text if word else "" for word in (value.numeral, value.unit))
    own = item.value is value and not other
    return Written(
        key if own else f"{of}.{key}", part, other, key, symbol, number, unit, _kind(key, unit),
        place.line, place.column, place.length, f"{_name(key, part, other)}, {spoken(number, unit) or symbol}",
    )  # fmt: skip


def _kind(key: str, unit: str) -> str:
    """What a given measures: by its unit, else by what is said of it."""
    return UNITS[unit].kind if unit in UNITS else KINDS.get(key, "count")


def _name(key: str, part: str, other: str) -> str:
    if other:
        return f"Distance from {part} to {other}"
    name = _NAMES.get(key, f"{key.capitalize()} of")
    return f"{name} {part}" if part else name.removesuffix(" of")


def spoken(number: str, unit: str) -> str:
    """A written value as it is read aloud: 468 newtons."""
    one, many = UNITS[unit].spoken if unit in UNITS else _OTHERS.get(unit, (unit, unit))
    return f"{number} {one if number == '1' else many}".strip()


_OTHERS = {"J": ("joule", "joules")}  # what is only ever reckoned, never given


def _known(rig: Rig) -> list[Given]:
    """Every given of the rig, whoever holds it."""
    holders: list[Struct] = [
        rig,
        *rig.parts,
        *rig.cords,
        *rig.aparts,
        *(sheave for part in rig.parts for sheave in getattr(part, "sheaves", ())),
    ]
    found = [getattr(holder, name) for holder in holders for name in holder.__struct_fields__]
    return [one for one in [*found, rig.asked and rig.asked.distance] if isinstance(one, Given)]
