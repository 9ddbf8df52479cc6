"""Print by typst: a tagged PDF/UA-1 from a packaged page and data, never from markup in the data."""

import json
from functools import cache
from importlib.resources import as_file, files
from typing import Any

from gantline.figure import Scene

from . import svg


def typeset(page: str, record: dict[str, Any]) -> bytes:
    """PDF bytes from output/page/`page`; the same record gives the same bytes.

    Raises ImportError, with what to install, without typst.
    """
    try:
        import typst
    except ImportError as missing:
        raise ImportError("The printed page needs typst: pip install 'gantline[pdf]'", name=missing.name) from missing
    package, data = files("gantline"), json.dumps(record, ensure_ascii=True)
    with as_file(package.joinpath("output/page")) as pages, as_file(package.joinpath("assets")) as fonts:
        made = typst.compile(
            pages / page, None, font_paths=[fonts], ignore_system_fonts=True, sys_inputs={"data": data}, format="pdf",
            pdf_standards="ua-1", timestamp=0,
        )  # fmt: skip
    return bytes(made)


def in_type(words: str) -> str:
    """Text with a question mark for every character the packaged typeface has not got: PDF/UA allows no gap."""
    return "".join(letter if letter in _letters() else "?" for letter in words)


@cache
def _letters() -> frozenset[str]:
    widths = json.loads(files("gantline").joinpath("assets/widths.json").read_text(encoding="utf-8"))
    return frozenset.intersection(*(frozenset(face) for face in widths.values()))


def printed(scene: Scene) -> dict[str, Any]:
    """A plate for print: its SVG in grey, its text for those who do not see it, its width over its height."""
    return {
        "svg": svg.write(scene, "grey"),
        "alt": in_type(f"{scene.title}. {scene.description}"),
        "wide": scene.width / scene.height,
    }
