"""What-if on a tree: one value changed, everything else as it stands."""

from msgspec.structs import replace

from gantline.problems import Place, Problem

from .problems import Notes, Unreadable, did_you_mean
from .scan import words_of
from .statement import ATTRIBUTES, StatementReader
from .tree import Attribute, Statement, Tree, Word, Written

_VALUED = ("gravity", "effort", "lead")
_PARTS = ("fixed", "moving", "load", "cord")
_MOTIONS = ("raise", "lower")
_CORD = Word("cord", Place(1, 1, len("cord")))


def with_value(tree: Tree, target: str, text: str) -> tuple[Tree, tuple[Problem, ...]]:
    """The tree with `target` said to be `text`: `lower.weight`, `fall.stiffness`, `upper.lower.apart`, `gravity`,
    `effort`, `raise`.

    What the file does not say yet is added. Problems stand on line 1 of a line that says `target = text`.
    """
    line = f"{target} = {text}"
    notes = Notes((line,))
    try:
        return _changed(tree, target.strip(), line, notes), ()
    except Unreadable:
        return tree, notes.all()


def _changed(tree: Tree, target: str, line: str, notes: Notes) -> Tree:
    name, dot, key = target.rpartition(".")
    at = next((n for n, item in enumerate(tree.items) if _is(item, name if dot else target, bool(dot))), None)
    if key == "apart" and (pair := _pair(tree, name)):
        return _between(tree, pair, _read(key, line, notes))
    if not dot and target in (*_VALUED, *_MOTIONS):
        return _statement(tree, at, target, _read(target, line, notes))
    if at is None and any(_named(item, "rope") == name for item in tree.items) and key in ATTRIBUTES:
        tree, at = replace(tree, items=(*tree.items, Statement(_CORD, name=Word(name, _CORD.place)))), len(tree.items)
    if at is None or key not in ATTRIBUTES or key == "carries":
        raise _nothing(tree, target, name, key, notes)
    value = _read(key, line, notes)
    item = tree.items[at]
    assert isinstance(item, Statement)
    other = {"weight": "mass", "mass": "weight", "disc": "inertia", "inertia": "disc"}.get(key)
    kept = tuple(a for a in item.attributes if a.keyword.text not in (key, other))
    attribute = Attribute(Word(key, value.place), value=value)
    return _put(tree, at, replace(item, attributes=(*kept, attribute)))


def _pair(tree: Tree, names: str) -> tuple[str, str] | None:
    """The two parts that `upper.lower` names."""
    first, dot, second = names.partition(".")
    known = {_named(item, *_PARTS) for item in tree.items}
    return (first, second) if dot and {first, second} <= known else None


def _between(tree: Tree, pair: tuple[str, str], value: Written) -> Tree:
    """How far two parts are apart, changed whichever of them is named first, or added."""
    for at, item in enumerate(tree.items):
        if isinstance(item, Statement) and item.name and item.second and {item.name.text, item.second.text} == {*pair}:
            return _put(tree, at, replace(item, value=value))
    first, second = (Word(name, value.place) for name in pair)
    said = Statement(Word("apart", value.place), name=first, second=second, value=value)
    return replace(tree, items=(*tree.items, said))


def _is(item: object, name: str, part: bool) -> bool:
    if not isinstance(item, Statement):
        return False
    if part:
        return _named(item, *_PARTS) == name
    return item.keyword.text == name or (name in _MOTIONS and item.keyword.text in _MOTIONS)


def _named(item: object, *keywords: str) -> str | None:
    """The name in a statement that begins with one of these words."""
    if not isinstance(item, Statement) or item.keyword.text not in keywords or item.name is None:
        return None
    return item.name.text


def _statement(tree: Tree, at: int | None, target: str, value: Written) -> Tree:
    """A statement of one value, changed or added; `raise` and `lower` keep the part they speak of."""
    if at is not None:
        item = tree.items[at]
        assert isinstance(item, Statement)
        return _put(tree, at, replace(item, keyword=Word(target, item.keyword.place), value=value))
    loads = [i.name for i in tree.items if isinstance(i, Statement) and i.keyword.text == "load"]
    name = loads[0] if target in _MOTIONS and loads else None
    return replace(tree, items=(*tree.items, Statement(Word(target, value.place), name=name, value=value)))


def _put(tree: Tree, at: int, item: Statement) -> Tree:
    return replace(tree, items=(*tree.items[:at], item, *tree.items[at + 1 :]))


def _read(key: str, line: str, notes: Notes) -> Written:
    from_here = line.index("=") + 2
    words = [word for word in words_of(line, 1, len(line)) if word.place.column >= from_here]
    reader = StatementReader(notes, [Word(key, Place(1, 1, len(key))), *words], [""])
    reader.at = 1
    value = reader.count() if key == "sheaves" else reader.value(key)
    if reader.at < len(reader.words):
        place = reader.words[reader.at].place
        raise notes.stop(
            "something-left-over", place, f"`{reader.words[reader.at].text}` is not expected here",
            "one value is set at a time", "give each its own setting.",
        )  # fmt: skip
    return value


def _nothing(tree: Tree, target: str, name: str, key: str, notes: Notes) -> Exception:
    named = (_named(item, *_PARTS, "rope") for item in tree.items)
    parts = tuple(dict.fromkeys(name for name in named if name is not None))
    known = tuple(f"{part}.{each}" for part in parts for each in ATTRIBUTES if each != "carries")
    return notes.stop(
        "nothing-to-set", Place(1, 1, max(len(target), 1)), f"`{target}` is nothing that can be set",
        "a setting names a part of this rig and one of its attributes",
        did_you_mean(target, (*known, *_VALUED, *_MOTIONS), f"write it like {(*parts, 'lower')[0]}.weight=20N."),
    )  # fmt: skip
