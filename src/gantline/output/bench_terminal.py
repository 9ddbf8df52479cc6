"""The bench plan on a terminal."""

from textwrap import fill

from gantline.bench import Declined, Sheet, Table

from .plain import Paint, printable, width

_COLUMNS = 96


def sheet_text(sheet: Sheet, paint: Paint) -> str:
    """The whole plan, one thing below the other."""
    parts = [
        f"{paint('strong', printable(sheet.title))}\n{_filled(sheet.lead, '')}",
        "\n".join(_filled(says, f"  {name:<8}") for name, says in sheet.facts),
        *(table_text(table, paint) for table in (sheet.readings, sheet.marks, sheet.anchors, sheet.laws)),
        _listed("Step by step", sheet.steps, paint),
        _listed("Before anything hangs", [caution.says for caution in sheet.cautions], paint),
        _filled(sheet.general, ""),
    ]
    return "\n\n".join(parts)


def table_text(table: Table, paint: Paint) -> str:
    """A table with its heading and its note."""
    rows = [tuple(_plain(cell) for cell in row) for row in (table.head, *table.rows)]
    wide = [max(width(row[n]) for row in rows) for n in range(len(table.head))]
    words = [n for n in range(len(wide)) if n == 0 or not any(cell[:1].isdigit() for cell in _column(table, n))]
    lines = ["  " + "  ".join(_cell(cell, wide[n], n in words) for n, cell in enumerate(row)).rstrip() for row in rows]
    lines[0] = paint("quiet", lines[0])
    return "\n".join([paint("strong", printable(table.caption)), *lines, _filled(table.note, "  ")])


def declined_text(declined: Declined, file: str, paint: Paint) -> str:
    """Why there is no plan."""
    head = f"{paint('place', printable(file))}: {paint('wrong', declined.code)}: {printable(declined.says)}"
    return "\n".join([head, f"  why  {printable(declined.why)}", f"  do   {printable(declined.do)}"])


def _column(table: Table, n: int) -> list[str]:
    return [row[n].lstrip("−+") for row in table.rows]


def _cell(cell: str, wide: int, words: bool) -> str:
    gap = " " * (wide - width(cell))
    return cell + gap if words else gap + cell


def _listed(title: str, items: tuple[str, ...] | list[str], paint: Paint) -> str:
    return "\n".join([paint("strong", title), *(_filled(item, f"  {n}  ") for n, item in enumerate(items, 1))])


def _filled(words: str, first: str) -> str:
    return fill(_plain(words), _COLUMNS, initial_indent=first, subsequent_indent=" " * len(first))


def _plain(words: str) -> str:
    return printable(words.replace("\u00a0", " "))
