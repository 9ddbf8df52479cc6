"""From tree to text: one way to write a rig, columns aligned, comments kept."""

from .tree import Attribute, Contact, Remark, Statement, Tree, Written

_KEYWORD = 9  # where the second column begins
_LONGEST = 100  # a longer statement goes on over several lines


def tidy(tree: Tree) -> str:
    """The text of a tree. Blank lines are kept, several in a row become one; tidied text stays as it is."""
    width = max((_width(item) for item in tree.items), default=0) + 1
    lines: list[str] = []
    for item in tree.items:
        if isinstance(item, Statement):
            lines += _statement(item, width)
        elif item.comment is not None:
            lines.append(f"# {item.comment}".rstrip())
        elif lines and lines[-1]:
            lines.append("")
    while lines and not lines[-1]:
        lines.pop()
    return "\n".join(lines) + "\n" if lines else ""


def _width(item: Statement | Remark) -> int:
    """What an item asks of the column of names; motions and distances name parts of it, in running text."""
    if not isinstance(item, Statement) or item.name is None or item.keyword.text in ("raise", "lower", "apart"):
        return 0
    return len(item.name.text) + (item.keyword.text == "rope")


def _statement(item: Statement, width: int) -> list[str]:
    head = f"{item.keyword.text:<{_KEYWORD}}"
    if item.title:
        return [_with_comment(head + item.title, item.comment)]
    name = item.name.text if item.name else ""
    if item.contacts:
        return _laid_out(f"{head}{name + ':':<{width}} ", [_contact(c) for c in item.contacts], item)
    if item.value is not None:
        said = " ".join([*(word.text for word in (item.name, item.second) if word), _value(item.value)])
        return [_with_comment(head + said, item.comment)]
    if not item.attributes:
        return [_with_comment(head + name, item.comment)]
    return _laid_out(f"{head}{name:<{width}} ", [_attribute(a) for a in item.attributes], item)


def _laid_out(head: str, pieces: list[str], item: Statement) -> list[str]:
    """The pieces behind their head, on one line where it is short and no comment stands within."""
    whole = head + ", ".join(pieces)
    notes = list(item.comments_within)
    if len(whole) <= _LONGEST and not any(notes):
        return [_with_comment(whole, item.comment)]
    rows: list[list[str]] = [[]]
    for piece in pieces:
        size = sum(len(each) + 2 for each in rows[-1])
        if rows[-1] and len(head) + size + len(piece) > _LONGEST:
            rows.append([])
        rows[-1].append(piece)
    while len(rows) < len(notes) + 1 and any(len(row) > 1 for row in rows):
        longest = max(range(len(rows)), key=lambda n: len(rows[n]))
        rows[longest : longest + 1] = [rows[longest][:-1], rows[longest][-1:]]
    spare = " ".join(note for note in notes[len(rows) - 1 :] if note)
    notes = notes[: len(rows) - 1] + [""] * (len(rows) - 1 - len(notes))
    notes.append(f"{spare} {item.comment}".strip())
    starts = [head, *[" " * len(head)] * (len(rows) - 1)]
    ends = [*[","] * (len(rows) - 1), ""]
    return [
        _with_comment(start + ", ".join(row) + end, note)
        for start, row, end, note in zip(starts, rows, ends, notes, strict=True)
    ]


def _with_comment(text: str, comment: str) -> str:
    text = text.rstrip()
    return f"{text:<38}  # {comment}" if comment else text


def _contact(contact: Contact) -> str:
    if contact.part is None:
        return f"hand at {contact.at.text}" if contact.at else "hand"
    where = contact.part.text if contact.sheave is None else f"{contact.part.text}.{contact.sheave}"
    return f"{contact.side.text} {where}" if contact.side else where


def _attribute(attribute: Attribute) -> str:
    said = _value(attribute.value) if attribute.value else " and ".join(name.text for name in attribute.names)
    return f"{attribute.keyword.text} {said}"


def _value(value: Written) -> str:
    number = "" if value.numeral is None else value.numeral.text
    words = [number, value.unit.text if value.unit else ""]
    said = " ".join(word for word in words if word)
    if value.symbol is None:
        return said
    return f"{value.symbol.text} = {said}" if said else value.symbol.text
