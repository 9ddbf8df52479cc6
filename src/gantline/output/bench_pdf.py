"""The bench plan in print: one page A4, tagged PDF/UA-1, set from data and never from markup."""

import hashlib
import json
from typing import Any

from gantline.bench import Sheet, Table

from .typeset import in_type, printed, typeset


def write(sheet: Sheet) -> bytes:
    """PDF bytes; the same sheet gives the same bytes. Raises ImportError, with what to install, without typst."""
    record = _record(sheet)
    mark = hashlib.sha256(json.dumps(record).encode()).hexdigest()
    return typeset("bench.typ", {**record, "mark": mark})


def _record(sheet: Sheet) -> dict[str, Any]:
    return {
        "title": in_type(sheet.title),
        "lead": in_type(sheet.lead),
        "figure": printed(sheet.scene) if sheet.scene else None,
        "facts": [[in_type(name), in_type(says)] for name, says in sheet.facts],
        "readings": _table(sheet.readings),
        "anchors": _table(sheet.anchors),
        "marks": _table(sheet.marks),
        "laws": _table(sheet.laws),
        "steps": [in_type(step) for step in sheet.steps],
        "cautions": [in_type(caution.says) for caution in sheet.cautions],
        "general": in_type(sheet.general),
    }


def _table(table: Table) -> dict[str, Any]:
    return {
        "caption": in_type(table.caption),
        "head": [in_type(name) for name in table.head],
        "rows": [[in_type(cell) for cell in row] for row in table.rows],
        "note": in_type(table.note),
    }
