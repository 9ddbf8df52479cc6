"""The lab report in a real browser and before a checker of markup, in every way it is looked at."""

import shutil
import subprocess
import warnings
from pathlib import Path
from typing import Any

import pytest
from axe import violations
from ready import ROOT, Open

from gantline import api
from gantline.output import lab_report

SHELF = ROOT / "src" / "gantline" / "shelf"
CHECKER = ROOT / "tools" / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"
LOOKS: dict[str, dict[str, Any]] = {
    "light": {},
    "dark": {"color_scheme": "dark"},
    "narrow": {"viewport": {"width": 320, "height": 640}},
}
UNTOLD = b"load (g),raise (N),lower (N)\n200,0.84,0.54\n400,1.42,0.90\n600,2.00,1.32\n"


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """A report with everything in it, and one of readings that leave much untold."""
    rig, _ = api.load(SHELF / "planter.rig")
    folder = tmp_path_factory.mktemp("lab")
    made = {}
    for name, table in (("whole", (SHELF / "readings.csv").read_bytes()), ("untold", UNTOLD)):
        found, problems = api.measure(rig, table)
        assert found is not None, problems
        made[name] = folder / f"{name}.html"
        made[name].write_text(lab_report.write(found.report), encoding="utf-8")
    return made


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("name", ["whole", "untold"])
def test_no_violation(pages: dict[str, Path], open_page: Open, name: str, look: str) -> None:
    page = open_page(pages[name], **LOOKS[look])
    assert not violations(page)
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


def test_the_ground_can_be_changed(pages: dict[str, Path], open_page: Open) -> None:
    page = open_page(pages["whole"])
    before = page.evaluate("getComputedStyle(document.body).backgroundColor")
    page.get_by_role("button", name="Dark page").click()
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") != before


def test_markup_is_valid(pages: dict[str, Path]) -> None:
    if shutil.which("java") is None or not CHECKER.exists():
        warnings.warn(f"HTML IS NOT CHECKED: Java or {CHECKER.name} is missing", UserWarning, stacklevel=1)
        pytest.skip("needs Java and tools/node_modules (npm ci)")
    found = subprocess.run(
        ["java", "-jar", CHECKER, "--errors-only", *pages.values()], capture_output=True, text=True, check=False
    )
    assert found.stderr.splitlines()[:20] == []
