"""A lab report as calm text, for a terminal."""

from textwrap import fill

from gantline.bench import Report, Table

from .plain import Paint, printable, width

_WIDE = 100


def report_text(report: Report, paint: Paint) -> str:
    """The results on one screen: the sentence, the numbers, the cross-check, what is not used, what to improve."""
    blocks = [f"{paint('strong', printable(report.title))}\n{_filled(report.lead)}", _table(report.results, paint)]
    blocks += [_filled(note) for note in report.notes]
    blocks.append(_filled(report.ratio))
    refused = [f"  {row[0].lower()}: {row[1]}" for row in report.refused.rows] if report.refused else []
    blocks.append("\n".join([*map(_filled, report.told), report.accounting, *map(_hung, refused)]))
    blocks.append(
        "\n".join([paint("strong", "What would improve this most"), *(_hung(f"  {one}") for one in report.improve)])
    )
    return "\n\n".join(blocks).replace("\u00a0", " ")


def _filled(words: str) -> str:
    return fill(words, _WIDE)


def _hung(words: str) -> str:
    return fill(words, _WIDE, subsequent_indent="    ")


def _table(table: Table, paint: Paint) -> str:
    rows = [table.head, *table.rows]
    wide = [max(width(row[n]) for row in rows) for n in range(len(table.head))]
    lines = ["  " + "  ".join(_cell(cell, wide[n], n) for n, cell in enumerate(row)).rstrip() for row in rows]
    return "\n".join([paint("quiet", lines[0]), *lines[1:]])


def _cell(cell: str, wide: int, n: int) -> str:
    gap = " " * (wide - width(cell))
    return printable(cell) + gap if n == 0 else gap + cell
