"""A lab report as a folder: the page, the print, what a rig can use, and the readings. Whole or not at all."""

from pathlib import Path

from gantline.bench import Measured, Report
from gantline.rig import Rig

from . import files, lab_print, lab_report, measured_toml, readings_csv

PAGE, PRINT, VALUES, READINGS = "report.html", "report.pdf", "measured.toml", "readings.csv"


def build(report: Report, measured: Measured, rig: Rig, folder: Path) -> files.Built:
    """Writes the four files. Raises OSError where the folder cannot be written, ImportError without typst."""
    made = {
        PAGE: lab_report.write(report).encode(),
        PRINT: lab_print.write(report),
        VALUES: measured_toml.write(measured, rig),
        READINGS: readings_csv.write(measured),
    }
    return files.build(folder, made)
