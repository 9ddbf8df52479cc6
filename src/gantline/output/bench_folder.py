"""The bench plan as a folder: the page, the print and the record, whole or not at all."""

import json
from pathlib import Path

from gantline.bench import Plan, sheet

from . import bench_html, bench_pdf, files
from .bench_record import plan_record

PAGE, PRINT, RECORD = "plan.html", "plan.pdf", "plan.json"


def build(plan: Plan, folder: Path) -> files.Built:
    """Builds the folder. Raises OSError where it cannot be written, ImportError where the setter is missing."""
    said = sheet(plan)
    record = json.dumps(plan_record(plan), indent=1, ensure_ascii=False, allow_nan=False)
    return files.build(
        folder,
        {
            PAGE: bench_html.write(said).encode("utf-8"), PRINT: bench_pdf.write(said),
            RECORD: f"{record}\n".encode(),
        },
    )  # fmt: skip
