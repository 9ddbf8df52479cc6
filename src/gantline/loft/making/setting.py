"""Values set where they stand: a weight, an efficiency, a rise, the title."""

from collections.abc import Mapping
from typing import Any

from gantline.notation import Attribute, Statement, comment_start, parse, with_value
from gantline.problems import Problem
from gantline.rig import read

from ..givens import givens
from .building import last_attribute, without_attributes
from .edited import Edited, Refused, edited, new_problems, without_new_problems
from .laying import tight, written_pull
from .slip import Change, Slip, changed

_OTHER = {"weight": "mass", "mass": "weight", "disc": "inertia", "inertia": "disc"}
_MOTIONS = ("raise", "lower")


def set_value(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """One given set: {"target": "sack.weight", "gravity", "raise", "title" ..., "value": "468 N"}. An empty value takes
    it away."""
    target, value = str(wish.get("target", "")).strip(), str(wish.get("value", "")).strip()
    if target == "title":
        return _title(slip, value)
    changes = _unset(slip, target) if not value else _set(slip, target, value)
    text = changed(slip.text, changes)
    done = edited(slip, changes, _told(text, target, value), focus=target.rpartition(".")[0])
    return without_new_problems(slip, done)


def write_in(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """What was only tried, written in: {"values": {"sack.weight": "600 N", ...}}."""
    values = wish.get("values")
    if not isinstance(values, Mapping) or not values:
        raise Refused("Nothing is being tried.")
    text = slip.text
    for target, value in values.items():
        now = Slip(text)
        text = changed(text, _set(now, str(target), str(value).strip()))
    fresh = new_problems(slip.text, text)
    if fresh:
        raise Refused(f"Line {fresh[0].place.line}: {fresh[0].says}.", fresh)
    return edited(slip, tight(slip.text, text), f"Written in.{written_pull(text)}")


def _set(slip: Slip, target: str, value: str) -> list[Change]:
    value = value[: comment_start(value)].strip()
    _, problems = with_value(slip.tree, target, value)
    if problems:
        raise Refused(f"{problems[0].says[:1].upper()}{problems[0].says[1:]}.", problems)
    name, dot, key = target.rpartition(".")
    if not dot:
        return _statement(slip, target, value)
    if key == "apart":
        return _between(slip, name, value)
    statement = slip.part(name) or slip.cord(name)
    if statement is None:  # with_value has found the rope: of its cord nothing is said yet
        return [slip.added(slip.set_out("cord", name, f"{key} {value}"), slip.statements("rope")[-1])]
    by = {attribute.keyword.text: attribute for attribute in statement.attributes}
    old = by.get(key) or by.get(_OTHER.get(key, ""))
    if old is None:
        return [last_attribute(slip, statement, f"{key} {value}")]
    changes = [_replaced(slip, old, value)]
    if old.keyword.text != key:
        changes.insert(0, Change(slip.at(old.keyword.place), slip.after(old.keyword), key))
    return changes


def _between(slip: Slip, names: str, value: str) -> list[Change]:
    """How far two parts are apart, changed where it stands or added where such lines stand."""
    there = slip.apart(names)
    if there and there.value:
        return [_replaced(slip, there, value)]
    lines = slip.statements("apart") or slip.statements("cord") or slip.statements("rope")
    return [slip.added(slip.set_out("apart", rest=f"{names.replace('.', ' ')} {value}"), lines[-1] if lines else None)]


def _replaced(slip: Slip, said: Attribute | Statement, value: str) -> Change:
    assert said.value is not None
    start = slip.at(said.value.place)
    return Change(start, start + said.value.place.length, value)


def _statement(slip: Slip, target: str, value: str) -> list[Change]:
    """A statement of one value, changed where it stands or added where such lines stand."""
    keywords = _MOTIONS if target in _MOTIONS else (target,)
    there = slip.statements(*keywords)
    if there and there[0].value:
        start = slip.at(there[0].value.place)
        changes = [Change(start, start + there[0].value.place.length, value)]
        word = there[0].keyword
        return changes if word.text == target else [Change(slip.at(word.place), slip.after(word), target), *changes]
    loads = slip.statements("load")
    name = loads[0].name.text if target in _MOTIONS and loads and loads[0].name else ""
    line = slip.set_out(target, rest=f"{name} {value}".strip())
    if target == "gravity":
        title = slip.statements("title")
        return [slip.added(line, title[-1] if title else None)]
    every = [item for item in slip.tree.items if isinstance(item, Statement)]
    return [slip.added(line, every[-1] if every else None)]


def raise_part(slip: Slip, wish: Mapping[str, Any]) -> Edited:
    """The motion asked about: {"part", "value", "way"?: "raise" or "lower"}."""
    part, way, value = str(wish.get("part", "")), str(wish.get("way", "raise")), str(wish.get("value", "")).strip()
    if way not in _MOTIONS:
        raise Refused("A part is raised or lowered.")
    if slip.part(part) is None:
        raise Refused(f"Nothing is called {part[:40] or 'so'}.")
    there = slip.statements(*_MOTIONS)
    changes = _set(slip, way, value)
    if there and there[0].name and there[0].name.text != part:
        changes.append(Change(slip.at(there[0].name.place), slip.after(there[0].name), part))
    elif not there:
        every = [item for item in slip.tree.items if isinstance(item, Statement)]
        changes = [slip.added(slip.set_out(way, rest=f"{part} {value[: comment_start(value)].strip()}"), every[-1])]
    text = changed(slip.text, changes)
    return without_new_problems(slip, edited(slip, changes, _told(text, way, value), focus=part))


def _unset(slip: Slip, target: str) -> list[Change]:
    """A given taken away: its attribute, or its line."""
    name, dot, key = target.rpartition(".")
    lines = slip.statements(*(_MOTIONS if target in _MOTIONS else (target,)))
    if key == "apart" and (there := slip.apart(name)):
        return slip.cut(slip.words(there))
    statement = slip.part(name) or slip.cord(name) if dot else next(iter(lines), None)
    if statement is None or (dot and key not in [a.keyword.text for a in statement.attributes]):
        raise Refused("Nothing is given there.")
    if key == "sheaves" and dot:
        raise Refused("Wheels are taken away on the block itself.")
    return without_attributes(slip, statement, key) if dot else slip.cut(slip.words(statement))


def _title(slip: Slip, title: str) -> Edited:
    there = next(iter(slip.statements("title")), None)
    changes: list[Change]
    if there is None:
        changes = [slip.added(slip.set_out("title", rest=title), None)] if title else []
    else:
        row = there.keyword.place.line
        line = slip.lines[row - 1]
        start = line.index(there.title, there.keyword.place.column - 1 + len("title"))
        at = slip.line_end(row) - len(line)
        changes = [Change(at + start, at + start + len(there.title), title)] if title else _title_gone(slip, there)
    found = _wrong_title(title)
    if found:
        raise Refused(f"{found[0].says[:1].upper()}{found[0].says[1:]}.", found)
    return edited(slip, changes, f"Called {title}." if title else "No title.")


def _title_gone(slip: Slip, there: Statement) -> list[Change]:
    row = there.keyword.place.line
    line = slip.lines[row - 1]
    start, end = slip.line_end(row) - len(line), slip.line_end(row)
    at = start + comment_start(line)
    if at < end:
        return [Change(start + there.keyword.place.column - 1, at, "")]
    more = row < len(slip.lines)
    return [Change(start, end + len(slip.break_) if more else end, "")]


def _wrong_title(title: str) -> tuple[Problem, ...]:
    """What is wrong with a title: it must be one line, and all of it title."""
    if not title:
        return ()
    tree, problems = parse(f"title {title}")
    first = tree.items[0] if len(tree.items) == 1 else None
    if isinstance(first, Statement) and first.title == title and not first.comment:
        return ()
    return problems or parse("title")[1]


def _told(text: str, target: str, value: str) -> str:
    """What was set, and the pull that comes of it."""
    tree = parse(text)[0]
    rig = read(tree)[0]
    given = next((one for one in givens(tree, rig) if one.id == target), None) if rig else None
    if not value:
        return f"{target.replace('.', ': ')} is not given any more.{written_pull(text)}"
    name, _, key = target.rpartition(".")
    plain = f"{key.capitalize()} of {name} {value}" if name else f"{target.capitalize()} {value}"
    return f"{given.says.replace(', ', ' ', 1) if given else plain}.{written_pull(text)}"
