"""The page and its figures as an offline checker of the markup sees them."""

import shutil
import subprocess
import warnings
from pathlib import Path

import pytest
from ready import ROOT, shelf

from gantline.lesson import compose
from gantline.output import html

CHECKER = ROOT / "tools" / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"


def test_markup_is_valid(folder: Path, single: Path, tmp_path: Path) -> None:
    if shutil.which("java") is None or not CHECKER.exists():
        warnings.warn(f"HTML IS NOT CHECKED: Java or {CHECKER.name} is missing", UserWarning, stacklevel=1)
        pytest.skip("needs Java and tools/node_modules (npm ci)")
    kinds = ("atwood-double", "impossible-one-rope", "formula-only", "ten-strands")
    pages = [tmp_path / f"{name}.html" for name in kinds]
    for name, page in zip(kinds, pages, strict=True):
        page.write_text(html.write(compose([shelf(name)])), encoding="utf-8")
    figures = sorted((folder / "figures").glob("*.svg"))
    found = subprocess.run(
        [
            "java", "-jar", CHECKER, "--errors-only", "--also-check-svg",
            folder / "index.html", single / "index.html", *pages, *figures,
        ],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert found.stderr.splitlines()[:20] == []
    assert found.returncode == 0


def test_every_link_and_label_points_to_something_once(folder: Path) -> None:
    from lxml import html as parser

    page = parser.fromstring((folder / "index.html").read_text(encoding="utf-8"))
    ids = [tag.get("id") for tag in page.iter() if tag.get("id")]
    assert len(ids) == len(set(ids))
    named = [link.get("href")[1:] for link in page.iter("a")]
    named += [word for tag in page.iter() for word in (tag.get("aria-labelledby") or "").split()]
    named += [label.get("for") for label in page.iter("label")]
    assert set(named) <= set(ids)


def test_every_plate_has_words(folder: Path) -> None:
    from lxml import html as parser

    page = parser.fromstring((folder / "index.html").read_text(encoding="utf-8"))
    plates = page.xpath("//*[local-name()='svg'][contains(@class,'plate')]")
    assert len(plates) > 30
    assert all(plate.xpath("string(*[local-name()='desc'])") for plate in plates)
    assert all(math.get("alttext") for math in page.iter("math"))
