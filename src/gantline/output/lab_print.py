"""The lab report in print: tagged PDF/UA-1, set from data and never from markup."""

import hashlib
import json
from typing import Any

from gantline.bench import Report, Table

from .typeset import in_type, printed, typeset


def write(report: Report) -> bytes:
    """PDF bytes; the same report gives the same bytes. Raises ImportError, with what to install, without typst."""
    record = _record(report)
    mark = hashlib.sha256(json.dumps(record).encode()).hexdigest()
    return typeset("lab.typ", {**record, "mark": mark})


def _record(report: Report) -> dict[str, Any]:
    tables = {
        "results": report.results, "readings": report.readings, "pairs": report.pairs, "lines": report.lines,
        "budget": report.budget, "refused": report.refused,
    }  # fmt: skip
    return {
        **{name: _table(table) if table else None for name, table in tables.items()},
        "title": in_type(report.title),
        "figure": printed(report.scene) if report.scene else None,
        "lead": in_type(report.lead),
        "notes": _all(report.notes),
        "plots": [printed(scene) for scene in report.plots],
        "ratio": in_type(report.ratio),
        "accounting": in_type(report.accounting),
        "improve": _all(report.improve),
        "how": _all((*report.told, *report.how)),
        "cautions": _all(tuple(caution.says for caution in report.cautions)),
        "general": in_type(report.general),
    }


def _all(words: tuple[str, ...]) -> list[str]:
    return [in_type(each) for each in words]


def _table(table: Table) -> dict[str, Any]:
    return {
        "caption": in_type(table.caption),
        "head": _all(table.head),
        "rows": [_all(row) for row in table.rows],
        "note": in_type(table.note),
    }
