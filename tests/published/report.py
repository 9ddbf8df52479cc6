"""Write docs/checked.md: every published value that is checked, with the disagreements, from the cases themselves."""

import sys
from collections import Counter
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))

from cases import BASES, load_cases, load_not_yet

REPORT = Path(__file__).parents[2] / "docs" / "checked.md"

_OPENING = """# Checked against the world

Every row below is a test: the rig is read and solved (or tried, where rope stretches), and the number is looked up in
its record. A value agrees when it lies within half a unit of its last printed digit. Where a source says something else
than the engine, both numbers stand here and the test asserts the difference, so that it stays visible. How far to trust
a source stands in its basis. The cases are `tests/published/cases/*.toml`; this page is written by
`tests/published/report.py`.
"""


def written(cases: dict[str, dict[str, Any]], later: dict[str, dict[str, str]]) -> str:
    """The page. `cases` as loaded, `later` the rows that cannot be said yet."""
    parts = [_OPENING, _summary(cases), _disagreements(cases), _agreements(cases), _later(later)]
    return "\n".join(parts)


def _summary(cases: dict[str, dict[str, Any]]) -> str:
    bases = Counter(case["basis"] for case in cases.values())
    rows = {case["row"] for case in cases.values() if "row" in case}
    values = [asked for case in cases.values() for asked in case["asked"]]
    differing = sum("own" in asked for asked in values)
    lines = [
        f"{len(cases)} cases from {len(rows)} published entries and own outlines, {len(values)} values: "
        f"{len(values) - differing} agree, {differing} disagree with their source.\n",
        "| basis | cases |\n|---|---|",
        *(f"| {basis} | {bases[basis]} |" for basis in BASES if bases[basis]),
    ]
    return "\n".join(lines) + "\n"


def _value(asked: dict[str, Any], number: str) -> str:
    return f"{number} {asked['unit']}" if asked.get("unit") else number


def _disagreements(cases: dict[str, dict[str, Any]]) -> str:
    lines = ["## Where a source disagrees\n", "| case | what | published | engine | why |\n|---|---|---|---|---|"]
    for name, case in cases.items():
        for asked in case["asked"]:
            if "own" in asked:
                numbers = f"{_value(asked, asked['published'])} | {_value(asked, asked['own'])}"
                lines.append(f"| {name}: {case['title']} | {asked['what']} | {numbers} | {asked['disagreement']} |")
    return "\n".join(lines) + "\n"


def _agreements(cases: dict[str, dict[str, Any]]) -> str:
    lines = ["## What agrees\n", "| case | values | source | basis | note |\n|---|---|---|---|---|"]
    for name, case in cases.items():
        agreed = [asked for asked in case["asked"] if "own" not in asked]
        values = "; ".join(f"{asked['what']} {_value(asked, asked['published'])}" for asked in agreed)
        if values:
            source = "; ".join(text.partition(":")[0] for text in case["source"])
            cells = (f"{name}: {case['title']}", values, source, case["basis"], case.get("note", ""))
            lines.append("| " + " | ".join(cells) + " |")
    sources = sorted({text for case in cases.values() for text in case["source"] if ": " in text})
    return "\n".join([*lines, "\n## Sources\n", *(f"- {text}" for text in sources)]) + "\n"


def _later(later: dict[str, dict[str, str]]) -> str:
    lines = ["## Not yet: values that the notation cannot say\n"]
    for why, rows in later.items():
        lines.append(f"- {why}: " + "; ".join(f"{row} {case}" for row, case in rows.items()))
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    REPORT.parent.mkdir(exist_ok=True)
    REPORT.write_text(written(load_cases(), load_not_yet()), "utf-8")
