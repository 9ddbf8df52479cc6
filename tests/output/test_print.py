"""The printed solution: tagged, with language, title and words for every figure and formula; the same bytes again."""

from pathlib import Path
from typing import Any

import pikepdf
import pytest
from ready import shelf

from gantline.lesson import compose
from gantline.output import pdf


def structure(document: pikepdf.Pdf) -> list[pikepdf.Dictionary]:
    """Every element of the structure tree, in reading order."""
    found: list[Any] = []

    def walk(node: Any) -> None:
        if isinstance(node, pikepdf.Dictionary) and "/S" in node:
            found.append(node)
        kids = node.get("/K") if isinstance(node, pikepdf.Dictionary) else node
        for kid in kids if isinstance(kids, pikepdf.Array) else [kids] if isinstance(kids, pikepdf.Dictionary) else []:
            walk(kid)

    walk(document.Root.StructTreeRoot)
    return found


def test_tags_language_title_and_alternatives(folder: Path) -> None:
    with pikepdf.open(folder / "worked.pdf") as document:
        assert document.Root.MarkInfo.Marked
        assert document.Root.Lang == "en"
        assert document.Root.ViewerPreferences.DisplayDocTitle
        with document.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
            assert metadata["dc:title"].endswith("worked solution")
        tags = structure(document)
        kinds = [str(tag.S) for tag in tags]
        assert kinds.count("/H1") == 2
        assert kinds.count("/Figure") == 2
        assert kinds.count("/Formula") > 20
        assert "/TH" in kinds
        assert all(str(tag.get("/Alt", "")) for tag in tags if str(tag.S) in ("/Figure", "/Formula"))


def test_typefaces_are_embedded_and_figures_stay_drawn(folder: Path) -> None:
    with pikepdf.open(folder / "worked.pdf") as document:
        fonts = [
            o for o in document.objects if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/FontDescriptor"
        ]
        assert {str(font.FontName).split("+")[1][:4] for font in fonts} <= {"STIX", "Libr"}
        assert all(any(f"/FontFile{end}" in font for end in ("", "2", "3")) for font in fonts)
        assert not [o for o in document.objects if isinstance(o, pikepdf.Stream) and o.get("/Subtype") == "/Image"]


def test_same_lesson_gives_the_same_bytes() -> None:
    lesson = compose([shelf("gun-up")])
    assert pdf.write(lesson) == pdf.write(lesson)


@pytest.mark.parametrize("name", ["planter", "runner-up", "burton-heavy", "atwood-double", "luff-upon-luff"])
def test_solution_of_a_usual_rig_fits_one_page(name: str, tmp_path: Path) -> None:
    (tmp_path / "worked.pdf").write_bytes(pdf.write(compose([shelf(name)])))
    with pikepdf.open(tmp_path / "worked.pdf") as document:
        assert len(document.pages) == 1
